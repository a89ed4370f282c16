// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Converter.Charge;

/// <summary>
/// The nearest miss of a problem that cannot be met: every row may be violated at its weight, the variables' own bounds
/// and rows of infinite weight may not, and the total weighted violation is least. Says which limits stand against
/// each other: those with a violation, a dual or a reduced cost.
/// </summary>
/// <param name="Status">
/// Optimal when the miss was found; Infeasible when the bounds and the rows of infinite weight already contradict each other.
/// </param>
/// <param name="Total">Sum of weight times violation; zero (to rounding) when the problem can be met; NaN unless optimal.</param>
/// <param name="Values">Value of each variable at the nearest miss.</param>
/// <param name="Violations">
/// By row, in the row's unit: positive above the upper bound, negative below the lower, zero inside. When a row's
/// bounds cross, the larger of its two misses.
/// </param>
/// <param name="Duals">Change of <paramref name="Total"/> per unit by which the row's bound is raised: not zero for every row in the conflict.</param>
/// <param name="ReducedCosts">Change of <paramref name="Total"/> per unit by which the variable's binding bound is raised.</param>
public sealed record LeastViolation(
    LinearStatus Status,
    double Total,
    double[] Values,
    double[] Violations,
    double[] Duals,
    double[] ReducedCosts)
{
    /// <summary>Finds the nearest miss with any solver. Costs play no part.</summary>
    /// <exception cref="LinearProblemException">The problem is malformed (see <see cref="LinearProblem.Validate"/>).</exception>
    public static LeastViolation Of(ILinearProgram solver, LinearProblem problem)
    {
        ArgumentNullException.ThrowIfNull(solver);
        ArgumentNullException.ThrowIfNull(problem);
        problem.Validate();
        LinearSolution solution = solver.Solve(Relax(problem));
        if (solution.Status != LinearStatus.Optimal)
        {
            return new LeastViolation(solution.Status, double.NaN, [], [], [], []);
        }

        int variables = problem.Variables.Count;
        int rows = problem.Rows.Count;
        double[] values = solution.Values[..variables];
        double[] violations = new double[rows];
        for (int i = 0; i < rows; i++)
        {
            LinearRow row = problem.Rows[i];
            double sum = row.Terms.Sum(term => term.Coefficient * values[term.Variable]);
            double above = Math.Max(0, sum - row.Upper);
            double below = Math.Max(0, row.Lower - sum);
            violations[i] = above >= below ? above : -below;
        }

        return new LeastViolation(
            LinearStatus.Optimal,
            solution.Cost,
            values,
            violations,
            [.. solution.Duals[..rows].Zip(solution.Duals[rows..], (upper, lower) => upper + lower)],
            solution.ReducedCosts[..variables]);
    }

    /// <summary>
    /// Each row becomes two: sum − above ≤ upper, and sum + below ≥ lower, with above and below not negative at the row's
    /// weight. Two, so that crossed bounds are no special case.
    /// </summary>
    private static LinearProblem Relax(LinearProblem problem)
    {
        var variables = new List<LinearVariable>(problem.Variables.Select(v => v with { Cost = 0 }));
        var upper = new List<LinearRow>(problem.Rows.Count);
        var lower = new List<LinearRow>(problem.Rows.Count);
        foreach (LinearRow row in problem.Rows)
        {
            upper.Add(row with { Lower = double.NegativeInfinity, Terms = WithSlack(row, -1, double.IsPositiveInfinity(row.Upper)) });
            lower.Add(row with { Upper = double.PositiveInfinity, Terms = WithSlack(row, +1, double.IsNegativeInfinity(row.Lower)) });
        }

        return new LinearProblem(variables, [.. upper, .. lower]);

        IReadOnlyList<LinearTerm> WithSlack(LinearRow row, double sign, bool free)
        {
            if (free || double.IsPositiveInfinity(row.ViolationWeight))
            {
                return row.Terms;
            }

            variables.Add(new LinearVariable("violation of " + row.Name, 0, double.PositiveInfinity, row.ViolationWeight));
            return [.. row.Terms, new LinearTerm(variables.Count - 1, sign)];
        }
    }
}
