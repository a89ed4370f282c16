// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;

namespace Heatwright.Shop;

/// <summary>What a plan makes as small, or as large, as it can.</summary>
public enum Objective
{
    /// <summary>Least cost.</summary>
    Cost,
    /// <summary>Least CO2.</summary>
    Co2,
    /// <summary>Most scrap.</summary>
    MostScrap,
}

/// <summary>What must come out at the end of the blow.</summary>
/// <param name="Grade">Grade.</param>
/// <param name="TappedMassKg">Steel to be tapped, kg.</param>
/// <param name="TemperatureK">Window of the end temperature, K.</param>
/// <param name="TemperatureAimK">Aim, K.</param>
/// <param name="CarbonPercent">Window of end carbon, mass %.</param>
/// <param name="CarbonAimPercent">Aim, mass %.</param>
/// <param name="EndPercent">
/// Limits at the end of the blow by element, mass %. What the order does not say is taken from the grade less the ladle
/// pick-up for P, S, Cu, Ni, Cr, Mo and Sn; manganese only as a most.
/// </param>
/// <param name="Basicity">CaO/SiO2 of the end slag by mass.</param>
/// <param name="SlagMgoPercent">Least MgO in the end slag, mass %; null: saturation is aimed at.</param>
/// <param name="Confidence">Probability with which the windows are to be met, 0 to 1.</param>
public sealed record Order(
    Grade Grade,
    double TappedMassKg,
    Limits TemperatureK,
    double TemperatureAimK,
    Limits CarbonPercent,
    double CarbonAimPercent,
    IReadOnlyDictionary<Element, Limits> EndPercent,
    double Basicity,
    double? SlagMgoPercent,
    double Confidence);

/// <summary>What is charged and how much oxygen is blown.</summary>
/// <param name="HotMetalKg">Hot metal, kg.</param>
/// <param name="ScrapKg">Scrap by class, kg.</param>
/// <param name="AdditionsKg">Fluxes, coolants and heating agents, kg.</param>
/// <param name="OxygenNm3">Oxygen (0 °C, 101.325 kPa), Nm³.</param>
public sealed record Charge(
    double HotMetalKg,
    IReadOnlyDictionary<string, double> ScrapKg,
    IReadOnlyDictionary<string, double> AdditionsKg,
    double OxygenNm3);
