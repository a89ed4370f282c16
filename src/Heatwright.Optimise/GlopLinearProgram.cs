// SPDX-License-Identifier: Apache-2.0
using Google.OrTools.LinearSolver;
using Heatwright.Converter.Charge;

namespace Heatwright.Optimise;

/// <summary>
/// Linear programs by the revised simplex method of GLOP (Google OR-Tools). Keeps the native model: a problem with
/// as many variables and rows as the last one only has its numbers exchanged, which is what successive linear
/// programming asks for. One instance per thread. GLOP prints nothing by itself; its output is suppressed all the same, since programs are piped.
/// </summary>
public sealed class GlopLinearProgram : ILinearProgram, IDisposable
{
    // A charge plan needs some tens; a problem that comes near this is cycling.
    private const long MaxIterations = 200_000;

    private readonly MPSolverParameters _parameters = new();
    private Solver? _solver;
    private Variable[] _variables = [];
    private Constraint[] _rows = [];

    /// <inheritdoc/>
    public LinearSolution Solve(LinearProblem problem)
    {
        ArgumentNullException.ThrowIfNull(problem);
        problem.Validate();
        if (problem.HasCrossedRow)
        {
            return LinearSolution.Without(LinearStatus.Infeasible);
        }

        Solver solver = Load(problem);
        Solver.ResultStatus result = solver.Solve(_parameters);
        switch (result)
        {
            case Solver.ResultStatus.OPTIMAL:
                return Read(solver, problem);
            case Solver.ResultStatus.INFEASIBLE or Solver.ResultStatus.UNBOUNDED:
                // Its presolve proves only "infeasible or unbounded"; without costs nothing is unbounded.
                long iterations = solver.Iterations();
                solver.Objective().Clear();
                return LinearSolution.Without(
                    solver.Solve(_parameters) switch
                    {
                        Solver.ResultStatus.OPTIMAL => LinearStatus.Unbounded,
                        Solver.ResultStatus.INFEASIBLE => LinearStatus.Infeasible,
                        _ => LinearStatus.Failed,
                    },
                    iterations + solver.Iterations());
            default:
                return LinearSolution.Without(LinearStatus.Failed, solver.Iterations());
        }
    }

    /// <summary>Frees the native model.</summary>
    public void Dispose()
    {
        _solver?.Dispose();
        _solver = null;
        _parameters.Dispose();
    }

    private Solver Load(LinearProblem problem)
    {
        if (_solver is null || _variables.Length != problem.Variables.Count || _rows.Length != problem.Rows.Count)
        {
            Build(problem.Variables.Count, problem.Rows.Count);
        }

        Objective objective = _solver!.Objective();
        objective.SetMinimization();
        for (int j = 0; j < _variables.Length; j++)
        {
            LinearVariable variable = problem.Variables[j];
            _variables[j].SetBounds(variable.Lower, variable.Upper);
            objective.SetCoefficient(_variables[j], variable.Cost);
        }

        for (int i = 0; i < _rows.Length; i++)
        {
            LinearRow row = problem.Rows[i];
            _rows[i].SetBounds(row.Lower, row.Upper);
            _rows[i].Clear();
            for (int k = 0; k < row.Terms.Count; k++)
            {
                _rows[i].SetCoefficient(_variables[row.Terms[k].Variable], row.Terms[k].Coefficient);
            }
        }

        return _solver;
    }

    private void Build(int variables, int rows)
    {
        _solver?.Dispose();
        _solver = Solver.CreateSolver("GLOP") ?? throw new InvalidOperationException("This build of Google OR-Tools has no GLOP solver.");
        _solver.SuppressOutput();
        _solver.SetSolverSpecificParametersAsString(FormattableString.Invariant($"max_number_of_iterations: {MaxIterations}"));
        _variables = new Variable[variables];
        for (int j = 0; j < variables; j++)
        {
            _variables[j] = _solver.MakeNumVar(0, 0, string.Empty);
        }

        _rows = new Constraint[rows];
        for (int i = 0; i < rows; i++)
        {
            _rows[i] = _solver.MakeConstraint(0, 0, string.Empty);
        }
    }

    private LinearSolution Read(Solver solver, LinearProblem problem)
    {
        double[] values = [.. _variables.Select(v => v.SolutionValue())];
        double[] activities = [.. problem.Rows.Select(row => row.Terms.Sum(term => term.Coefficient * values[term.Variable]))];
        double cost = 0;
        for (int j = 0; j < values.Length; j++)
        {
            cost += problem.Variables[j].Cost * values[j];
        }

        return new LinearSolution(
            LinearStatus.Optimal,
            cost,
            values,
            activities,
            [.. _rows.Select(r => r.DualValue())],
            [.. _variables.Select(v => v.ReducedCost())],
            solver.Iterations());
    }
}
