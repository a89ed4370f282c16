// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Learning.Validation;

/// <summary>
/// Carbon of hot metal that was not analysed. Iron from the furnace cools by about 100 °C on its way and throws out graphite, so it comes
/// to the converter near saturation.
/// </summary>
public static class HotMetalCarbon
{
    /// <summary>Half width of the band, mass % (common practice, no source: converter hot metal of 1350–1450 °C has 4.4–4.8 % C).</summary>
    public const double BandPercent = 0.15;

    /// <summary>
    /// Carbon at graphite saturation, mass %: 1.30 + 0.00257 t − 0.31 Si − 0.33 P − 0.40 S + 0.027 Mn, t in °C, elements in mass %.
    /// Temperature terms: Chipman / Neumann, from memory (4.77 % at 1350 °C; Gokcen's activities give 4.76 %); the terms of the other
    /// elements: Neumann, Schenck &amp; Patterson 1959–60, from memory.
    /// </summary>
    /// <param name="temperatureC">Temperature, °C, 1150–1600.</param>
    /// <param name="analysis">Other elements.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature lies outside 1150–1600 °C.</exception>
    public static double SaturationPercent(double temperatureC, RecordedAnalysis analysis)
    {
        ArgumentNullException.ThrowIfNull(analysis);
        if (!(temperatureC is >= 1150 and <= 1600))
        {
            throw new ArgumentOutOfRangeException(nameof(temperatureC), temperatureC, $"hot metal temperature is {temperatureC:G6} °C; it must lie between 1150 and 1600 °C.");
        }

        return 1.30 + (0.00257 * temperatureC) - (0.31 * analysis.Si) - (0.33 * analysis.P) - (0.40 * analysis.S) + (0.027 * analysis.Mn);
    }
}
