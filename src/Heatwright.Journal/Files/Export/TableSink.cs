// SPDX-License-Identifier: Apache-2.0
using Parquet.Schema;

namespace Heatwright.Journal.Files.Export;

/// <summary>What a column of an exported table holds.</summary>
internal enum SinkKind
{
    Text, Number, Whole, Time,
}

/// <summary>A column of an exported table.</summary>
/// <param name="Header">Header.</param>
/// <param name="Kind">What it holds.</param>
/// <param name="Unit">Unit; empty for text.</param>
/// <param name="Meaning">What it means, for the "about" sheet.</param>
/// <param name="BelowName">Name of the companion column in Parquet; null when no value lies below a limit.</param>
internal sealed record SinkColumn(string Header, SinkKind Kind, string Unit = "", string Meaning = "", string? BelowName = null);

/// <summary>A cell to write.</summary>
internal readonly record struct SinkCell(string? Text, double Number, bool Below, DateTimeOffset? Time, bool Present)
{
    public static SinkCell None => default;

    public static SinkCell Of(string text) => new(text, 0, false, null, true);

    public static SinkCell Of(double number, bool below = false) => new(null, number, below, null, true);

    public static SinkCell Of(DateTimeOffset time) => new(null, 0, false, time, true);
}

/// <summary>Takes the rows of a table and writes a file of one kind.</summary>
internal abstract class TableSink(IReadOnlyList<SinkColumn> columns) : IDisposable
{
    protected IReadOnlyList<SinkColumn> Columns { get; } = columns;

    /// <summary>Writes one row. The name is what messages call it.</summary>
    public abstract void Row(SinkCell[] cells, string name);

    /// <summary>Writes what is left.</summary>
    public abstract void Finish();

    /// <inheritdoc/>
    public abstract void Dispose();

    public static TableSink Create(ExportFormat format, Stream stream, string sheet, IReadOnlyList<SinkColumn> columns, ExportAbout about, string layout) => format switch
    {
        ExportFormat.Csv => new CsvSink(stream, columns),
        ExportFormat.Xlsx => new WorkbookSink(stream, sheet, columns, about),
        ExportFormat.Parquet => new ParquetSink(stream, columns, about, layout),
        _ => throw new ArgumentOutOfRangeException(nameof(format), format, "A table is CSV, XLSX or Parquet."),
    };

    private sealed class CsvSink : TableSink
    {
        private readonly CsvText _csv;

        public CsvSink(Stream stream, IReadOnlyList<SinkColumn> columns)
            : base(columns)
        {
            _csv = new CsvText(stream);
            foreach (SinkColumn column in columns)
            {
                _csv.Cell(column.Header);
            }

            _csv.EndRow();
        }

        public override void Row(SinkCell[] cells, string name)
        {
            for (int i = 0; i < cells.Length; i++)
            {
                SinkCell cell = cells[i];
                if (!cell.Present)
                {
                    _csv.Blank();
                }
                else if (cell.Text is { } text)
                {
                    _csv.Text(text);
                }
                else if (cell.Time is { } time)
                {
                    _csv.Raw(time.ToUniversalTime().ToString(OwnLayout.TimeFormat, System.Globalization.CultureInfo.InvariantCulture));
                }
                else
                {
                    _csv.Number(cell.Number, cell.Below);
                }
            }

            _csv.EndRow();
        }

        public override void Finish() => _csv.Dispose();

        public override void Dispose() => _csv.Dispose();
    }
}

/// <summary>Writes Parquet in row groups of 10 000 rows, so that memory stays flat.</summary>
internal sealed class ParquetSink : TableSink
{
    private const int GroupRows = 10_000;

    private readonly Stream _stream;
    private readonly ExportAbout _about;
    private readonly string _layout;
    private readonly DataField[] _fields;
    private readonly DataField?[] _belows;
    private readonly List<SinkCell[]> _rows = [];
    private Parquet.ParquetWriter? _writer;

    public ParquetSink(Stream stream, IReadOnlyList<SinkColumn> columns, ExportAbout about, string layout)
        : base(columns)
    {
        _stream = stream;
        _about = about;
        _layout = layout;
        _fields =
        [
            .. columns.Select(c => c.Kind switch
            {
                SinkKind.Text => new DataField(c.Header, typeof(string), true, false, null!),
                SinkKind.Number => new DataField(c.Header, typeof(double), true, false, null!),
                SinkKind.Whole => new DataField(c.Header, typeof(long), true, false, null!),
                _ => new DateTimeDataField(c.Header, DateTimeFormat.Timestamp, isAdjustedToUTC: true, DateTimeTimeUnit.Millis, true, false, null!),
            }),
        ];
        _belows = [.. columns.Select(c => c.BelowName is null ? null : new DataField(c.BelowName, typeof(bool), true, false, null!))];
    }

    public override void Row(SinkCell[] cells, string name)
    {
        _rows.Add(cells);
        if (_rows.Count == GroupRows)
        {
            WriteGroup();
        }
    }

    public override void Finish()
    {
        if (_rows.Count > 0 || _writer is null)
        {
            WriteGroup();
        }

        Dispose();
    }

    public override void Dispose()
    {
        Wait(_writer?.DisposeAsync().AsTask() ?? Task.CompletedTask);
        _writer = null;
    }

    private static void Wait(Task task) => task.GetAwaiter().GetResult();

    private void WriteGroup()
    {
        if (_writer is null)
        {
            var schema = new ParquetSchema(_fields.SelectMany((f, i) => _belows[i] is { } below ? (Field[])[f, below] : [f]));
            Task<Parquet.ParquetWriter> opening = Parquet.ParquetWriter.CreateAsync(schema, _stream, null, false, CancellationToken.None);
            Wait(opening);
            _writer = opening.Result;
            var metadata = new Dictionary<string, string>(StringComparer.Ordinal) { ["layout"] = _layout };
            foreach ((string key, string value) in _about.Lines())
            {
                metadata[key] = value;
            }

            foreach (SinkColumn column in Columns)
            {
                metadata["unit:" + column.Header] = column.Unit.Length > 0 ? column.Unit : column.Kind == SinkKind.Time ? "UTC" : "text";
                metadata["meaning:" + column.Header] = column.Meaning;
            }

            _writer.CustomMetadata = metadata;
        }

        using Parquet.ParquetRowGroupWriter group = _writer.CreateRowGroup();
        for (int c = 0; c < Columns.Count; c++)
        {
            int at = c;
            switch (Columns[c].Kind)
            {
                case SinkKind.Text:
                    Wait(group.WriteAsync(_fields[c], _rows.ConvertAll(r => r[at].Present ? r[at].Text : null)!, null));
                    break;
                case SinkKind.Number:
                    Write<double>(group, _fields[c], r => r[at].Present ? r[at].Number : null);
                    break;
                case SinkKind.Whole:
                    Write<long>(group, _fields[c], r => r[at].Present ? (long)r[at].Number : null);
                    break;
                default:
                    Write<DateTime>(group, _fields[c], r => r[at].Time?.UtcDateTime);
                    break;
            }

            if (_belows[c] is { } below)
            {
                Write<bool>(group, below, r => r[at].Present ? r[at].Below : null);
            }
        }

        _rows.Clear();
    }

    private void Write<T>(Parquet.ParquetRowGroupWriter group, DataField field, Func<SinkCell[], T?> value)
        where T : struct
    {
        T?[] values = [.. _rows.Select(value)];
        Wait(group.WriteAsync(field, new ReadOnlyMemory<T?>(values), null, null!, CancellationToken.None));
    }
}
