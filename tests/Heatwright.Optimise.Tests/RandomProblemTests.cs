// SPDX-License-Identifier: Apache-2.0
using CsCheck;
using Heatwright.Converter.Charge;

namespace Heatwright.Optimise.Tests;

/// <summary>
/// Random small problems against <see cref="VertexEnumeration"/> and against the optimality conditions. The ordinary run
/// draws the same problems each time; the long run draws fresh ones and prints the seed of a failure.
/// </summary>
public sealed class RandomProblemTests
{
    private const double Tolerance = 1e-6;
    private const int OrdinaryCases = 1500;
    private const int LongCases = 100_000;

    private static readonly Gen<double> Coefficient = Gen.Int[-5, 5].Select(i => (double)i);

    private static readonly Gen<(double Lower, double Upper)> Bounds =
        Gen.Select(Gen.Int[-6, 6], Gen.Int[0, 8], Gen.Int[0, 5], (lower, width, kind) => (
            kind == 0 ? double.NegativeInfinity : lower,
            kind switch { 1 => double.PositiveInfinity, 2 => lower, _ => (double)(lower + width) }));

    private static readonly Gen<LinearProblem> Problem =
        from variables in Gen.Int[1, 3]
        from rows in Gen.Int[0, 4]
        from v in Gen.Select(Bounds, Coefficient, (b, c) => new LinearVariable("x", b.Lower, b.Upper, c)).Array[variables]
        from r in Gen.Select(Bounds, Coefficient.Array[variables], Gen.Int[1, 4], (b, a, w) =>
            new LinearRow("r", b.Lower, b.Upper, [.. a.Select((value, j) => new LinearTerm(j, value))], w)).Array[rows]
        select new LinearProblem(v, r);

    [Fact]
    public void Status_and_cost_agree_with_vertex_enumeration()
    {
        var seen = new Dictionary<LinearStatus, int>();
        ForAll(problem =>
        {
            using var solver = new GlopLinearProgram();
            LinearSolution s = solver.Solve(problem);
            (LinearStatus status, double cost) = VertexEnumeration.Solve(problem);
            lock (seen)
            {
                seen[status] = seen.GetValueOrDefault(status) + 1;
            }

            return s.Status == status && (status != LinearStatus.Optimal || Math.Abs(s.Cost - cost) < Tolerance);
        });

        // A generator that made only one kind would prove little.
        Assert.All(
            [LinearStatus.Optimal, LinearStatus.Infeasible, LinearStatus.Unbounded],
            status => Assert.True(seen.GetValueOrDefault(status) >= 100, $"only {seen.GetValueOrDefault(status)} problems were {status}"));
    }

    [Fact]
    public void Optimal_answers_satisfy_the_optimality_conditions() => ForAll(problem =>
    {
        using var solver = new GlopLinearProgram();
        LinearSolution s = solver.Solve(problem);
        return s.Status != LinearStatus.Optimal || IsOptimal(problem, s);
    });

    [Fact]
    public void Least_violation_is_zero_just_when_feasible_and_is_proved_by_its_duals() => ForAll(problem =>
    {
        using var solver = new GlopLinearProgram();
        LeastViolation miss = LeastViolation.Of(solver, problem);
        bool feasible = VertexEnumeration.Solve(problem).Status != LinearStatus.Infeasible;
        if (miss.Status != LinearStatus.Optimal || feasible != (miss.Total < Tolerance))
        {
            return false;
        }

        double weighted = problem.Rows.Select((row, i) => row.ViolationWeight * Math.Abs(miss.Violations[i])).Sum();
        double proved = problem.Rows.Select((row, i) => Bound(miss.Duals[i], row.Lower, row.Upper)).Sum()
            + problem.Variables.Select((v, j) => Bound(miss.ReducedCosts[j], v.Lower, v.Upper)).Sum();
        return Math.Abs(weighted - miss.Total) < Tolerance
            && Math.Abs(proved - miss.Total) < Tolerance
            && problem.Variables.Select((v, j) => Within(miss.Values[j], v.Lower, v.Upper)).All(ok => ok);
    });

    /// <summary>Primal feasible, reduced costs = costs − duals · rows, and no gap between cost and the bound that the duals prove.</summary>
    private static bool IsOptimal(LinearProblem problem, LinearSolution s)
    {
        double proved = 0;
        bool good = true;
        for (int i = 0; i < problem.Rows.Count; i++)
        {
            LinearRow row = problem.Rows[i];
            good &= Within(s.Activities[i], row.Lower, row.Upper);
            proved += Bound(s.Duals[i], row.Lower, row.Upper);
        }

        for (int j = 0; j < problem.Variables.Count; j++)
        {
            LinearVariable v = problem.Variables[j];
            double column = problem.Rows.Select((row, i) => s.Duals[i] * row.Terms[j].Coefficient).Sum();
            good &= Within(s.Values[j], v.Lower, v.Upper) && Math.Abs(s.ReducedCosts[j] - (v.Cost - column)) < Tolerance;
            proved += Bound(s.ReducedCosts[j], v.Lower, v.Upper);
        }

        return good && Math.Abs(proved - s.Cost) < Tolerance;
    }

    /// <summary>Share of a price in the dual bound: a price on an infinite bound proves nothing and must be zero.</summary>
    private static double Bound(double price, double lower, double upper) =>
        Math.Abs(price) < 1e-9 ? 0 : price * (price > 0 ? lower : upper);

    private static bool Within(double value, double lower, double upper) => value >= lower - Tolerance && value <= upper + Tolerance;

    private static void ForAll(Func<LinearProblem, bool> holds)
    {
        if (Environment.GetEnvironmentVariable("HEATWRIGHT_LONG") == "1")
        {
            Problem.Sample(holds, iter: LongCases, print: Print);
            return;
        }

        var random = new PCG(1, 20260101);
        for (int i = 0; i < OrdinaryCases; i++)
        {
            LinearProblem problem = Problem.Generate(random, null, out _);
            Assert.True(holds(problem), Print(problem));
        }
    }

    private static string Print(LinearProblem problem) => string.Join(
        '\n',
        problem.Variables.Select(v => $"{v.Lower} <= x <= {v.Upper} cost {v.Cost}")
            .Concat(problem.Rows.Select(r =>
                $"{r.Lower} <= {string.Join(' ', r.Terms.Select(t => t.Coefficient))} <= {r.Upper} weight {r.ViolationWeight}")));
}
