// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;

namespace Heatwright.Learning.Validation;

/// <summary>
/// Carbon of hot metal that was not analysed. Iron from the furnace cools by about 100 °C on its way and throws out graphite, so it comes
/// to the converter near saturation: <see cref="Liquidus.GraphiteSaturationPercent"/>.
/// </summary>
public static class HotMetalCarbon
{
    /// <summary>Half width of the band, mass % (common practice, no source: converter hot metal of 1350–1450 °C has 4.4–4.8 % C).</summary>
    public const double BandPercent = 0.15;

    /// <summary>Carbon at graphite saturation, mass %.</summary>
    /// <param name="temperatureC">Temperature, °C, 1150–1650.</param>
    /// <param name="analysis">Other elements.</param>
    /// <exception cref="ChemistryRangeException">The temperature lies outside 1150–1650 °C.</exception>
    public static double SaturationPercent(double temperatureC, RecordedAnalysis analysis)
    {
        ArgumentNullException.ThrowIfNull(analysis);
        return Liquidus.GraphiteSaturationPercent(
            temperatureC + PhysicalConstants.ZeroCelsiusK,
            new IronMelt((Element.Si, analysis.Si), (Element.P, analysis.P), (Element.S, analysis.S), (Element.Mn, analysis.Mn)));
    }
}
