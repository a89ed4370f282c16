// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;

namespace Heatwright.Journal.Views;

/// <summary>
/// The list of heats. Its rows are a cache made from the entries: caught up when asked, made anew when the layout of the summary or the
/// plan of shifts is another, thrown away at will.
/// </summary>
public sealed class HeatList
{
    // Entries looked at before their heats are read and rows saved: bounds memory, and what is lost when the program is stopped.
    private const int Portion = 4000;

    private readonly Lock _catching = new();
    private readonly string _mark;
    private bool _looked;

    /// <param name="store">The journal. Where it is opened only to read, its table of heats lives in memory.</param>
    /// <param name="shifts">Shifts of the works; null: <see cref="ShiftPlan.Default"/>.</param>
    public HeatList(IJournalStore store, ShiftPlan? shifts = null)
    {
        ArgumentNullException.ThrowIfNull(store);
        Store = store;
        Shifts = shifts ?? ShiftPlan.Default;
        _mark = HeatSummary.MarkOf(Shifts);
    }

    /// <summary>The journal.</summary>
    public IJournalStore Store { get; }

    /// <summary>Shifts of the works.</summary>
    public ShiftPlan Shifts { get; }

    /// <summary>Rows that the filter lets through, caught up to the last entry.</summary>
    public IReadOnlyList<HeatRow> Query(HeatFilter? filter = null)
    {
        CatchUp();
        return Store.Heats.Query(filter ?? new HeatFilter());
    }

    /// <summary>Number of rows that the filter lets through, without its page.</summary>
    public long Count(HeatFilter? filter = null)
    {
        CatchUp();
        return Store.Heats.Count(filter ?? new HeatFilter());
    }

    /// <summary>All rows that the filter lets through, a page at a time: its own page is not looked at. Oldest first unless it says otherwise.</summary>
    public IEnumerable<HeatRow> All(HeatFilter? filter = null)
    {
        const int Page = 1000;
        CatchUp();
        HeatFilter paged = (filter ?? new HeatFilter(Order: HeatOrder.Oldest)) with { Skip = 0, Take = Page };
        IReadOnlyList<HeatRow> rows;
        do
        {
            rows = Store.Heats.Query(paged);
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
        return Store.Heats.Get([heat]).GetValueOrDefault(heat);
    }

    /// <summary>Brings the rows up to the last entry.</summary>
    /// <param name="caughtUp">Called with the sequence reached, now and then.</param>
    public void CatchUp(Action<long>? caughtUp = null)
    {
        lock (_catching)
        {
            long head = Store.Head().Sequence;
            if (!_looked)
            {
                ForgetForeignRows(head);
                _looked = true;
            }

            // Asked each time: another program may have gone further, or thrown the rows away, since.
            long upTo;
            while ((upTo = Store.Heats.UpTo()) < head)
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
            Store.Heats.Clear();
            CatchUp(caughtUp);
        }
    }

    /// <summary>Rows of another mark or of a longer journal are not ours: a program of another version or with other shifts, or a restored file.</summary>
    private void ForgetForeignRows(long head)
    {
        IReadOnlyList<HeatRow> some = Store.Heats.Query(new HeatFilter(Take: 1));
        if ((some.Count > 0 && HeatSummary.MarkOf(some[0]) != _mark) || Store.Heats.UpTo() > head)
        {
            Store.Heats.Clear();
        }
    }

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
        Store.Heats.Save([.. touched.Order(StringComparer.Ordinal).Select(h => HeatSummary.RowOf(HeatRecord.Read(Store, h), Shifts))], upTo);
        return upTo;
    }
}
