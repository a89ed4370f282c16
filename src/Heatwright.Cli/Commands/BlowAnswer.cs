// SPDX-License-Identifier: Apache-2.0
using System.Text.Json;
using Heatwright.Chemistry;
using Heatwright.Cli.Output;
using Heatwright.Converter.Blow;
using Heatwright.Converter.Charge;
using Heatwright.Converter.Gas;
using Heatwright.Reports.Heats;
using Heatwright.Shop;
using BlowPoint = Heatwright.Converter.Blow.BlowPoint;

namespace Heatwright.Cli.Commands;

/// <summary>Course, end, balances and cautions of a blow, as tables, JSON and CSV.</summary>
internal static class BlowAnswer
{
    private sealed record Course(string Title, string Unit, string Key, Func<BlowPoint, double> Value, int Decimals, bool InTable = true);

    /// <summary>Behind the cooled hood, dry: with air at the skirt, which the practice holds down or opens.</summary>
    private sealed record AfterAir(string Key, Func<HoodGas, double> Value);

    private static readonly Course[] Courses =
    [
        new("O2", "%", "oxygenPercentOfPlan", p => p.OxygenPercent, 0),
        new("T", "°C", "temperatureC", p => p.TemperatureC, 0),
        new("C", "%", "carbonPercent", p => p.C, 3),
        new("Si", "%", "siliconPercent", p => p.Si, 3),
        new("Mn", "%", "manganesePercent", p => p.Mn, 3),
        new("P", "%", "phosphorusPercent", p => p.P, 4),
        new("S", "%", "sulphurPercent", p => p.S, 4, InTable: false),
        new("slag", "t", "slagT", p => p.SlagKg / 1000, 1),
        new("FeO", "%", "slagFeOPercent", p => p.FeO, 1),
        new("CaO/", "SiO2", "slagBasicity", p => p.Basicity, 2),
        new("MgO", "%", "slagMgOPercent", p => p.MgO, 1),
        new("SiO2", "%", "slagSiO2Percent", p => p.SiO2, 1, InTable: false),
        new("CaO", "%", "slagCaOPercent", p => p.CaO, 1, InTable: false),
        new("MnO", "%", "slagMnOPercent", p => p.MnO, 1, InTable: false),
        new("P2O5", "%", "slagP2O5Percent", p => p.P2O5, 1, InTable: false),
        new("scrap", "t", "unmeltedScrapT", p => (p.ScrapKg.Sum() + p.ShellKg) / 1000, 1),
        new("lime", "t", "undissolvedFluxT", p => p.UndissolvedFluxKg / 1000, 1, InTable: false),
        new("dC/dt", "kg/s", "carbonRateKgPerS", p => p.CarbonKgPerS, 2),
        new("CO", "vol %", "gasCOVolumePercent", p => p.GasCO, 0),
        new("CO2", "vol %", "gasCO2VolumePercent", p => p.GasCO2, 0),
        new("gas", "Nm3/s", "gasNm3PerS", p => p.GasNm3PerS, 1, InTable: false),
        new("lance", "m", "lanceOverBathM", p => p.LanceOverBathM, 2, InTable: false),
        new("foam", "m", "foamM", p => p.FoamM, 1),
        new("free", "m", "freeboardM", p => p.FreeboardM, 1),
        new("metal", "t", "metalT", p => p.MetalKg / 1000, 1, InTable: false),
    ];

    private static readonly AfterAir[] AfterAirs =
    [
        new("afterAirCODryVolumePercent", g => g.DryPercent(GasSpecies.CO)),
        new("afterAirCO2DryVolumePercent", g => g.DryPercent(GasSpecies.CO2)),
        new("afterAirO2DryVolumePercent", g => g.DryPercent(GasSpecies.O2)),
        new("afterAirN2DryVolumePercent", g => g.DryPercent(GasSpecies.N2)),
        new("afterAirGasDryNm3PerS", g => g.DryNm3PerS),
        new("afterAirTemperatureC", g => g.TemperatureK - 273.15),
    ];

    public static Answer Of(AnswerContext context, BlowRun run)
    {
        var sheet = new Sheet();
        context.Head(sheet);
        Trajectory(sheet, run);
        End(sheet, context.Heat.Order, run);
        Hood(sheet, run);
        Balances(sheet, run.Single.Balance);
        CautionsOf(sheet, run.Cautions);
        return new Answer(
            ExitCode.Done,
            sheet,
            json =>
            {
                context.Json(json, "heatwright.blow/1");
                EndJson(json, context.Heat.Order, run);
                Json(json, run);
            },
            new CsvTable(
                ["timeS", .. Courses.Select(c => c.Key), .. AfterAirs.Select(a => a.Key)],
                [.. run.Rows.Select(p => (IReadOnlyList<object>)[p.TimeS, .. Courses.Select(c => (object)c.Value(p)), .. AfterAirRow(run, p).Select(v => (object)v)])]));
    }

    /// <summary>The end with its bands, beside what the order says.</summary>
    public static void End(Sheet sheet, Order order, BlowRun run)
    {
        double stirS = run.Input.Programme.AfterStirS;
        sheet.Heading(stirS > 0 ? $"End of blow, after {Numbers.Fixed(stirS, 0)} s of after-stir" : "End of blow");
        BlowPoint end = run.Single.End;
        sheet.Table(
            [new("", "", false), new("", "", false), new("as written"), new("80 % band"), new("order"), new("inside")],
            [.. EndQuantity.All.Select(q =>
            {
                Band band = run.Band(q.Value);
                Limits? limits = q.Limits(order);
                return (IReadOnlyList<string>)
                [
                    q.Title,
                    q.Unit,
                    Numbers.Fixed(q.Value(end), q.Decimals),
                    $"{Numbers.Fixed(band.Low, q.Decimals)} to {Numbers.Fixed(band.High, q.Decimals)}",
                    Numbers.Range(limits, q.Decimals),
                    limits is null ? "" : Numbers.Percent(Inside(run.Outlook, q)),
                ];
            })]);
        sheet.Words("");
        sheet.Words($"P(T and C in window) {run.Outlook.Window:F2}; P(all limits of the order) {run.Outlook.All:F2}.");
    }

    public static void CautionsOf(Sheet sheet, IReadOnlyList<Caution> cautions)
    {
        sheet.Words("");
        foreach (Caution caution in cautions)
        {
            sheet.Caution(caution.Text, caution.Kind == CautionKind.Range ? "Range" : "Caution");
        }

        sheet.Words(Cautions.Standing);
    }

    public static void EndJson(Utf8JsonWriter json, Order order, BlowRun run)
    {
        json.Object("end", () =>
        {
            foreach (EndQuantity q in EndQuantity.All)
            {
                json.Object(q.Key, () =>
                {
                    Band band = run.Band(q.Value);
                    json.Value("asWritten", q.Value(run.Single.End)).Value("p10", band.Low).Value("p50", band.Middle).Value("p90", band.High);
                    if (q.Limits(order) is { } limits)
                    {
                        json.Value("least", limits.Least ?? double.NaN).Value("most", limits.Most ?? double.NaN).Value("probabilityInside", Inside(run.Outlook, q));
                    }
                });
            }
        });
        json.Object("probability", () => json.Value("temperatureAndCarbon", run.Outlook.Window).Value("allLimits", run.Outlook.All));
    }

    private static double Inside(Outlook outlook, EndQuantity q) => q switch
    {
        { Element: null } => outlook.Temperature,
        { Element: Element.C } => outlook.Carbon,
        { Element: { } element } => outlook.Elements.GetValueOrDefault(element),
    };

    private static void Trajectory(Sheet sheet, BlowRun run)
    {
        double ignition = run.Rows[0].TimeS;
        Course[] shown = [.. Courses.Where(c => c.InTable)];
        sheet.Heading("Course of the blow (analyses in mass %, gas at the mouth)");
        sheet.Table(
            [new("O2", "%"), new("time", "min"), .. shown.Skip(1).Select(c => new Column(c.Title, c.Unit))],
            [.. run.Rows.Select(p => (IReadOnlyList<string>)
                [
                    Numbers.Fixed(p.OxygenPercent, 0),
                    Numbers.Minutes(p.TimeS - ignition),
                    .. shown.Skip(1).Select(c => Numbers.Fixed(c.Value(p), c.Decimals)),
                ])]);
    }

    private static double[] AfterAirRow(BlowRun run, BlowPoint point)
    {
        HoodGas gas = HoodCourse.At(run.Input, point);
        return [.. AfterAirs.Select(a => a.Value(gas))];
    }

    private static void Hood(Sheet sheet, BlowRun run)
    {
        BlowPoint mid = run.Single.Trajectory.First(p => p.OxygenPercent >= 50);
        HoodGas gas = HoodCourse.At(run.Input, mid);
        string skirt = HoodCourse.IsSkirtDown(run.Input, mid.OxygenPercent) ? "down" : "open";
        sheet.Words(
            $"Gas after air at the skirt ({skirt}) at half the oxygen, dry: CO {gas.DryPercent(GasSpecies.CO):F0}, CO2 {gas.DryPercent(GasSpecies.CO2):F0}, N2 {gas.DryPercent(GasSpecies.N2):F0} vol %; {gas.DryNm3PerS:F0} Nm3/s at {gas.TemperatureK - 273.15:F0} °C behind the hood.");
    }

    private static void Balances(Sheet sheet, HeatBalance balance)
    {
        ElementRow worst = balance.Elements.MaxBy(e => Math.Abs(e.Residual))!;
        sheet.Words(
            $"Balances, (in − out)/in: worst element {(Residual(worst.Residual) == 0 ? "" : worst.Element + " ")}{Scientific(worst.Residual)}; energy {Scientific(balance.EnergyResidual)} of the sum of its terms.");
    }

    private static string Scientific(double value) => Residual(value) == 0 ? "below 1e-12" : Math.Abs(value).ToString("0.0e+0", System.Globalization.CultureInfo.InvariantCulture);

    private static void Json(Utf8JsonWriter json, BlowRun run)
    {
        json.Array("trajectory", run.Rows, p =>
        {
            json.Value("timeS", p.TimeS);
            foreach (Course c in Courses)
            {
                json.Value(c.Key, c.Value(p));
            }

            foreach ((AfterAir a, double value) in AfterAirs.Zip(AfterAirRow(run, p)))
            {
                json.Value(a.Key, value);
            }
        });
        HeatBalance balance = run.Single.Balance;
        json.Object("balances", () => json.Value("worstElementResidual", Residual(balance.WorstElementResidual)).Value("energyResidual", Residual(balance.EnergyResidual)));
        CautionsJson(json, run.Cautions);
    }

    public static void CautionsJson(Utf8JsonWriter json, IReadOnlyList<Caution> cautions) =>
        json.Array("cautions", cautions, c => json.Value("kind", c.Kind == CautionKind.Range ? "range" : "heat").Value("text", c.Text));

    // Rounding noise differs between processors; below 1e-12 it says only "closed".
    private static double Residual(double value) => Math.Abs(value) < 1e-12 ? 0 : value;
}
