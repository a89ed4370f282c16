// SPDX-License-Identifier: Apache-2.0
using Heatwright.Cli.Output;
using Heatwright.Converter.Charge;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Lifecycle;
using Heatwright.Journal.Store;
using Heatwright.Shop;
using BlowPoint = Heatwright.Converter.Blow.BlowPoint;

namespace Heatwright.Cli.Commands.Record;

/// <summary>A plan that was found goes into the journal with the order and the works that it rests on.</summary>
internal static class PlanRecord
{
    /// <summary>Writes them together; says which entries they are.</summary>
    public static IReadOnlyList<Entry> Write(IJournalStore store, AnswerContext context, Charge charge, PlanFound plan, BlowRun run, string actor, string reason)
    {
        Heat heat = context.Heat;
        DateTimeOffset now = Times.Parse(null, "");
        var entries = new List<NewEntry>();
        NewEntry works = HeatEntries.Works(context.Works, now, actor);
        if (store.Find(works.Id) is null)
        {
            entries.Add(works);
        }

        OrderBody order = HeatEntries.Order(heat);
        Entry? before = store.ReadHeat(heat.Id, signals: false).LastOrDefault(e => e.Kind == EntryKind.Order);
        Guid orderId = before?.Id ?? Guid.Empty;
        if (before is null || !before.BodyBytes.Span.SequenceEqual(EntryText.Write(order)))
        {
            var entry = NewEntry.Of(heat.Id, order, now, actor, reason);
            entries.Add(entry);
            orderId = entry.Id;
        }

        double probability = plan.Chances is { } c ? (double.IsNaN(c.JointWith) ? c.JointWithout : c.JointWith) : double.NaN;
        var basis = new Basis("Heatwright " + AnswerContext.Version, works.Id, context.Seed, context.Members, null, [orderId]);
        entries.Add(NewEntry.Of(
            heat.Id,
            HeatEntries.Plan(heat, charge, Expected(run.Ends), basis, plan.Costs.CostEur, double.IsNaN(probability) ? null : probability),
            now,
            actor,
            reason));
        return store.Append(entries);
    }

    private static Dictionary<string, Expected> Expected(IReadOnlyList<BlowPoint> ends) => EndQuantities.All.ToDictionary(
        q => q.Name,
        q =>
        {
            Band band = Band.Of(ends.Select(q.Value));
            return new Expected(JsonText.Rounded(band.Middle), JsonText.Rounded(band.Low), JsonText.Rounded(band.High));
        });
}
