// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Converter.Charge;

/// <summary>
/// Chooses hot metal, scrap, additions and oxygen: least cost, least CO2 or most scrap within all limits, in the full model
/// of the blow. Deterministic: the same request gives the same plan.
/// </summary>
public static class Planner
{
    /// <summary>Scrap that an in-blow measurement may leave unmolten before it stops telling of the whole charge, as a share of the tapped mass.</summary>
    private const double MoltenAtMeasurement = 0.003;

    private static readonly Dictionary<PlanQuantity, PlanRange> NoShift = [];

    /// <summary>Plans a heat.</summary>
    /// <param name="request">What may be chosen and what must come out.</param>
    /// <param name="solver">Solver for the linear programs.</param>
    /// <exception cref="ArgumentException">The request contradicts itself or the model; the message names field, value and limit.</exception>
    public static PlanResult Plan(PlanRequest request, ILinearProgram solver)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(solver);
        request.Validate();
        var model = new PlanModel(request);
        var search = new PlanSearch(request, model, solver);
        PlanRange[] ranges = Aimed(request.Limits, NoShift);
        PlanPoint at = search.Run(model.At(PlanStart.Of(request, model)), ranges);
        if (!search.Feasible(at, ranges))
        {
            at = Nearest(request, model, search, at, ranges);
            if (!search.Feasible(at, ranges))
            {
                return PlanReliefs.Explain(request, model, search, solver, at, ranges);
            }
        }

        return request.Confidence is { } confidence
            ? Sure(request, model, search, solver, at, confidence)
            : Found(request, model, search, at, ranges, null);
    }

    /// <summary>
    /// Ranges for the expectation: the limits or their form shifted for confidence, with the aims moved only as far as that
    /// asks.
    /// </summary>
    internal static PlanRange[] Aimed(IReadOnlyList<PlanLimit> limits, IReadOnlyDictionary<PlanQuantity, PlanRange> shifted) =>
    [
        .. limits.Select(l =>
        {
            PlanRange range = shifted.TryGetValue(l.Quantity, out PlanRange s)
                ? s
                : new PlanRange(
                    l.Quantity,
                    l.Least is { } a ? PlanQuantities.Inner(l.Quantity, a) : double.NegativeInfinity,
                    l.Most is { } b ? PlanQuantities.Inner(l.Quantity, b) : double.PositiveInfinity);
            if (l.Aim is { } aim)
            {
                return range with { Aim = Math.Clamp(PlanQuantities.Inner(l.Quantity, aim), range.Least, range.Most) };
            }

            return range;
        }),
    ];

    internal static IReadOnlyList<PlanRow> Rows(PlanRequest request, PlanPoint at, IReadOnlyList<PlanRange> ranges) =>
    [
        .. request.Limits.Zip(ranges, (l, r) =>
        {
            double value = PlanQuantities.Outer(l.Quantity, at.Y[(int)l.Quantity]);
            double inner = r.Miss(at.Y[(int)l.Quantity]);
            double violation = inner == 0 ? 0 : value - PlanQuantities.Outer(l.Quantity, inner > 0 ? r.Most : r.Least);
            return new PlanRow(
                l,
                value,
                double.IsNegativeInfinity(r.Least) ? double.NegativeInfinity : PlanQuantities.Outer(l.Quantity, r.Least),
                double.IsPositiveInfinity(r.Most) ? double.PositiveInfinity : PlanQuantities.Outer(l.Quantity, r.Most),
                violation);
        }),
    ];

    // A search that ends outside the limits may have been caught in a bend: three more starts before it is called infeasible.
    private static PlanPoint Nearest(PlanRequest request, PlanModel model, PlanSearch search, PlanPoint at, PlanRange[] ranges)
    {
        PlanPoint best = at;
        foreach (double[] start in PlanStart.Others(request, model))
        {
            PlanPoint tried = search.Run(model.At(start), ranges);
            best = search.Violation(tried, ranges) < search.Violation(best, ranges) ? tried : best;
            if (search.Feasible(best, ranges))
            {
                return best;
            }
        }

        // Leaves the linearisation at the point that is explained.
        return search.Run(best, ranges);
    }

    private static PlanResult Sure(
        PlanRequest request, PlanModel model, PlanSearch search, ILinearProgram solver, PlanPoint at, PlanConfidence confidence)
    {
        var draw = new EnsembleDraw(confidence.ShiftMembers, confidence.Seed, confidence.Parameters, confidence.Inputs, request.Parameters);

        // The check is made with another, larger ensemble: a little to spare pays for the difference between the two.
        double aimedAt = confidence.Probability + (0.25 * (1 - confidence.Probability));
        var check = new EnsembleDraw(confidence.Members, confidence.Seed + 1, confidence.Parameters, confidence.Inputs, request.Parameters);
        bool molten = false;
        PlanSpread? known = null;
        for (int pass = 0; ; pass++)
        {
            PlanSpread spread = known ?? Spread(model, search, at, draw, confidence);
            (PlanRange[] ranges, List<PlanConflict> impossible, List<PlanRelief> reliefs) = PlanShift.Of(request, spread, confidence, aimedAt);
            if (impossible.Count > 0 && !molten && Molten(request, model) is { } tighter)
            {
                // Scrap that is unmolten when the bath is measured hides heat and carbon: melt it before and look again.
                molten = true;
                var again = new PlanModel(tighter, model.Blows);
                var research = new PlanSearch(tighter, again, solver, search.Iterations);
                PlanRange[] aimed = Aimed(tighter.Limits, NoShift);
                PlanPoint earlier = research.Run(again.At(at.X), aimed);
                if (research.Feasible(earlier, aimed))
                {
                    (request, model, search, at) = (tighter, again, research, earlier);
                    pass--;
                    continue;
                }
            }

            if (impossible.Count > 0)
            {
                return new PlanInfeasible(
                    impossible,
                    reliefs,
                    request.Decision(at.X),
                    Rows(request, at, Aimed(request.Limits, NoShift)),
                    spread.Report(request.Limits, at, confidence.Probability),
                    new PlanWork(search.Iterations, model.Blows));
            }

            at = search.Run(at, ranges);
            if (!search.Feasible(at, ranges))
            {
                return PlanReliefs.Explain(request, model, search, solver, at, ranges);
            }

            PlanSpread checkedSpread = Spread(model, search, at, check, confidence);
            PlanChances chances = checkedSpread.Report(request.Limits, at, confidence.Probability);
            if (chances.Windows.All(w => w.Probability >= confidence.Probability) || pass == 1)
            {
                PlanChance[] short_ = [.. chances.Windows.Where(w => w.Probability < confidence.Probability)];
                return short_.Length == 0
                    ? Found(request, model, search, at, ranges, chances)
                    : new PlanInfeasible(
                        [.. short_.Select(w => PlanShift.TooUnsure(w.Quantity, w.Probability, confidence.Probability))],
                        PlanShift.Reliefs(confidence, short_.Min(w => w.Probability)),
                        request.Decision(at.X),
                        Rows(request, at, ranges),
                        chances,
                        new PlanWork(search.Iterations, model.Blows));
            }

            // Once more with the scatter of the larger ensemble and more to spare.
            known = checkedSpread;
            aimedAt = confidence.Probability + (0.35 * (1 - confidence.Probability));
        }
    }

    private static PlanRequest? Molten(PlanRequest request, PlanModel model)
    {
        if (request.Confidence?.Measurement is not { } m)
        {
            return null;
        }

        var limit = new PlanLimit(PlanQuantity.UnmeltedScrapLate, null, MoltenAtMeasurement * model.TappedKg);
        return request with
        {
            ScrapMoltenByPercent = m.OxygenPercent + 1,
            Limits = [.. request.Limits.Where(l => l.Quantity != PlanQuantity.UnmeltedScrapLate), limit],
        };
    }

    private static PlanSpread Spread(PlanModel model, PlanSearch search, PlanPoint at, EnsembleDraw draw, PlanConfidence confidence)
    {
        (Blow.BlowResult[] runs, double[][] y) = model.Ensemble(at.X, draw);
        double[] oxygen = search.Jacobian[^1];
        double perLogCarbon = oxygen[(int)PlanQuantity.EndTemperature] / oxygen[(int)PlanQuantity.Carbon];
        return new PlanSpread(at, runs, y, confidence.Measurement, double.IsFinite(perLogCarbon) ? perLogCarbon : 0, confidence.Seed);
    }

    private static PlanFound Found(
        PlanRequest request, PlanModel model, PlanSearch search, PlanPoint at, PlanRange[] ranges, PlanChances? chances)
    {
        PlanDecision decision = request.Decision(at.X);
        return new PlanFound(
            decision, request.Build(decision), at.Run, Rows(request, at, ranges), model.Costs(at), chances, new PlanWork(search.Iterations, model.Blows));
    }
}
