// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Charge;
using static Heatwright.Optimise.Tests.Problems;

namespace Heatwright.Optimise.Tests;

public sealed class LeastViolationTests : IDisposable
{
    private const int Digits = 9;
    private readonly GlopLinearProgram _solver = new();

    public void Dispose() => _solver.Dispose();

    [Fact]
    public void Feasible_problem_misses_nothing()
    {
        LeastViolation miss = LeastViolation.Of(_solver, new LinearProblem([Variable("x", -1)], [AtMost("limit", 4, (0, 1))]));
        Assert.Equal(LinearStatus.Optimal, miss.Status);
        Assert.Equal(0, miss.Total, Digits);
        Assert.Equal([0.0], miss.Violations);
    }

    /// <summary>By hand: 50 t of scrap in stock, 160 t of charge asked, at most 100 t of hot metal: 10 t are missing.</summary>
    [Fact]
    public void Names_the_row_that_misses_and_the_limits_that_would_free_it()
    {
        LinearProblem problem = new(
            [Variable("hot metal t", 300), Variable("scrap t", 250, 0, 50), Variable("lime t", 100, 0, 10)],
            [
                AtLeast("charge t", 160, (0, 1), (1, 1)),
                AtMost("hot metal t", 100, (0, 1)) with { ViolationWeight = 3 },
                AtLeast("lime t", 4, (2, 1)),
            ]);

        LeastViolation miss = LeastViolation.Of(_solver, problem);

        Assert.Equal(LinearStatus.Infeasible, _solver.Solve(problem).Status);
        Assert.Equal(LinearStatus.Optimal, miss.Status);
        Assert.Equal(10, miss.Total, Digits);
        Assert.Equal([-10.0, 0.0, 0.0], miss.Violations.Select(v => Math.Round(v, Digits)));
        Assert.Equal([1.0, -1.0, 0.0], miss.Duals.Select(d => Math.Round(d, Digits)));
        Assert.Equal([0.0, -1.0, 0.0], miss.ReducedCosts.Select(d => Math.Round(d, Digits)));
    }

    [Fact]
    public void Cheaper_row_gives_way()
    {
        LinearRow low = AtLeast("low", 3, (0, 1));
        LinearRow high = AtMost("high", 2, (0, 1));
        LeastViolation lowGives = LeastViolation.Of(_solver, new LinearProblem([Variable("x", 0)], [low, high with { ViolationWeight = 5 }]));
        LeastViolation highGives = LeastViolation.Of(_solver, new LinearProblem([Variable("x", 0)], [low with { ViolationWeight = 5 }, high]));
        Assert.Equal([-1.0, 0.0], lowGives.Violations.Select(v => Math.Round(v, Digits)));
        Assert.Equal([0.0, 1.0], highGives.Violations.Select(v => Math.Round(v, Digits)));
    }

    [Fact]
    public void Row_of_infinite_weight_is_never_relaxed()
    {
        LinearRow law = Exactly("balance", 5, (0, 1), (1, 1)) with { ViolationWeight = Infinity };
        LeastViolation miss = LeastViolation.Of(_solver, new LinearProblem(
            [Variable("x", 0, 0, 1), Variable("y", 0)],
            [law, AtMost("y", 2, (1, 1))]));
        Assert.Equal([0.0, 2.0], miss.Violations.Select(v => Math.Round(v, Digits)));

        LeastViolation impossible = LeastViolation.Of(_solver, new LinearProblem([Variable("x", 0, 0, 1), Variable("y", 0, 0, 1)], [law]));
        Assert.Equal(LinearStatus.Infeasible, impossible.Status);
        Assert.Empty(impossible.Violations);
    }

    [Fact]
    public void Crossed_row_misses_by_its_gap()
    {
        LeastViolation miss = LeastViolation.Of(
            _solver,
            new LinearProblem([Variable("x", 0)], [new LinearRow("window", 5, 3, [new LinearTerm(0, 1)])]));
        Assert.Equal(2, miss.Total, Digits);
        Assert.InRange(miss.Values[0], 3 - 1e-9, 5 + 1e-9);
    }
}
