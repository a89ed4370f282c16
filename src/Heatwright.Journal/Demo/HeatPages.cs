// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;

namespace Heatwright.Journal.Demo;

/// <summary>An entry and when the journal hears of it.</summary>
/// <param name="Arrival">Arrival.</param>
/// <param name="Entry">Entry.</param>
public sealed record TimedEntry(DateTimeOffset Arrival, NewEntry Entry);

/// <summary>Collects the entries of one heat (or of none). Ids follow from seed, heat and place, so that filling again writes nothing twice.</summary>
internal sealed class HeatPages(int seed, string heat)
{
    private readonly List<TimedEntry> _entries = [];

    public IReadOnlyList<TimedEntry> Entries => _entries;

    /// <summary>Adds an entry that arrives some seconds after it was so.</summary>
    public Guid Add(EntryBody body, DateTimeOffset at, string actor, string reason = "", double lateS = 2) =>
        AddArriving(body, at, Milliseconds(at).AddSeconds(lateS), actor, reason);

    /// <summary>Adds an entry that arrives at a moment of its own.</summary>
    public Guid AddArriving(EntryBody body, DateTimeOffset at, DateTimeOffset arrival, string actor, string reason = "")
    {
        Guid id = EntryId.From("demonstration year", seed.ToString(), heat.Length > 0 ? heat : "shop", _entries.Count.ToString());
        _entries.Add(new TimedEntry(Milliseconds(arrival), new NewEntry(id, heat, body, Milliseconds(at), actor, reason)));
        return id;
    }

    private static DateTimeOffset Milliseconds(DateTimeOffset t) => DateTimeOffset.FromUnixTimeMilliseconds(t.ToUnixTimeMilliseconds());
}
