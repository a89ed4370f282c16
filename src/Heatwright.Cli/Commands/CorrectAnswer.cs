// SPDX-License-Identifier: Apache-2.0
using System.Text.Json;
using Heatwright.Cli.Output;
using Heatwright.Converter.Blow;
using Heatwright.Converter.Charge;
using Heatwright.Reports.Heats;

namespace Heatwright.Cli.Commands;

/// <summary>The correction as one sentence, a table of options, JSON and CSV.</summary>
internal static class CorrectAnswer
{
    /// <summary>Below this share inside the window no option counts as reaching it.</summary>
    private const double Hopeless = 0.05;

    /// <summary>Standard deviations beyond which a reading is not followed. Common practice, no source.</summary>
    private const double Absurd = 6;

    public static Answer Of(AnswerContext context, CorrectionRequest request, CorrectionAdvice advice)
    {
        InBlowMeasurement m = request.Measurement;
        Surprise s = advice.Surprise;
        var sheet = new Sheet();
        context.Head(sheet);
        sheet.Heading($"Measured at {Numbers.Fixed(m.OxygenPercent, 1)} % oxygen");
        var rows = new List<IReadOnlyList<string>>
        {
            (IReadOnlyList<string>)["Temperature", "°C", Numbers.Fixed(m.TemperatureK - 273.15, 0), $"±{Numbers.Fixed(m.TemperatureErrorK, 0)}", Numbers.Fixed(s.ExpectedTemperatureK - 273.15, 0), $"±{Numbers.Fixed(s.TemperatureDeviationK, 0)}"],
        };
        if (m.CarbonPercent is { } carbon)
        {
            rows.Add(["Carbon", "mass %", Numbers.Fixed(carbon, 3), $"±{Numbers.Fixed(m.CarbonErrorPercent, 3)}", Numbers.Fixed(s.ExpectedCarbonPercent, 3), $"±{Numbers.Fixed(s.CarbonDeviationPercent, 3)}"]);
        }

        sheet.Table([new("", "", false), new("", "", false), new("measured"), new("error"), new("expected"), new("spread")], rows);
        sheet.Words("");
        sheet.Words($"{Numbers.Percent(s.Share)} of readings from this charge would lie nearer to the expected one; {Numbers.Fixed(advice.EffectiveMembers, 0)} of {Numbers.Fixed(context.Members, 0)} members carry the odds.");
        double far = Far(m, s);
        bool absurd = far > Absurd;
        IReadOnlyList<CorrectionOption> options = absurd ? [] : advice.Options;
        if (absurd)
        {
            sheet.Heading($"No advice: the reading lies {Numbers.Fixed(far, 0)} standard deviations from what this charge can give");
            sheet.Words("Measure again. If the second reading agrees, the heat file does not say what is in the vessel: mend its masses, analysis, temperature or oxygen and ask again.");
        }
        else
        {
            Options(sheet, request, advice);
        }

        sheet.Words("");
        foreach (string warning in advice.Warnings.Take(absurd ? 1 : int.MaxValue))
        {
            sheet.Caution(warning);
        }

        foreach (BlowCaution flag in BlowCautions.Of(request.Heat, BlowModel.Run(request.Heat, new BlowOptions(RecordEveryS: 20))).Where(c => c.Kind == CautionKind.Range))
        {
            sheet.Caution(flag.Text, "Range");
        }

        sheet.Words(Cautions.Standing);
        return new Answer(
            absurd || advice.Best.InWindow < Hopeless ? ExitCode.Outside : ExitCode.Done,
            sheet,
            json =>
            {
                context.Json(json, "heatwright.correct/1");
                Json(json, request, advice, options);
            },
            new CsvTable(
                ["coolant", "coolantKg", "oxygenToBlowNm3", "endOxygenPercentOfPlan", "temperatureC", "temperatureDeviationK", "carbonPercent", "carbonDeviationPercent", "probabilityTemperature", "probabilityCarbon", "probabilityWindow"],
                [.. options.Select(o => (IReadOnlyList<object>)
                    [
                        o.Coolant ?? "", o.CoolantKg, o.OxygenToBlowNm3, o.EndOxygenPercent, o.TemperatureK - 273.15, o.TemperatureDeviationK, o.CarbonPercent, o.CarbonDeviationPercent,
                        o.TemperatureInWindow, o.CarbonInWindow, o.InWindow,
                    ])]));
    }

    /// <summary>The farther of temperature and carbon from what was expected, in standard deviations.</summary>
    private static double Far(InBlowMeasurement m, Surprise s)
    {
        double temperature = Math.Abs(m.TemperatureK - s.ExpectedTemperatureK) / s.TemperatureDeviationK;
        return m.CarbonPercent is { } c ? Math.Max(temperature, Math.Abs(c - s.ExpectedCarbonPercent) / s.CarbonDeviationPercent) : temperature;
    }

    private static void Options(Sheet sheet, CorrectionRequest request, CorrectionAdvice advice)
    {
        sheet.Heading((advice.Surprise.Outside ? "If the doubtful reading is right: " : "") + Sentence(request, advice.Best));
        sheet.Table(
            [new("option", "", false), new("oxygen", "Nm³"), new("stop at", "%"), new("T", "°C"), new("±", "K"), new("C", "%"), new("±", "%"), new("P", "T"), new("P", "C"), new("P", "T and C"), new("P", "phos.")],
            [.. advice.Options.Select(o => (IReadOnlyList<string>)
                [
                    Name(o),
                    Numbers.Fixed(o.OxygenToBlowNm3, 0),
                    Numbers.Fixed(o.EndOxygenPercent, 1),
                    Numbers.Fixed(o.TemperatureK - 273.15, 0),
                    Numbers.Fixed(o.TemperatureDeviationK, 0),
                    Numbers.Fixed(o.CarbonPercent, 3),
                    Numbers.Fixed(o.CarbonDeviationPercent, 3),
                    Odds(o.TemperatureInWindow),
                    Odds(o.CarbonInWindow),
                    Odds(o.InWindow),
                    Odds(o.PhosphorusInWindow),
                ])]);
    }

    private static string Sentence(CorrectionRequest request, CorrectionOption best)
    {
        string coolant = best.Coolant is null || best.CoolantKg < 1 ? "no coolant" : $"{Numbers.Fixed(best.CoolantKg, 0)} kg {best.Coolant}";
        return $"Blow {Numbers.Fixed(best.OxygenToBlowNm3, 0)} Nm³ more (stop at {Numbers.Fixed(best.EndOxygenPercent, 1)} % of {Numbers.Fixed(request.Heat.Programme.OxygenNm3, 0)} Nm³), {coolant}: P(in window) {best.InWindow:F2}";
    }

    private static string Name(CorrectionOption o) =>
        o.Coolant is null || o.CoolantKg < 1 ? (Math.Abs(o.EndOxygenPercent - 100) < 1e-9 ? "to plan, no coolant" : "no coolant") : $"{Numbers.Fixed(o.CoolantKg, 0)} kg {o.Coolant}";

    private static string Odds(double value) => double.IsNaN(value) ? "" : value.ToString("F2");

    private static void Json(Utf8JsonWriter json, CorrectionRequest request, CorrectionAdvice advice, IReadOnlyList<CorrectionOption> options)
    {
        InBlowMeasurement m = request.Measurement;
        Surprise s = advice.Surprise;
        json.Object("measured", () => json.Value("oxygenPercentOfPlan", m.OxygenPercent).Value("temperatureC", m.TemperatureK - 273.15).Value("temperatureErrorK", m.TemperatureErrorK)
            .Value("carbonPercent", m.CarbonPercent ?? double.NaN).Value("carbonErrorPercent", m.CarbonErrorPercent));
        json.Object("expected", () =>
        {
            json.Value("temperatureC", s.ExpectedTemperatureK - 273.15).Value("temperatureDeviationK", s.TemperatureDeviationK)
                .Value("carbonPercent", s.ExpectedCarbonPercent).Value("carbonDeviationPercent", s.CarbonDeviationPercent).Value("share", s.Share);
            json.WriteBoolean("outside", s.Outside);
        });
        json.Value("effectiveMembers", advice.EffectiveMembers).Value("tempered", advice.Tempered);
        json.Array("options", options, o => json.Value("coolant", o.Coolant).Value("coolantKg", o.CoolantKg).Value("oxygenToBlowNm3", o.OxygenToBlowNm3)
            .Value("endOxygenPercentOfPlan", o.EndOxygenPercent).Value("temperatureC", o.TemperatureK - 273.15).Value("temperatureDeviationK", o.TemperatureDeviationK)
            .Value("carbonPercent", o.CarbonPercent).Value("carbonDeviationPercent", o.CarbonDeviationPercent).Value("slagFeOPercent", o.SlagFeOPercent).Value("metalKg", o.MetalKg)
            .Value("probabilityTemperature", o.TemperatureInWindow).Value("probabilityCarbon", o.CarbonInWindow).Value("probabilityWindow", o.InWindow).Value("probabilityPhosphorus", o.PhosphorusInWindow));
        json.WriteStartArray("warnings");
        foreach (string warning in advice.Warnings)
        {
            json.WriteStringValue(warning);
        }

        json.WriteEndArray();
    }
}
