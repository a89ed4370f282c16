// SPDX-License-Identifier: Apache-2.0

namespace Heatwright.Converter;

/// <summary>Hot metal as charged.</summary>
/// <param name="MassKg">Net mass of metal poured, kg.</param>
/// <param name="TemperatureK">Temperature in the vessel's mouth at charging, K.</param>
/// <param name="Analysis">Metal analysis, mass %.</param>
/// <param name="SlagCarryKg">Blast-furnace or desulphurisation slag poured with it, kg.</param>
public sealed record HotMetal(double MassKg, double TemperatureK, MetalAnalysis Analysis, double SlagCarryKg = 0);

/// <summary>A class of scrap.</summary>
/// <param name="Name">Class name as the shop uses it.</param>
/// <param name="Analysis">Analysis of the metal, mass %.</param>
/// <param name="HalfThicknessM">Half the characteristic thickness of a piece, m. Sets how long it takes to melt.</param>
/// <param name="RustPercent">Iron(III) oxide on it, mass % of the scrap as weighed.</param>
/// <param name="DirtPercent">Silica and alumina on it (3 : 1 by mass), mass % of the scrap as weighed.</param>
/// <param name="MoisturePercent">Water on it, mass % of the scrap as weighed.</param>
/// <param name="BulkDensityKgM3">Bulk density in the box, kg/m³.</param>
public sealed record ScrapMaterial(
    string Name,
    MetalAnalysis Analysis,
    double HalfThicknessM,
    double RustPercent = 0,
    double DirtPercent = 0,
    double MoisturePercent = 0,
    double BulkDensityKgM3 = 1000)
{
    /// <summary>What is metal of it as weighed, kg/kg: the rest is rust, dirt and moisture.</summary>
    public double MetallicShare => 1 - ((RustPercent + DirtPercent + MoisturePercent) / 100);
}

/// <summary>Scrap of one class in the box.</summary>
public sealed record ScrapCharge(ScrapMaterial Material, double MassKg, double TemperatureK = HeatInput.AmbientK);

/// <summary>How an addition behaves once it is in the vessel.</summary>
public enum FluxBehaviour
{
    /// <summary>Lumps that warm up, calcine if they must, and then dissolve into the slag at their surface (lime, dolomite, limestone).</summary>
    DissolvesIntoSlag,
    /// <summary>Melts into the slag as soon as it is warm (ore, scale, sinter, fluorspar, fines).</summary>
    MeltsIntoSlag,
    /// <summary>Goes into the metal as soon as it is warm; its oxides go to the slag (ferrosilicon, coke).</summary>
    DissolvesIntoMetal,
}

/// <summary>An addition through the chute.</summary>
/// <param name="Name">Name as the shop uses it.</param>
/// <param name="Behaviour">What happens to it in the vessel.</param>
/// <param name="Analysis">Mass % by constituent.</param>
/// <param name="ParticleDiameterM">Mean size of a lump, m.</param>
/// <param name="FinesLossPercent">Share drawn off with the gas as it falls, mass %.</param>
public sealed record FluxMaterial(
    string Name,
    FluxBehaviour Behaviour,
    SolidAnalysis Analysis,
    double ParticleDiameterM = 0.03,
    double FinesLossPercent = 0);

/// <summary>Slag kept from the heat before, liquid or frozen on the wall.</summary>
/// <param name="MassKg">Mass, kg.</param>
/// <param name="Analysis">Mass % by constituent.</param>
/// <param name="TemperatureK">Temperature at the start, K.</param>
public sealed record RetainedSlag(double MassKg, SolidAnalysis Analysis, double TemperatureK = 1500);

/// <summary>The converter and its gas path.</summary>
/// <param name="InnerDiameterM">Bore of the barrel inside the lining, m.</param>
/// <param name="InnerHeightM">Height from the bottom to the mouth inside the lining, m.</param>
/// <param name="NozzleCount">Number of lance nozzles.</param>
/// <param name="NozzleThroatM">Throat diameter of one nozzle, m.</param>
/// <param name="NozzleExitM">Exit diameter of one nozzle, m.</param>
/// <param name="NozzleAngleDegrees">Inclination of the nozzles from the vertical, degrees.</param>
/// <param name="BottomElements">Number of bottom stirring elements; zero for a top-blown vessel, which then takes no bottom gas. The blow counts the gas, not the number.</param>
/// <param name="LiningMgoPercent">MgO in the working lining, mass %: scales what wears into the slag.</param>
/// <param name="LiningAgeHeats">Heats on the lining.</param>
/// <param name="LiningStartK">Mean temperature of the hot face layer when charging, K (falls with waiting).</param>
/// <param name="SuctionNm3PerS">Cooled gas drawn by the fan, dry, at 0 °C and 101.325 kPa, Nm³/s. Air at the skirt makes up what the vessel does not give.</param>
/// <param name="HoodTransferWPerK">Heat transfer of the cooled hood and stack, W/K, for the gas temperature behind it.</param>
public sealed record Vessel(
    double InnerDiameterM,
    double InnerHeightM,
    int NozzleCount,
    double NozzleThroatM,
    double NozzleExitM,
    double NozzleAngleDegrees,
    int BottomElements,
    double LiningMgoPercent,
    double LiningAgeHeats = 0,
    double LiningStartK = 1350,
    double SuctionNm3PerS = 30,
    double HoodTransferWPerK = 40e3);

/// <summary>Gas through the bottom.</summary>
public enum StirringGas
{
    /// <summary>Nitrogen.</summary>
    Nitrogen,
    /// <summary>Argon.</summary>
    Argon,
}

/// <summary>A set point that holds from a share of the planned oxygen until the next one.</summary>
/// <param name="OxygenPercent">Share of the planned oxygen at which it starts, %.</param>
/// <param name="Value">The set point, in the unit of the programme it stands in.</param>
public readonly record struct SetPoint(double OxygenPercent, double Value);

/// <summary>A bottom-gas set point.</summary>
/// <param name="OxygenPercent">Share of the planned oxygen at which it starts, %.</param>
/// <param name="FlowNm3PerS">Flow, Nm³/s.</param>
/// <param name="Gas">Gas.</param>
public readonly record struct StirringSetPoint(double OxygenPercent, double FlowNm3PerS, StirringGas Gas);

/// <summary>One weighed addition.</summary>
/// <param name="OxygenPercent">Share of the planned oxygen at which it starts to fall, %. Negative or zero: with the scrap, before the blow.</param>
/// <param name="Material">What.</param>
/// <param name="MassKg">How much, kg.</param>
/// <param name="DosingS">How long it takes to fall, s.</param>
public sealed record Addition(double OxygenPercent, FluxMaterial Material, double MassKg, double DosingS = 20)
{
    /// <summary>What reaches the bath, kg: weighed less the fines that the gas draws off.</summary>
    public double KeptKg => MassKg * (1 - (Material.FinesLossPercent / 100));

    /// <summary>What the gas draws off, kg.</summary>
    public double FinesKg => MassKg * Material.FinesLossPercent / 100;
}

/// <summary>What the crew does, on the axis of planned oxygen. Built by the shop from a written practice.</summary>
/// <param name="OxygenNm3">Oxygen planned (0 °C, 101.325 kPa), Nm³: 100 % of the axis.</param>
/// <param name="OxygenFlowNm3PerS">Oxygen flow set points, Nm³/s.</param>
/// <param name="LanceHeightM">Lance height over the quiet bath, m.</param>
/// <param name="Stirring">Bottom gas.</param>
/// <param name="SkirtOpenFraction">Skirt position: 0 down on the mouth, 1 fully up. The blow ends at the mouth and does not see it; the hood does.</param>
/// <param name="Additions">Fluxes, coolants and heating agents in order.</param>
/// <param name="OxygenPurity">Mole fraction of O2 in the oxygen; the rest is argon and nitrogen half and half.</param>
/// <param name="AfterStirS">Stirring after the oxygen is off, s.</param>
/// <param name="AfterStirNm3PerS">Bottom gas during the after-stir, Nm³/s.</param>
/// <param name="BlownFraction">Share of the planned oxygen really blown (1 = to plan).</param>
/// <param name="ChargeToBlowS">Time from hot metal on scrap to ignition, s.</param>
public sealed record BlowProgramme(
    double OxygenNm3,
    IReadOnlyList<SetPoint> OxygenFlowNm3PerS,
    IReadOnlyList<SetPoint> LanceHeightM,
    IReadOnlyList<StirringSetPoint> Stirring,
    IReadOnlyList<SetPoint> SkirtOpenFraction,
    IReadOnlyList<Addition> Additions,
    double OxygenPurity = 0.995,
    double AfterStirS = 0,
    double AfterStirNm3PerS = 0,
    double BlownFraction = 1,
    double ChargeToBlowS = 120)
{
    /// <summary>The additions that really fall: those due before the oxygen ends.</summary>
    public IEnumerable<Addition> GivenAdditions => Additions.Where(a => a.OxygenPercent <= 100 * BlownFraction);
}

/// <summary>Everything that determines a heat: the argument of the one model.</summary>
public sealed record HeatInput(
    HotMetal HotMetal,
    IReadOnlyList<ScrapCharge> Scrap,
    RetainedSlag RetainedSlag,
    Vessel Vessel,
    BlowProgramme Programme)
{
    /// <summary>25 °C: scrap, fluxes and gases unless said otherwise, K.</summary>
    public const double AmbientK = 298.15;

    /// <summary>Most scrap classes in one heat.</summary>
    public const int MaxScrapClasses = 6;

    /// <summary>Most different additions in one heat.</summary>
    public const int MaxFluxes = 8;
}
