// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Lifecycle;
using Heatwright.Journal.Store;

namespace Heatwright.Journal.Demo;

/// <summary>
/// A year of an invented works' heats as a journal would hold it (handbook, chapter 95). Deterministic: the same options and
/// program version give the same entries, and with <see cref="DemoClock"/> the same hash at the end of the chain.
/// </summary>
public static class DemoYear
{
    // Entries of one transaction at most: memory stays flat and an interrupted filling goes on where it stopped.
    private const int BatchEntries = 4000;

    /// <summary>The heats one after the other, with what was true beside their entries.</summary>
    public static IEnumerable<DemoHeat> Heats(DemoOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        return Tell(new DemoHeats(options), options);
    }

    /// <summary>All entries in order of arrival: works files, equipment and heats.</summary>
    public static IEnumerable<TimedEntry> Entries(DemoOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        return Entries(new DemoHeats(options), options, null);
    }

    /// <summary>
    /// Fills a journal. Entries that are there already are passed over, so that an interrupted filling can be started again. Open
    /// the journal with <paramref name="clock"/> as its clock, and entries arrive when the works would have written them.
    /// </summary>
    /// <param name="store">Journal.</param>
    /// <param name="options">Options.</param>
    /// <param name="clock">Clock with which the store was opened; null: entries arrive now.</param>
    /// <param name="progress">Told after each transaction.</param>
    /// <param name="cancel">Stops between transactions.</param>
    /// <returns>Entries of the year, written now or before.</returns>
    /// <exception cref="JournalException">The store cannot be written, or holds something else under an id of the year.</exception>
    public static long Fill(
        IJournalStore store, DemoOptions options, DemoClock? clock = null, IProgress<DemoProgress>? progress = null, CancellationToken cancel = default) =>
        Fill(store, options, clock, progress, null, cancel);

    internal static long Fill(
        IJournalStore store, DemoOptions options, DemoClock? clock, IProgress<DemoProgress>? progress, Action<DemoHeat>? told, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(options);
        int heats = 0;
        long entries = 0;
        using IEnumerator<Entry> before = store.Read().Take((int)Math.Min(int.MaxValue, store.Head().Sequence)).GetEnumerator();
        foreach (TimedEntry[] batch in Entries(new DemoHeats(options), options, Told).Chunk(BatchEntries))
        {
            cancel.ThrowIfCancellationRequested();
            RefuseOthers(store, before, batch);
            clock?.Expect([.. batch.Select(e => e.Arrival)]);
            Write(store, batch);
            entries += batch.Length;
            progress?.Report(new DemoProgress(heats, options.Heats, entries));
        }

        return entries;

        void Told(DemoHeat heat)
        {
            heats++;
            told?.Invoke(heat);
        }
    }

    // What stands in the journal must be the beginning of this very year, entry for entry: invented heats do not go among others.
    // Asked before each transaction, so that nothing is written into a journal of anything else.
    private static void RefuseOthers(IJournalStore store, IEnumerator<Entry> before, TimedEntry[] batch)
    {
        foreach (TimedEntry expected in batch)
        {
            if (!before.MoveNext())
            {
                return;
            }

            if (before.Current.Id != expected.Entry.Id || before.Current.SourceTime != expected.Entry.SourceTime)
            {
                throw new JournalException(
                    JournalProblem.Conflict,
                    $"The journal at {store.Place} holds something else than this demonstration year (entry {before.Current.Sequence}, a {before.Current.Kind.Name()} by {before.Current.Actor}). Nothing was written. Mend: give a file that is not there yet.");
            }
        }
    }

    private static void Write(IJournalStore store, TimedEntry[] batch)
    {
        foreach (AppendOutcome outcome in store.Append([.. batch.Select(e => new AppendRequest([e.Entry]))]))
        {
            if (outcome.Status is AppendStatus.IdConflict or AppendStatus.VersionConflict)
            {
                throw new JournalException(
                    JournalProblem.Conflict,
                    $"The journal at {store.Place} holds another demonstration year under the same ids: {outcome.Conflict}. Mend: fill an empty journal, or take another seed.");
            }
        }
    }

    private static IEnumerable<DemoHeat> Tell(DemoHeats heats, DemoOptions options)
    {
        Guid works = Works(heats).Entry.Id;
        HeatStory? before = null;
        foreach (HeatStory story in heats.Weeks().SelectMany(w => w))
        {
            yield return new DemoHeat(story, HeatTeller.Tell(story, before, options, works));
            story.Trajectory = [];
            before = story;
        }
    }

    private static IEnumerable<TimedEntry> Entries(DemoHeats heats, DemoOptions options, Action<DemoHeat>? told)
    {
        // What arrives late waits here until nothing earlier can come any more.
        var waiting = new PriorityQueue<TimedEntry, (DateTimeOffset Arrival, long Place)>();
        long place = 0;
        void Wait(IEnumerable<TimedEntry> entries)
        {
            foreach (TimedEntry e in entries)
            {
                waiting.Enqueue(e, (e.Arrival, place++));
            }
        }

        Wait([Works(heats)]);
        var shop = new HeatPages(options.Seed, "");
        foreach (ShopEvent e in heats.Schedule.Events)
        {
            shop.Add(e.Body, e.At, e.Actor, e.Reason, 120);
        }

        Wait(shop.Entries);
        int count = 0;
        foreach (DemoHeat heat in Tell(heats, options))
        {
            Wait(heat.Entries);
            count++;
            told?.Invoke(heat);

            // The first entry of the next heat is its order, at most seven hours before charging.
            DateTimeOffset next = count < heats.Schedule.Heats.Count ? heats.Schedule.Heats[count].ChargeAt.AddHours(-7.5) : DateTimeOffset.MaxValue;
            while (waiting.TryPeek(out TimedEntry? e, out (DateTimeOffset Arrival, long Place) due) && due.Arrival < next)
            {
                waiting.Dequeue();
                yield return e;
            }
        }
    }

    private static TimedEntry Works(DemoHeats heats)
    {
        DateTimeOffset at = DateTimeOffset.FromUnixTimeMilliseconds(heats.Schedule.Heats[0].ChargeAt.AddDays(-1).ToUnixTimeMilliseconds());
        return new TimedEntry(at, HeatEntries.Works(heats.Works, at, "person:shop-manager"));
    }
}
