// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Converter.Blow;

/// <summary>
/// The few things about a heat that no one can weigh. What is called a scale is 1 for the model as published in the
/// handbook; the rest carries its unit. These are what is learnt from finished heats; nothing in the equations is.
/// </summary>
/// <param name="HeatLossScale">Multiplies the losses through mouth, lance and shell and the uptake of the lining.</param>
/// <param name="OxygenUse">Share of the metered oxygen that reaches the bath.</param>
/// <param name="PostCombustion">Share of the oxygen that burns CO to CO2 in the vessel at the reference lance height.</param>
/// <param name="PostCombustionHeatShare">Share of that heat that comes down to slag and metal.</param>
/// <param name="IronOxidationShare">Share of the jets' oxygen that oxidises iron when they meet no carbon at all; the rest burns CO above the bath or leaves. Where carbon takes part of the oxygen, the share that passes falls with the eighth power of what is left over.</param>
/// <param name="JetTransfer">Scale of metal transport to the jet cavities.</param>
/// <param name="DropletBirth">Metal in the slag over the droplet rate of the published blowing-number correlation: what the blow mixes in, not single drops alone (handbook, chapter 40).</param>
/// <param name="SlagReduction">Scale of the reduction of iron oxide by droplets.</param>
/// <param name="Interface">Scale of transport on both sides of the slag–metal interface.</param>
/// <param name="LimeDissolution">Scale of lime and dolomite dissolution.</param>
/// <param name="ScrapTransfer">Scale of heat and carbon transfer to scrap.</param>
/// <param name="PhosphorusOffset">Added to log10 of the phosphorus partition.</param>
/// <param name="ManganeseOffset">Added to log10 of the manganese partition.</param>
/// <param name="FoamScale">Scale of the foam height.</param>
/// <param name="DustScale">Scale of fume and spray.</param>
/// <param name="FerricShare">Share of the iron in slag oxide that is trivalent.</param>
/// <param name="BathCoPressure">Pressure at which CO bubbles form in the quiet bath, atm.</param>
/// <param name="LiningWear">Scale of the magnesia pick-up from the lining.</param>
public sealed record ModelParameters(
    double HeatLossScale = 1,
    double OxygenUse = 0.94,
    double PostCombustion = 0.05,
    double PostCombustionHeatShare = 0.5,
    double IronOxidationShare = 0.8,
    double JetTransfer = 1,
    double DropletBirth = 60,
    double SlagReduction = 1,
    double Interface = 1,
    double LimeDissolution = 1,
    double ScrapTransfer = 1,
    double PhosphorusOffset = -0.45,
    double ManganeseOffset = 0.1,
    double FoamScale = 1,
    double DustScale = 1,
    double FerricShare = 0.15,
    double BathCoPressure = 1.3,
    double LiningWear = 1)
{
    /// <summary>The values the program starts with, before any heat has been learnt from.</summary>
    public static ModelParameters Default { get; } = new();
}
