// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Converter.Charge;

/// <summary>
/// A solver for linear programs, kept behind an interface so that planning needs no native code. An implementation
/// may keep the last problem to start warm from it, and so need not be usable from two threads at once; its answer depends on
/// the problem only up to ties between equally good ones.
/// </summary>
public interface ILinearProgram
{
    /// <summary>Minimises the cost. What cannot be solved comes back as a status, not as an exception.</summary>
    /// <exception cref="LinearProblemException">The problem itself is malformed (see <see cref="LinearProblem.Validate"/>).</exception>
    LinearSolution Solve(LinearProblem problem);
}

/// <summary>An unknown between two bounds; infinite bounds are allowed.</summary>
/// <param name="Name">Name for messages, with its unit.</param>
/// <param name="Lower">Least value.</param>
/// <param name="Upper">Greatest value, not below <paramref name="Lower"/>: a bound that may prove impossible belongs in a row.</param>
/// <param name="Cost">Cost per unit.</param>
public sealed record LinearVariable(string Name, double Lower, double Upper, double Cost);

/// <summary>Coefficient of one variable in a row.</summary>
/// <param name="Variable">Index into <see cref="LinearProblem.Variables"/>.</param>
/// <param name="Coefficient">Coefficient.</param>
public readonly record struct LinearTerm(int Variable, double Coefficient);

/// <summary>A limit on a weighted sum of variables. Equal bounds make an equation; crossed bounds make the problem infeasible.</summary>
/// <param name="Name">Name for messages, with its unit.</param>
/// <param name="Lower">Least value of the sum; negative infinity for none.</param>
/// <param name="Upper">Greatest value of the sum; positive infinity for none.</param>
/// <param name="Terms">The sum; a variable stands in it at most once.</param>
/// <param name="ViolationWeight">
/// What one unit of violation weighs in <see cref="LeastViolation.Of"/>. Positive; positive infinity for a law of nature
/// (a mass balance) that is never relaxed.
/// </param>
public sealed record LinearRow(string Name, double Lower, double Upper, IReadOnlyList<LinearTerm> Terms, double ViolationWeight = 1);

/// <summary>Least cost over variables between bounds under rows between bounds.</summary>
/// <param name="Variables">The unknowns.</param>
/// <param name="Rows">The limits.</param>
public sealed record LinearProblem(IReadOnlyList<LinearVariable> Variables, IReadOnlyList<LinearRow> Rows)
{
    /// <summary>True when a row's bounds cross, which makes the problem infeasible whatever the rest says.</summary>
    public bool HasCrossedRow => Rows.Any(row => row.Lower > row.Upper);

    /// <summary>Checks what a solver may rely on: finite costs and coefficients, no NaN, bounds in order, indices in range.</summary>
    /// <exception cref="LinearProblemException">One of these does not hold; the message names the variable or row.</exception>
    public void Validate()
    {
        foreach (LinearVariable variable in Variables)
        {
            if (!double.IsFinite(variable.Cost))
            {
                throw Fault(variable.Name, $"cost {variable.Cost} must be finite");
            }

            if (!(variable.Lower <= variable.Upper && variable.Lower < double.PositiveInfinity && variable.Upper > double.NegativeInfinity))
            {
                throw Fault(
                    variable.Name,
                    $"bounds {variable.Lower} to {variable.Upper} must be numbers in order; put a limit that may be impossible into a row");
            }
        }

        int[] lastRow = new int[Variables.Count];
        for (int i = 0; i < Rows.Count; i++)
        {
            ValidateRow(Rows[i], i + 1, lastRow);
        }
    }

    private void ValidateRow(LinearRow row, int number, int[] lastRow)
    {
        if (!(row.Lower < double.PositiveInfinity && row.Upper > double.NegativeInfinity))
        {
            throw Fault(row.Name, $"bounds {row.Lower} to {row.Upper} must be numbers, and not infinite on the wrong side");
        }

        if (!(row.ViolationWeight > 0))
        {
            throw Fault(row.Name, $"violation weight {row.ViolationWeight} must be positive");
        }

        for (int k = 0; k < row.Terms.Count; k++)
        {
            LinearTerm term = row.Terms[k];
            if (term.Variable < 0 || term.Variable >= Variables.Count)
            {
                throw Fault(row.Name, $"variable {term.Variable} must lie between 0 and {Variables.Count - 1}");
            }

            if (!double.IsFinite(term.Coefficient))
            {
                throw Fault(row.Name, $"coefficient {term.Coefficient} of '{Variables[term.Variable].Name}' must be finite");
            }

            if (lastRow[term.Variable] == number)
            {
                throw Fault(row.Name, $"'{Variables[term.Variable].Name}' stands in it twice; add the two terms");
            }

            lastRow[term.Variable] = number;
        }
    }

    private static LinearProblemException Fault(string name, FormattableString fault) => new(name, FormattableString.Invariant(fault));
}

/// <summary>A linear program that no solver could make sense of: a mistake of the caller, not an infeasible problem.</summary>
public sealed class LinearProblemException : ArgumentException
{
    /// <param name="name">The variable or row.</param>
    /// <param name="fault">What is wrong with it: value and limit.</param>
    public LinearProblemException(string name, string fault)
        : base($"Linear program, '{name}': {fault}.") => Name = name;

    /// <summary>The variable or row.</summary>
    public string Name { get; }
}

/// <summary>How a linear program ended.</summary>
public enum LinearStatus
{
    /// <summary>Solved; values, duals and reduced costs are given.</summary>
    Optimal,
    /// <summary>No values satisfy all rows and bounds.</summary>
    Infeasible,
    /// <summary>There are values that satisfy everything, and the cost falls without end among them.</summary>
    Unbounded,
    /// <summary>The solver gave up for numerical reasons or reached its limit of iterations.</summary>
    Failed,
}

/// <summary>Result of a linear program. The arrays are empty unless the status is <see cref="LinearStatus.Optimal"/>.</summary>
/// <param name="Status">How it ended.</param>
/// <param name="Cost">Least cost; NaN unless optimal.</param>
/// <param name="Values">Value of each variable.</param>
/// <param name="Activities">Value of each row's sum.</param>
/// <param name="Duals">Change of the least cost per unit by which a row's binding bound is raised; zero when neither binds.</param>
/// <param name="ReducedCosts">The same for the binding bound of each variable.</param>
/// <param name="Iterations">Simplex iterations.</param>
public sealed record LinearSolution(
    LinearStatus Status,
    double Cost,
    double[] Values,
    double[] Activities,
    double[] Duals,
    double[] ReducedCosts,
    long Iterations)
{
    /// <summary>A result without an answer.</summary>
    public static LinearSolution Without(LinearStatus status, long iterations = 0) => new(status, double.NaN, [], [], [], [], iterations);
}
