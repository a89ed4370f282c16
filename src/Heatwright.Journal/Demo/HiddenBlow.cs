// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter;
using Heatwright.Converter.Blow;
using Heatwright.Shop;

namespace Heatwright.Journal.Demo;

/// <summary>A blow of the hidden plant to be run.</summary>
/// <param name="Story">Heat.</param>
/// <param name="EndPercent">Oxygen metered at the end, % of plan.</param>
/// <param name="OreKg">Ore of the correction, as weighed, kg.</param>
/// <param name="OreAtPercent">When it falls, % of plan.</param>
/// <param name="StoppedMin">Minutes without oxygen so far.</param>
internal sealed record HiddenRun(HeatStory Story, double EndPercent, double OreKg = 0, double OreAtPercent = 0, double StoppedMin = 0);

/// <summary>
/// The invented plant's blow: the kernel under the hidden parameters and inputs, then what the kernel does not know (slag's
/// habit, slopping, skull, standing) put onto its end. A reblow is the same blow carried on, less what the bath lost standing.
/// </summary>
internal sealed class HiddenBlow(Works works, DemoOptions options)
{
    /// <summary>Runs blows, all at once.</summary>
    public BlowResult[] Run(IReadOnlyList<HiddenRun> runs, IReadOnlyList<double>? snapshots = null, double recordEveryS = 0)
    {
        HeatInput[] heats = [.. runs.Select(Input)];
        ModelParameters[] sets = [.. runs.Select(r => r.Story.Hidden.Parameters with
        {
            OxygenUse = r.Story.Hidden.Parameters.OxygenUse / (1 + r.Story.Hidden.OxygenMeter),
        })];
        return BlowModel.Run(heats, sets, new BlowOptions(RecordEveryS: recordEveryS, SnapshotPercents: snapshots, Workers: options.Workers));
    }

    /// <summary>The end as it really was.</summary>
    public static HiddenEnd End(HiddenRun run, BlowResult result)
    {
        HiddenHeat h = run.Story.Hidden;
        BlowPoint e = result.End;
        double iron = Math.Clamp(e.FeO * (1 + h.SlagHabit), 3, 45);
        double moreKg = e.SlagKg * (iron - e.FeO) / 100;
        double others = (100 - iron) / Math.Max(1, 100 - e.FeO);
        double lostSlag = Math.Min(0.4 * e.SlagKg, h.SlopSlagKg);
        double phosphorus = e.P * (1 - (0.35 * h.SlagHabit)) * (1 + (0.5 * lostSlag / e.SlagKg));
        BlowProgramme p = run.Story.Charge.True.Programme;
        return new HiddenEnd(
            e.TemperatureK - (HiddenPlant.BathFallKPerMin * run.StoppedMin),
            e.C,
            phosphorus,
            e.Mn,
            e.S,
            e.Cu,
            e.Sn,
            e.Cr,
            e.Ni,
            e.NitrogenPpm + HiddenPlant.AirNitrogenPpm,
            e.OxygenPpm * (1 + (0.3 * h.SlagHabit)),
            e.MetalKg - (0.777 * moreKg) - h.SlopIronKg - h.SkullOutKg,
            e.SlagKg + moreKg - lostSlag,
            new Dictionary<string, double>
            {
                ["CaO"] = e.CaO * others,
                ["SiO2"] = e.SiO2 * others,
                ["MgO"] = e.MgO * others,
                ["FeO"] = iron,
                ["MnO"] = e.MnO * others,
                ["P2O5"] = e.P2O5 * others,
                ["Al2O3"] = e.Al2O3 * others,
                ["TiO2"] = e.TiO2 * others,
            },
            Math.Max(0, e.TimeS - p.ChargeToBlowS - p.AfterStirS));
    }

    private HeatInput Input(HiddenRun run)
    {
        HeatInput heat = run.Story.Charge.True;
        BlowProgramme p = heat.Programme;
        IReadOnlyList<Addition> additions = run.OreKg <= 0
            ? p.Additions
            : [.. p.Additions, new Addition(run.OreAtPercent, works.Materials.Additions["ore"].Material, run.OreKg)];
        return heat with { Programme = p with { BlownFraction = run.EndPercent / 100, Additions = additions } };
    }
}
