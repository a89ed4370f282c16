// SPDX-License-Identifier: Apache-2.0
using System.Text.Json;
using Heatwright.Cli.Output;
using Heatwright.Converter.Charge;
using Heatwright.Reports.Heats;

namespace Heatwright.Cli.Commands;

/// <summary>Accounts, sensitivities and single quantities, as tables, JSON and CSV.</summary>
internal static class ExplainAnswer
{
    // Quantities of the end that answer to a word of the explanations.
    private static readonly Dictionary<string, string> EndKeys = new(StringComparer.Ordinal)
    {
        ["temperature"] = "temperatureC",
        ["carbon"] = "carbonPercent",
        ["phosphorus"] = "phosphorusPercent",
        ["manganese"] = "manganesePercent",
        ["sulphur"] = "sulphurPercent",
        ["oxygen"] = "oxygenPpm",
        ["feo"] = "slagFeOPercent",
        ["basicity"] = "slagBasicity",
        ["magnesia"] = "slagMgOPercent",
        ["scrap"] = "unmeltedScrapT",
    };

    public static Answer Account(AnswerContext context, BlowRun run)
    {
        HeatAccount account = HeatAccount.Of(run.Input, run.Single);
        IReadOnlyList<Sensitivity> sensitivities = PlanSensitivities.Of(run.Input);
        var sheet = new Sheet();
        context.Head(sheet);
        HeatTable(sheet, account);
        double oxygen = account.Oxygen.Sum(o => o.Nm3);
        sheet.Heading("Where the oxygen went");
        sheet.Table(
            [new("", "", false), new("oxygen", "Nm³"), new("share", "%")],
            [.. account.Oxygen.Select(o => (IReadOnlyList<string>)[o.Name, Numbers.Fixed(o.Nm3, 0), Numbers.Fixed(100 * o.Nm3 / oxygen, 1)])]);
        double iron = account.Iron.Where(i => i.Kg > 0).Sum(i => i.Kg);
        sheet.Heading("Where the iron came from and went");
        sheet.Table(
            [new("", "", false), new("iron", "t"), new("share", "%")],
            [.. account.Iron.Select(i => (IReadOnlyList<string>)[i.Name, Numbers.Fixed(i.Kg / 1000, 2), Numbers.Fixed(100 * i.Kg / iron, 1)])]);
        SensitivityTable(sheet, sensitivities);
        sheet.Words(Cautions.Standing);
        return new Answer(
            ExitCode.Done,
            sheet,
            json =>
            {
                context.Json(json, "heatwright.explain/1");
                Json(json, account, sensitivities);
            },
            new CsvTable(
                ["account", "name", "heatMJ", "temperatureK", "oxygenNm3", "ironKg"],
                [
                    .. account.Terms.Select(t => (IReadOnlyList<object>)["heat", t.Name, t.MJ, t.Kelvin, "", ""]),
                    .. account.Oxygen.Select(o => (IReadOnlyList<object>)["oxygen", o.Name, "", "", o.Nm3, ""]),
                    .. account.Iron.Select(i => (IReadOnlyList<object>)["iron", i.Name, "", "", "", i.Kg]),
                ]));
    }

    public static Answer Quantity(AnswerContext context, BlowRun run, Explanation asked)
    {
        var sheet = new Sheet();
        context.Head(sheet);
        EndQuantity? end = EndKeys.TryGetValue(asked.Key, out string? key) ? Array.Find(EndQuantity.All, q => q.Key == key) : null;
        Band? band = end is null ? null : run.Band(end.Value);
        sheet.Heading(asked.Title);
        if (end is not null)
        {
            sheet.Words($"End of blow: {Numbers.Fixed(end.Value(run.Single.End), end.Decimals)} {end.Unit}; 80 % band {Numbers.Fixed(band!.Low, end.Decimals)} to {Numbers.Fixed(band.High, end.Decimals)}.");
        }

        sheet.Words(asked.How).Words("").Words("Formula: " + asked.Formula).Words("Source:  " + asked.Source);
        HeatAccount? account = asked.Key == "temperature" ? HeatAccount.Of(run.Input, run.Single) : null;
        if (account is not null)
        {
            HeatTable(sheet, account);
        }

        IReadOnlyList<Sensitivity> sensitivities = PlanSensitivities.Of(run.Input);
        SensitivityTable(sheet, sensitivities);
        return new Answer(
            ExitCode.Done,
            sheet,
            json =>
            {
                context.Json(json, "heatwright.explain/1");
                json.Object("quantity", () =>
                {
                    json.Value("key", asked.Key).Value("title", asked.Title).Value("unit", end?.Unit);
                    json.Value("asWritten", end?.Value(run.Single.End) ?? double.NaN).Value("p10", band?.Low ?? double.NaN).Value("p50", band?.Middle ?? double.NaN).Value("p90", band?.High ?? double.NaN);
                    json.Value("how", asked.How).Value("formula", asked.Formula).Value("source", asked.Source);
                });
                Json(json, account, sensitivities);
            },
            new CsvTable(["quantity", "unit", "asWritten", "p10", "p90"],
                end is null ? [] : [[asked.Key, end.Unit, end.Value(run.Single.End), band!.Low, band.High]]));
    }

    private static void HeatTable(Sheet sheet, HeatAccount account)
    {
        sheet.Heading("Where the temperature comes from");
        double running = account.ZeroK - 273.15;
        var rows = new List<IReadOnlyList<string>> { (IReadOnlyList<string>)["hot metal as poured", "", "", Numbers.Fixed(running, 0)] };
        foreach (HeatTerm term in account.Terms)
        {
            running += term.Kelvin;
            rows.Add([Ladders.Name(term), Signed(term.MJ, 0), Signed(term.Kelvin, 1), Numbers.Fixed(running, 0)]);
        }

        rows.Add(["end of blow", "", Signed(account.EndK - account.ZeroK, 1), Numbers.Fixed(account.EndK - 273.15, 0)]);
        sheet.Table([new("", "", false), new("heat", "MJ"), new("change", "K"), new("sum", "°C")], rows);
        sheet.Words("");
        sheet.Words($"Metal and slag at the end take {Numbers.Fixed(account.BathMJPerK, 1)} MJ for each kelvin.");
    }

    private static void SensitivityTable(Sheet sheet, IReadOnlyList<Sensitivity> sensitivities)
    {
        sheet.Heading("What a change does, everything else as written");
        sheet.Table(
            [new("", "", false), new("T", "K"), new("C", "%"), new("P", "%"), new("Mn", "%"), new("FeO", "%"), new("metal", "t")],
            [.. sensitivities.Select(s => (IReadOnlyList<string>)
                [
                    s.Change.Replace("Nm3", "Nm³", StringComparison.Ordinal), Signed(s.TemperatureK, 2), Signed(s.CarbonPercent, 4), Signed(s.PhosphorusPercent, 5), Signed(s.ManganesePercent, 4),
                    Signed(s.SlagFeOPercent, 2), Signed(s.MetalKg / 1000, 2),
                ])]);
        sheet.Words("");
    }

    private static string Signed(double value, int decimals)
    {
        string text = Numbers.Fixed(value, decimals);
        return value > 0 && text.AsSpan().IndexOfAnyInRange('1', '9') >= 0 ? "+" + text : text;
    }

    private static void Json(Utf8JsonWriter json, HeatAccount? account, IReadOnlyList<Sensitivity> sensitivities)
    {
        if (account is not null)
        {
            json.Object("heatAccount", () =>
            {
                json.Value("hotMetalTemperatureC", account.ZeroK - 273.15).Value("endTemperatureC", account.EndK - 273.15).Value("bathMJPerK", account.BathMJPerK);
                json.Array("terms", account.Terms, t => json.Value("kind", t.Kind.ToString()).Value("name", t.Name).Value("heatMJ", t.MJ).Value("temperatureK", t.Kelvin));
            });
            json.Array("oxygenAccount", account.Oxygen, o => json.Value("name", o.Name).Value("oxygenNm3", o.Nm3));
            json.Array("ironAccount", account.Iron, i => json.Value("name", i.Name).Value("ironKg", i.Kg));
        }

        json.Array("sensitivities", sensitivities, s => json.Value("change", s.Change).Value("amount", s.Amount).Value("unit", s.Unit)
            .Value("temperatureK", s.TemperatureK).Value("carbonPercent", s.CarbonPercent).Value("phosphorusPercent", s.PhosphorusPercent)
            .Value("manganesePercent", s.ManganesePercent).Value("slagFeOPercent", s.SlagFeOPercent).Value("metalKg", s.MetalKg));
    }
}
