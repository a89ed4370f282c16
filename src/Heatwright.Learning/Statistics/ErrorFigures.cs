// SPDX-License-Identifier: Apache-2.0
using MathNet.Numerics.Distributions;
using MathNet.Numerics.Statistics;

namespace Heatwright.Learning.Statistics;

/// <summary>How far predictions lie from what was measured. Errors are measured − predicted, in the unit of the quantity.</summary>
/// <param name="Count">Number of pairs.</param>
/// <param name="Bias">Mean error.</param>
/// <param name="Sd">Standard deviation of the errors about their mean (n − 1).</param>
/// <param name="Rmse">Root of the mean squared error.</param>
/// <param name="MeanAbsolute">Mean absolute error.</param>
/// <param name="BiasHalfWidth95">Half width of the 95 % interval of the bias by Student's t.</param>
public sealed record ErrorFigures(int Count, double Bias, double Sd, double Rmse, double MeanAbsolute, double BiasHalfWidth95)
{
    /// <summary>Figures of a set of errors.</summary>
    /// <exception cref="ArgumentException">There are fewer than two.</exception>
    public static ErrorFigures Of(IReadOnlyList<double> errors)
    {
        ArgumentNullException.ThrowIfNull(errors);
        int n = errors.Count;
        if (n < 2)
        {
            throw new ArgumentException($"There are {n} errors; at least two are needed for a spread.", nameof(errors));
        }

        double bias = errors.Average();
        double sd = Math.Sqrt(errors.Sum(e => (e - bias) * (e - bias)) / (n - 1));
        return new ErrorFigures(
            n,
            bias,
            sd,
            Math.Sqrt(errors.Average(e => e * e)),
            errors.Average(Math.Abs),
            StudentT.InvCDF(0, 1, n - 1, 0.975) * sd / Math.Sqrt(n));
    }
}

/// <summary>Quantiles by the definition 7 of Hyndman &amp; Fan, American Statistician 50 (1996) 361: linear between order statistics.</summary>
public static class Quantiles
{
    /// <summary>The quantile at a share between 0 and 1.</summary>
    public static double At(IEnumerable<double> values, double share) => values.QuantileCustom(share, QuantileDefinition.R7);

    /// <summary>The median.</summary>
    public static double Median(IEnumerable<double> values) => At(values, 0.5);

    /// <summary>Robust standard deviation: 1.4826 × median absolute deviation (Rousseeuw &amp; Croux, J. Am. Stat. Assoc. 88 (1993) 1273).</summary>
    public static double RobustSd(IReadOnlyList<double> values)
    {
        double middle = Median(values);
        return 1.4826 * Median(values.Select(v => Math.Abs(v - middle)));
    }
}
