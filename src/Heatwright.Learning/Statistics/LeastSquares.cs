// SPDX-License-Identifier: Apache-2.0
using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;

namespace Heatwright.Learning.Statistics;

/// <summary>One coefficient of a fit.</summary>
/// <param name="Name">What it multiplies.</param>
/// <param name="Value">Estimate, in units of the answer per unit of the input.</param>
/// <param name="StandardError">Its standard error, same unit.</param>
/// <param name="HalfWidth95">Half width of the 95 % confidence interval by Student's t.</param>
public sealed record Coefficient(string Name, double Value, double StandardError, double HalfWidth95)
{
    /// <summary>True when the 95 % interval holds zero.</summary>
    public bool ZeroInside => Math.Abs(Value) <= HalfWidth95;
}

/// <summary>
/// Ordinary least squares with an intercept: y = b₀ + Σ bⱼ xⱼ, standard errors by s² (XᵀX)⁻¹ and intervals by Student's t with n − p
/// degrees of freedom (any textbook of statistics, e.g. Draper &amp; Smith, Applied Regression Analysis, 1998, chapters 1 and 5). Columns
/// are centred and scaled before the solution by QR.
/// </summary>
public sealed class LeastSquares
{
    private readonly double[] _mean;
    private readonly double[] _slope;
    private readonly double _level;

    private LeastSquares(double[] mean, double[] slope, double level, IReadOnlyList<Coefficient> coefficients, double residualSd)
    {
        _mean = mean;
        _slope = slope;
        _level = level;
        Coefficients = coefficients;
        ResidualSd = residualSd;
    }

    /// <summary>Slopes in the order of the inputs.</summary>
    public IReadOnlyList<Coefficient> Coefficients { get; }

    /// <summary>√(residual sum of squares/(n − p)).</summary>
    public double ResidualSd { get; }

    /// <summary>Fits.</summary>
    /// <param name="names">Names of the inputs.</param>
    /// <param name="rows">One row of inputs per observation.</param>
    /// <param name="answers">One answer per observation.</param>
    /// <exception cref="ArgumentException">There are not more observations than coefficients, lengths differ, or inputs are linearly dependent.</exception>
    public static LeastSquares Fit(IReadOnlyList<string> names, IReadOnlyList<double[]> rows, IReadOnlyList<double> answers)
    {
        ArgumentNullException.ThrowIfNull(names);
        ArgumentNullException.ThrowIfNull(rows);
        ArgumentNullException.ThrowIfNull(answers);
        int n = rows.Count;
        int k = names.Count;
        if (answers.Count != n || rows.Any(r => r.Length != k))
        {
            throw new ArgumentException($"There are {n} rows, {answers.Count} answers and {k} names; give one answer per row and one value per name.", nameof(rows));
        }

        if (n < k + 2)
        {
            throw new ArgumentException($"{n} observations cannot settle {k + 1} coefficients and their errors; give at least {k + 2}.", nameof(rows));
        }

        double[] mean = [.. Enumerable.Range(0, k).Select(j => rows.Average(r => r[j]))];
        double[] scale = [.. Enumerable.Range(0, k).Select(j => Math.Sqrt(rows.Average(r => (r[j] - mean[j]) * (r[j] - mean[j]))))];
        for (int j = 0; j < k; j++)
        {
            if (!(scale[j] > 1e-12 * Math.Max(1, Math.Abs(mean[j]))))
            {
                throw new ArgumentException($"'{names[j]}' has one value only ({mean[j]:G6}); leave it out.", nameof(rows));
            }
        }

        double level = answers.Average();
        Matrix<double> x = Matrix<double>.Build.Dense(n, k, (i, j) => (rows[i][j] - mean[j]) / scale[j]);
        Vector<double> y = Vector<double>.Build.Dense(n, i => answers[i] - level);
        Matrix<double> normal = x.TransposeThisAndMultiply(x);
        if (normal.ConditionNumber() > 1e12)
        {
            throw new ArgumentException("The inputs are linearly dependent; leave one of them out.", nameof(rows));
        }

        Vector<double> b = x.QR().Solve(y);
        double variance = (y - (x * b)).PointwisePower(2).Sum() / (n - k - 1);
        Matrix<double> inverse = normal.Inverse();
        double t = StudentT.InvCDF(0, 1, n - k - 1, 0.975);
        var coefficients = new Coefficient[k];
        double[] slope = new double[k];
        for (int j = 0; j < k; j++)
        {
            slope[j] = b[j] / scale[j];
            double error = Math.Sqrt(variance * inverse[j, j]) / scale[j];
            coefficients[j] = new Coefficient(names[j], slope[j], error, t * error);
        }

        return new LeastSquares(mean, slope, level, coefficients, Math.Sqrt(variance));
    }

    /// <summary>The answer for one row of inputs.</summary>
    public double Predict(IReadOnlyList<double> row)
    {
        ArgumentNullException.ThrowIfNull(row);
        double sum = _level;
        for (int j = 0; j < _slope.Length; j++)
        {
            sum += _slope[j] * (row[j] - _mean[j]);
        }

        return sum;
    }
}
