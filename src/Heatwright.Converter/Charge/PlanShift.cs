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
        var reliefs = new List<PlanRelief>();
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
                if (Wider(l, spread, aimedAt) is { } wider)
                {
                    reliefs.Add(wider);
                }
            }
        }

        return (Planner.Aimed(request.Limits, shifted), impossible, impossible.Count == 0 ? [] : [.. reliefs, .. Reliefs(confidence, least)]);
    }

    private static PlanRelief? Wider(PlanLimit l, PlanSpread spread, double aimedAt)
    {
        if (l.Least is not { } least || l.Most is not { } most)
        {
            return null;
        }

        double middle = (least + most) / 2;
        for (double factor = 1.1; factor < 8; factor += 0.1)
        {
            PlanLimit wide = l with { Least = Math.Max(0, middle - (factor * (middle - least))), Most = middle + (factor * (most - middle)) };
            if (spread.Nominal(wide, aimedAt).Range is not null)
            {
                string from = PlanReliefs.Shown(l.Quantity, wide.Least.Value), to = PlanReliefs.Shown(l.Quantity, wide.Most.Value);
                return new PlanRelief(
                    PlanQuantities.Name(l.Quantity),
                    (factor - 1) * (most - least),
                    PlanQuantities.Unit(l.Quantity),
                    $"a window of {from} to {to} for the {PlanQuantities.Name(l.Quantity)}");
            }
        }

        return null;
    }

    public static PlanConflict TooUnsure(PlanQuantity q, double chance, double asked) => new(
        PlanQuantities.Name(q),
        asked - chance,
        "probability",
        FormattableString.Invariant(
            $"The window of {PlanQuantities.Name(q)} is met with a probability of {chance:F3} at best; {asked:F3} was asked for: the window is narrow against the spread."));

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
                FormattableString.Invariant($"a confidence of about {confidenceHad:F2} instead of {confidence.Probability:F2}")),
        };
        if (confidence.Measurement is null)
        {
            reliefs.Add(new PlanRelief(
                "in-blow measurement", 1, "", "an in-blow measurement in the practice, so that oxygen and coolant are corrected on the way"));
        }

        return reliefs;
    }
}
