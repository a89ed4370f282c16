// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Charge;

namespace Heatwright.Optimise.Tests;

/// <summary>
/// Solves a small linear program the slow, plain way: every optimum of a bounded problem is reached in a corner, so try
/// every choice of as many limits as there are variables, and keep the cheapest corner that satisfies all. Infinite bounds
/// are replaced by a far box; an optimum that is only reached on the box is unbounded.
/// </summary>
internal static class VertexEnumeration
{
    // Coefficients are small integers, so true corners lie well inside the box and miss a limit by far more than the tolerance.
    private const double Box = 1e6;
    private const double Tolerance = 1e-6;

    public static (LinearStatus Status, double Cost) Solve(LinearProblem problem)
    {
        (LinearStatus boxed, double cost) = Cheapest(problem, Box);
        if (boxed != LinearStatus.Optimal)
        {
            return (boxed, cost);
        }

        double wider = Cheapest(problem, 2 * Box).Cost;
        return wider < cost - 1 ? (LinearStatus.Unbounded, double.NaN) : (LinearStatus.Optimal, cost);
    }

    private static (LinearStatus Status, double Cost) Cheapest(LinearProblem problem, double box)
    {
        int n = problem.Variables.Count;
        var limits = new List<(double[] Normal, double Value)>();
        for (int j = 0; j < n; j++)
        {
            double[] axis = new double[n];
            axis[j] = 1;
            limits.Add((axis, Math.Max(problem.Variables[j].Lower, -box)));
            limits.Add((axis, Math.Min(problem.Variables[j].Upper, box)));
        }

        foreach (LinearRow row in problem.Rows)
        {
            double[] normal = new double[n];
            foreach (LinearTerm term in row.Terms)
            {
                normal[term.Variable] = term.Coefficient;
            }

            limits.AddRange(new[] { row.Lower, row.Upper }.Where(double.IsFinite).Select(bound => (normal, bound)));
        }

        double best = double.PositiveInfinity;
        foreach (int[] choice in Choices(limits.Count, n))
        {
            double[]? corner = Intersect([.. choice.Select(i => limits[i])], n);
            if (corner is not null && Satisfies(problem, corner, box))
            {
                best = Math.Min(best, problem.Variables.Select((v, j) => v.Cost * corner[j]).Sum());
            }
        }

        return double.IsFinite(best) ? (LinearStatus.Optimal, best) : (LinearStatus.Infeasible, double.NaN);
    }

    private static bool Satisfies(LinearProblem problem, double[] x, double box) =>
        problem.Variables.Select((v, j) => Within(x[j], Math.Max(v.Lower, -box), Math.Min(v.Upper, box))).All(ok => ok)
        && problem.Rows.All(row => Within(row.Terms.Sum(t => t.Coefficient * x[t.Variable]), row.Lower, row.Upper));

    private static bool Within(double value, double lower, double upper) => value >= lower - Tolerance && value <= upper + Tolerance;

    /// <summary>Gaussian elimination with row pivoting; null when the limits do not meet in one point.</summary>
    private static double[]? Intersect((double[] Normal, double Value)[] limits, int n)
    {
        double[][] a = [.. limits.Select(l => (double[])[.. l.Normal, l.Value])];
        for (int column = 0; column < n; column++)
        {
            int pivot = Enumerable.Range(column, n - column).MaxBy(i => Math.Abs(a[i][column]));
            if (Math.Abs(a[pivot][column]) < 1e-9)
            {
                return null;
            }

            (a[column], a[pivot]) = (a[pivot], a[column]);
            for (int i = 0; i < n; i++)
            {
                double factor = i == column ? 0 : a[i][column] / a[column][column];
                for (int k = column; factor != 0 && k <= n; k++)
                {
                    a[i][k] -= factor * a[column][k];
                }
            }
        }

        return [.. Enumerable.Range(0, n).Select(i => a[i][n] / a[i][i])];
    }

    private static IEnumerable<int[]> Choices(int count, int size)
    {
        int[] choice = [.. Enumerable.Range(0, size)];
        while (true)
        {
            yield return [.. choice];
            int i = size - 1;
            while (i >= 0 && choice[i] == count - size + i)
            {
                i--;
            }

            if (i < 0)
            {
                yield break;
            }

            choice[i]++;
            for (int k = i + 1; k < size; k++)
            {
                choice[k] = choice[k - 1] + 1;
            }
        }
    }
}
