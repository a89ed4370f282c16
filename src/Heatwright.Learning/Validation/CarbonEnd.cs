// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter;
using Heatwright.Converter.Blow;

namespace Heatwright.Learning.Validation;

/// <summary>The model's heat at the moment when its carbon is a wanted one.</summary>
/// <param name="Reached">False where the carbon stays above the wanted value to the end of the long blow; the point is then the last one.</param>
/// <param name="OxygenNm3">Oxygen metered, Nm³.</param>
/// <param name="TimeS">Time since hot metal was on the scrap, s.</param>
/// <param name="TemperatureC">Metal temperature, °C.</param>
/// <param name="FeO">FetO in the slag, mass %.</param>
/// <param name="UnmeltedScrapKg">Scrap and frozen metal left, kg.</param>
public sealed record CarbonEndPoint(bool Reached, double OxygenNm3, double TimeS, double TemperatureC, double FeO, double UnmeltedScrapKg);

/// <summary>Blows heats past their end and finds the moment of a given carbon.</summary>
public static class CarbonEnd
{
    private const double FirstPercent = 80;
    private const double StepPercent = 0.5;

    private static readonly double[] Shares =
        [.. Enumerable.Range(0, (int)Math.Round(((100 * AssumedPlant.BlownFraction) - FirstPercent) / StepPercent) + 1).Select(i => FirstPercent + (i * StepPercent))];

    /// <summary>Runs all heats as one batch; heat i ends at carbon i, mass %.</summary>
    public static CarbonEndPoint[] Find(IReadOnlyList<HeatInput> heats, IReadOnlyList<double> carbonPercent, ModelParameters parameters)
    {
        ArgumentNullException.ThrowIfNull(heats);
        ArgumentNullException.ThrowIfNull(carbonPercent);
        BlowResult[] results = BlowModel.Run(heats, [.. Enumerable.Repeat(parameters, heats.Count)], new BlowOptions(SnapshotPercents: Shares));
        return [.. results.Select((r, i) => At(r.Snapshots, carbonPercent[i], heats[i].Programme.OxygenNm3))];
    }

    /// <summary>Between two points of a course: linear in ln C.</summary>
    public static CarbonEndPoint At(IReadOnlyList<BlowPoint> course, double carbonPercent, double plannedOxygenNm3)
    {
        ArgumentNullException.ThrowIfNull(course);
        for (int i = 1; i < course.Count; i++)
        {
            BlowPoint a = course[i - 1];
            BlowPoint b = course[i];
            if (b.C <= carbonPercent)
            {
                // The first point below already: take it, extrapolating nothing.
                double f = a.C > carbonPercent && a.C > b.C ? Math.Log(a.C / carbonPercent) / Math.Log(a.C / b.C) : 0;
                return new CarbonEndPoint(
                    true,
                    Between(a.OxygenPercent, b.OxygenPercent, f) * plannedOxygenNm3 / 100,
                    Between(a.TimeS, b.TimeS, f),
                    Between(a.TemperatureC, b.TemperatureC, f),
                    Between(a.FeO, b.FeO, f),
                    Between(Unmelted(a), Unmelted(b), f));
            }
        }

        BlowPoint last = course[^1];
        return new CarbonEndPoint(false, last.OxygenPercent * plannedOxygenNm3 / 100, last.TimeS, last.TemperatureC, last.FeO, Unmelted(last));
    }

    private static double Unmelted(BlowPoint p) => p.ScrapKg.Sum() + p.ShellKg;

    private static double Between(double a, double b, double f) => a + (f * (b - a));
}
