// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Charge;
using Heatwright.Optimise;

namespace Heatwright.Bench;

/// <summary>Linear programs of the size of a charge plan: 15 variables, 21 rows.</summary>
internal static class LinearPrograms
{
    public static bool Run()
    {
        LinearProblem[] problems = [.. Enumerable.Range(0, 16).Select(Problem)];
        using var solver = new GlopLinearProgram();
        int next = 0;
        Timing warm = Stopwatches.Time(() => solver.Solve(problems[next++ % problems.Length]));
        Timing fresh = Stopwatches.Time(() =>
        {
            using var cold = new GlopLinearProgram();
            return cold.Solve(problems[next++ % problems.Length]);
        });
        Timing miss = Stopwatches.Time(() => LeastViolation.Of(solver, problems[next++ % problems.Length]));
        Console.WriteLine($"linear program 15 x 21, solver kept:  {warm}");
        Console.WriteLine($"linear program 15 x 21, solver fresh: {fresh}");
        Console.WriteLine($"least violation of the same:          {miss}");
        return problems.All(p => solver.Solve(p).Status == LinearStatus.Optimal);
    }

    /// <summary>A blending problem with a known feasible point, its numbers drawn from a fixed seed.</summary>
    private static LinearProblem Problem(int seed)
    {
        const int variables = 15;
        const int rows = 21;
        var random = new Random(seed);
        double[] inside = [.. Enumerable.Range(0, variables).Select(_ => random.NextDouble() * 50)];
        return new LinearProblem(
            [.. inside.Select((x, j) => new LinearVariable($"material {j} t", 0, x + 20, 50 + (random.NextDouble() * 300)))],
            [.. Enumerable.Range(0, rows).Select(i =>
            {
                double[] a = [.. inside.Select(_ => random.NextDouble() * (i == 0 ? 1 : 0.1))];
                double sum = a.Zip(inside, (c, x) => c * x).Sum();
                return new LinearRow($"limit {i}", sum * 0.95, sum * 1.2, [.. a.Select((c, j) => new LinearTerm(j, c))]);
            })]);
    }
}
