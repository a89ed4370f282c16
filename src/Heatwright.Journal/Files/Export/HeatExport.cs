// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Files.Import;
using Heatwright.Journal.Store;
using Heatwright.Journal.Views;

namespace Heatwright.Journal.Files.Export;

/// <summary>
/// Writes the table of heats: one row for each heat, one column for each quantity that any of them has, units in the header. Read
/// back by <see cref="OwnLayout"/> it gives the same table to the last bit.
/// </summary>
public static class HeatExport
{
    private const string What = "heats, one row each, corrections applied; the last sample or measurement of a point stands";

    /// <summary>Writes the table of heats as CSV, XLSX or Parquet. Heats without any of its quantities are left out.</summary>
    /// <param name="store">The journal; what is written to it meanwhile is not in the table.</param>
    /// <param name="path">The file.</param>
    /// <param name="format">Its kind.</param>
    /// <param name="options">Which heats, and what to say of them.</param>
    /// <exception cref="FileRefusedException">The file cannot be written, or cannot hold a text.</exception>
    /// <exception cref="JournalException">The journal cannot be read.</exception>
    public static ExportOutcome WriteHeats(IJournalStore store, string path, ExportFormat format, ExportOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(store);
        options ??= new ExportOptions();
        if (format == ExportFormat.Json)
        {
            throw new ArgumentOutOfRangeException(nameof(format), format, "The table of heats is CSV, XLSX or Parquet; JSON holds entries.");
        }

        JournalHead head = store.Head();
        IReadOnlyList<string> heats = options.Heats ?? [.. new HeatList(store).All(new HeatFilter(Order: HeatOrder.Oldest)).Select(r => r.Heat)];

        // Once for the columns, once for the rows: memory stays that of one heat.
        var found = new WideColumns();
        foreach (WideHeat heat in Wide(store, heats, head.Sequence))
        {
            found.Add(heat);
        }

        IReadOnlyList<WideColumn> columns = found.Columns();
        SinkColumn[] sinks =
        [
            new(OwnLayout.HeatColumn, SinkKind.Text, "", "heat number"),
            new(OwnLayout.TimeColumn, SinkKind.Time, "", "earliest time of the heat's record"),
            .. columns.Select(c => new SinkColumn(
                c.Header, c.Quantity.IsText ? SinkKind.Text : SinkKind.Number, c.Unit?.Symbol ?? "", c.Quantity.Meaning, c.HasBelow ? c.Quantity.Name + OwnLayout.BelowSuffix : null)),
        ];
        var about = new ExportAbout(What, store.Place, head.ToString(), options.Clock.GetUtcNow(), options.Filter, options.Program);
        return ExportFile.Write(path, options.Replace, stream =>
        {
            using var sink = TableSink.Create(format, stream, "heats", sinks, about, OwnLayout.Name);
            int rows = 0;
            int leftOut = 0;
            foreach (WideHeat heat in Wide(store, heats, head.Sequence))
            {
                SinkCell[] cells = [SinkCell.Of(heat.Heat), SinkCell.Of(heat.Time), .. columns.Select(c => Cell(c, heat))];
                if (Array.Exists(cells[2..], c => c.Present))
                {
                    sink.Row(cells, "heat " + heat.Heat);
                    rows++;
                }
                else
                {
                    leftOut++;
                }
            }

            sink.Finish();
            return new ExportOutcome(rows, sinks.Length, leftOut, head.ToString());
        });
    }

    /// <summary>The rows of the table of heats without a file.</summary>
    public static IEnumerable<WideHeat> Wide(IJournalStore store, IReadOnlyList<string> heats)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(heats);
        return Wide(store, heats, long.MaxValue);
    }

    private static IEnumerable<WideHeat> Wide(IJournalStore store, IReadOnlyList<string> heats, long upTo)
    {
        foreach (string heat in heats)
        {
            yield return WideHeat.Of(heat, store.ReadHeat(heat, signals: false).Where(e => e.Sequence <= upTo));
        }
    }

    private static SinkCell Cell(WideColumn column, WideHeat heat)
    {
        if (!heat.Facts.TryGetValue(column.Quantity.Name, out WideFact fact))
        {
            return SinkCell.None;
        }

        return fact.Value.Text is { } text ? SinkCell.Of(text) : SinkCell.Of(column.Number(fact.Value), fact.Value.Below);
    }
}
