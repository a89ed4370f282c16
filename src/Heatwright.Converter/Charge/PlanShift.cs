// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Converter.Charge;

/// <summary>From a spread and a probability to ranges for the expectation, or to the reason why there are none.</summary>
internal static class PlanShift
{
    public static (PlanRange[] Ranges, List<PlanConflict> Impossible, List<PlanRelief> Reliefs) Of(
        PlanRequest request, PlanSpread spread, PlanConfidence confidence, double aimedAt)
    {
        var shifted = new Dictionary<PlanQuantity, PlanRange>();
        var impossible = new List<PlanConflict>();
        double least = 1;
        foreach (PlanLimit l in request.Limits.Where(l => PlanQuantities.HasChance(l.Quantity) && (l.Least is not null || l.Most is not null)))
        {
            (PlanRange? range, double best, double chance) = spread.Nominal(l, aimedAt);
            if (range is null && chance >= confidence.Probability)
            {
                range = new PlanRange(l.Quantity, best, best);
            }

            if (range is { } r)
            {
                shifted[l.Quantity] = r;
            }
            else
            {
                impossible.Add(TooUnsure(l.Quantity, chance, confidence.Probability));
                least = Math.Min(least, chance);
            }
        }

        return (Planner.Aimed(request.Limits, shifted), impossible, impossible.Count == 0 ? [] : Reliefs(confidence, least));
    }

    public static PlanConflict TooUnsure(PlanQuantity q, double chance, double asked) => new(
        PlanQuantities.Name(q),
        asked - chance,
        "probability",
        FormattableString.Invariant(
            $"The window of {PlanQuantities.Name(q)} is met with a probability of {chance:F2} at best; {asked:F2} was asked for: the window is narrow against the spread."));

    public static List<PlanRelief> Reliefs(PlanConfidence confidence, double best)
    {
        // Rounded down, and below the best by what the two ensembles may differ.
        double confidenceHad = Math.Max(0.5, Math.Floor((best - 0.02) * 100) / 100);
        var reliefs = new List<PlanRelief>
        {
            new(
                "confidence",
                confidence.Probability - confidenceHad,
                "probability",
                FormattableString.Invariant($"Ask for a confidence of about {confidenceHad:F2} instead of {confidence.Probability:F2}, or widen the window.")),
        };
        if (confidence.Measurement is null)
        {
            reliefs.Add(new PlanRelief(
                "in-blow measurement", 1, "", "Provide for an in-blow measurement in the practice: oxygen and coolant are then corrected on the way."));
        }

        return reliefs;
    }
}
