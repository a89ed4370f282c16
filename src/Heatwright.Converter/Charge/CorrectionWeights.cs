// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Blow;

namespace Heatwright.Converter.Charge;

/// <summary>
/// Importance weights of members from one measurement. Where a sharp reading would leave too few effective members
/// (Kish's 1/Σw²), its information is tempered (likelihood to a power below 1) until enough remain: odds of a handful of
/// members would only look sure.
/// </summary>
internal static class CorrectionWeights
{
    public static (double[] Weights, double Tempered, Surprise Surprise) Of(BlowResult[] runs, InBlowMeasurement m, double leastMembers)
    {
        double[] log = new double[runs.Length];
        for (int i = 0; i < runs.Length; i++)
        {
            BlowPoint p = runs[i].Snapshots[0];
            double t = (p.TemperatureK - m.TemperatureK) / m.TemperatureErrorK;
            double c = m.CarbonPercent is { } carbon ? (p.C - carbon) / m.CarbonErrorPercent : 0;
            log[i] = -0.5 * ((t * t) + (c * c));
        }

        double power = 1;
        double[] weights = Weights(log, 1);
        double wanted = Math.Min(leastMembers, runs.Length / 4.0);
        if (Effective(weights) < wanted)
        {
            double low = 0, high = 1;
            for (int i = 0; i < 40; i++)
            {
                power = 0.5 * (low + high);
                (low, high) = Effective(Weights(log, power)) < wanted ? (low, power) : (power, high);
            }

            power = low;
            weights = Weights(log, power);
        }

        return (weights, power, Surprised(runs, m));
    }

    public static double Effective(double[] weights) => 1 / weights.Sum(w => w * w);

    private static double[] Weights(double[] log, double power)
    {
        double most = log.Max();
        double[] w = [.. log.Select(l => Math.Exp(power * (l - most)))];
        double sum = w.Sum();
        return [.. w.Select(x => x / sum)];
    }

    /// <summary>
    /// Squared Mahalanobis distance of the reading from the cloud of readings that the members would give, against the χ²
    /// distribution with as many degrees of freedom as were read.
    /// </summary>
    private static Surprise Surprised(BlowResult[] runs, InBlowMeasurement m)
    {
        double n = runs.Length;
        double t = runs.Average(r => r.Snapshots[0].TemperatureK), c = runs.Average(r => r.Snapshots[0].C);
        double tt = runs.Sum(r => Math.Pow(r.Snapshots[0].TemperatureK - t, 2)) / (n - 1), cc = runs.Sum(r => Math.Pow(r.Snapshots[0].C - c, 2)) / (n - 1);
        double tc = runs.Sum(r => (r.Snapshots[0].TemperatureK - t) * (r.Snapshots[0].C - c)) / (n - 1);
        tt += m.TemperatureErrorK * m.TemperatureErrorK;
        cc += m.CarbonErrorPercent * m.CarbonErrorPercent;
        double dt = m.TemperatureK - t;
        double share;
        if (m.CarbonPercent is { } carbon)
        {
            double dc = carbon - c;
            double squared = ((dt * dt * cc) - (2 * dt * dc * tc) + (dc * dc * tt)) / ((tt * cc) - (tc * tc));
            share = 1 - Math.Exp(-squared / 2);
        }
        else
        {
            share = NormalDistribution.TwoSided(Math.Abs(dt) / Math.Sqrt(tt));
        }

        return new Surprise(t, Math.Sqrt(tt), c, Math.Sqrt(cc), share, share > 0.99);
    }
}
