// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;

namespace Heatwright.Journal.Tests.Store;

/// <summary>A journal that passes everything on to another; a test overrides what it is about. The other stays open.</summary>
public abstract class PassedOnStore(IJournalStore inner) : IJournalStore
{
    public string Place => inner.Place;

    public bool ReadOnly => inner.ReadOnly;

    public IHeatTable Heats => inner.Heats;

    public virtual IReadOnlyList<AppendOutcome> Append(IReadOnlyList<AppendRequest> requests) => inner.Append(requests);

    public JournalHead Head() => inner.Head();

    public IEnumerable<Entry> Read(long fromSequence = 1) => inner.Read(fromSequence);

    public IReadOnlyList<Entry> ReadHeat(string heat, bool signals = true) => inner.ReadHeat(heat, signals);

    public Entry? Find(Guid id) => inner.Find(id);

    public long Version(string heat) => inner.Version(heat);

    public IDisposable Watch(Action<JournalHead> changed) => inner.Watch(changed);

    public void Dispose()
    {
        Dispose(disposing: true);
        GC.SuppressFinalize(this);
    }

    protected virtual void Dispose(bool disposing)
    {
    }
}
