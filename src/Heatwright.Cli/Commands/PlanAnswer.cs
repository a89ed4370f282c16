// SPDX-License-Identifier: Apache-2.0
using System.Text.Json;
using Heatwright.Cli.Output;
using Heatwright.Converter.Blow;
using Heatwright.Converter.Charge;
using Heatwright.Reports.Heats;

namespace Heatwright.Cli.Commands;

/// <summary>A plan, or why there is none, as tables, JSON and CSV.</summary>
internal static class PlanAnswer
{
    private sealed record Amount(PlanMaterial Material, double Value, bool IsGas);

    public static Answer Of(AnswerContext context, PlanRequest request, PlanFound plan)
    {
        double tonnes = context.Heat.Order.TappedMassKg / 1000;
        Amount[] amounts = Amounts(request, plan.Decision);

        // The planner keeps no course; cautions are about the course.
        IReadOnlyList<Caution> cautions = Cautions.Of(plan.Heat, BlowModel.Run(plan.Heat, new BlowOptions(RecordEveryS: 4)));
        var sheet = new Sheet();
        context.Head(sheet);
        sheet.Heading($"Charge and blow ({Objective(request.Objective)})");
        AmountTable(sheet, amounts, tonnes);
        sheet.Words("");
        sheet.Words(
            $"Cost {Numbers.Fixed(plan.Costs.CostEur / tonnes, 1)} EUR/t; CO2 {Numbers.Fixed(plan.Costs.Co2Kg / tonnes, 0)} kg/t, of it {Numbers.Fixed(plan.Costs.VesselCo2Kg / tonnes, 0)} kg/t out of the vessel; scrap {Numbers.Fixed(plan.Costs.ScrapKg / 1000, 1)} t.");
        sheet.Heading("What to expect");
        RowTable(sheet, plan.Rows, plan.Chances);
        if (plan.Chances is { } chances)
        {
            sheet.Words("");
            sheet.Words(Joint(chances));
            if (LeansHot(plan.Rows))
            {
                sheet.Words("The plan aims at the hot side of the window: after the measurement coolant can still be given, heat cannot.");
            }
        }

        sheet.Words($"Worked out with {plan.Work.Iterations} linear programs and {Numbers.Fixed(plan.Work.Blows, 0)} blows of the model.");
        BlowAnswer.CautionsOf(sheet, cautions);
        return new Answer(
            ExitCode.Done,
            sheet,
            json =>
            {
                context.Json(json, "heatwright.plan/1");
                json.WriteBoolean("feasible", true);
                Charge(json, "charge", amounts);
                json.Object("costs", () => json.Value("costEur", plan.Costs.CostEur).Value("co2Kg", plan.Costs.Co2Kg).Value("vesselCo2Kg", plan.Costs.VesselCo2Kg).Value("scrapKg", plan.Costs.ScrapKg));
                Rows(json, plan.Rows, plan.Chances);
                BlowAnswer.CautionsJson(json, cautions);
            },
            Csv(amounts));
    }

    public static Answer Of(AnswerContext context, PlanRequest request, PlanInfeasible no)
    {
        Amount[] amounts = Amounts(request, no.NearestMiss);
        var sheet = new Sheet();
        context.Head(sheet);
        sheet.Heading("There is no plan that keeps every limit, because");
        foreach (PlanConflict conflict in no.Because)
        {
            sheet.Item(conflict.Text);
        }

        sheet.Heading("What would free it, each by itself");
        foreach (PlanRelief relief in no.Reliefs)
        {
            sheet.Item(relief.Text);
        }

        if (no.Reliefs.Count == 0)
        {
            sheet.Words("  No single change that was tried is enough; two limits or more must give.");
        }

        sheet.Heading("Nearest miss (for the explanation, not for use)");
        AmountTable(sheet, amounts, context.Heat.Order.TappedMassKg / 1000);
        sheet.Words("");
        RowTable(sheet, no.Rows, no.Chances);
        if (no.Chances is { } chances)
        {
            sheet.Words("");
            sheet.Words(Joint(chances));
        }

        sheet.Words(Cautions.Standing);
        return new Answer(
            ExitCode.Outside,
            sheet,
            json =>
            {
                context.Json(json, "heatwright.plan/1");
                json.WriteBoolean("feasible", false);
                json.Array("because", no.Because, c => json.Value("what", c.What).Value("violation", c.Violation).Value("unit", c.Unit).Value("text", c.Text));
                json.Array("reliefs", no.Reliefs, r => json.Value("what", r.What).Value("amount", r.Amount).Value("unit", r.Unit).Value("text", r.Text));
                Charge(json, "nearestMiss", amounts);
                Rows(json, no.Rows, no.Chances);
            },
            Csv(amounts));
    }

    private static string Objective(PlanObjective objective) => objective switch
    {
        PlanObjective.Co2 => "least CO2",
        PlanObjective.MostScrap => "most scrap",
        _ => "least cost",
    };

    private static string Joint(PlanChances c) =>
        $"P(all windows) {c.JointWithout:F2}"
        + (double.IsNaN(c.JointWith) ? "" : $" without the in-blow measurement (alone), {c.JointWith:F2} after it and its correction (measured)")
        + $"; asked: {c.Asked:F2} for each window. {Numbers.Fixed(c.Members, 0)} members.";

    // The range aimed at reaches past the order's upper limit.
    private static bool LeansHot(IReadOnlyList<PlanRow> rows) =>
        rows.Any(r => r.Limit.Quantity == PlanQuantity.EndTemperature && r.Limit.Most is { } most && r.NominalMost > most + 0.5);

    private static Amount[] Amounts(PlanRequest request, PlanDecision d) =>
    [
        new(request.HotMetal, d.HotMetalKg, false),
        .. request.Scrap.Zip(d.ScrapKg).Select(s => new Amount(s.First, s.Second, false)),
        .. request.Additions.Zip(d.AdditionsKg).Select(s => new Amount(s.First, s.Second, false)),
        new(request.Oxygen, d.OxygenNm3, true),
    ];

    private static void AmountTable(Sheet sheet, Amount[] amounts, double tonnes)
    {
        sheet.Table(
            [new("material", "", false), new("amount"), new("", "", false), new("per tonne"), new("", "", false), new("at most"), new("cost", "EUR"), new("CO2", "t")],
            [.. amounts.Where(a => a.Material.Most > 0).Select(a => (IReadOnlyList<string>)
                [
                    a.Material.Name,
                    a.IsGas ? Numbers.Fixed(a.Value, 0) : Numbers.Fixed(a.Value / 1000, 2),
                    a.IsGas ? "Nm³" : "t",
                    Numbers.Fixed(a.Value / tonnes, 1),
                    a.IsGas ? "Nm³/t" : "kg/t",
                    a.IsGas ? Numbers.Fixed(a.Material.Most, 0) : Numbers.Fixed(a.Material.Most / 1000, 1),
                    Numbers.Fixed(a.Value * a.Material.Price, 0),
                    Numbers.Fixed(a.Value * a.Material.Co2 / 1000, 2),
                ])]);
    }

    private static void RowTable(Sheet sheet, IReadOnlyList<PlanRow> rows, PlanChances? chances)
    {
        bool measured = chances is not null && !double.IsNaN(chances.JointWith);
        Column[] odds = chances is null ? [] : measured ? [new("sd"), new("P", "alone"), new("P", "measured")] : [new("sd"), new("P")];
        sheet.Table(
            [new("", "", false), new("", "", false), new("expected"), new("limits"), new("aimed at", "for the odds"), .. odds],
            [.. rows.Select(r =>
            {
                (double scale, double offset, int decimals, string unit) = Shown(r.Limit.Quantity);
                string Of(double? v) => v is { } value && double.IsFinite(value) ? Numbers.Fixed((value * scale) + offset, decimals) : "";
                string mark = Math.Abs(r.Violation * scale) < 0.5 * Math.Pow(10, -decimals) ? "" : " !";
                PlanChance? chance = chances?.Windows.FirstOrDefault(c => c.Quantity == r.Limit.Quantity);
                string[] odd = odds.Length == 0 ? [] : chance is null
                    ? [.. odds.Select(_ => "")]
                    : [Numbers.Fixed(chance.StandardDeviation * scale, Math.Max(decimals, 1)), chance.Without.ToString("F2"), .. measured ? [chance.With.ToString("F2")] : Array.Empty<string>()];
                return (IReadOnlyList<string>)
                [
                    PlanQuantities.Name(r.Limit.Quantity),
                    unit,
                    Of(r.Value) + mark,
                    Between(Of(r.Limit.Least), Of(r.Limit.Most)),
                    Between(Of(r.NominalLeast), Of(r.NominalMost)),
                    .. odd,
                ];
            })]);
    }

    private static string Between(string least, string most) => (least, most) switch
    {
        ("", "") => "",
        ("", _) => "max " + most,
        (_, "") => "min " + least,
        _ => least == most ? least : $"{least} to {most}",
    };

    private static (double Scale, double Offset, int Decimals, string Unit) Shown(PlanQuantity q) => q switch
    {
        PlanQuantity.TappedMass or PlanQuantity.UnmeltedScrapEnd or PlanQuantity.UnmeltedScrapLate => (1e-3, 0, 1, "t"),
        PlanQuantity.EndTemperature => (1, -273.15, 0, "°C"),
        PlanQuantity.Phosphorus or PlanQuantity.Sulphur => (1, 0, 4, "mass %"),
        PlanQuantity.Basicity or PlanQuantity.MgOSaturation => (1, 0, 2, ""),
        PlanQuantity.SlagMgO or PlanQuantity.SlagFeO => (1, 0, 1, "mass %"),
        PlanQuantity.ScrapVolume => (1, 0, 1, "m³"),
        _ => (1, 0, 3, "mass %"),
    };

    private static void Charge(Utf8JsonWriter json, string name, Amount[] amounts) => json.Object(name, () =>
    {
        json.Array("materials", amounts.Where(a => !a.IsGas), a => json.Value("material", a.Material.Name).Value("massKg", a.Value).Value("mostKg", a.Material.Most).Value("costEur", a.Value * a.Material.Price));
        json.Value("oxygenNm3", amounts[^1].Value);
    });

    private static void Rows(Utf8JsonWriter json, IReadOnlyList<PlanRow> rows, PlanChances? chances)
    {
        json.Array("limits", rows, r =>
        {
            PlanQuantity q = r.Limit.Quantity;
            json.Value("quantity", char.ToLowerInvariant(q.ToString()[0]) + q.ToString()[1..]).Value("unit", PlanQuantities.Unit(q));
            json.Value("expected", r.Value).Value("least", r.Limit.Least ?? double.NaN).Value("most", r.Limit.Most ?? double.NaN).Value("violation", r.Violation);
            if (chances?.Windows.FirstOrDefault(c => c.Quantity == q) is { } c)
            {
                json.Value("mean", c.Mean).Value("standardDeviation", c.StandardDeviation).Value("probability", c.Without).Value("probabilityAfterMeasurement", c.With);
            }
        });
        if (chances is not null)
        {
            json.Object("probability", () => json.Value("asked", chances.Asked).Value("allWindows", chances.JointWithout).Value("allWindowsAfterMeasurement", chances.JointWith));
        }
    }

    private static CsvTable Csv(Amount[] amounts) => new(
        ["material", "amount", "unit", "most", "costEur", "co2Kg"],
        [.. amounts.Select(a => (IReadOnlyList<object>)[a.Material.Name, a.Value, a.IsGas ? "Nm3" : "kg", a.Material.Most, a.Value * a.Material.Price, a.Value * a.Material.Co2])]);
}
