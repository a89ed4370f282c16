// SPDX-License-Identifier: Apache-2.0
using Heatwright.Cli.Output;
using Heatwright.Converter;
using Heatwright.Converter.Blow;
using Heatwright.Converter.Charge;
using Heatwright.Reports.Heats;
using Heatwright.Shop;
using Heatwright.Shop.Planning;
using BlowPoint = Heatwright.Converter.Blow.BlowPoint;

namespace Heatwright.Cli.Commands;

/// <summary>One heat blown once as written, and many times over what cannot be weighed.</summary>
/// <param name="Input">As written.</param>
/// <param name="Single">The heat with the starting parameters, with its trajectory.</param>
/// <param name="Rows">Points for the table, from ignition on.</param>
/// <param name="Ends">Ends of the members.</param>
/// <param name="Outlook">Share inside the order.</param>
/// <param name="Cautions">What to look at.</param>
internal sealed record BlowRun(
    HeatInput Input, BlowResult Single, IReadOnlyList<BlowPoint> Rows, IReadOnlyList<BlowPoint> Ends, Outlook Outlook, IReadOnlyList<Caution> Cautions)
{
    private const int Chunk = 500;

    public static BlowRun Of(Works works, Heat heat, Charge charge, double everyPercent, int members, int seed)
    {
        HeatInput input = HeatBuilder.Build(works, heat, charge);
        double[] shares = [.. Enumerable.Range(1, (int)Math.Ceiling(100 / everyPercent)).Select(i => Math.Min(100, i * everyPercent))];
        BlowResult single = BlowModel.Run(input, new BlowOptions(RecordEveryS: 4, SnapshotPercents: shares));
        BlowPoint ignition = single.Trajectory.Last(p => p.OxygenPercent <= 0);
        IReadOnlyList<BlowPoint> ends = Members(input, heat, works, members, seed);
        return new BlowRun(input, single, [ignition, .. single.Snapshots], ends, Outlook.Of(heat.Order, ends), Reports.Heats.Cautions.Of(input, single));
    }

    /// <summary>The band of one quantity of the end.</summary>
    public Band Band(Func<BlowPoint, double> quantity) => Converter.Charge.Band.Of(Ends.Select(quantity));

    private static List<BlowPoint> Members(HeatInput input, Heat heat, Works works, int members, int seed)
    {
        var draw = new EnsembleDraw(members, seed, inputs: HeatPlanner.Inputs(works.Plant.Measurement));
        var ends = new List<BlowPoint>(members);
        using var progress = new Progress($"heat {heat.Id}: blowing {members} members");
        for (int first = 0; first < members; first += Chunk)
        {
            int count = Math.Min(Chunk, members - first);
            HeatInput[] truths = [.. Enumerable.Range(first, count).Select(i => draw.Truth(input, i))];
            ends.AddRange(BlowModel.Run(truths, [.. draw.Sets.Skip(first).Take(count)]).Select(r => r.End));
            progress.Say($"heat {heat.Id}: {first + count} of {members} members blown");
        }

        return ends;
    }
}
