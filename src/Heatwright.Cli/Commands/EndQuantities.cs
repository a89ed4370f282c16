// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Shop;
using BlowPoint = Heatwright.Converter.Blow.BlowPoint;

namespace Heatwright.Cli.Commands;

/// <summary>A quantity of the end of a blow as tables and JSON show it.</summary>
/// <param name="Title">For people.</param>
/// <param name="Key">For programs, unit included.</param>
/// <param name="Unit">Unit as shown.</param>
/// <param name="Decimals">Decimals as shown.</param>
/// <param name="Value">The value in that unit.</param>
/// <param name="Element">The element whose limits of the order apply, if any.</param>
internal sealed record EndQuantity(string Title, string Key, string Unit, int Decimals, Func<BlowPoint, double> Value, Element? Element = null)
{
    public static readonly EndQuantity Temperature = new("Temperature", "temperatureC", "°C", 0, p => p.TemperatureC);

    public static readonly EndQuantity Carbon = new("Carbon", "carbonPercent", "mass %", 3, p => p.C, Chemistry.Element.C);

    /// <summary>In the order in which a melter asks for them.</summary>
    public static readonly EndQuantity[] All =
    [
        Temperature,
        Carbon,
        new("Phosphorus", "phosphorusPercent", "mass %", 4, p => p.P, Chemistry.Element.P),
        new("Sulphur", "sulphurPercent", "mass %", 4, p => p.S, Chemistry.Element.S),
        new("Manganese", "manganesePercent", "mass %", 3, p => p.Mn, Chemistry.Element.Mn),
        new("Copper", "copperPercent", "mass %", 3, p => p.Cu, Chemistry.Element.Cu),
        new("Oxygen in steel", "oxygenPpm", "ppm", 0, p => p.OxygenPpm),
        new("Liquid metal", "metalT", "t", 1, p => p.MetalKg / 1000),
        new("Slag", "slagT", "t", 1, p => p.SlagKg / 1000),
        new("FeO in slag", "slagFeOPercent", "mass %", 1, p => p.FeO),
        new("CaO/SiO2", "slagBasicity", "", 2, p => p.Basicity),
        new("MgO in slag", "slagMgOPercent", "mass %", 1, p => p.MgO),
        new("Lime not dissolved", "undissolvedFluxT", "t", 2, p => p.UndissolvedFluxKg / 1000),
        new("Scrap not melted", "unmeltedScrapT", "t", 2, p => (p.ScrapKg.Sum() + p.ShellKg) / 1000),
    ];

    /// <summary>What the order says about it, in its unit.</summary>
    public Limits? Limits(Order order) => this switch
    {
        { Key: "temperatureC" } => new Limits(order.TemperatureK.Least - 273.15, order.TemperatureK.Most - 273.15),
        { Element: Chemistry.Element.C } => order.CarbonPercent,
        { Element: { } element } => order.EndPercent.GetValueOrDefault(element),
        _ => null,
    };
}
