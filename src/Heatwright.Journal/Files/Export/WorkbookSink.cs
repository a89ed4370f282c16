// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using SpreadCheetah;
using SpreadCheetah.Styling;
using SpreadCheetah.Worksheets;

namespace Heatwright.Journal.Files.Export;

/// <summary>Writes a workbook: typed cells, a header that stays in view, and a sheet "about".</summary>
internal sealed class WorkbookSink : TableSink
{
    // The first day from which Excel's first date system counts without its false 29 February 1900.
    private static readonly DateTime FirstDate = new(1900, 3, 1);

    private readonly ExportAbout _about;
    private readonly Spreadsheet _book;
    private readonly StyleId _head;
    private readonly StyleId _time;
    private readonly DataCell[] _row;

    public WorkbookSink(Stream stream, string sheet, IReadOnlyList<SinkColumn> columns, ExportAbout about)
        : base(columns)
    {
        _about = about;
        _book = Wait(Spreadsheet.CreateNewAsync(stream).AsTask());
        var options = new WorksheetOptions { FrozenRows = 1, FrozenColumns = 1 };
        for (int i = 0; i < columns.Count; i++)
        {
            options.Column(i + 1).Width = Math.Clamp(columns[i].Header.Length + 2, 10, 40);
        }

        _book.StartWorksheetAsync(sheet, options).AsTask().GetAwaiter().GetResult();
        var bold = new Style();
        bold.Font.Bold = true;
        _head = _book.AddStyle(bold);
        _time = _book.AddStyle(new Style { Format = NumberFormat.Custom("yyyy-mm-dd hh:mm:ss.000") });
        AddRow([.. columns.Select(c => new StyledCell(WorkbookText.Escape(c.Header) ?? throw TooLong(c.Header[..40], "header"), _head))]);
        _row = new DataCell[columns.Count];
    }

    public override void Row(SinkCell[] cells, string name)
    {
        if (Array.TrueForAll(cells, c => c.Time is null || c.Time.Value.UtcDateTime < FirstDate))
        {
            for (int i = 0; i < cells.Length; i++)
            {
                _row[i] = Data(cells[i], i, name);
            }

            _book.AddRowAsync(_row).AsTask().GetAwaiter().GetResult();
            return;
        }

        AddRow([.. cells.Select((c, i) => c.Time is { } t && t.UtcDateTime >= FirstDate ? new StyledCell(t.UtcDateTime, _time) : new StyledCell(Data(c, i, name), null))]);
    }

    public override void Finish()
    {
        _book.StartWorksheetAsync("about").AsTask().GetAwaiter().GetResult();
        foreach ((string key, string value) in _about.Lines())
        {
            AddRow([new StyledCell(key, _head), new StyledCell(Short(value), null)]);
        }

        AddRow([]);
        AddRow([new StyledCell("column", _head), new StyledCell("unit", _head), new StyledCell("meaning", _head)]);
        foreach (SinkColumn column in Columns)
        {
            string unit = column.Unit.Length > 0 ? column.Unit : column.Kind == SinkKind.Time ? "UTC" : "";
            AddRow([new StyledCell(Short(column.Header), null), new StyledCell(unit, null), new StyledCell(Short(column.Meaning), null)]);
        }

        _book.FinishAsync().AsTask().GetAwaiter().GetResult();
    }

    public override void Dispose() => _book.DisposeAsync().AsTask().GetAwaiter().GetResult();

    private static T Wait<T>(Task<T> task) => task.GetAwaiter().GetResult();

    private static string Short(string text) => WorkbookText.Escape(text.Length > 4000 ? text[..4000] : text) ?? "";

    private static FileRefusedException TooLong(string name, string column) => FileRefusedException.Of(
        TableProblem.CannotHold, name, $"The text in column {column} is longer than a cell of a workbook.", "export to CSV, Parquet or JSON", $"{WorkbookText.Longest} signs");

    private DataCell Data(SinkCell cell, int column, string name)
    {
        if (!cell.Present)
        {
            return default;
        }

        if (cell.Text is { } text)
        {
            return new DataCell(WorkbookText.Escape(text) ?? throw TooLong(name, Columns[column].Header));
        }

        return cell.Time is { } time
            ? new DataCell(time.ToUniversalTime().ToString(OwnLayout.TimeFormat, CultureInfo.InvariantCulture))
            : cell.Below ? new DataCell("<" + cell.Number.ToString("R", CultureInfo.InvariantCulture)) : new DataCell(cell.Number);
    }

    private void AddRow(StyledCell[] cells) => _book.AddRowAsync(cells).AsTask().GetAwaiter().GetResult();
}
