// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Converter.Charge;

/// <summary>Range, in inner units, in which the expected value of a quantity has to lie, and the aim within it.</summary>
internal readonly record struct PlanRange(PlanQuantity Quantity, double Least, double Most, double? Aim = null)
{
    public double Miss(double inner) => inner > Most ? inner - Most : inner < Least ? inner - Least : 0;
}

/// <summary>
/// Successive linear programming (Griffith and Stewart, Management Science 7 (1961) 379) with step bounds and an exact
/// penalty (Fletcher's Sl1LP): linearise the model, let the linear program choose a step within bounds with every limit
/// elastic at a high price, try that step and shorter ones in the full model as one batch, keep the best.
/// </summary>
internal sealed class PlanSearch
{
    /// <summary>
    /// What one tolerance of violation weighs, as kilograms of hot metal in the objective. Must exceed the price of any limit
    /// in the optimum: half a kelvin of end temperature is some 100 kg of scrap for hot metal, so ten times that.
    /// </summary>
    private const double ViolationKg = 1000;

    /// <summary>
    /// What one tolerance away from an aim weighs: enough that the aim is kept where limits allow (half a kelvin is some 75 kg of
    /// scrap for hot metal), little enough that it yields to any limit.
    /// </summary>
    private const double AimKg = 200;

    private const int MostIterations = 40;
    private static readonly double[] Fractions = [1, 0.5, 0.2, 0.05];

    private readonly PlanRequest _request;
    private readonly IReadOnlyList<PlanMaterial> _materials;
    private readonly PlanModel _model;
    private readonly ILinearProgram _solver;
    private readonly double[] _price;
    private readonly double _vesselPrice;
    private readonly double _perKg;

    public PlanSearch(PlanRequest request, PlanModel model, ILinearProgram solver, int iterations = 0)
    {
        Iterations = iterations;
        _request = request;
        _materials = request.Materials;
        _model = model;
        _solver = solver;
        (_price, _vesselPrice, _perKg) = Objective(request, _materials);
    }

    public int Iterations { get; private set; }

    /// <summary>The last linearisation, at the point returned.</summary>
    public double[][] Jacobian { get; private set; } = [];

    /// <summary>Linearises again with what is at hand but not allowed.</summary>
    public void LineariseAll(PlanPoint at) => Jacobian = _model.Jacobian(at, true);

    /// <summary>Objective of a point, counted in kilograms of hot metal.</summary>
    public double Value(PlanPoint p) => (_price.Zip(p.X, (c, x) => c * x).Sum() + (_vesselPrice * p.VesselCo2Kg)) / _perKg;

    public double Violation(PlanPoint p, IReadOnlyList<PlanRange> ranges) => ranges.Sum(r => Math.Abs(r.Miss(p.Y[(int)r.Quantity])) / Tolerance(r));

    public bool Feasible(PlanPoint p, IReadOnlyList<PlanRange> ranges) =>
        ranges.All(r => Math.Abs(r.Miss(p.Y[(int)r.Quantity])) <= Tolerance(r));

    public double Tolerance(PlanRange r) => PlanQuantities.Tolerance(r.Quantity, _model.TappedKg);

    /// <summary>Searches from a point. Limits are aimed at with half their tolerance to spare.</summary>
    public PlanPoint Run(PlanPoint start, IReadOnlyList<PlanRange> ranges)
    {
        PlanPoint at = start;
        double radius = 1;
        double settled = 2 * _model.TappedKg / 160e3;
        Jacobian = _model.Jacobian(at);
        for (int i = 0; i < MostIterations; i++)
        {
            Iterations++;
            double merit = Merit(at, ranges);
            (double[] step, double predicted) = Step(at, ranges, radius);
            double gain = merit - predicted;
            if (gain < settled || step.Length == 0)
            {
                break;
            }

            double[][] trials = [.. Fractions.Select(f => Along(at.X, step, f))];
            PlanPoint[] tried = _model.At(trials);
            int best = -1;
            double bestMerit = merit;
            for (int k = 0; k < tried.Length; k++)
            {
                double m = Merit(tried[k], ranges);
                if (m < bestMerit)
                {
                    bestMerit = m;
                    best = k;
                }
            }

            if (best < 0)
            {
                radius *= 0.04;
                if (radius < 1e-3)
                {
                    break;
                }

                continue;
            }

            double share = (merit - bestMerit) / gain;
            radius = best == 0 && share > 0.7 ? Math.Min(4, radius * 2) : best == 0 && share > 0.25 ? radius : radius * Math.Max(0.25, Fractions[best]);
            at = tried[best];
            if (merit - bestMerit < settled && Feasible(at, ranges))
            {
                Jacobian = _model.Jacobian(at);
                break;
            }

            Jacobian = _model.Jacobian(at);
        }

        return at;
    }

    /// <summary>The linear problem about a point: variables are steps, rows are the limits.</summary>
    public LinearProblem Linear(PlanPoint at, IReadOnlyList<PlanRange> ranges, Func<int, (double Least, double Most)> bounds)
    {
        var variables = new List<LinearVariable>();
        for (int j = 0; j < at.X.Length; j++)
        {
            (double least, double most) = bounds(j);
            double cost = (_price[j] + (_vesselPrice * Jacobian[j][^1])) / _perKg;
            variables.Add(new LinearVariable(_materials[j].Name, Math.Min(least, most), Math.Max(least, most), cost));
        }

        var rows = new List<LinearRow>();
        foreach (PlanRange r in ranges)
        {
            int q = (int)r.Quantity;
            LinearTerm[] terms = [.. Enumerable.Range(0, at.X.Length).Where(j => Jacobian[j][q] != 0).Select(j => new LinearTerm(j, Jacobian[j][q]))];
            double spare = Math.Min(0.5 * Tolerance(r), 0.5 * (r.Most - r.Least));
            rows.Add(new LinearRow(
                PlanQuantities.Name(r.Quantity), r.Least + spare - at.Y[q], r.Most - spare - at.Y[q], terms, ViolationKg / Tolerance(r)));
        }

        return new LinearProblem(variables, rows);
    }

    private static double[] Along(double[] x, double[] step, double fraction)
    {
        double[] moved = [.. x];
        for (int j = 0; j < moved.Length; j++)
        {
            moved[j] += fraction * step[j];
        }

        return moved;
    }

    private double Merit(PlanPoint p, IReadOnlyList<PlanRange> ranges)
    {
        double sum = Value(p);
        foreach (PlanRange r in ranges)
        {
            double spare = Math.Min(0.5 * Tolerance(r), 0.5 * (r.Most - r.Least));
            double miss = new PlanRange(r.Quantity, r.Least + spare, r.Most - spare).Miss(p.Y[(int)r.Quantity]);
            sum += ViolationKg * Math.Abs(miss) / Tolerance(r);
            sum += r.Aim is { } aim ? AimKg * Math.Abs(p.Y[(int)r.Quantity] - aim) / Tolerance(r) : 0;
        }

        return sum;
    }

    private (double[] Step, double Predicted) Step(PlanPoint at, IReadOnlyList<PlanRange> ranges, double radius)
    {
        LinearProblem hard = Linear(at, ranges, j =>
            (Math.Max(_materials[j].Least - at.X[j], -radius * _model.Scale[j]), Math.Min(_materials[j].Most - at.X[j], radius * _model.Scale[j])));
        var variables = new List<LinearVariable>(hard.Variables);
        var rows = new List<LinearRow>(2 * hard.Rows.Count);
        foreach (LinearRow row in hard.Rows)
        {
            variables.Add(new LinearVariable("above " + row.Name, 0, double.PositiveInfinity, row.ViolationWeight));
            variables.Add(new LinearVariable("below " + row.Name, 0, double.PositiveInfinity, row.ViolationWeight));
            rows.Add(row with { Terms = [.. row.Terms, new LinearTerm(variables.Count - 2, -1), new LinearTerm(variables.Count - 1, 1)] });
        }

        foreach (PlanRange r in ranges)
        {
            if (r.Aim is { } aim)
            {
                double weight = AimKg / Tolerance(r);
                variables.Add(new LinearVariable("over the aim", 0, double.PositiveInfinity, weight));
                variables.Add(new LinearVariable("under the aim", 0, double.PositiveInfinity, weight));
                int q = (int)r.Quantity;
                LinearTerm[] slope = [.. Enumerable.Range(0, at.X.Length).Where(j => Jacobian[j][q] != 0).Select(j => new LinearTerm(j, Jacobian[j][q]))];
                double wanted = aim - at.Y[q];
                rows.Add(new LinearRow(
                    "aim of " + PlanQuantities.Name(r.Quantity),
                    wanted,
                    wanted,
                    [.. slope, new LinearTerm(variables.Count - 2, -1), new LinearTerm(variables.Count - 1, 1)]));
            }
        }

        LinearSolution solution = _solver.Solve(new LinearProblem(variables, rows));
        return solution.Status == LinearStatus.Optimal
            ? (solution.Values[..at.X.Length], Value(at) + solution.Cost)
            : ([], double.PositiveInfinity);
    }

    private static (double[] Price, double VesselPrice, double PerKg) Objective(PlanRequest request, IReadOnlyList<PlanMaterial> materials)
    {
        switch (request.Objective)
        {
            case PlanObjective.Cost:
                return ([.. materials.Select(m => m.Price)], 0, Math.Max(0.01, request.HotMetal.Price));
            case PlanObjective.Co2:
                return ([.. materials.Select(m => m.Co2)], 1, Math.Max(0.1, request.HotMetal.Co2));
            default:
                // Where scrap is equal, the cheaper plan: a thousandth of the price decides.
                double[] price = [.. materials.Select(m => 1e-3 * m.Price / Math.Max(0.01, request.HotMetal.Price))];
                for (int k = 0; k < request.Scrap.Count; k++)
                {
                    price[1 + k] -= 1;
                }

                return (price, 0, 1);
        }
    }
}
