// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Converter;
using Heatwright.Journal.Entries;
using Heatwright.Shop;

namespace Heatwright.Journal.Lifecycle;

/// <summary>What the shop knows of a heat, as bodies of entries.</summary>
public static class HeatEntries
{
    /// <summary>The order of a heat.</summary>
    public static OrderBody Order(Heat heat)
    {
        ArgumentNullException.ThrowIfNull(heat);
        Order order = heat.Order;
        return new OrderBody(
            order.Grade.Id,
            heat.Converter.Id,
            heat.Practice.Id,
            order.TappedMassKg,
            Window(order.TemperatureK, order.TemperatureAimK),
            Window(order.CarbonPercent, order.CarbonAimPercent),
            order.EndPercent.ToDictionary(e => e.Key.ToString(), e => Window(e.Value, null), StringComparer.Ordinal),
            order.Basicity,
            order.SlagMgoPercent,
            order.Confidence);
    }

    /// <summary>A plan for a heat.</summary>
    /// <param name="heat">The heat.</param>
    /// <param name="charge">What is to be charged and blown.</param>
    /// <param name="expected">What is expected by quantity (<see cref="ResultQuantity"/>).</param>
    /// <param name="basis">How it was computed.</param>
    /// <param name="costEur">What it costs, EUR.</param>
    /// <param name="probability">Probability of meeting the order, 0 to 1.</param>
    public static PlanBody Plan(
        Heat heat, Charge charge, IReadOnlyDictionary<string, Expected>? expected = null, Basis? basis = null, double? costEur = null, double? probability = null)
    {
        ArgumentNullException.ThrowIfNull(heat);
        ArgumentNullException.ThrowIfNull(charge);
        return new PlanBody(
            charge.ScrapKg,
            charge.AdditionsKg,
            heat.Practice.Id,
            heat.Practice.Version,
            charge.HotMetalKg,
            heat.HotMetalTemperatureK,
            Percent(heat.HotMetalAnalysis),
            charge.OxygenNm3,
            expected,
            costEur,
            probability,
            basis);
    }

    /// <summary>The files of a works as an entry. Its id follows from the texts: a works that did not change is not written twice.</summary>
    public static NewEntry Works(Works works, DateTimeOffset time, string actor)
    {
        ArgumentNullException.ThrowIfNull(works);
        var body = new WorksBody(works.Plant.Name, works.Files);
        return new NewEntry(EntryId.From(["works", works.Plant.Name, .. works.Files.OrderBy(f => f.Key, StringComparer.Ordinal).SelectMany(f => new[] { f.Key, f.Value })]), "", body, time, actor);
    }

    /// <summary>Mass % by element of what is there; iron is the remainder and not named.</summary>
    public static IReadOnlyDictionary<string, double> Percent(MetalAnalysis analysis)
    {
        ArgumentNullException.ThrowIfNull(analysis);
        return Enum.GetValues<Element>().Where(e => e != Element.Fe && analysis[e] > 0).ToDictionary(e => e.ToString(), e => analysis[e], StringComparer.Ordinal);
    }

    private static Window Window(Limits limits, double? aim) => new(limits.Least, limits.Most, aim);
}
