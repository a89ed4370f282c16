// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Converter;

namespace Heatwright.Shop;

/// <summary>The plant: converters, what gas costs, how well things are measured.</summary>
/// <param name="Name">Name of the works.</param>
/// <param name="Note">Free remark.</param>
/// <param name="AmbientK">Temperature of scrap, fluxes and gases in the yard, K.</param>
/// <param name="Oxygen">Oxygen at the lance.</param>
/// <param name="Nitrogen">Nitrogen for the bottom elements.</param>
/// <param name="Argon">Argon for the bottom elements.</param>
/// <param name="LadlePickUpPercent">What the steel picks up between end of blow and ladle analysis, mass % by element.</param>
/// <param name="Converters">Converters by name.</param>
/// <param name="Measurement">Standard uncertainties of what is weighed and measured.</param>
public sealed record Plant(
    string Name,
    string? Note,
    double AmbientK,
    OxygenSupply Oxygen,
    GasSupply Nitrogen,
    GasSupply Argon,
    IReadOnlyDictionary<Element, double> LadlePickUpPercent,
    IReadOnlyDictionary<string, ConverterUnit> Converters,
    MeasurementUncertainty Measurement);

/// <summary>A gas: price and CO2 of its making.</summary>
/// <param name="PriceEurPerNm3">Price, EUR/Nm³.</param>
/// <param name="Co2KgPerNm3">CO2, kg/Nm³.</param>
public sealed record GasSupply(double PriceEurPerNm3, double Co2KgPerNm3);

/// <summary>Oxygen at the lance.</summary>
/// <param name="PurityFraction">Mole fraction of O2.</param>
/// <param name="MostNm3PerS">Most that the main gives, Nm³/s.</param>
/// <param name="Gas">Price and CO2.</param>
public sealed record OxygenSupply(double PurityFraction, double MostNm3PerS, GasSupply Gas);

/// <summary>One converter of the plant with what belongs to it.</summary>
/// <param name="Id">Name in the plant file.</param>
/// <param name="TappedMassKg">Usual tapped mass, kg.</param>
/// <param name="Vessel">Vessel as the blow model takes it.</param>
/// <param name="RetainedSlag">Slag kept from the heat before, unless the heat says otherwise.</param>
/// <param name="LanceHeightM">Least and most lance height over the quiet bath, m.</param>
/// <param name="ScrapBoxVolumeM3">Volume of one scrap box, m³.</param>
/// <param name="ScrapBoxes">Boxes that are charged to a heat at most.</param>
/// <param name="HotMetalKg">Least and most hot metal in one heat, kg.</param>
public sealed record ConverterUnit(
    string Id,
    double TappedMassKg,
    Vessel Vessel,
    RetainedSlag RetainedSlag,
    Limits LanceHeightM,
    double ScrapBoxVolumeM3,
    int ScrapBoxes,
    Limits HotMetalKg);

/// <summary>
/// Standard uncertainties (1 sigma). The defaults are the middle of the ranges that operators usually quote: from memory,
/// no source; a plant sets its own.
/// </summary>
/// <param name="HotMetalMassPercent">Hot-metal mass, % of the value.</param>
/// <param name="ScrapMassPercent">Scrap mass, % of the value.</param>
/// <param name="AdditionMassPercent">Flux, coolant and heating agent mass, % of the value.</param>
/// <param name="HotMetalTemperatureK">Hot-metal temperature, K.</param>
/// <param name="HotMetalCarbonPercent">Hot-metal carbon, mass %.</param>
/// <param name="HotMetalSiliconPercent">Hot-metal silicon, mass %.</param>
/// <param name="HotMetalManganesePercent">Hot-metal manganese, mass %.</param>
/// <param name="HotMetalPhosphorusPercent">Hot-metal phosphorus, mass %.</param>
/// <param name="OxygenPercent">Oxygen blown, % of the value.</param>
/// <param name="LanceHeightM">Lance height over the bath, level error included, m.</param>
/// <param name="RetainedSlagPercent">Mass of retained slag, % of the value.</param>
/// <param name="InBlowTemperatureK">Bath temperature of the in-blow measurement, K.</param>
/// <param name="InBlowCarbonPercent">Carbon of the in-blow measurement, mass %.</param>
/// <param name="EndTemperatureK">Bath temperature of the end measurement, K.</param>
/// <param name="EndCarbonPercent">Carbon of the end measurement, mass %.</param>
/// <param name="SteelCarbonPercent">Laboratory carbon, mass %.</param>
/// <param name="SteelPhosphorusPercent">Laboratory phosphorus, mass %.</param>
/// <param name="SteelManganesePercent">Laboratory manganese, mass %.</param>
/// <param name="SlagFeOPercent">Laboratory FeO in slag, mass %.</param>
public sealed record MeasurementUncertainty(
    double HotMetalMassPercent = 0.5,
    double ScrapMassPercent = 1.0,
    double AdditionMassPercent = 0.75,
    double HotMetalTemperatureK = 7,
    double HotMetalCarbonPercent = 0.05,
    double HotMetalSiliconPercent = 0.03,
    double HotMetalManganesePercent = 0.01,
    double HotMetalPhosphorusPercent = 0.003,
    double OxygenPercent = 1.0,
    double LanceHeightM = 0.10,
    double RetainedSlagPercent = 20,
    double InBlowTemperatureK = 6,
    double InBlowCarbonPercent = 0.04,
    double EndTemperatureK = 5,
    double EndCarbonPercent = 0.007,
    double SteelCarbonPercent = 0.002,
    double SteelPhosphorusPercent = 0.0006,
    double SteelManganesePercent = 0.005,
    double SlagFeOPercent = 1.0);
