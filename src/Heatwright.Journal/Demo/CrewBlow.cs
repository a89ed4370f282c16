// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Blow;
using Heatwright.Shop;

namespace Heatwright.Journal.Demo;

/// <summary>
/// The blows of a block of heats, phase by phase: to the measurement, to the end after the crew's correction, and reblows until
/// the crew taps. At most two reblows.
/// </summary>
internal sealed class CrewBlow(Works works, DemoOptions options, CorrectionRule rule)
{
    /// <summary>Minutes from oxygen off to oxygen on again.</summary>
    public const double ReblowStopMin = 5;

    private const int MostReblows = 2;

    private readonly HiddenBlow _hidden = new(works, options);

    public void Run(IReadOnlyList<HeatStory> block, IReadOnlyDictionary<string, CrewShift> shifts)
    {
        double[] points = [.. block.Select(CorrectionRule.MeasuredAt).Distinct().Order()];
        BlowResult[] until = _hidden.Run([.. block.Select(s => new HiddenRun(s, CorrectionRule.MeasuredAt(s) + 1))], points);
        for (int i = 0; i < block.Count; i++)
        {
            Measure(block[i], until[i].Snapshots[Array.IndexOf(points, CorrectionRule.MeasuredAt(block[i]))], shifts[block[i].Slot.Unit]);
        }

        List<HiddenRun> runs = [.. block.Select(s => new HiddenRun(
            s, s.Correction.EndPercent, s.Correction.OreKg, CorrectionRule.OreAt(s.Correction), s.Mishaps.Held ? 3 : 0))];
        for (int round = 0; runs.Count > 0; round++)
        {
            BlowResult[] ends = _hidden.Run(runs);
            var again = new List<HiddenRun>();
            for (int i = 0; i < runs.Count; i++)
            {
                if (Judge(runs[i], HiddenBlow.End(runs[i], ends[i]), round) is { } next)
                {
                    again.Add(next);
                }
            }

            runs = again;
        }

        HeatStory[] watched = [.. block.Where(s => s.Slot.Index >= options.Heats - options.HeatsWithSignals)];
        if (watched.Length > 0)
        {
            BlowResult[] courses = _hidden.Run(
                [.. watched.Select(s => new HiddenRun(s, s.Blows[0].EndPercent, s.Correction.OreKg, CorrectionRule.OreAt(s.Correction)))], recordEveryS: 1);
            for (int i = 0; i < watched.Length; i++)
            {
                watched[i].Trajectory = courses[i].Trajectory;
            }
        }
    }

    private void Measure(HeatStory s, BlowPoint bath, CrewShift shift)
    {
        DemoRandom r = s.Random(options, "probe");
        double k = bath.TemperatureK + HiddenPlant.InBlowBiasK + r.Kept(0, 5);
        double c = Math.Max(0.05, bath.C + r.Kept(0, 0.035));
        bool read = !s.Mishaps.MissedMeasurement && (!s.Mishaps.BadProbe || s.Mishaps.SecondDip);
        s.Correction = rule.Correct(
            s, bath.OxygenPercent, bath.TemperatureK, bath.C, read ? Math.Round(k - 273.15) + 273.15 : null, read ? Math.Round(c, 2) : null, shift);
    }

    // Reads the end, decides, and says what to blow next; null when it is tapped.
    private HiddenRun? Judge(HiddenRun run, HiddenEnd end, int round)
    {
        HeatStory s = run.Story;
        var r = new DemoRandom(options.Seed, "end-probe-" + round, s.Slot.Index);
        double afterS = r.Between(70, 150);
        double readK = end.TemperatureK - (HiddenPlant.LateHeatK * Math.Exp(-afterS / HiddenPlant.LateHeatS))
            - (HiddenPlant.BathFallKPerMin * afterS / 60) + r.Kept(0, 3.2);
        readK = Math.Round(readK - 273.15) + 273.15;
        double readCarbon = Math.Round(Math.Max(0.012, end.CarbonPercent + r.Kept(0, end.CarbonPercent < 0.12 ? 0.006 : 0.018)), 3);
        double ppm = Math.Round(end.OxygenPpm * (1 + r.Kept(0, 0.06)));
        Order order = s.Heat.Order;
        double cold = order.TemperatureK.Least!.Value - readK;
        double hot = readK - order.TemperatureK.Most!.Value;
        bool carbon = readCarbon > order.CarbonPercent.Most!.Value + (order.CarbonPercent.Most.Value < 0.1 ? 0.012 : 0.02);
        bool phosphorus = WaitsForPhosphorus(s) && end.PhosphorusPercent > s.Slot.Order.MostPhosphorusPercent + 0.0015 && hot < 0;
        string? why = round >= MostReblows ? null
            : cold > 4 ? carbon ? "cold and carbon high" : "cold"
            : carbon ? "carbon high"
            : phosphorus && round == 0 ? "phosphorus high"
            : null;
        double ore = 0;
        if (why is null && hot > 5)
        {
            ore = Math.Clamp(Math.Round((hot + 6) / rule.OreKPerTonne(s) * 10) * 100, 200, 3000);
            double cooledK = rule.OreKPerTonne(s) * ore / 1000 * r.Between(0.7, 1.05);
            end = end with { TemperatureK = end.TemperatureK - cooledK };
        }

        s.Blows.Add(new BlowMade(run.EndPercent, end, readK, ppm, readCarbon, why, ore));
        if (why is null)
        {
            return null;
        }

        double by = Math.Max(0, cold) + 9 + (HiddenPlant.BathFallKPerMin * ReblowStopMin);
        double more = rule.ReblowPercent(s, run.EndPercent, cold > 4 ? by : 0, readCarbon, order.CarbonAimPercent);
        double step = 1000.0 / s.Charge.OxygenNm3;
        double to = Math.Min(140, Math.Round((run.EndPercent + more) / step) * step);
        return run with { EndPercent = to, StoppedMin = run.StoppedMin + ReblowStopMin };
    }

    /// <summary>The works waits for the laboratory where phosphorus is narrow.</summary>
    public static bool WaitsForPhosphorus(HeatStory s) => s.Slot.Order.MostPhosphorusPercent <= 0.016;
}
