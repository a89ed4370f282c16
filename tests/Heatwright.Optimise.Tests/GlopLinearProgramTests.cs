// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Charge;
using static Heatwright.Optimise.Tests.Problems;

namespace Heatwright.Optimise.Tests;

public sealed class GlopLinearProgramTests : IDisposable
{
    private const int Digits = 9;
    private readonly GlopLinearProgram _solver = new();

    public void Dispose() => _solver.Dispose();

    /// <summary>
    /// The Wyndor problem of Hillier and Lieberman, Introduction to Operations Research (from memory): maximise 3a + 5b
    /// with a ≤ 4, 2b ≤ 12, 3a + 2b ≤ 18. Optimum 36 at (2, 6), shadow prices 0, 3/2 and 1.
    /// </summary>
    [Fact]
    public void Textbook_case_has_its_optimum_and_shadow_prices()
    {
        LinearSolution s = _solver.Solve(new LinearProblem(
            [Variable("a", -3), Variable("b", -5)],
            [AtMost("one", 4, (0, 1)), AtMost("two", 12, (1, 2)), AtMost("three", 18, (0, 3), (1, 2))]));

        Assert.Equal(LinearStatus.Optimal, s.Status);
        Assert.Equal(-36, s.Cost, Digits);
        Assert.Equal([2.0, 6.0], s.Values.Select(v => Math.Round(v, Digits)));
        Assert.Equal([2.0, 12.0, 18.0], s.Activities.Select(v => Math.Round(v, Digits)));
        Assert.Equal([0.0, -1.5, -1.0], s.Duals.Select(v => Math.Round(v, Digits)));
        Assert.Equal([0.0, 0.0], s.ReducedCosts.Select(v => Math.Round(v, Digits)));
    }

    /// <summary>
    /// By hand: 160 t of charge from hot metal (300 per t, heat +1 per t) and scrap (250 per t, heat −3 per t, at most 30 t)
    /// with a heat surplus of at least 20. The scrap limit binds, heat does not: 130 t and 30 t, cost 46 500. One more
    /// tonne of charge is hot metal (300); one more tonne of allowed scrap replaces hot metal (−50).
    /// </summary>
    [Fact]
    public void Binding_stock_shows_as_reduced_cost_and_binding_row_as_dual()
    {
        LinearSolution s = _solver.Solve(new LinearProblem(
            [Variable("hot metal t", 300), Variable("scrap t", 250, 0, 30)],
            [Exactly("charge t", 160, (0, 1), (1, 1)), AtLeast("heat", 20, (0, 1), (1, -3))]));

        Assert.Equal(LinearStatus.Optimal, s.Status);
        Assert.Equal(46_500, s.Cost, Digits);
        Assert.Equal(130, s.Values[0], Digits);
        Assert.Equal(30, s.Values[1], Digits);
        Assert.Equal(300, s.Duals[0], Digits);
        Assert.Equal(0, s.Duals[1], Digits);
        Assert.Equal(-50, s.ReducedCosts[1], Digits);
    }

    [Fact]
    public void Contradicting_rows_are_infeasible()
    {
        LinearSolution s = _solver.Solve(new LinearProblem(
            [Variable("x", 1), Variable("y", 1)],
            [AtLeast("low", 3, (0, 1), (1, 1)), AtMost("high", 2, (0, 1), (1, 1))]));

        Assert.Equal(LinearStatus.Infeasible, s.Status);
        Assert.Empty(s.Values);
        Assert.True(double.IsNaN(s.Cost));
    }

    [Fact]
    public void Crossed_row_bounds_are_infeasible()
    {
        LinearSolution s = _solver.Solve(new LinearProblem([Variable("x", 1)], [new LinearRow("window", 5, 4, [new LinearTerm(0, 1)])]));
        Assert.Equal(LinearStatus.Infeasible, s.Status);
    }

    [Fact]
    public void Cost_that_falls_for_ever_is_unbounded()
    {
        LinearSolution s = _solver.Solve(new LinearProblem(
            [Variable("x", -1), Variable("y", 1)],
            [AtMost("difference", 1, (0, 1), (1, -2))]));

        Assert.Equal(LinearStatus.Unbounded, s.Status);
        Assert.Empty(s.Values);
    }

    [Fact]
    public void Infeasible_wins_over_unbounded()
    {
        LinearSolution s = _solver.Solve(new LinearProblem(
            [Variable("x", -1), Variable("y", 0, 0, 1)],
            [AtLeast("too much", 2, (1, 1))]));

        Assert.Equal(LinearStatus.Infeasible, s.Status);
    }

    [Fact]
    public void No_rows_leaves_every_variable_at_its_cheap_bound()
    {
        LinearSolution s = _solver.Solve(new LinearProblem([Variable("x", 2, -3, 5), Variable("y", -1, -3, 5)], []));
        Assert.Equal(LinearStatus.Optimal, s.Status);
        Assert.Equal([-3.0, 5.0], s.Values);
        Assert.Equal([2.0, -1.0], s.ReducedCosts);
    }

    /// <summary>The native model is reused between problems of one size: nothing of the last problem may remain in it.</summary>
    [Fact]
    public void Reused_solver_answers_as_a_fresh_one()
    {
        LinearProblem first = new(
            [Variable("x", -1, 0, 4), Variable("y", -1, 0, 4)],
            [AtMost("sum", 5, (0, 1), (1, 1)), AtMost("x", 3, (0, 1))]);
        LinearProblem second = new(
            [Variable("x", 0, -2), Variable("y", -1)],
            [AtMost("y", 7, (1, 1)), AtLeast("x", -1, (0, 1))]);
        LinearProblem unbounded = new([Variable("x", -1), Variable("y", 0)], [AtMost("y", 7, (1, 1)), AtMost("y again", 7, (1, 1))]);

        foreach (LinearProblem problem in new[] { first, second, unbounded, first, new([Variable("z", 1, 1)], []), second })
        {
            using var fresh = new GlopLinearProgram();
            LinearSolution expected = fresh.Solve(problem);
            LinearSolution actual = _solver.Solve(problem);
            Assert.Equal(expected.Status, actual.Status);
            Assert.Equal(expected.Cost, actual.Cost, Digits);
            Assert.Equal(expected.Duals.Select(d => Math.Round(d, Digits)), actual.Duals.Select(d => Math.Round(d, Digits)));
        }
    }
}
