// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter;

namespace Heatwright.Shop;

/// <summary>What the shop can charge.</summary>
/// <param name="Note">Free remark.</param>
/// <param name="HotMetal">Price and CO2 of hot metal.</param>
/// <param name="Scrap">Scrap classes by name.</param>
/// <param name="Additions">Fluxes, coolants, heating agents and alloys by name.</param>
public sealed record Materials(
    string? Note,
    Account HotMetal,
    IReadOnlyDictionary<string, StockedScrap> Scrap,
    IReadOnlyDictionary<string, StockedAddition> Additions);

/// <summary>What a kilogram costs.</summary>
/// <param name="PriceEurPerKg">Price, EUR/kg.</param>
/// <param name="Co2KgPerKg">CO2 put to its account before it reaches the converter, kg/kg.</param>
public sealed record Account(double PriceEurPerKg, double Co2KgPerKg);

/// <summary>A scrap class on the yard.</summary>
/// <param name="Id">Name in the materials file.</param>
/// <param name="Title">Name for people.</param>
/// <param name="Material">As the blow model takes it.</param>
/// <param name="Account">Price and CO2.</param>
/// <param name="StockKg">On stock, kg.</param>
/// <param name="ChargeOrder">Place in the box, 1 first (light scrap first saves the lining).</param>
public sealed record StockedScrap(string Id, string Title, ScrapMaterial Material, Account Account, double StockKg, int ChargeOrder);

/// <summary>What an addition is for.</summary>
public enum AdditionRole
{
    /// <summary>Makes slag.</summary>
    Flux,
    /// <summary>Takes up heat.</summary>
    Coolant,
    /// <summary>Gives heat.</summary>
    HeatingAgent,
    /// <summary>Brings an element to the ladle.</summary>
    Alloy,
}

/// <summary>A flux, coolant, heating agent or alloy in the bunkers.</summary>
/// <param name="Id">Name in the materials file.</param>
/// <param name="Title">Name for people.</param>
/// <param name="Role">What it is for.</param>
/// <param name="Material">As the blow model takes it.</param>
/// <param name="BulkDensityKgM3">Bulk density, kg/m³.</param>
/// <param name="Account">Price and CO2 before the converter; carbon that burns in the vessel is counted there.</param>
/// <param name="StockKg">On stock, kg.</param>
public sealed record StockedAddition(
    string Id, string Title, AdditionRole Role, FluxMaterial Material, double BulkDensityKgM3, Account Account, double StockKg);
