// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;

namespace Heatwright.Journal.Views;

/// <summary>One quantity as planned and as it came.</summary>
/// <param name="Group">"charge", "addition", "oxygen", "hot metal" or "end".</param>
/// <param name="Name">What: a material, or the name of a quantity.</param>
/// <param name="Unit">Unit of both.</param>
/// <param name="Planned">As planned or expected; null when the plan does not say.</param>
/// <param name="Low">Lower end of the plan's band, where it has one.</param>
/// <param name="High">Upper end.</param>
/// <param name="Actual">As weighed, measured or analysed; null when nothing was.</param>
/// <param name="Entries">Ids of the entries that the actual value comes from.</param>
/// <param name="Least">Least that the order allows at the end; null where it does not say.</param>
/// <param name="Most">Most that it allows.</param>
/// <param name="Below">All that is known of the actual value is that it lies below: a limit of detection.</param>
public sealed record PlannedLine(
    string Group,
    string Name,
    string Unit,
    double? Planned,
    double? Low,
    double? High,
    double? Actual,
    IReadOnlyList<Guid> Entries,
    double? Least = null,
    double? Most = null,
    bool Below = false)
{
    /// <summary>Actual less planned; null where one of them is missing or not known but as below a limit.</summary>
    public double? Difference => Below ? null : Actual - Planned;

    /// <summary>The actual value lies outside the order. False also where that cannot be said.</summary>
    public bool Outside => Actual is { } value && OrderLimits.Holds(new Window(Least, Most), new EndValue(value, Below, default)) == false;
}

/// <summary>Puts the plan beside what was done.</summary>
internal static class PlannedLines
{
    public static IReadOnlyList<PlannedLine> Of(HeatRecord record)
    {
        PlanBody? plan = record.Plan?.Fact.Body;
        var lines = new List<PlannedLine>();
        Charge(lines, record, plan);
        Additions(lines, record, plan);
        HotMetal(lines, record, plan);
        double? blown = EndValues.BlownNm3(record);
        if (plan?.OxygenNm3 is not null || blown is not null)
        {
            lines.Add(Line("oxygen", "oxygen", "Nm3", plan?.OxygenNm3, blown, record.Life.Blows.SelectMany(b => b.Facts).Select(f => f.Id)));
        }

        Ends(lines, record, plan);
        return lines;
    }

    private static void Charge(List<PlannedLine> lines, HeatRecord record, PlanBody? plan)
    {
        var charges = record.Charges.ToList();
        var hotMetal = charges.Where(c => c.Body.What == ChargeKind.HotMetal).ToList();
        if (hotMetal.Count > 0 || plan?.HotMetalKg is not null)
        {
            lines.Add(Line("charge", "hot metal", "kg", plan?.HotMetalKg, Sum(hotMetal.Select(c => c.Body.MassKg)), hotMetal.Select(c => c.Id)));
        }

        ILookup<string, (Guid Id, double MassKg)> scrap = charges.Where(c => c.Body.What == ChargeKind.Scrap).ToLookup(c => c.Body.Material ?? "scrap", c => (c.Id, c.Body.MassKg));
        Materials(lines, "charge", plan?.ScrapKg, scrap);
        var slag = charges.Where(c => c.Body.What == ChargeKind.RetainedSlag).ToList();
        if (slag.Count > 0)
        {
            lines.Add(Line("charge", "retained slag", "kg", null, Sum(slag.Select(c => c.Body.MassKg)), slag.Select(c => c.Id)));
        }
    }

    private static void Additions(List<PlannedLine> lines, HeatRecord record, PlanBody? plan)
    {
        // The plan is of the converter; what falls into the ladle stands beside it without a plan.
        var additions = record.Additions.ToList();
        Materials(lines, "addition", plan?.AdditionsKg, additions.Where(a => a.Body.Place == AdditionPlace.Converter).ToLookup(a => a.Body.Material, a => (a.Id, a.Body.MassKg)));
        Materials(lines, "ladle", null, additions.Where(a => a.Body.Place == AdditionPlace.Ladle).ToLookup(a => a.Body.Material, a => (a.Id, a.Body.MassKg)));
    }

    private static void Materials(
        List<PlannedLine> lines, string group, IReadOnlyDictionary<string, double>? planned, ILookup<string, (Guid Id, double MassKg)> actual)
    {
        foreach (string material in (planned?.Keys ?? []).Union(actual.Select(a => a.Key)).Order(StringComparer.Ordinal))
        {
            double? plannedKg = planned?.TryGetValue(material, out double kg) == true ? kg : null;
            lines.Add(Line(group, material, "kg", plannedKg, Sum(actual[material].Select(a => a.MassKg)), actual[material].Select(a => a.Id)));
        }
    }

    private static void HotMetal(List<PlannedLine> lines, HeatRecord record, PlanBody? plan)
    {
        (double? temperatureK, IReadOnlyList<Guid> from) = EndValues.HotMetalTemperatureK(record);
        if (temperatureK is not null || plan?.HotMetalTemperatureK is not null)
        {
            lines.Add(Line("hot metal", "temperature", "K", plan?.HotMetalTemperatureK, temperatureK, from));
        }

        var analysis = record.Analyses.LastOrDefault(a => a.Body is { Point: HeatPoint.HotMetal, Matter: SampledMatter.Metal });
        foreach (string element in (plan?.HotMetalPercent?.Keys ?? []).Union(analysis?.Body.Percent.Keys ?? []))
        {
            double? planned = plan?.HotMetalPercent?.TryGetValue(element, out double p) == true ? p : null;
            Reading? actual = analysis?.Body.Percent.TryGetValue(element, out Reading r) == true ? r : null;
            lines.Add(Line("hot metal", element, "mass %", planned, actual?.Value, actual is null ? [] : [analysis!.Id]) with { Below = actual?.Below == true });
        }
    }

    private static void Ends(List<PlannedLine> lines, HeatRecord record, PlanBody? plan)
    {
        IReadOnlyDictionary<string, EndValue> actual = EndValues.Of(record);
        IReadOnlyDictionary<string, Window> limits = OrderLimits.Of(record.Order?.Body);
        foreach (string quantity in (plan?.Expected?.Keys ?? []).Union(actual.Keys).Order(StringComparer.Ordinal))
        {
            Expected? planned = plan?.Expected?.GetValueOrDefault(quantity);
            EndValue? came = actual.GetValueOrDefault(quantity);
            Window? limit = limits.GetValueOrDefault(quantity);
            lines.Add(new PlannedLine(
                "end",
                quantity,
                ResultQuantity.UnitOf(quantity),
                planned?.Value,
                planned?.Low,
                planned?.High,
                came?.Value,
                came is null ? [] : [came.Entry],
                limit?.Least,
                limit?.Most,
                came?.Below == true));
        }
    }

    private static PlannedLine Line(string group, string name, string unit, double? planned, double? actual, IEnumerable<Guid> entries) =>
        new(group, name, unit, planned, null, null, actual, [.. entries]);

    private static double? Sum(IEnumerable<double> masses)
    {
        double[] all = [.. masses];
        return all.Length > 0 ? all.Sum() : null;
    }
}
