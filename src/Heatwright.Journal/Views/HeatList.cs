// SPDX-License-Identifier: Apache-2.0
using System.Text.Json;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;

namespace Heatwright.Journal.Views;

/// <summary>
/// The list of heats. Its rows are a cache made from the entries: caught up when asked, made anew when an earlier program made them,
/// thrown away at will. The rows beside the entries belong to the plan of shifts that was there first; a list by another plan keeps
/// rows of its own in memory and leaves those as they are.
/// </summary>
public sealed class HeatList
{
    // Entries looked at before their heats are read and rows saved: bounds memory, and what is lost when the program is stopped.
    private const int Portion = 4000;

    // Rows held at once while all are gone through.
    private const int Page = 1000;

    private readonly Lock _catching = new();
    private readonly string _mark;
    private readonly string _head;

    // Rows by our shifts, once the stored ones turned out to be by others'. Its memory goes with this list.
    private volatile IHeatTable? _own;

    /// <param name="store">The journal. Where it is opened only to read, its table of heats lives in memory.</param>
    /// <param name="shifts">Shifts of the works; null: <see cref="ShiftPlan.Default"/>.</param>
    public HeatList(IJournalStore store, ShiftPlan? shifts = null)
    {
        ArgumentNullException.ThrowIfNull(store);
        Store = store;
        Shifts = shifts ?? ShiftPlan.Default;
        _mark = HeatSummary.MarkOf(Shifts);
        _head = "{\"mark\":" + JsonSerializer.Serialize(_mark, SummaryJson.Default.String);
    }

    /// <summary>The journal.</summary>
    public IJournalStore Store { get; }

    /// <summary>Shifts of the works.</summary>
    public ShiftPlan Shifts { get; }

    private IHeatTable Rows => _own ?? Store.Heats;

    /// <summary>Rows that the filter lets through, caught up to the last entry.</summary>
    public IReadOnlyList<HeatRow> Query(HeatFilter? filter = null)
    {
        CatchUp();
        return Ours(rows => rows.Query(filter ?? new HeatFilter()), rows => rows);
    }

    /// <summary>Number of rows that the filter lets through, without its page.</summary>
    public long Count(HeatFilter? filter = null)
    {
        CatchUp();
        return Rows.Count(filter ?? new HeatFilter());
    }

    /// <summary>
    /// All rows that the filter lets through: its own page is not looked at. Oldest first unless it says otherwise. Which heats, and
    /// their order, is settled at the beginning, so none is left out or comes twice whatever is written meanwhile; each row is as it
    /// stands when it is reached.
    /// </summary>
    public IEnumerable<HeatRow> All(HeatFilter? filter = null)
    {
        CatchUp();
        foreach (string[] heats in Rows.Numbers(filter ?? new HeatFilter(Order: HeatOrder.Oldest)).Chunk(Page))
        {
            IReadOnlyDictionary<string, HeatRow> rows = Ours(r => r.Get(heats), r => r.Values);
            foreach (string heat in heats)
            {
                // Not there: another program threw the rows away. The entries are there always.
                yield return rows.GetValueOrDefault(heat) ?? Made(heat);
            }
        }
    }

    /// <summary>The row of a heat, or null when there is none.</summary>
    public HeatRow? Find(string heat)
    {
        CatchUp();
        return Ours(rows => rows.Get([heat]), rows => rows.Values).GetValueOrDefault(heat);
    }

    /// <summary>Brings the rows up to the last entry.</summary>
    /// <param name="caughtUp">Called with the sequence reached, now and then.</param>
    public void CatchUp(Action<long>? caughtUp = null)
    {
        lock (_catching)
        {
            LookAtStored();
            long head = Store.Head().Sequence;
            bool anew = false;

            // Asked each time: another program may have gone further, or thrown the rows away, since.
            long upTo;
            while ((upTo = Rows.UpTo()) < head)
            {
                anew |= upTo == 0;
                upTo = Next(upTo);
                caughtUp?.Invoke(upTo);
            }

            // Another program may have begun at the same time: a look at all rows costs little beside having made them.
            if (anew && _own is null && Store.Heats.Numbers(new HeatFilter(Order: HeatOrder.Number)).Chunk(Page).Any(h => !Store.Heats.Get(h).Values.All(IsOurs)))
            {
                KeepOwn(mixed: true);
            }
        }
    }

    /// <summary>Throws the rows away and makes them anew.</summary>
    public void Rebuild(Action<long>? caughtUp = null)
    {
        lock (_catching)
        {
            LookAtStored();
            Rows.Clear();
            CatchUp(caughtUp);
        }
    }

    /// <summary>
    /// Stored rows of an earlier layout, or made from a longer journal (a restored file), are thrown away. Those of other shifts, and of a
    /// later program, are left to who made them: two programs that throw away each other's rows would make them anew for ever.
    /// </summary>
    private void LookAtStored()
    {
        if (_own is not null)
        {
            return;
        }

        // The rows first: the journal only grows, so that what they are made from must be in it then.
        if (Store.Heats.UpTo() > Store.Head().Sequence)
        {
            Store.Heats.Clear();
        }
        else if (StoredMark() is { } mark && mark != _mark)
        {
            if (HeatSummary.LayoutOf(mark) < HeatSummary.Layout)
            {
                Store.Heats.Clear();
            }
            else
            {
                KeepOwn(mixed: false);
            }
        }
    }

    private string? StoredMark() => Store.Heats.Query(new HeatFilter(Take: 1)) is [{ } row] ? HeatSummary.MarkOf(row) : null;

    private long Next(long upTo)
    {
        var touched = new HashSet<string>(StringComparer.Ordinal);
        foreach (Entry entry in Store.Read(upTo + 1).Take(Portion))
        {
            touched.Add(entry.Heat);
            upTo = entry.Sequence;
        }

        // A heat is read as it stands now, which may be further than this portion: its row is then ahead, and made again when the rest is reached.
        touched.Remove("");
        HeatRow[] rows = [.. touched.Order(StringComparer.Ordinal).Select(Made)];
        LookAtStored();
        Rows.Save(rows, upTo);
        return upTo;
    }

    private HeatRow Made(string heat) => HeatSummary.RowOf(HeatRecord.Read(Store, heat), Shifts);

    /// <summary>Reads rows, and once more from our own table when the stored ones are not by our shifts any more.</summary>
    private T Ours<T>(Func<IHeatTable, T> read, Func<T, IEnumerable<HeatRow>> rowsOf)
    {
        T answer = read(Rows);
        if (_own is not null || rowsOf(answer).All(IsOurs))
        {
            return answer;
        }

        lock (_catching)
        {
            KeepOwn(mixed: rowsOf(answer).Any(IsOurs));
            CatchUp();
        }

        return read(Rows);
    }

    // The mark stands first in what we write; another writer of the same JSON may put it elsewhere.
    private bool IsOurs(HeatRow row) => row.Summary.StartsWith(_head, StringComparison.Ordinal) || HeatSummary.MarkOf(row) == _mark;

    /// <summary>Goes on with rows in memory. They are taken from the stored ones, whose figures do not depend on the shifts.</summary>
    /// <param name="mixed">The stored rows are by two plans: no one's, and thrown away so that one program makes them anew.</param>
    private void KeepOwn(bool mixed)
    {
        if (_own is not null)
        {
            return;
        }

        IHeatTable own = new PrivateHeatTable(() => null);

        // The mark first: rows that are saved meanwhile are newer than it, and will be made again.
        long upTo = Store.Heats.UpTo();
        IReadOnlyList<string> all = Store.Heats.Numbers(new HeatFilter(Order: HeatOrder.Number));
        if (Store.Heats.UpTo() >= upTo)
        {
            foreach (string[] heats in all.Chunk(Page))
            {
                IReadOnlyDictionary<string, HeatRow> there = Store.Heats.Get(heats);
                own.Save([.. heats.Select(h => (there.TryGetValue(h, out HeatRow? row) ? HeatSummary.Under(row, Shifts) : null) ?? Made(h))], 0);
            }

            own.Save([], upTo);
        }

        _own = own;
        if (mixed)
        {
            Store.Heats.Clear();
        }
    }
}
