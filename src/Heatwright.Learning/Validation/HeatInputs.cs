// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Learning.Validation;

/// <summary>A figure of a heat that a regression or a residual is set against.</summary>
/// <param name="Name">Name.</param>
/// <param name="Unit">Unit.</param>
/// <param name="Value">The figure.</param>
public sealed record HeatFigure(string Name, string Unit, Func<MeasuredHeat, double> Value)
{
    /// <summary>Hot metal temperature, °C.</summary>
    public static HeatFigure HotMetalTemperature { get; } = new("hot metal temperature", "°C", h => h.HotMetalC);

    /// <summary>Hot metal silicon, mass %.</summary>
    public static HeatFigure Silicon { get; } = new("hot metal Si", "%", h => h.Analysis!.Si);

    /// <summary>Scrap share of the charge, %.</summary>
    public static HeatFigure ScrapShare { get; } = new("scrap share", "%", h => h.ScrapPercent);

    /// <summary>Lime, kg per t charge.</summary>
    public static HeatFigure Lime { get; } = new("lime", "kg/t", h => h.LimeKg / h.ChargeT);

    /// <summary>Natural logarithm of the end carbon.</summary>
    public static HeatFigure LogEndCarbon { get; } = new("ln end C", "ln %", h => Math.Log(h.EndCarbonPercent!.Value));

    /// <summary>The five that matter most to a heat balance.</summary>
    public static IReadOnlyList<HeatFigure> Main { get; } = [HotMetalTemperature, Silicon, ScrapShare, Lime, LogEndCarbon];

    /// <summary>Everything recorded that the balance uses.</summary>
    public static IReadOnlyList<HeatFigure> All { get; } =
    [
        new("hot metal", "t", h => h.HotMetalKg / 1000),
        new("scrap", "t", h => h.ScrapKg / 1000),
        HotMetalTemperature,
        Silicon,
        new("hot metal Mn", "%", h => h.Analysis!.Mn),
        new("hot metal P", "%", h => h.Analysis!.P),
        new("hot metal Ti", "%", h => h.Analysis!.Ti),
        new("hot metal V", "%", h => h.Analysis!.V),
        new("lime", "t", h => h.LimeKg / 1000),
        new("magnesia flux", "t", h => h.MagnesiaKg / 1000),
        LogEndCarbon,
    ];
}
