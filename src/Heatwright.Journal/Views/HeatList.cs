// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;

namespace Heatwright.Journal.Views;

/// <summary>
/// The list of heats. Its rows are a cache made from the entries: caught up when asked, made anew when the layout of the summary or the
/// plan of shifts is another, thrown away at will. In a journal that may only be read, what is missing is made in memory.
/// </summary>
public sealed class HeatList
{
    // Entries looked at before their heats are read and rows saved: bounds memory, and what is lost when the program is stopped.
    private const int Portion = 4000;

    private readonly IJournalStore _store;
    private readonly Lock _catching = new();
    private readonly string _mark;
    private IHeatTable? _memory;
    private bool _looked;

    /// <param name="store">The journal.</param>
    /// <param name="shifts">Shifts of the works; null: <see cref="ShiftPlan.Default"/>.</param>
    public HeatList(IJournalStore store, ShiftPlan? shifts = null)
    {
        ArgumentNullException.ThrowIfNull(store);
        _store = store;
        Shifts = shifts ?? ShiftPlan.Default;
        _mark = HeatSummary.MarkOf(Shifts);
    }

    /// <summary>The journal.</summary>
    public IJournalStore Store => _store;

    /// <summary>Shifts of the works.</summary>
    public ShiftPlan Shifts { get; }

    private IHeatTable Table => _memory ?? _store.Heats;

    /// <summary>Rows that the filter lets through, caught up to the last entry.</summary>
    public IReadOnlyList<HeatRow> Query(HeatFilter? filter = null)
    {
        CatchUp();
        return Table.Query(filter ?? new HeatFilter());
    }

    /// <summary>Number of rows that the filter lets through, without its page.</summary>
    public long Count(HeatFilter? filter = null)
    {
        CatchUp();
        return Table.Count(filter ?? new HeatFilter());
    }

    /// <summary>All rows that the filter lets through, a page at a time: its page is not looked at.</summary>
    public IEnumerable<HeatRow> All(HeatFilter? filter = null)
    {
        const int Page = 1000;
        CatchUp();
        HeatFilter paged = (filter ?? new HeatFilter(Order: HeatOrder.Oldest)) with { Skip = 0, Take = Page };
        IReadOnlyList<HeatRow> rows;
        do
        {
            rows = Table.Query(paged);
            foreach (HeatRow row in rows)
            {
                yield return row;
            }

            paged = paged with { Skip = paged.Skip + Page };
        }
        while (rows.Count == Page);
    }

    /// <summary>The row of a heat, or null when there is none.</summary>
    public HeatRow? Find(string heat)
    {
        CatchUp();
        return Table.Get([heat]).GetValueOrDefault(heat);
    }

    /// <summary>Brings the rows up to the last entry.</summary>
    /// <param name="caughtUp">Called with the sequence reached, now and then.</param>
    public void CatchUp(Action<long>? caughtUp = null)
    {
        lock (_catching)
        {
            long head = _store.Head().Sequence;
            if (!_looked)
            {
                Look(head);
                _looked = true;
            }

            long upTo = Table.UpTo();
            if (upTo < head && _memory is null && _store.ReadOnly)
            {
                upTo = ToMemory();
            }

            while (upTo < head)
            {
                upTo = Next(upTo);
                caughtUp?.Invoke(upTo);
            }
        }
    }

    /// <summary>Throws the rows away and makes them anew.</summary>
    public void Rebuild(Action<long>? caughtUp = null)
    {
        lock (_catching)
        {
            if (_store.ReadOnly)
            {
                _memory = new MemoryHeatTable();
            }
            else
            {
                Table.Clear();
            }

            _looked = true;
            CatchUp(caughtUp);
        }
    }

    /// <summary>Rows of another mark or of a longer journal are not ours: a program of another version or with other shifts, or a restored file.</summary>
    private void Look(long head)
    {
        IReadOnlyList<HeatRow> some = Table.Query(new HeatFilter(Take: 1));
        if ((some.Count > 0 && HeatSummary.MarkOf(some[0]) != _mark) || Table.UpTo() > head)
        {
            if (_store.ReadOnly)
            {
                _memory = new MemoryHeatTable();
            }
            else
            {
                Table.Clear();
            }
        }
    }

    /// <summary>Goes on in memory from the rows that are stored.</summary>
    private long ToMemory()
    {
        var memory = new MemoryHeatTable();
        long upTo = _store.Heats.UpTo();
        memory.Save(_store.Heats.Query(new HeatFilter(Take: int.MaxValue)), upTo);
        _memory = memory;
        return upTo;
    }

    private long Next(long upTo)
    {
        var touched = new HashSet<string>(StringComparer.Ordinal);
        foreach (Entry entry in _store.Read(upTo + 1).Take(Portion))
        {
            touched.Add(entry.Heat);
            upTo = entry.Sequence;
        }

        // A heat is read as it stands now, which may be further than this portion: its row is then ahead, and made again when the rest is reached.
        touched.Remove("");
        Table.Save([.. touched.Order(StringComparer.Ordinal).Select(h => HeatSummary.RowOf(HeatRecord.Read(_store, h), Shifts))], upTo);
        return upTo;
    }
}
