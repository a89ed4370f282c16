// SPDX-License-Identifier: Apache-2.0
using System.Collections.Concurrent;
using System.Diagnostics;
using System.Threading.Channels;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;

namespace Heatwright.Journal.Tests.Store;

/// <summary>
/// Writers that work on the same few heats at once. Each expects the version that it has just read and tries again with the same
/// ids when another was first; each now and then writes again what it wrote before, as after a lost answer. Each keeps the ids
/// that were acknowledged to it.
/// </summary>
internal sealed class WriterCrew(int writers, Func<int, IJournalStore> storeOf)
{
    private readonly ConcurrentQueue<Guid> _acknowledged = new();
    private readonly Channel<Guid> _news = Channel.CreateUnbounded<Guid>();
    private long _conflicts;

    /// <summary>How long crews write in these tests.</summary>
    public static TimeSpan Time => TimeSpan.FromSeconds(
        int.TryParse(Environment.GetEnvironmentVariable("HEATWRIGHT_WRITER_SECONDS"), out int seconds) ? seconds
        : Environment.GetEnvironmentVariable("HEATWRIGHT_LONG") == "1" ? 600 : 20);

    /// <summary>Ids that were acknowledged, all writers together.</summary>
    public IReadOnlyCollection<Guid> Acknowledged => _acknowledged;

    /// <summary>Refusals because another was first.</summary>
    public long Conflicts => Interlocked.Read(ref _conflicts);

    /// <summary>Completes when so many more entries were acknowledged than now.</summary>
    public async Task More(int entries, CancellationToken cancellation)
    {
        for (int i = 0; i < entries; i++)
        {
            await _news.Reader.ReadAsync(cancellation);
        }
    }

    /// <summary>Writes until told to stop; throws what any writer met.</summary>
    public Task Run(CancellationToken stop) =>
        Task.WhenAll(Enumerable.Range(0, writers).Select(w => Task.Factory.StartNew(() => Write(w, stop), CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default)));

    /// <summary>Everything acknowledged is there once, and nothing else is.</summary>
    public void AssertNothingLostOrDoubled(IJournalStore store)
    {
        List<Entry> entries = Sample.AssertChain(store);
        Assert.Equal(_acknowledged.Order(), entries.Select(e => e.Id).Order());
    }

    private void Write(int writer, CancellationToken stop)
    {
        IJournalStore store = storeOf(writer);
        var random = new Random(writer);
        AppendRequest? last = null;
        while (!stop.IsCancellationRequested)
        {
            string heat = $"H{random.Next(6)}";
            NewEntry[] entries = [.. Enumerable.Range(0, random.Next(1, 4)).Select(i => Sample.Note(heat, $"writer {writer}, {i}"))];
            last = Persist(store, heat, entries);
            foreach (NewEntry entry in entries)
            {
                _acknowledged.Enqueue(entry.Id);
                _news.Writer.TryWrite(entry.Id);
            }

            if (random.Next(10) == 0)
            {
                AppendOutcome again = store.Append([last])[0];
                Assert.Equal(AppendStatus.AlreadyThere, again.Status);
            }
        }
    }

    private AppendRequest Persist(IJournalStore store, string heat, NewEntry[] entries)
    {
        while (true)
        {
            var request = new AppendRequest(entries, new Dictionary<string, long> { [heat] = store.Version(heat) });
            AppendOutcome outcome = store.Append([request])[0];
            switch (outcome.Status)
            {
                case AppendStatus.Written or AppendStatus.AlreadyThere:
                    return request;
                case AppendStatus.VersionConflict:
                    Interlocked.Increment(ref _conflicts);
                    break;
                default:
                    throw new UnreachableException(outcome.Conflict);
            }
        }
    }
}
