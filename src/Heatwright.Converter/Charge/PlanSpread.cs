// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Blow;

namespace Heatwright.Converter.Charge;

/// <summary>
/// How the members of an ensemble scatter about the expected heat, and what of that scatter an in-blow measurement leaves.
/// </summary>
/// <remarks>
/// Without a measurement the scatter of each quantity moves along with the expectation. With one, end temperature and the
/// logarithm of end carbon are regressed over the members on what the measurement would read (its errors included). What
/// the regression explains can be corrected: carbon by oxygen, which moves temperature along; temperature by coolant, down
/// only. What it does not explain remains.
/// </remarks>
internal sealed class PlanSpread
{
    private readonly double[][] _scatter;
    private readonly double[]? _seenK;
    private readonly double[]? _leftK;
    private readonly double[]? _leftCarbon;

    public PlanSpread(PlanPoint at, BlowResult[] runs, double[][] y, PlanMeasurement? measurement, double kelvinPerLogCarbon, int seed)
    {
        _scatter = [.. y.Select(member => member.Zip(at.Y, (v, nominal) => v - nominal).ToArray())];
        if (measurement is null)
        {
            return;
        }

        var noise = new SplitMix64((ulong)seed ^ 0xA5A5A5A5UL);
        double[][] read = [.. runs.Select(r => new[]
        {
            r.Snapshots[0].TemperatureK + (measurement.TemperatureErrorK * NormalDistribution.Quantile(noise.NextUnit())),
            r.Snapshots[0].C + (measurement.CarbonErrorPercent * NormalDistribution.Quantile(noise.NextUnit())),
        })];
        double[] seenCarbon = LeastSquares.Fitted(read, [.. _scatter.Select(s => s[(int)PlanQuantity.Carbon])]);
        double[] seenK = LeastSquares.Fitted(read, [.. _scatter.Select(s => s[(int)PlanQuantity.EndTemperature])]);
        _leftCarbon = [.. _scatter.Select((s, i) => s[(int)PlanQuantity.Carbon] - seenCarbon[i])];
        _leftK = [.. _scatter.Select((s, i) => s[(int)PlanQuantity.EndTemperature] - seenK[i])];
        _seenK = [.. seenK.Select((k, i) => k - (kelvinPerLogCarbon * seenCarbon[i]))];
    }

    public int Count => _scatter.Length;

    public bool Measured => _leftK is not null;

    /// <summary>The member keeps the limit when the expectation is <paramref name="nominal"/> (inner units).</summary>
    public bool Holds(int member, PlanLimit limit, double nominal, bool measured, double targetK)
    {
        double value = nominal + _scatter[member][(int)limit.Quantity];
        if (measured && limit.Quantity == PlanQuantity.EndTemperature)
        {
            value = Math.Min(nominal + _seenK![member], Math.Max(targetK, nominal - 500)) + _leftK![member];
        }
        else if (measured && limit.Quantity == PlanQuantity.Carbon)
        {
            value = nominal + _leftCarbon![member];
        }

        return (limit.Least is not { } least || value >= PlanQuantities.Inner(limit.Quantity, least))
            && (limit.Most is not { } most || value <= PlanQuantities.Inner(limit.Quantity, most));
    }

    /// <summary>Temperature that the correction steers to: the aim, else the middle of the window.</summary>
    public static double TargetK(PlanLimit temperature, double nominalK) =>
        temperature.Aim ?? (temperature.Least is { } a && temperature.Most is { } b ? (a + b) / 2 : nominalK);

    public double Chance(PlanLimit limit, double nominal, bool measured)
    {
        int held = 0;
        double target = TargetK(limit, nominal);
        for (int i = 0; i < Count; i++)
        {
            held += Holds(i, limit, nominal, measured, target) ? 1 : 0;
        }

        return (double)held / Count;
    }

    /// <summary>
    /// The expectations for which the window is met with the probability, by scanning; null with the best one when there is none.
    /// </summary>
    public (PlanRange? Range, double Best, double BestChance) Nominal(PlanLimit limit, double probability)
    {
        PlanQuantity q = limit.Quantity;
        bool measured = Measured && q is (PlanQuantity.EndTemperature or PlanQuantity.Carbon);
        double sd = Math.Max(1e-9, Deviation(q, measured));
        double low = limit.Least is { } a ? PlanQuantities.Inner(q, a) - (3 * sd) : PlanQuantities.Inner(q, limit.Most!.Value) - (6 * sd);
        double high = limit.Most is { } b ? PlanQuantities.Inner(q, b) + (3 * sd) : PlanQuantities.Inner(q, limit.Least!.Value) + (6 * sd);
        const int Points = 160;
        double best = low, bestChance = -1;
        double? from = null, to = null;
        for (int i = 0; i <= Points; i++)
        {
            double nominal = low + ((high - low) * i / Points);
            double chance = Chance(limit, nominal, measured);
            if (chance > bestChance)
            {
                best = nominal;
                bestChance = chance;
            }

            if (chance >= probability)
            {
                from ??= nominal;
                to = nominal;
            }
        }

        if (from is null)
        {
            return (null, best, bestChance);
        }

        return (new PlanRange(
            q, limit.Least is null ? double.NegativeInfinity : from.Value, limit.Most is null ? double.PositiveInfinity : to!.Value), best, bestChance);
    }

    /// <summary>Standard deviation in the inner unit.</summary>
    public double Deviation(PlanQuantity q, bool measured)
    {
        double[] values = measured && q == PlanQuantity.EndTemperature ? _leftK!
            : measured && q == PlanQuantity.Carbon ? _leftCarbon!
            : [.. _scatter.Select(s => s[(int)q])];
        double mean = values.Average();
        return Math.Sqrt(values.Sum(v => (v - mean) * (v - mean)) / Math.Max(1, values.Length - 1));
    }

    public PlanChances Report(IReadOnlyList<PlanLimit> limits, PlanPoint at, double asked)
    {
        PlanLimit[] windows = [.. limits.Where(l => PlanQuantities.HasChance(l.Quantity))];
        int without = 0, with = 0;
        double target = windows.Where(l => l.Quantity == PlanQuantity.EndTemperature).Select(l => TargetK(l, at.Y[(int)l.Quantity])).FirstOrDefault();
        for (int i = 0; i < Count; i++)
        {
            without += windows.All(l => Holds(i, l, at.Y[(int)l.Quantity], false, target)) ? 1 : 0;
            with += Measured && windows.All(l => Holds(i, l, at.Y[(int)l.Quantity], true, target)) ? 1 : 0;
        }

        return new PlanChances(
            asked, [.. windows.Select(l => One(l, at))], (double)without / Count, Measured ? (double)with / Count : double.NaN, Count);
    }

    private PlanChance One(PlanLimit limit, PlanPoint at)
    {
        PlanQuantity q = limit.Quantity;
        double[] values = [.. _scatter.Select(s => PlanQuantities.Outer(q, at.Y[(int)q] + s[(int)q]))];
        double mean = values.Average();
        double sd = Math.Sqrt(values.Sum(v => (v - mean) * (v - mean)) / Math.Max(1, values.Length - 1));
        double left = q is PlanQuantity.EndTemperature or PlanQuantity.Carbon && Measured
            ? Deviation(q, true) * (q == PlanQuantity.Carbon ? PlanQuantities.Outer(q, at.Y[(int)q]) : 1)
            : sd;
        return new PlanChance(
            q,
            Chance(limit, at.Y[(int)q], false),
            Measured ? Chance(limit, at.Y[(int)q], q is PlanQuantity.EndTemperature or PlanQuantity.Carbon) : double.NaN,
            mean,
            sd,
            Measured ? left : double.NaN);
    }
}

/// <summary>Ordinary least squares on two readings with their squares and product: enough curvature for an end of blow.</summary>
internal static class LeastSquares
{
    public static double[] Fitted(double[][] read, double[] y)
    {
        double[] mean = [read.Average(r => r[0]), read.Average(r => r[1])];
        double[] sd = [Spread(read, 0, mean[0]), Spread(read, 1, mean[1])];
        double[][] terms = [.. read.Select(r =>
        {
            double a = (r[0] - mean[0]) / sd[0];
            double b = (r[1] - mean[1]) / sd[1];
            return new[] { 1, a, b, a * a, a * b, b * b };
        })];
        int n = terms[0].Length;
        double[,] normal = new double[n, n + 1];
        for (int i = 0; i < terms.Length; i++)
        {
            for (int r = 0; r < n; r++)
            {
                for (int c = 0; c < n; c++)
                {
                    normal[r, c] += terms[i][r] * terms[i][c];
                }

                normal[r, n] += terms[i][r] * y[i];
            }
        }

        double[] b0 = Solve(normal, n);
        return [.. terms.Select(t => t.Zip(b0, (x, c) => x * c).Sum())];
    }

    private static double Spread(double[][] read, int column, double mean) =>
        Math.Max(1e-9, Math.Sqrt(read.Average(r => (r[column] - mean) * (r[column] - mean))));

    // Gauss elimination with pivots; a ridge of 1e-9 of the count keeps a column that never varies from dividing by zero.
    private static double[] Solve(double[,] a, int n)
    {
        double ridge = 1e-9 * Math.Max(1, a[0, 0]);
        for (int i = 0; i < n; i++)
        {
            a[i, i] += ridge;
        }

        for (int k = 0; k < n; k++)
        {
            int pivot = k;
            for (int i = k + 1; i < n; i++)
            {
                pivot = Math.Abs(a[i, k]) > Math.Abs(a[pivot, k]) ? i : pivot;
            }

            for (int c = 0; c <= n; c++)
            {
                (a[k, c], a[pivot, c]) = (a[pivot, c], a[k, c]);
            }

            for (int i = k + 1; i < n; i++)
            {
                double f = a[i, k] / a[k, k];
                for (int c = k; c <= n; c++)
                {
                    a[i, c] -= f * a[k, c];
                }
            }
        }

        double[] x = new double[n];
        for (int i = n - 1; i >= 0; i--)
        {
            double sum = a[i, n];
            for (int c = i + 1; c < n; c++)
            {
                sum -= a[i, c] * x[c];
            }

            x[i] = sum / a[i, i];
        }

        return x;
    }
}
