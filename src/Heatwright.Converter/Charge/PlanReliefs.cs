// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;

namespace Heatwright.Converter.Charge;

/// <summary>
/// Says why a heat cannot be planned and what would free it. Every proposal is one change by itself: the least amount by the
/// linear program about the nearest miss, then checked by planning again in the full model with it.
/// </summary>
internal static class PlanReliefs
{
    // Not more than a planner reads, nor than a second of computing.
    private const int MostReliefs = 5;

    /// <summary>A single number that could be given more room.</summary>
    /// <param name="What">Name.</param>
    /// <param name="Unit">Unit.</param>
    /// <param name="Most">Greatest amount worth proposing.</param>
    /// <param name="Ease">Amount that is about as easily had as any other candidate's.</param>
    /// <param name="Effect">Change of quantities (inner units) per unit; null when a bound or limit moves instead.</param>
    /// <param name="Bound">Index of the material whose bound moves, with its sign: +1 most, −1 least.</param>
    /// <param name="Limit">Index of the range that widens, with its sign.</param>
    /// <param name="Apply">The request with the change.</param>
    /// <param name="Text">The sentence.</param>
    private sealed record Candidate(
        string What,
        string Unit,
        double Most,
        double Ease,
        double[]? Effect,
        (int Index, int Sign)? Bound,
        (int Index, int Sign)? Limit,
        Func<double, (PlanRequest Request, PlanRange[] Ranges)> Apply,
        Func<double, string> Text);

    public static PlanInfeasible Explain(
        PlanRequest request, PlanModel model, PlanSearch search, ILinearProgram solver, PlanPoint at, PlanRange[] ranges)
    {
        IReadOnlyList<PlanRow> rows = Planner.Rows(request, at, ranges);
        search.LineariseAll(at);
        List<PlanConflict> because = Conflicts(request, search, solver, at, ranges, rows);
        Candidate[] candidates = [.. Candidates(request, model, at, ranges, rows)];
        var reliefs = new List<PlanRelief>();
        var sized = new List<(Candidate Candidate, double Amount, double[] X)>();
        foreach (Candidate c in candidates)
        {
            if (Size(c, search, solver, model, request, at, ranges) is var (amount, x) && x.Length > 0)
            {
                sized.Add((c, amount, x));
            }
        }

        int iterations = 0, blows = 0;
        foreach ((Candidate c, double amount, double[] x) in sized.OrderBy(s => s.Amount / s.Candidate.Ease).Take(MostReliefs + 3))
        {
            if (reliefs.Count == MostReliefs)
            {
                break;
            }

            // The line understates what the bend asks for: a tenth more first, then half as much again.
            foreach (double factor in (double[])[1.1, 1.6])
            {
                double tried = Math.Min(c.Most, amount * factor);
                (PlanRequest relieved, PlanRange[] wide) = c.Apply(tried);
                var again = new PlanModel(relieved);
                var research = new PlanSearch(relieved, again, solver);
                PlanPoint end = research.Run(again.At(Inside(relieved, x)), wide);
                iterations += research.Iterations;
                blows += again.Blows;
                if (research.Feasible(end, wide))
                {
                    reliefs.Add(new PlanRelief(c.What, tried, c.Unit, c.Text(tried)));
                    break;
                }
            }
        }

        return new PlanInfeasible(
            because, reliefs, request.Decision(at.X), rows, null, new PlanWork(search.Iterations + iterations, model.Blows + blows));
    }

    private static List<PlanConflict> Conflicts(
        PlanRequest request, PlanSearch search, ILinearProgram solver, PlanPoint at, PlanRange[] ranges, IReadOnlyList<PlanRow> rows)
    {
        var because = new List<(double Weight, PlanConflict Conflict)>();
        for (int i = 0; i < rows.Count; i++)
        {
            PlanRow row = rows[i];
            double tolerances = Math.Abs(ranges[i].Miss(at.Y[(int)ranges[i].Quantity])) / search.Tolerance(ranges[i]);
            if (tolerances > 1)
            {
                because.Add((tolerances, Missed(row)));
            }
        }

        List<PlanConflict> conflicts = [.. because.OrderByDescending(b => b.Weight).Select(b => b.Conflict)];
        IReadOnlyList<PlanMaterial> materials = request.Materials;
        LeastViolation miss = LeastViolation.Of(
            solver, search.Linear(at, ranges, j => (materials[j].Least - at.X[j], materials[j].Most - at.X[j])));
        if (miss.Status == LinearStatus.Optimal)
        {
            conflicts.AddRange(InTheWay(request, miss, at, rows, conflicts));
        }

        return conflicts;
    }

    /// <summary>Kept limits and bounds that the conflict leans on: those with a dual or a reduced cost.</summary>
    private static IEnumerable<PlanConflict> InTheWay(
        PlanRequest request, LeastViolation miss, PlanPoint at, IReadOnlyList<PlanRow> rows, List<PlanConflict> named)
    {
        IReadOnlyList<PlanMaterial> materials = request.Materials;
        for (int i = 0; i < rows.Count; i++)
        {
            string name = PlanQuantities.Name(rows[i].Limit.Quantity);
            if (miss.Duals[i] != 0 && named.All(n => n.What != name))
            {
                double bound = miss.Duals[i] < 0 ? rows[i].NominalMost : rows[i].NominalLeast;
                yield return new PlanConflict(
                    name, 0, PlanQuantities.Unit(rows[i].Limit.Quantity), $"The {name} is held at its limit of {Shown(rows[i].Limit.Quantity, bound)}.");
            }
        }

        for (int j = 0; j < materials.Count; j++)
        {
            double room = materials[j].Most - materials[j].Least;
            bool atMost = miss.ReducedCosts[j] < 0;

            // Nothing charged of what may be left out says nothing, and what is not to be had stands among the reliefs if it helps.
            bool telling = atMost ? materials[j].Most > 0 : materials[j].Least > 0;
            if (telling && miss.ReducedCosts[j] != 0 && Math.Abs(at.X[j] - (atMost ? materials[j].Most : materials[j].Least)) <= (0.02 * room) + 1)
            {
                string unit = j == materials.Count - 1 ? "Nm3" : "kg";
                yield return new PlanConflict(materials[j].Name, 0, unit, atMost
                    ? $"All the {materials[j].Name} that is allowed is used: {Amount(materials[j].Most, unit)}."
                    : $"As little {materials[j].Name} as is allowed is used: {Amount(materials[j].Least, unit)}.");
            }
        }
    }

    private static PlanConflict Missed(PlanRow row)
    {
        PlanQuantity q = row.Limit.Quantity;
        double bound = row.Violation > 0 ? row.NominalMost : row.NominalLeast;
        string side = row.Violation > 0 ? "above" : "below";
        string by = q == PlanQuantity.EndTemperature
            ? FormattableString.Invariant($"{Math.Abs(row.Violation):F0} K")
            : FormattableString.Invariant($"{Math.Abs(row.Violation):G3} {PlanQuantities.Unit(q)}").TrimEnd();
        return new PlanConflict(
            PlanQuantities.Name(q),
            row.Violation,
            PlanQuantities.Unit(q),
            $"The {PlanQuantities.Name(q)} comes to {Shown(q, row.Value)} at best, {by} {side} {Shown(q, bound)}{Because(row, bound)}.");
    }

    private static string Because(PlanRow row, double bound)
    {
        double? written = row.Violation > 0 ? row.Limit.Most : row.Limit.Least;
        return written is { } w && Math.Abs(w - bound) > 1e-6 * Math.Abs(w)
            ? $", where the limit of {Shown(row.Limit.Quantity, w)} is expected to be kept with the confidence asked for"
            : "";
    }

    // A tonne and more as tables show it.
    private static string Amount(double value, string unit) => unit == "kg" && value >= 1000
        ? FormattableString.Invariant($"{value / 1000:F2} t")
        : FormattableString.Invariant($"{value:F0} {unit}");

    internal static string Shown(PlanQuantity q, double value) => q switch
    {
        PlanQuantity.EndTemperature => FormattableString.Invariant($"{value - 273.15:F0} °C"),
        PlanQuantity.TappedMass or PlanQuantity.UnmeltedScrapEnd or PlanQuantity.UnmeltedScrapLate => FormattableString.Invariant($"{value / 1000:F1} t"),
        _ => FormattableString.Invariant($"{value:G3} {PlanQuantities.Unit(q)}").TrimEnd(),
    };

    private static double[] Inside(PlanRequest request, double[] x)
    {
        IReadOnlyList<PlanMaterial> materials = request.Materials;
        return [.. x.Select((v, j) => Math.Clamp(v, materials[j].Least, materials[j].Most))];
    }

    /// <summary>Least amount of one candidate that lets every limit be met in the linear program; empty when none does.</summary>
    private static (double Amount, double[] X) Size(
        Candidate c, PlanSearch search, ILinearProgram solver, PlanModel model, PlanRequest request, PlanPoint at, PlanRange[] ranges)
    {
        IReadOnlyList<PlanMaterial> materials = request.Materials;
        LinearProblem linear = search.Linear(at, ranges, j =>
        {
            double most = materials[j].Most + (c.Bound == (j, 1) ? c.Most : 0);
            double least = materials[j].Least - (c.Bound == (j, -1) ? c.Most : 0);
            return (Math.Max(least - at.X[j], -8 * model.Scale[j]), Math.Min(most - at.X[j], 8 * model.Scale[j]));
        });
        List<LinearVariable> variables = [.. linear.Variables.Select(v => v with { Cost = 0 }), new LinearVariable("relief", 0, c.Most, 1)];
        List<LinearRow> rows = [.. linear.Rows];
        int relief = variables.Count - 1;
        if (c.Effect is { } effect)
        {
            for (int i = 0; i < rows.Count; i++)
            {
                double slope = effect[(int)ranges[i].Quantity];
                rows[i] = slope == 0 ? rows[i] : rows[i] with { Terms = [.. rows[i].Terms, new LinearTerm(relief, slope)] };
            }
        }

        if (c.Limit is var (index, sign))
        {
            rows[index] = rows[index] with { Terms = [.. rows[index].Terms, new LinearTerm(relief, -sign)] };
        }

        if (c.Bound is var (j0, side))
        {
            // What exceeds the old bound is the relief.
            double old = side > 0 ? materials[j0].Most - at.X[j0] : at.X[j0] - materials[j0].Least;
            rows.Add(new LinearRow("bound", double.NegativeInfinity, old, [new LinearTerm(j0, side), new LinearTerm(relief, -1)]));
        }

        LinearSolution solution = solver.Solve(new LinearProblem(variables, rows));
        if (solution.Status != LinearStatus.Optimal || solution.Values[relief] <= 0)
        {
            return (0, []);
        }

        double[] x = [.. at.X.Select((v, j) => v + solution.Values[j])];
        return (solution.Values[relief], x);
    }

    private static IEnumerable<Candidate> Candidates(
        PlanRequest request, PlanModel model, PlanPoint at, PlanRange[] ranges, IReadOnlyList<PlanRow> rows)
    {
        foreach (Candidate c in Bounds(request, model, ranges))
        {
            yield return c;
        }

        for (int i = 0; i < ranges.Length; i++)
        {
            if (Widened(request, ranges, rows, i) is { } c)
            {
                yield return c;
            }
        }

        HeatInput heat = request.Build(request.Decision(at.X));
        Func<PlanDecision, HeatInput> build = request.Build;
        HeatInput Iron(HeatInput h, Element e, double less) => h with
        {
            HotMetal = h.HotMetal with { Analysis = h.HotMetal.Analysis.With(e, Math.Max(0, h.HotMetal.Analysis[e] - less)) },
        };
        HeatInput Hotter(HeatInput h, double k) => h with { HotMetal = h.HotMetal with { TemperatureK = Math.Min(1823, h.HotMetal.TemperatureK + k) } };
        double p = heat.HotMetal.Analysis[Element.P];
        double s = heat.HotMetal.Analysis[Element.S];
        PlanPoint[] moved = model.Blow([Hotter(heat, 10), Iron(heat, Element.P, 0.1 * p), Iron(heat, Element.S, 0.1 * s)], [at.X, at.X, at.X]);
        yield return Of("hot metal temperature", "K", Math.Min(120, 1823 - heat.HotMetal.TemperatureK), 15, moved[0], 10, Hotter, a => $"hot metal {a:F0} °C hotter");
        if (p > 0)
        {
            yield return Of("hot metal phosphorus", "mass %", 0.8 * p, 0.02, moved[1], 0.1 * p, (h, a) => Iron(h, Element.P, a), a => $"hot metal with {a:F3} % less phosphorus");
        }

        if (s > 0)
        {
            yield return Of("hot metal sulphur", "mass %", 0.95 * s, 0.01, moved[2], 0.1 * s, (h, a) => Iron(h, Element.S, a), a => $"hot metal with {a:F4} % less sulphur");
        }

        Candidate Of(
            string what, string unit, double most, double ease, PlanPoint to, double step, Func<HeatInput, double, HeatInput> change, Func<double, FormattableString> text)
        {
            double[] slope = new double[PlanQuantities.All.Count + 1];
            PlanModel.Slope(at, to, step, slope);
            return new Candidate(
                what, unit, Math.Max(most, 1e-9), ease, slope, null, null, a => (request with { Build = d => change(build(d), a) }, ranges), a => FormattableString.Invariant(text(a)));
        }
    }

    private static IEnumerable<Candidate> Bounds(PlanRequest request, PlanModel model, PlanRange[] ranges)
    {
        IReadOnlyList<PlanMaterial> materials = request.Materials;
        for (int j = 0; j < materials.Count; j++)
        {
            int at = j;
            PlanMaterial m = materials[j];
            double scale = model.Scale[j];
            string unit = j == materials.Count - 1 ? "Nm3" : "kg";
            yield return new Candidate(
                m.Name, unit, 6 * scale, scale, null, (j, 1), null, a => (With(at, m with { Most = m.Most + a }), ranges), a => m.Most == 0
                    ? $"allow {Amount(a, unit)} of {m.Name}"
                    : $"{Amount(a, unit)} more {m.Name} than the {Amount(m.Most, unit)} allowed");
            if (m.Least > 0)
            {
                yield return new Candidate(
                    m.Name, unit, m.Least, scale, null, (j, -1), null, a => (With(at, m with { Least = Math.Max(0, m.Least - a) }), ranges),
                    a => $"{Amount(a, unit)} less {m.Name} demanded than {Amount(m.Least, unit)}");
            }
        }

        PlanRequest With(int j, PlanMaterial m)
        {
            int scrap = request.Scrap.Count;
            return j == 0 ? request with { HotMetal = m }
                : j <= scrap ? request with { Scrap = [.. request.Scrap.Select((s, k) => k == j - 1 ? m : s)] }
                : j == materials.Count - 1 ? request with { Oxygen = m }
                : request with { Additions = [.. request.Additions.Select((s, k) => k == j - 1 - scrap ? m : s)] };
        }
    }

    private static Candidate? Widened(PlanRequest request, PlanRange[] ranges, IReadOnlyList<PlanRow> rows, int i)
    {
        if (rows[i].Violation == 0 && rows[i].Limit.Quantity != PlanQuantity.TappedMass)
        {
            return null;
        }

        PlanQuantity q = ranges[i].Quantity;
        int sign = rows[i].Violation > 0 ? 1 : -1;
        double bound = sign > 0 ? ranges[i].Most : ranges[i].Least;
        double written = (sign > 0 ? rows[i].Limit.Most : rows[i].Limit.Least) ?? PlanQuantities.Outer(q, bound);
        double most = PlanQuantities.IsLogarithmic(q) ? 2 : q == PlanQuantity.EndTemperature ? 150 : Math.Abs(0.5 * bound);
        double ease = PlanQuantities.IsLogarithmic(q) ? 0.2 : q == PlanQuantity.EndTemperature ? 10 : Math.Abs(0.05 * bound);
        return new Candidate(
            PlanQuantities.Name(q),
            PlanQuantities.Unit(q),
            Math.Max(most, 1e-6),
            Math.Max(ease, 1e-6),
            null,
            null,
            (i, sign),
            a => (request, [.. ranges.Select((r, k) => k != i ? r : sign > 0 ? r with { Most = r.Most + a } : r with { Least = r.Least - a })]),
            a => $"a limit of {Shown(q, PlanQuantities.Outer(q, PlanQuantities.Inner(q, written) + (sign * a)))} for the {PlanQuantities.Name(q)} instead of {Shown(q, written)}");
    }
}
