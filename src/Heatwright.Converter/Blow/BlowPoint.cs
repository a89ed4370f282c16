// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Converter.Blow;

/// <summary>A moment of a heat. Analyses in mass %, gas in volume % at the mouth (wet), flows in Nm³/s at 0 °C and 101.325 kPa.</summary>
public sealed record BlowPoint
{
    /// <summary>Time since hot metal was on the scrap, s.</summary>
    public double TimeS { get; init; }

    /// <summary>Oxygen metered, % of plan.</summary>
    public double OxygenPercent { get; init; }

    /// <summary>Liquid metal, kg.</summary>
    public double MetalKg { get; init; }

    /// <summary>Metal temperature, K.</summary>
    public double TemperatureK { get; init; }

    /// <summary>Carbon in the metal, mass %.</summary>
    public double C { get; init; }

    /// <summary>Silicon in the metal, mass %.</summary>
    public double Si { get; init; }

    /// <summary>Manganese in the metal, mass %.</summary>
    public double Mn { get; init; }

    /// <summary>Phosphorus in the metal, mass %.</summary>
    public double P { get; init; }

    /// <summary>Sulphur in the metal, mass %.</summary>
    public double S { get; init; }

    /// <summary>Titanium in the metal, mass %.</summary>
    public double Ti { get; init; }

    /// <summary>Vanadium in the metal, mass %.</summary>
    public double V { get; init; }

    /// <summary>Chromium in the metal, mass %.</summary>
    public double Cr { get; init; }

    /// <summary>Copper in the metal, mass %.</summary>
    public double Cu { get; init; }

    /// <summary>Nickel in the metal, mass %.</summary>
    public double Ni { get; init; }

    /// <summary>Molybdenum in the metal, mass %.</summary>
    public double Mo { get; init; }

    /// <summary>Tin in the metal, mass %.</summary>
    public double Sn { get; init; }

    /// <summary>Oxygen in the metal, ppm by mass.</summary>
    public double OxygenPpm { get; init; }

    /// <summary>Nitrogen in the metal, ppm by mass.</summary>
    public double NitrogenPpm { get; init; }

    /// <summary>Liquid slag, kg.</summary>
    public double SlagKg { get; init; }

    /// <summary>Slag temperature, K.</summary>
    public double SlagTemperatureK { get; init; }

    /// <summary>All iron oxide counted as FeO by its iron, mass % of the slag (FetO).</summary>
    public double FeO { get; init; }

    /// <summary>SiO2 in the liquid slag, mass %.</summary>
    public double SiO2 { get; init; }

    /// <summary>CaO in the liquid slag, mass %.</summary>
    public double CaO { get; init; }

    /// <summary>MgO in the liquid slag, mass %.</summary>
    public double MgO { get; init; }

    /// <summary>MnO in the liquid slag, mass %.</summary>
    public double MnO { get; init; }

    /// <summary>P2O5 in the liquid slag, mass %.</summary>
    public double P2O5 { get; init; }

    /// <summary>Al2O3 in the liquid slag, mass %.</summary>
    public double Al2O3 { get; init; }

    /// <summary>TiO2 in the liquid slag, mass %.</summary>
    public double TiO2 { get; init; }

    /// <summary>MgO that this slag could hold, mass %.</summary>
    public double MgOSaturation { get; init; }

    /// <summary>CaO/SiO2 of the liquid slag.</summary>
    public double Basicity { get; init; }

    /// <summary>Lime, dolomite and other lumps not yet dissolved, kg.</summary>
    public double UndissolvedFluxKg { get; init; }

    /// <summary>Scrap not yet melted, by class as charged, kg.</summary>
    public IReadOnlyList<double> ScrapKg { get; init; } = [];

    /// <summary>Hot metal frozen on scrap, kg.</summary>
    public double ShellKg { get; init; }

    /// <summary>Rate of decarburisation, kg/s.</summary>
    public double CarbonKgPerS { get; init; }

    /// <summary>Of it in the jet zone, %.</summary>
    public double CarbonInJetPercent { get; init; }

    /// <summary>Of it by droplets in the slag, %.</summary>
    public double CarbonInEmulsionPercent { get; init; }

    /// <summary>Gas at the mouth, Nm³/s.</summary>
    public double GasNm3PerS { get; init; }

    /// <summary>CO in the gas at the mouth, volume %.</summary>
    public double GasCO { get; init; }

    /// <summary>CO2 in the gas at the mouth, volume %.</summary>
    public double GasCO2 { get; init; }

    /// <summary>O2 in the gas at the mouth, volume %.</summary>
    public double GasO2 { get; init; }

    /// <summary>H2 in the gas at the mouth, volume %.</summary>
    public double GasH2 { get; init; }

    /// <summary>N2 in the gas at the mouth, volume %.</summary>
    public double GasN2 { get; init; }

    /// <summary>Ar in the gas at the mouth, volume %.</summary>
    public double GasAr { get; init; }

    /// <summary>Temperature of the gas at the mouth before air, K.</summary>
    public double GasTemperatureK { get; init; }

    /// <summary>CO2/(CO + CO2) at the mouth, %.</summary>
    public double PostCombustionPercent { get; init; }

    /// <summary>Depth of the jet cavities, m.</summary>
    public double CavityM { get; init; }

    /// <summary>Lance tip over the bath as it is, m.</summary>
    public double LanceOverBathM { get; init; }

    /// <summary>Oxygen flow, Nm³/s.</summary>
    public double OxygenNm3PerS { get; init; }

    /// <summary>Bottom gas, Nm³/s.</summary>
    public double BottomNm3PerS { get; init; }

    /// <summary>Height of slag and foam over the bath, m.</summary>
    public double FoamM { get; init; }

    /// <summary>Distance from quiet bath to the mouth, m.</summary>
    public double FreeboardM { get; init; }

    /// <summary>Oxygen activity that the slag would give the metal, mass %.</summary>
    public double SlagOxygenPercent { get; init; }

    /// <summary>Metal temperature, °C.</summary>
    public double TemperatureC => TemperatureK - 273.15;
}
