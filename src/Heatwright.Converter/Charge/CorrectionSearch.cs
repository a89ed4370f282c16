// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Blow;

namespace Heatwright.Converter.Charge;

/// <summary>
/// In-blow correction: members of the ensemble are weighed by how well they explain the measurement (importance weights,
/// Gaussian errors), then oxygen and coolant are chosen for the best odds among the weighed members. The model is run past
/// the planned end once, and twice with each coolant; between these runs every member's end is interpolated to find the options, whose odds
/// are then taken from runs of their own, after-stir included.
/// </summary>
public static class CorrectionSearch
{
    // Fewer effective members than this make an estimate of odds worse than some 10 points.
    private const double LeastMembers = 40;
    private const int MostCoolants = 3;
    private const int MostMembers = 250;

    /// <summary>Advises on the end of the blow.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A number lies outside its range; the message names it.</exception>
    public static CorrectionAdvice Advise(CorrectionRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        Validate(request);
        InBlowMeasurement m = request.Measurement;
        EnsembleDraw draw = request.Ensemble ?? new EnsembleDraw(1000, 1, centre: request.Parameters);
        BlowResult[] until = draw.Run(
            request.Heat with { Programme = request.Heat.Programme with { BlownFraction = Math.Min(1.4, (m.OxygenPercent + 0.3) / 100), AfterStirS = 0 } },
            new BlowOptions(SnapshotPercents: [m.OxygenPercent]));
        (double[] all, double tempered, Surprise surprise) = CorrectionWeights.Of(until, m, LeastMembers);
        (int[] members, double[] weights) = Kept(all);
        double effective = CorrectionWeights.Effective(all);
        double unmoltenKg = members.Zip(weights, (i, w) => w * until[i].Snapshots[0].ScrapKg.Sum()).Sum();
        var ends = new CorrectionEnds(request, draw, members, weights);
        var options = new List<CorrectionOption> { ends.Best(null, 0), ends.Exact(null, 0, 100) };
        foreach ((FluxMaterial coolant, double mostKg) in request.Coolants.Where(c => c.MostKg > 0).Take(MostCoolants))
        {
            options.Add(ends.Best(coolant, mostKg));
        }

        // Equal odds to half a point: the earlier in the list, so no coolant before coolant.
        CorrectionOption best = options[0];
        foreach (CorrectionOption o in options)
        {
            best = o.InWindow > best.InWindow + 0.005 ? o : best;
        }

        CorrectionOption[] ordered = [best, .. options.Where(o => o != best).DistinctBy(o => (o.Coolant, o.CoolantKg, o.EndOxygenPercent)).OrderByDescending(o => o.InWindow)];
        return new CorrectionAdvice(best, ordered, effective, tempered, surprise, [.. Warnings(request, surprise, effective, tempered, best, unmoltenKg)]);
    }

    /// <summary>
    /// Members to blow on: those that carry all but a thousandth of the weight; when they are many, a systematic resample
    /// of <see cref="MostMembers"/> of them (Kitagawa, J. Comput. Graph. Stat. 5 (1996) 1), which keeps every odds to about a point.
    /// </summary>
    private static (int[] Members, double[] Weights) Kept(double[] weights)
    {
        int[] order = [.. Enumerable.Range(0, weights.Length).OrderByDescending(i => weights[i]).ThenBy(i => i)];
        double sum = 0;
        int count = 0;
        while (count < order.Length && sum < 0.999)
        {
            sum += weights[order[count++]];
        }

        if (count <= MostMembers)
        {
            int[] members = order[..count];
            return (members, [.. members.Select(i => weights[i] / sum)]);
        }

        var drawn = new SortedDictionary<int, int>();
        double passed = 0;
        int next = 0;
        foreach (int i in order)
        {
            passed += weights[i];
            for (; next < MostMembers && (next + 0.5) / MostMembers <= passed; next++)
            {
                drawn[i] = drawn.GetValueOrDefault(i) + 1;
            }
        }

        return ([.. drawn.Keys], [.. drawn.Values.Select(n => (double)n / next)]);
    }

    private static void Validate(CorrectionRequest r)
    {
        InBlowMeasurement m = r.Measurement;
        Check.InRange(m.OxygenPercent, 40, 99, "% of planned oxygen", "moment of the measurement");
        Check.InRange(m.TemperatureK, 1573, 2073, "K", "measured temperature");
        Check.InRange(m.TemperatureErrorK, 0.5, 100, "K", "error of the measured temperature");
        if (m.CarbonPercent is { } c)
        {
            Check.InRange(c, 0.005, 4.5, "mass %", "measured carbon");
        }

        Check.InRange(m.CarbonErrorPercent, 0.001, 1, "mass %", "error of the measured carbon");
        Check.InRange(r.MostOxygenPercent, m.OxygenPercent + 2, 140, "% of planned oxygen", "most oxygen");
        Check.InRange(r.DecisionPercent, 0, 10, "% of planned oxygen", "time to decide");
        foreach ((FluxMaterial material, double mostKg) in r.Coolants)
        {
            Check.InRange(mostKg, 0, 20e3, "kg", $"most {material.Name}");
        }
    }

    private static IEnumerable<string> Warnings(
        CorrectionRequest r, Surprise s, double effective, double tempered, CorrectionOption best, double unmolten)
    {
        if (s.Outside)
        {
            yield return FormattableString.Invariant(
                $"The measurement lies outside what the charge allows ({100 * s.Share:F1} % of readings would lie nearer): expected {s.ExpectedTemperatureK - 273.15:F0} ± {s.TemperatureDeviationK:F0} °C and {s.ExpectedCarbonPercent:F2} ± {s.CarbonDeviationPercent:F2} % C. Check the reading and the charge, and measure again if you can.");
        }

        if (tempered < 0.999)
        {
            yield return FormattableString.Invariant(
                $"Few members explain the measurement: only {100 * tempered:F0} % of its information is used, so that {effective:F0} members carry the odds.");
        }

        if (unmolten > 0.02 * r.Heat.HotMetal.MassKg)
        {
            yield return FormattableString.Invariant(
                $"About {unmolten / 1000:F0} t of scrap are likely to be unmolten at the measurement: its temperature and carbon do not stand for the whole charge.");
        }

        if (best.InWindow < 0.5)
        {
            yield return FormattableString.Invariant($"The best odds are only {100 * best.InWindow:F0} %.");
        }

        if (best.EndOxygenPercent >= r.MostOxygenPercent - 1)
        {
            yield return FormattableString.Invariant($"The best end lies at the most oxygen looked at, {r.MostOxygenPercent:F0} % of plan.");
        }
    }
}
