// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;

namespace Heatwright.Journal.Lifecycle;

/// <summary>A correction and what it met.</summary>
/// <param name="Entry">The correction: who, when and why.</param>
/// <param name="Body">What it says.</param>
/// <param name="Target">The fact that it puts right in the end (a correction of a correction reaches through); null when the heat has none such.</param>
/// <param name="Holds">It is in force: neither withdrawn nor overtaken by a later one.</param>
public sealed record AppliedCorrection(Entry Entry, CorrectionBody Body, Entry? Target, bool Holds);

/// <summary>
/// What the entries of one heat say, with corrections applied, in the order in which it happened. Nothing here depends on the order
/// in which the entries arrived, save where two of them carry the same source time.
/// </summary>
public sealed class HeatFacts
{
    /// <summary>A fact is late when it arrives more than this after it was so: longer than a laboratory usually takes (common practice, no source).</summary>
    public static readonly TimeSpan UsualLateAfter = TimeSpan.FromMinutes(10);

    private readonly List<Fact<EntryBody>> _facts = [];
    private readonly List<Fact<EntryBody>> _withdrawn = [];
    private readonly List<AppliedCorrection> _corrections = [];
    private readonly List<Irregularity> _irregularities = [];

    private HeatFacts(string heat, IReadOnlyList<Entry> entries)
    {
        Heat = heat;
        Entries = entries;
    }

    /// <summary>Heat number; empty for what belongs to no heat.</summary>
    public string Heat { get; }

    /// <summary>The entries that were looked at, in order of source time.</summary>
    public IReadOnlyList<Entry> Entries { get; }

    /// <summary>What holds, in order of source time: everything but corrections.</summary>
    public IReadOnlyList<Fact<EntryBody>> All => _facts;

    /// <summary>Facts that a correction says were wrong altogether.</summary>
    public IReadOnlyList<Fact<EntryBody>> Withdrawn => _withdrawn;

    /// <summary>Corrections in order of source time.</summary>
    public IReadOnlyList<AppliedCorrection> Corrections => _corrections;

    /// <summary>Entries that cannot be read and corrections that meet nothing.</summary>
    public IReadOnlyList<Irregularity> Irregularities => _irregularities;

    /// <summary>Facts of one kind, in order of source time.</summary>
    public IEnumerable<Fact<T>> Of<T>()
        where T : EntryBody
    {
        foreach (Fact<EntryBody> fact in _facts)
        {
            if (fact.Body is T body)
            {
                yield return new Fact<T>(fact.Entry, body, fact.Original, fact.Changes, fact.Late);
            }
        }
    }

    /// <summary>The facts of a heat.</summary>
    /// <param name="heat">Heat number.</param>
    /// <param name="entries">Its entries in any order; those of other heats are left out.</param>
    /// <param name="asOf">How far back to look.</param>
    /// <param name="lateAfter">When a fact is late; null: <see cref="UsualLateAfter"/>.</param>
    public static HeatFacts Of(string heat, IEnumerable<Entry> entries, AsOf asOf = default, TimeSpan? lateAfter = null)
    {
        ArgumentNullException.ThrowIfNull(heat);
        ArgumentNullException.ThrowIfNull(entries);
        Entry[] ordered = [.. entries.Where(e => e.Heat == heat && asOf.Includes(e)).Order(SourceOrder.Instance)];
        var facts = new HeatFacts(heat, ordered);
        facts.Apply(lateAfter ?? UsualLateAfter);
        return facts;
    }

    private void Apply(TimeSpan lateAfter)
    {
        var bodies = new Dictionary<Guid, EntryBody>(Entries.Count);
        var byId = new Dictionary<Guid, Entry>(Entries.Count);
        foreach (Entry entry in Entries)
        {
            try
            {
                bodies[entry.Id] = entry.Body;
                byId[entry.Id] = entry;
            }
            catch (EntryFormatException e)
            {
                _irregularities.Add(new Irregularity(entry.Id, entry.SourceTime, $"Entry {entry.Sequence} is left out: {e.Message}"));
            }
        }

        Entry[] readable = [.. Entries.Where(e => byId.ContainsKey(e.Id))];
        ILookup<Guid, Entry> correctionsOf = readable.Where(e => bodies[e.Id] is CorrectionBody).ToLookup(e => ((CorrectionBody)bodies[e.Id]).Corrects);
        var state = new CorrectionTree(bodies, byId, correctionsOf);
        foreach (Entry entry in readable)
        {
            EntryBody body = bodies[entry.Id];
            if (body is CorrectionBody correction)
            {
                Entry? target = state.Target(entry);
                _corrections.Add(new AppliedCorrection(entry, correction, target, target is not null && state.Holds(entry)));
                if (target is null)
                {
                    _irregularities.Add(new Irregularity(entry.Id, entry.SourceTime, "A correction of an entry that this heat does not have; nothing was corrected."));
                }

                continue;
            }

            List<Change> changes = state.Changes(entry);
            EntryBody? holds = changes.Count > 0 ? changes[^1].After : body;
            bool late = entry.ArrivalTime - entry.SourceTime > lateAfter && Slot.Of(body) is not null;
            var fact = new Fact<EntryBody>(entry, holds ?? body, changes.Count > 0 ? body : null, changes, late);
            (holds is null ? _withdrawn : _facts).Add(fact);
        }
    }

    /// <summary>
    /// Which correction is in force. Each may itself be put right: with another replacement, or (with none) withdrawn, so that what
    /// held before holds again. The last by source time that is not withdrawn decides.
    /// </summary>
    private sealed class CorrectionTree(Dictionary<Guid, EntryBody> bodies, Dictionary<Guid, Entry> byId, ILookup<Guid, Entry> correctionsOf)
    {
        /// <summary>The fact that a correction puts right in the end.</summary>
        public Entry? Target(Entry correction)
        {
            // A chain of corrections that bites its own tail ends nowhere.
            var seen = new HashSet<Guid>();
            Entry at = correction;
            while (bodies[at.Id] is CorrectionBody body)
            {
                if (!seen.Add(at.Id) || !byId.TryGetValue(body.Corrects, out Entry? next))
                {
                    return null;
                }

                at = next;
            }

            return at;
        }

        /// <summary>Every change of a fact in order, with what it made of it.</summary>
        public List<Change> Changes(Entry fact)
        {
            var changes = new List<Change>();
            EntryBody? before = bodies[fact.Id];
            foreach (Entry correction in correctionsOf[fact.Id])
            {
                // A withdrawn correction changes nothing, and what it said is in the list of corrections.
                if (Now(correction) is { } now)
                {
                    changes.Add(new Change(now.By, before, now.Replacement));
                    before = now.Replacement;
                }
            }

            return changes;
        }

        /// <summary>A correction is in force when its fact's last change comes from it.</summary>
        public bool Holds(Entry correction) => Target(correction) is { } target && Changes(target) is [.., { } last] && last.Correction.Id == correction.Id;

        /// <summary>What a correction says now, and the entry that made it say so; null when it is withdrawn.</summary>
        private (Entry By, EntryBody? Replacement)? Now(Entry correction)
        {
            (Entry, EntryBody?)? now = (correction, ((CorrectionBody)bodies[correction.Id]).Replacement);
            foreach (Entry later in correctionsOf[correction.Id])
            {
                if (Now(later) is { } changed)
                {
                    now = changed.Replacement is null ? null : changed;
                }
            }

            return now;
        }
    }
}
