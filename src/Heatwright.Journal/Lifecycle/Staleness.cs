// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;

namespace Heatwright.Journal.Lifecycle;

/// <summary>One reason why a computed thing no longer stands on what is known.</summary>
/// <param name="Entry">The entry that came after it: who, and when it arrived, for callers that show times by a clock on the wall.</param>
/// <param name="Slot">Slot that it fills or puts right.</param>
/// <param name="Text">In words, without a time.</param>
public sealed record StaleCause(Entry Entry, string Slot, string Text);

/// <summary>
/// Which results and plans are stale. A result is, when an entry came into the journal after it that fills a slot it reads, or that
/// corrects an entry in such a slot or among its inputs. A plan with a basis reads the order, the hot-metal analysis and temperature,
/// and what its inputs filled. A stale one stays as it is; a new one may be put beside it.
/// </summary>
public static class Staleness
{
    /// <summary>Slots that a computed plan depends on: what is planned for and from. What is charged afterwards follows the plan and does not make it stale.</summary>
    public static IReadOnlyList<string> PlanReads { get; } = ["order", "analysis/hot-metal/metal/*", "measurement/hot-metal/*"];

    /// <summary>Causes by id of result or plan; what is fresh is not in it.</summary>
    public static IReadOnlyDictionary<Guid, IReadOnlyList<StaleCause>> Of(HeatFacts facts)
    {
        ArgumentNullException.ThrowIfNull(facts);
        var computed = facts.All.Where(f => f.Body is ResultBody or PlanBody { Basis: not null }).ToList();
        var stale = new Dictionary<Guid, IReadOnlyList<StaleCause>>();
        if (computed.Count == 0)
        {
            return stale;
        }

        Later[] later = [.. All(facts).OrderBy(l => l.Entry.Sequence)];
        foreach (Fact<EntryBody> one in computed)
        {
            StaleCause[] causes = Causes(one, later);
            if (causes.Length > 0)
            {
                stale[one.Id] = causes;
            }
        }

        return stale;
    }

    private static StaleCause[] Causes(Fact<EntryBody> computed, Later[] later)
    {
        (Basis basis, IReadOnlyList<string> reads) = computed.Body is ResultBody result ? (result.Basis, result.Reads) : (((PlanBody)computed.Body).Basis!, PlanReads);
        long since = computed.Entry.Sequence;
        return
        [
            .. later.Where(l => l.Entry.Sequence > since && l.Target != computed.Id && !(l.Withdrawn && l.TargetSequence > since) && !FellAfter(l, computed))
                .Select(l => (Later: l, Slot: l.Slots.FirstOrDefault(s => reads.Any(r => Slot.Matches(r, s)))))
                .Where(l => l.Slot is not null || (l.Later.Corrects && basis.Inputs?.Contains(l.Later.Target) == true))
                .Select(l => Cause(l.Later, l.Slot ?? l.Later.Slots.FirstOrDefault() ?? "")),
        ];
    }

    // Coolant given as the answer advised is the next step of the heat, not news about what the answer was made from.
    private static bool FellAfter(Later later, Fact<EntryBody> computed) =>
        !later.Corrects && later.Entry.SourceTime > computed.Time && later.Slots.All(s => s.StartsWith("addition/", StringComparison.Ordinal));

    private static StaleCause Cause(Later later, string slot)
    {
        string what = SlotWords.Of(slot);
        string text = later.Corrects
            ? $"{what} was corrected{(later.Entry.Reason.Length > 0 ? ": " + later.Entry.Reason : "")}"
            : $"{what} arrived";
        return new StaleCause(later.Entry, slot, text);
    }

    private static IEnumerable<Later> All(HeatFacts facts)
    {
        foreach (Fact<EntryBody> fact in facts.All.Concat(facts.Withdrawn))
        {
            bool withdrawn = fact.Changes.Count > 0 && fact.Changes[^1].After is null;
            string[] slots = [.. Slots(fact)];
            if (Slot.Of(fact.Original ?? fact.Body) is { } own)
            {
                yield return new Later(fact.Entry, fact.Id, fact.Entry.Sequence, false, withdrawn, [own]);
            }

            // Corrections of corrections count too: what they say lies in the slots of the fact in the end.
            foreach (AppliedCorrection correction in facts.Corrections.Where(c => c.Target?.Id == fact.Id))
            {
                string[] all = Slot.Of(correction.Body.Replacement ?? fact.Body) is { } said ? [.. slots, said] : slots;
                yield return new Later(correction.Entry, fact.Id, fact.Entry.Sequence, true, withdrawn, [.. all.Distinct()]);
            }
        }
    }

    private static IEnumerable<string> Slots(Fact<EntryBody> fact) =>
        new[] { fact.Original, fact.Body }.Concat(fact.Changes.SelectMany(c => new[] { c.Before, c.After }))
            .OfType<EntryBody>().Select(Slot.Of).OfType<string>().Distinct();

    /// <summary>An entry that could make something stale.</summary>
    /// <param name="Entry">The entry.</param>
    /// <param name="Target">The fact it says or puts right.</param>
    /// <param name="TargetSequence">Sequence of that fact.</param>
    /// <param name="Corrects">It is a correction.</param>
    /// <param name="Withdrawn">Nothing holds of the fact any more.</param>
    /// <param name="Slots">Slots that it fills, filled or emptied.</param>
    private sealed record Later(Entry Entry, Guid Target, long TargetSequence, bool Corrects, bool Withdrawn, string[] Slots);
}
