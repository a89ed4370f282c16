// SPDX-License-Identifier: Apache-2.0
using Heatwright.Learning.Statistics;

namespace Heatwright.Learning.Tests.Statistics;

public sealed class StatisticsTests
{
    /// <summary>
    /// NIST Statistical Reference Datasets, Longley (linear regression, higher level of difficulty): certified slopes and standard
    /// deviations (J. W. Longley, J. Am. Stat. Assoc. 62 (1967) 819; certified values from memory, to 10 digits).
    /// </summary>
    [Fact]
    public void Longley_regression_has_the_certified_slopes()
    {
        double[] y = [60323, 61122, 60171, 61187, 63221, 63639, 64989, 63761, 66019, 67857, 68169, 66513, 68655, 69564, 69331, 70551];
        double[][] x =
        [
            [83.0, 234289, 2356, 1590, 107608, 1947], [88.5, 259426, 2325, 1456, 108632, 1948], [88.2, 258054, 3682, 1616, 109773, 1949],
            [89.5, 284599, 3351, 1650, 110929, 1950], [96.2, 328975, 2099, 3099, 112075, 1951], [98.1, 346999, 1932, 3594, 113270, 1952],
            [99.0, 365385, 1870, 3547, 115094, 1953], [100.0, 363112, 3578, 3350, 116219, 1954], [101.2, 397469, 2904, 3048, 117388, 1955],
            [104.6, 419180, 2822, 2857, 118734, 1956], [108.4, 442769, 2936, 2798, 120445, 1957], [110.8, 444546, 4681, 2637, 121950, 1958],
            [112.6, 482704, 3813, 2552, 123366, 1959], [114.2, 502601, 3931, 2514, 125368, 1960], [115.7, 518173, 4806, 2572, 127852, 1961],
            [116.9, 554894, 4007, 2827, 130081, 1962],
        ];
        LeastSquares fit = LeastSquares.Fit(["deflator", "product", "unemployed", "forces", "population", "year"], x, y);
        double[] slopes = [15.06187227, -0.03581917929, -2.020229804, -1.033226867, -0.05110410565, 1829.151465];
        double[] errors = [84.91492577, 0.03349100776, 0.4883996817, 0.2142741632, 0.2260732001, 455.4784991];
        for (int j = 0; j < slopes.Length; j++)
        {
            Assert.Equal(1, fit.Coefficients[j].Value / slopes[j], 1e-6);
            Assert.Equal(1, fit.Coefficients[j].StandardError / errors[j], 1e-6);
        }

        Assert.Equal(304.8540735619638, fit.ResidualSd, 1e-5);
    }

    /// <summary>Student's t: 2.228 at 10 degrees of freedom, 97.5 % (any table).</summary>
    [Fact]
    public void Intervals_use_students_t()
    {
        double[] x = [.. Enumerable.Range(0, 12).Select(i => (double)i)];
        LeastSquares fit = LeastSquares.Fit(["x"], [.. x.Select(v => new[] { v })], [.. x.Select(v => (2 * v) + (v % 2 == 0 ? 1 : -1))]);
        Assert.Equal(2.228, fit.Coefficients[0].HalfWidth95 / fit.Coefficients[0].StandardError, 5e-4);
        Assert.False(fit.Coefficients[0].ZeroInside);
    }

    [Fact]
    public void Interval_holds_the_true_slope_in_about_95_of_100_samples()
    {
        var random = new Random(20250114);
        int inside = 0;
        const int Samples = 400;
        for (int s = 0; s < Samples; s++)
        {
            double[][] x = [.. Enumerable.Range(0, 25).Select(_ => new[] { random.NextDouble(), random.NextDouble() })];
            double[] y = [.. x.Select(v => 5 + (3 * v[0]) - (7 * v[1]) + Normal(random))];
            Coefficient c = LeastSquares.Fit(["a", "b"], x, y).Coefficients[1];
            inside += Math.Abs(c.Value + 7) <= c.HalfWidth95 ? 1 : 0;
        }

        // 95 % of 400 with four standard deviations of the binomial on each side.
        Assert.InRange(inside, 362, 397);
    }

    [Fact]
    public void Prediction_is_exact_on_a_plane()
    {
        double[][] x = [[1, 2], [2, 1], [3, 5], [4, 0], [5, 7]];
        LeastSquares fit = LeastSquares.Fit(["a", "b"], x, [.. x.Select(v => 1 + (2 * v[0]) - (3 * v[1]))]);
        Assert.Equal(1 + 20 - 60, fit.Predict([10, 20]), 1e-9);
    }

    [Fact]
    public void Dependent_constant_or_too_many_inputs_are_refused()
    {
        double[] y = [1, 2, 3, 4, 6];
        Assert.Contains("dependent", Assert.Throws<ArgumentException>(
            () => LeastSquares.Fit(["a", "b"], [[1, 2], [2, 4], [3, 6], [4, 8], [5, 10]], y)).Message, StringComparison.Ordinal);
        Assert.Contains("'b' has one value", Assert.Throws<ArgumentException>(
            () => LeastSquares.Fit(["a", "b"], [[1, 2], [2, 2], [3, 2], [4, 2], [5, 2]], y)).Message, StringComparison.Ordinal);
        Assert.Contains("give at least 4", Assert.Throws<ArgumentException>(
            () => LeastSquares.Fit(["a", "b"], [[1, 2], [2, 1], [3, 2]], [1, 2, 3])).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Error_figures_of_three_errors_by_hand()
    {
        ErrorFigures e = ErrorFigures.Of([1, 2, 6]);
        Assert.Equal(3, e.Bias);
        Assert.Equal(Math.Sqrt(7), e.Sd, 1e-12);
        Assert.Equal(Math.Sqrt(41.0 / 3), e.Rmse, 1e-12);
        Assert.Equal(4.303 * Math.Sqrt(7.0 / 3), e.BiasHalfWidth95, 2e-3);
        Assert.Throws<ArgumentException>(() => ErrorFigures.Of([1]));
    }

    /// <summary>Definition 7: of 1, 2, 3, 4 the quartiles are 1.75, 2.5 and 3.25.</summary>
    [Fact]
    public void Quartiles_lie_between_order_statistics()
    {
        double[] v = [4, 1, 3, 2];
        Assert.Equal([1.75, 2.5, 3.25], [Quantiles.At(v, 0.25), Quantiles.Median(v), Quantiles.At(v, 0.75)]);
        Assert.Equal(1.4826, Quantiles.RobustSd([1, 2, 3, 4, 1000]), 1e-12);
    }

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
