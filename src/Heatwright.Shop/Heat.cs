// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter;

namespace Heatwright.Shop;

/// <summary>A heat as its file says: the order, the hot metal at hand, and a charge or what the plan may choose from.</summary>
/// <param name="Id">Heat number.</param>
/// <param name="Title">What is special about it.</param>
/// <param name="Note">Free remark.</param>
/// <param name="Converter">Converter that makes it.</param>
/// <param name="Practice">Practice that it follows.</param>
/// <param name="Order">What must come out.</param>
/// <param name="HotMetalTemperatureK">Hot metal when charged, K.</param>
/// <param name="HotMetalAnalysis">Hot metal, mass %.</param>
/// <param name="HotMetalSlagKg">Ladle slag poured with it, kg.</param>
/// <param name="RetainedSlag">Slag kept from the heat before.</param>
/// <param name="Charge">Charge, or null when planning is to choose it.</param>
/// <param name="Plan">What planning may choose from.</param>
public sealed record Heat(
    string Id,
    string? Title,
    string? Note,
    ConverterUnit Converter,
    Practice Practice,
    Order Order,
    double HotMetalTemperatureK,
    MetalAnalysis HotMetalAnalysis,
    double HotMetalSlagKg,
    RetainedSlag RetainedSlag,
    Charge? Charge,
    PlanScope Plan);

/// <summary>What planning may choose from.</summary>
/// <param name="Objective">What is made small or large.</param>
/// <param name="HotMetalKg">Least and most hot metal, kg.</param>
/// <param name="Scrap">Scrap classes that may be used.</param>
/// <param name="Additions">Additions that may be used.</param>
/// <param name="ScrapVolumeM3">Volume of all boxes that may be charged, m³.</param>
public sealed record PlanScope(
    Objective Objective,
    Limits HotMetalKg,
    IReadOnlyList<AvailableScrap> Scrap,
    IReadOnlyList<AvailableAddition> Additions,
    double ScrapVolumeM3);

/// <summary>A scrap class that a plan may use.</summary>
/// <param name="Scrap">The class.</param>
/// <param name="LeastKg">At least, kg.</param>
/// <param name="MostKg">At most: stock or the heat's own limit, kg.</param>
public sealed record AvailableScrap(StockedScrap Scrap, double LeastKg, double MostKg);

/// <summary>An addition that a plan may use.</summary>
/// <param name="Addition">The material.</param>
/// <param name="LeastKg">At least, kg.</param>
/// <param name="MostKg">At most: stock or the heat's own limit, kg.</param>
public sealed record AvailableAddition(StockedAddition Addition, double LeastKg, double MostKg);
