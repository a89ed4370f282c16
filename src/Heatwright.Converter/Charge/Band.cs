// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Converter.Charge;

/// <summary>Where the middle 80 % of equally likely outcomes lie.</summary>
/// <param name="Low">Tenth percentile.</param>
/// <param name="Middle">Median.</param>
/// <param name="High">Ninetieth percentile.</param>
public sealed record Band(double Low, double Middle, double High)
{
    /// <summary>The band of a sample; percentiles by linear interpolation between order statistics (Hyndman and Fan 1996, type 7).</summary>
    /// <exception cref="ArgumentException">The sample is empty.</exception>
    public static Band Of(IEnumerable<double> sample)
    {
        double[] sorted = [.. sample.Order()];
        return sorted.Length == 0
            ? throw new ArgumentException("A band needs at least one outcome.", nameof(sample))
            : new Band(Quantile(sorted, 0.1), Quantile(sorted, 0.5), Quantile(sorted, 0.9));
    }

    private static double Quantile(double[] sorted, double p)
    {
        double place = p * (sorted.Length - 1);
        int below = (int)place;
        return below == sorted.Length - 1 ? sorted[below] : sorted[below] + ((place - below) * (sorted[below + 1] - sorted[below]));
    }
}
