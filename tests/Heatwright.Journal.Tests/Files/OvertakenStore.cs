// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;

namespace Heatwright.Journal.Tests.Files;

/// <summary>A journal into which someone else writes just before the first write.</summary>
internal sealed class OvertakenStore(IJournalStore journal, Action before) : IJournalStore
{
    private Action? _before = before;

    public string Place => journal.Place;

    public bool ReadOnly => journal.ReadOnly;

    public IHeatTable Heats => journal.Heats;

    public IReadOnlyList<AppendOutcome> Append(IReadOnlyList<AppendRequest> requests)
    {
        Interlocked.Exchange(ref _before, null)?.Invoke();
        return journal.Append(requests);
    }

    public JournalHead Head() => journal.Head();

    public IEnumerable<Entry> Read(long fromSequence = 1) => journal.Read(fromSequence);

    public IReadOnlyList<Entry> ReadHeat(string heat, bool signals = true) => journal.ReadHeat(heat, signals);

    public Entry? Find(Guid id) => journal.Find(id);

    public long Version(string heat) => journal.Version(heat);

    public IDisposable Watch(Action<JournalHead> changed) => journal.Watch(changed);

    // The journal is the desk's.
    public void Dispose() => _before = null;
}
