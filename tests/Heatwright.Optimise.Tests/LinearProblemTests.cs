// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Charge;
using static Heatwright.Optimise.Tests.Problems;

namespace Heatwright.Optimise.Tests;

public sealed class LinearProblemTests
{
    private static readonly LinearVariable Good = Variable("lime kg", 0.1, 0, 9000);

    public static TheoryData<string, LinearProblem> Malformed => new()
    {
        { "cost NaN", new([Good with { Cost = double.NaN }], []) },
        { "cost ∞", new([Good with { Cost = Infinity }], []) },
        { "bounds 2 to 1", new([Good with { Lower = 2, Upper = 1 }], []) },
        { "bounds NaN to 1", new([Good with { Lower = double.NaN, Upper = 1 }], []) },
        { "bounds ∞ to ∞", new([Good with { Lower = Infinity, Upper = Infinity }], []) },
        { "bounds -∞ to -∞", new([Good with { Lower = -Infinity, Upper = -Infinity }], []) },
        { "bounds NaN to ∞", new([Good], [AtLeast("lime kg", double.NaN, (0, 1))]) },
        { "bounds -∞ to NaN", new([Good], [AtMost("lime kg", double.NaN, (0, 1))]) },
        { "bounds ∞ to ∞", new([Good], [AtLeast("lime kg", Infinity, (0, 1))]) },
        { "variable 1 must lie between 0 and 0", new([Good], [AtMost("lime kg", 1, (1, 1))]) },
        { "variable -1 must lie between 0 and 0", new([Good], [AtMost("lime kg", 1, (-1, 1))]) },
        { "coefficient NaN of 'lime kg'", new([Good], [AtMost("lime kg", 1, (0, double.NaN))]) },
        { "'lime kg' stands in it twice", new([Good], [AtMost("lime kg", 1, (0, 1), (0, 2))]) },
        { "violation weight 0 must be positive", new([Good], [AtMost("lime kg", 1, (0, 1)) with { ViolationWeight = 0 }]) },
        { "violation weight NaN must be positive", new([Good], [AtMost("lime kg", 1, (0, 1)) with { ViolationWeight = double.NaN }]) },
    };

    [Theory]
    [MemberData(nameof(Malformed))]
    public void Malformed_problem_is_refused_by_name_value_and_limit(string fault, LinearProblem problem)
    {
        using var solver = new GlopLinearProgram();
        LinearProblemException e = Assert.Throws<LinearProblemException>(() => solver.Solve(problem));
        Assert.Equal("lime kg", e.Name);
        Assert.Contains("'lime kg'", e.Message, StringComparison.Ordinal);
        Assert.Contains(fault, e.Message.Replace("Infinity", "∞", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Throws<LinearProblemException>(() => LeastViolation.Of(solver, problem));
    }

    [Fact]
    public void A_variable_may_stand_in_many_rows_once_each()
    {
        LinearProblem problem = new([Good, Good], [AtMost("a", 1, (0, 1), (1, 1)), AtMost("b", 1, (0, 1), (1, 1))]);
        Assert.Null(Record.Exception(problem.Validate));
    }
}
