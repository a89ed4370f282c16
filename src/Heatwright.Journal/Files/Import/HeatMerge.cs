// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Files.Mapping;
using Heatwright.Journal.Store;

namespace Heatwright.Journal.Files.Import;

/// <summary>
/// Sets the heats of a file beside those of the journal, quantity by quantity: what stands there already is left, what is new becomes
/// entries, what differs becomes a difference, and a correction where that is asked for.
/// </summary>
internal sealed class HeatMerge(IJournalStore store, ImportMapping mapping, string reason, ImportOptions options)
{
    private readonly Dictionary<string, long> _expected = new(StringComparer.Ordinal);

    /// <summary>Entries to write, in order.</summary>
    public List<NewEntry> Entries { get; } = [];

    /// <summary>Versions that the heats had when they were looked at.</summary>
    public IReadOnlyDictionary<string, long> Expected => _expected;

    public List<ImportDifference> Differences { get; } = [];

    public int NewHeats { get; private set; }

    public int AddedTo { get; private set; }

    public int Unchanged { get; private set; }

    public int Corrections { get; private set; }

    /// <summary>Takes one heat.</summary>
    public void Add(HeatRow row)
    {
        var values = new List<(ImportQuantity Quantity, WideValue Value)>();
        string? unit = null;
        for (int i = 0; i < row.Values.Length; i++)
        {
            if (row.Values[i] is { } value)
            {
                ImportQuantity q = mapping.Columns[i].Quantity;
                values.Add((q, value));
                unit = q.Part == QuantityPart.Converter ? value.Text : unit;
            }
        }

        long version = store.Version(row.Heat);
        if (version == 0)
        {
            NewHeats++;
            _expected[row.Heat] = 0;
            Entries.AddRange(SlotEntries.New(row.Heat, values.Where(v => !SaysNone(v.Quantity, v.Value)), row.Time, unit, (mapping.Actor, reason), new LifeGaps(mapping.Past, mapping.Past, mapping.Past)));
            return;
        }

        int before = Entries.Count;
        int differences = Differences.Count;
        Compare(row, values, unit, version);
        if (Entries.Count > before)
        {
            AddedTo++;
            _expected[row.Heat] = version;
        }
        else if (Differences.Count == differences)
        {
            Unchanged++;
        }
    }

    // A sheet has a column for every material, and 0 where none was given: that is no addition and no charge. Beside one in the journal it differs.
    private bool SaysNone(ImportQuantity q, WideValue value) => !mapping.OwnLayout && q.GivenOrNot && value is { Number: 0, Below: false };

    private void Compare(HeatRow row, List<(ImportQuantity Quantity, WideValue Value)> values, string? unit, long version)
    {
        WideHeat there = WideHeat.Of(row.Heat, store.ReadHeat(row.Heat, signals: false));
        var fresh = new List<(ImportQuantity, WideValue)>();
        var put = new Dictionary<Guid, List<(ImportQuantity, WideValue)>>();
        foreach ((ImportQuantity q, WideValue value) in values)
        {
            if (there.Facts.TryGetValue(q.Name, out WideFact fact))
            {
                if (!fact.Value.Equals(value))
                {
                    Differ(row, q, fact.Value, value, fact.From, there, put);
                }
            }
            else if (SaysNone(q, value))
            {
                // Neither has any.
            }
            else if (there.In(q.Slot) is { Count: > 0 } entries)
            {
                Differ(row, q, null, value, [entries[^1]], there, put);
            }
            else if (there.Withdrawn(SlotEntries.Id(row.Heat, q.Slot, q.EntryKind == EntryKind.Operation ? "complete" : "")))
            {
                // It was imported once and a person has since said that it was wrong altogether.
                Differences.Add(new ImportDifference(row.Line, row.Heat, q, null, value, "it was imported before and withdrawn since"));
            }
            else
            {
                fresh.Add((q, value));
            }
        }

        // A past heat that is in the journal already, closed or not, is left as it is when the file has nothing new.
        bool Lacks(string slot, string part) => mapping.Past && there.In(slot).Count == 0 && !there.Withdrawn(SlotEntries.Id(row.Heat, slot, part));
        var gaps = new LifeGaps(Lacks(LifeOrder.BlowSlot, "complete"), Lacks(LifeOrder.TapSlot, "complete"), Lacks("end", ""));
        if (fresh.Count > 0)
        {
            DateTimeOffset time = mapping.Time.Assume is null ? row.Time : there.Time;
            Entries.AddRange(SlotEntries.New(row.Heat, fresh, time, unit, (mapping.Actor, reason), gaps));
        }

        if (options.Correct)
        {
            Correct(row.Heat, there, put, version);
        }
    }

    private void Correct(string heat, WideHeat there, Dictionary<Guid, List<(ImportQuantity, WideValue)>> put, long version)
    {
        foreach ((Guid id, List<(ImportQuantity, WideValue)> values) in put)
        {
            EntryBody body = SlotEntries.Corrected(there.Holds(id)!, values);
            Guid correction = EntryId.From("import correction", heat, id.ToString(), version.ToString(System.Globalization.CultureInfo.InvariantCulture));
            Entries.Add(new NewEntry(correction, heat, new CorrectionBody(id, body), options.Clock.GetUtcNow(), options.Actor ?? mapping.Actor, options.Reason));
            Corrections++;
        }
    }

    private void Differ(
        HeatRow row, ImportQuantity q, WideValue? inJournal, WideValue inFile, IReadOnlyList<Guid> from, WideHeat there, Dictionary<Guid, List<(ImportQuantity, WideValue)>> put)
    {
        string? hindrance = from.Count > 1
            ? $"the journal's is of {from.Count} entries; correct them one by one"
            : !SlotEntries.CanTake(there.Holds(from[0])!, q) ? "it follows from the times of other entries; correct those" : null;
        Differences.Add(new ImportDifference(row.Line, row.Heat, q, inJournal, inFile, hindrance));
        if (hindrance is not null)
        {
            return;
        }

        if (!put.TryGetValue(from[0], out List<(ImportQuantity, WideValue)>? list))
        {
            put[from[0]] = list = [];
        }

        list.Add((q, inFile));
    }
}
