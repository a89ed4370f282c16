// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Converter.Charge;

/// <summary>
/// Standard deviations of what no one can weigh, from heat to heat on a vessel whose mean is known. All values are
/// <b>from memory, common practice, no source</b>; together with <see cref="InputSpread"/> they are chosen so that a charge
/// calculation without an in-blow measurement misses the end temperature by the 12 to 17 K (one standard deviation) that
/// the trade quotes (also from memory). A plant replaces them by what its own heats show.
/// </summary>
/// <param name="HeatLossScale">Heat loss, standard deviation of its natural logarithm.</param>
/// <param name="OxygenUse">Share of the oxygen that reaches the bath, absolute.</param>
/// <param name="PostCombustion">Share of oxygen that burns CO in the vessel, absolute.</param>
/// <param name="PostCombustionHeatShare">Share of that heat kept, absolute.</param>
/// <param name="IronOxidationShare">Share of left-over oxygen that oxidises iron, absolute.</param>
/// <param name="JetTransfer">Transport to the cavities, of the logarithm.</param>
/// <param name="DropletBirth">Droplet rate, of the logarithm.</param>
/// <param name="SlagReduction">Reduction by droplets, of the logarithm.</param>
/// <param name="Interface">Transport at the interface, of the logarithm.</param>
/// <param name="LimeDissolution">Lime dissolution, of the logarithm.</param>
/// <param name="ScrapTransfer">Transfer to scrap, of the logarithm.</param>
/// <param name="PhosphorusOffset">log10 of the phosphorus partition, absolute.</param>
/// <param name="ManganeseOffset">log10 of the manganese partition, absolute.</param>
/// <param name="FoamScale">Foam height, of the logarithm.</param>
/// <param name="DustScale">Fume and spray, of the logarithm.</param>
/// <param name="BathCoPressure">Pressure of bubble birth, of the logarithm.</param>
/// <param name="LiningWear">Magnesia pick-up, of the logarithm.</param>
public sealed record ParameterSpread(
    double HeatLossScale = 0.10,
    double OxygenUse = 0.006,
    double PostCombustion = 0.006,
    double PostCombustionHeatShare = 0.04,
    double IronOxidationShare = 0.02,
    double JetTransfer = 0.05,
    double DropletBirth = 0.10,
    double SlagReduction = 0.10,
    double Interface = 0.10,
    double LimeDissolution = 0.15,
    double ScrapTransfer = 0.10,
    double PhosphorusOffset = 0.06,
    double ManganeseOffset = 0.04,
    double FoamScale = 0.25,
    double DustScale = 0.15,
    double BathCoPressure = 0.08,
    double LiningWear = 0.20)
{
    /// <summary>The values the program starts with.</summary>
    public static ParameterSpread Default { get; } = new();

    /// <summary>Nothing varies.</summary>
    public static ParameterSpread None { get; } = new(0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0);
}

/// <summary>
/// Standard deviations of what is weighed and measured before the blow. Defaults: the middle of what operators quote,
/// <b>from memory, no source</b>; a plant states its own.
/// </summary>
/// <param name="HotMetalMassPercent">Hot-metal mass, % of the value.</param>
/// <param name="HotMetalTemperatureK">Hot-metal temperature at charging, K.</param>
/// <param name="HotMetalCarbonPercent">Hot-metal carbon, mass %.</param>
/// <param name="HotMetalSiliconPercent">Hot-metal silicon, mass %.</param>
/// <param name="HotMetalManganesePercent">Hot-metal manganese, mass %.</param>
/// <param name="HotMetalPhosphorusPercent">Hot-metal phosphorus, mass %.</param>
/// <param name="HotMetalSulphurPercent">Hot-metal sulphur, mass %.</param>
/// <param name="ScrapMassPercent">Scrap mass by class, % of the value.</param>
/// <param name="ScrapResidualPercent">Cu, Sn, Ni, Cr, Mo and S of scrap by class, % of the value (log-normal).</param>
/// <param name="AdditionMassPercent">Mass of each addition, % of the value.</param>
/// <param name="OxygenPercent">Oxygen meter, % of the value.</param>
/// <param name="LanceHeightM">Lance height over the bath, level error included, m.</param>
/// <param name="RetainedSlagPercent">Retained slag, % of the value.</param>
/// <param name="LiningStartK">Temperature of the hot face when charging, K.</param>
public sealed record InputSpread(
    double HotMetalMassPercent = 0.5,
    double HotMetalTemperatureK = 7,
    double HotMetalCarbonPercent = 0.05,
    double HotMetalSiliconPercent = 0.03,
    double HotMetalManganesePercent = 0.01,
    double HotMetalPhosphorusPercent = 0.003,
    double HotMetalSulphurPercent = 0.002,
    double ScrapMassPercent = 1,
    double ScrapResidualPercent = 15,
    double AdditionMassPercent = 0.75,
    double OxygenPercent = 1,
    double LanceHeightM = 0.10,
    double RetainedSlagPercent = 20,
    double LiningStartK = 25)
{
    /// <summary>The values the program starts with.</summary>
    public static InputSpread Default { get; } = new();

    /// <summary>Everything is as weighed.</summary>
    public static InputSpread None { get; } = new(0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0);
}
