// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;

namespace Heatwright.Journal.Store.Append;

/// <summary>What a batch must know of the journal before it can be decided.</summary>
/// <param name="Head">End of the chain.</param>
/// <param name="Known">Entries that the journal holds among <see cref="AppendBatch.Ids"/>.</param>
/// <param name="Versions">Version of each of <see cref="AppendBatch.Heats"/>; absent: 0.</param>
internal sealed record AppendState(JournalHead Head, IReadOnlyDictionary<Guid, Entry> Known, IReadOnlyDictionary<string, long> Versions);

/// <summary>
/// Requests, checked and turned into bytes before the journal is locked, and then decided against its state. Deciding is pure: both
/// databases share it, and equal state, requests and clock give equal entries and hashes.
/// </summary>
internal sealed class AppendBatch
{
    private readonly IReadOnlyList<AppendRequest> _requests;
    private readonly Dictionary<NewEntry, byte[]> _bodies = new(ReferenceEqualityComparer.Instance);

    private AppendBatch(IReadOnlyList<AppendRequest> requests) => _requests = requests;

    /// <summary>Ids to be looked up: of the entries, and of what corrections put right.</summary>
    public IReadOnlyCollection<Guid> Ids { get; private set; } = [];

    /// <summary>Heats whose versions are to be looked up.</summary>
    public IReadOnlyCollection<string> Heats { get; private set; } = [];

    /// <summary>Checks requests and makes their bytes.</summary>
    /// <exception cref="JournalException">Bad entry.</exception>
    public static AppendBatch Prepare(IReadOnlyList<AppendRequest> requests)
    {
        ArgumentNullException.ThrowIfNull(requests);
        var batch = new AppendBatch(requests);
        var ids = new HashSet<Guid>();
        var heats = new HashSet<string>(StringComparer.Ordinal);
        foreach (AppendRequest request in requests)
        {
            EntryCheck.Request(request);
            heats.UnionWith(request.Expected?.Keys ?? []);
            foreach (NewEntry entry in request.Entries)
            {
                ids.Add(entry.Id);
                heats.Add(entry.Heat);
                if (entry.Body is CorrectionBody correction)
                {
                    ids.Add(correction.Corrects);
                }

                batch._bodies[entry] = Bytes(entry);
            }
        }

        batch.Ids = ids;
        batch.Heats = heats;
        return batch;
    }

    /// <summary>What becomes of each request, and the entries to be written, in order. The clock is read once for each request.</summary>
    /// <exception cref="JournalException">A correction of what is not there.</exception>
    public (AppendOutcome[] Outcomes, List<Entry> Written) Decide(AppendState state, TimeProvider clock)
    {
        var known = new Dictionary<Guid, Entry>(state.Known);
        var versions = new Dictionary<string, long>(state.Versions, StringComparer.Ordinal);
        var written = new List<Entry>(_bodies.Count);
        JournalHead head = state.Head;
        var outcomes = new AppendOutcome[_requests.Count];
        for (int i = 0; i < outcomes.Length; i++)
        {
            AppendRequest request = _requests[i];
            DateTimeOffset arrival = Millisecond(clock.GetUtcNow());
            outcomes[i] = Again(request, known) ?? OtherVersion(request, versions) ?? Write(request, arrival);
        }

        return (outcomes, written);

        AppendOutcome Write(AppendRequest request, DateTimeOffset arrival)
        {
            CheckCorrections(request, known);
            var entries = new List<Entry>(request.Entries.Count);
            foreach (NewEntry n in request.Entries)
            {
                long version = versions.GetValueOrDefault(n.Heat) + 1;
                var entry = new Entry(
                    head.Sequence + 1, n.Id, n.Heat, version, n.Kind, EntryText.SchemaVersion,
                    Millisecond(n.SourceTime), arrival, n.Actor, n.Reason, _bodies[n], ReadOnlyMemory<byte>.Empty);
                entry = entry with { Hash = EntryHash.Of(head.Hash.Span, entry) };
                versions[n.Heat] = version;
                head = new JournalHead(entry.Sequence, entry.Hash);
                known[n.Id] = entry;
                entries.Add(entry);
            }

            written.AddRange(entries);
            return new AppendOutcome(AppendStatus.Written, entries);
        }
    }

    /// <summary>A time in UTC, cut to the millisecond that is kept.</summary>
    public static DateTimeOffset Millisecond(DateTimeOffset time) => DateTimeOffset.FromUnixTimeMilliseconds(time.ToUnixTimeMilliseconds());

    private static byte[] Bytes(NewEntry entry)
    {
        byte[] bytes;
        try
        {
            bytes = EntryText.Write(entry.Body);
        }
        catch (ArgumentException e)
        {
            throw new JournalException(
                JournalProblem.BadEntry, $"Entry not taken: body of {entry.Kind.Name()} {entry.Id}: {e.Message} Limit: finite numbers. Mend: leave the figure out.", e);
        }

        EntryCheck.Body(entry, bytes.Length);
        return bytes;
    }

    /// <summary>The answer when ids of the request are there already; null when none is.</summary>
    private AppendOutcome? Again(AppendRequest request, Dictionary<Guid, Entry> known)
    {
        var there = new List<Entry>();
        string? conflict = null;
        foreach (NewEntry entry in request.Entries)
        {
            if (!known.TryGetValue(entry.Id, out Entry? old))
            {
                conflict ??= $"id {entry.Id} is new while others of the same request are in the journal already";
            }
            else if (Difference(entry, old) is { } field)
            {
                there.Add(old);
                conflict = $"id {entry.Id} is in the journal already as entry {old.Sequence} with another {field}";
                break;
            }
            else
            {
                there.Add(old);
            }
        }

        return there.Count == 0 ? null
            : conflict is null ? new AppendOutcome(AppendStatus.AlreadyThere, there)
            : new AppendOutcome(AppendStatus.IdConflict, [], conflict);
    }

    private string? Difference(NewEntry entry, Entry old) =>
        entry.Heat != old.Heat ? "heat"
        : entry.Kind != old.Kind ? "kind"
        : Millisecond(entry.SourceTime) != old.SourceTime ? "source time"
        : entry.Actor != old.Actor ? "actor"
        : entry.Reason != old.Reason ? "reason"
        : !_bodies[entry].AsSpan().SequenceEqual(old.BodyBytes.Span) ? "body"
        : null;

    private static AppendOutcome? OtherVersion(AppendRequest request, Dictionary<string, long> versions)
    {
        foreach ((string heat, long expected) in request.Expected ?? new Dictionary<string, long>())
        {
            long actual = versions.GetValueOrDefault(heat);
            if (actual != expected)
            {
                return new AppendOutcome(AppendStatus.VersionConflict, [], $"heat {heat} has version {actual}; expected was {expected}");
            }
        }

        return null;
    }

    private static void CheckCorrections(AppendRequest request, Dictionary<Guid, Entry> known)
    {
        var earlier = new Dictionary<Guid, string>();
        foreach (NewEntry entry in request.Entries)
        {
            if (entry.Body is CorrectionBody { Corrects: var target })
            {
                string? heat = known.TryGetValue(target, out Entry? old) ? old.Heat : earlier.GetValueOrDefault(target);
                if (heat != entry.Heat)
                {
                    throw EntryCheck.Bad(
                        $"corrects {target} of a correction in heat '{entry.Heat}' is " + (heat is null ? "not in the journal" : $"an entry of heat '{heat}'"),
                        "an earlier entry of the same heat",
                        "give the id of the entry that is to be put right");
                }
            }

            earlier[entry.Id] = entry.Heat;
        }
    }
}
