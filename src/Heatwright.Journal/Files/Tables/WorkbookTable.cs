// SPDX-License-Identifier: Apache-2.0
using Heatwright.Shop.Files;
using MiniExcelLibs;
using MiniExcelLibs.OpenXml;

namespace Heatwright.Journal.Files.Tables;

/// <summary>A sheet of a workbook (.xlsx). Rows are numbered as the sheet numbers them.</summary>
internal sealed class WorkbookTable : TableSource
{
    // Days between the two origins of Excel's dates, 1 January 1904 and the day numbered 0 before 1 January 1900 (ECMA-376 part 1, 18.17.4.1).
    private const int DaysTo1904 = 1462;

    // Excel's first date system holds a 29 February 1900 that never was: days before it lie one further on than they seem.
    private static readonly DateTime AfterFalseLeapDay = new(1900, 3, 1);

    private readonly string _sheet;
    private readonly bool _from1904;
    private readonly int _headerRow;

    public WorkbookTable(string path, TableLayout layout, TableLimits limits)
        : base(path, layout, limits)
    {
        WorkbookFacts facts = WorkbookFacts.Read(path, limits);
        _from1904 = facts.From1904;
        _sheet = layout.Sheet is null
            ? facts.Sheets[0]
            : facts.Sheets.FirstOrDefault(s => s == layout.Sheet)
                ?? facts.Sheets.FirstOrDefault(s => string.Equals(s, layout.Sheet, StringComparison.OrdinalIgnoreCase))
                ?? throw FileRefusedException.Of(
                    TableProblem.NoSuchSheet, path, $"The workbook has no sheet '{layout.Sheet}'.",
                    Nearest.Of(layout.Sheet, facts.Sheets) is { } near ? $"write sheet: {near}" : "write one of the sheets named",
                    string.Join(", ", facts.Sheets), 0, "table.sheet", layout.Sheet);
        string others = string.Join(", ", facts.Sheets.Where(s => s != _sheet));
        Found.Add($"workbook, sheet '{_sheet}'{(others.Length > 0 ? $" (there are also: {others})" : "")}, dates from {(_from1904 ? 1904 : 1900)}");

        TableRow? header = null;
        foreach (TableRow row in Guarded())
        {
            if (layout.HeaderRow is { } wanted ? row.Line >= wanted : !row.IsBlank)
            {
                header = row;
                break;
            }
        }

        if (header is null)
        {
            throw FileRefusedException.Of(
                TableProblem.NotATable, path, $"Sheet '{_sheet}' has no row of column names.", "put the names of the columns above the data, or name another sheet (table.sheet)");
        }

        _headerRow = header.Value.Line;
        SetHeader([.. header.Value.Cells.Select(c => c.AsText())]);
    }

    public override bool Typed => true;

    public override IEnumerable<TableRow> Rows()
    {
        int count = 0;
        int first = Layout.FirstRow ?? 0;
        foreach (TableRow row in Guarded())
        {
            if (row.Line > _headerRow && row.Line >= first && !row.IsBlank)
            {
                CheckRows(++count);
                yield return row with { Cells = row.Cells.Length > Header.Count && BlankBeyond(row, Header.Count) ? row.Cells[..Header.Count] : row.Cells };
            }
        }
    }

    private static bool BlankBeyond(TableRow row, int from)
    {
        for (int i = from; i < row.Cells.Length; i++)
        {
            if (row.Cells[i].Kind != CellKind.Blank)
            {
                return false;
            }
        }

        return true;
    }

    // The library meets broken parts with exceptions of many types; all mean that the sheet is not as the format says.
    private IEnumerable<TableRow> Guarded() => Guarded(Read(), (e, last) =>
        e is FileRefusedException or OutOfMemoryException
            ? null
            : FileRefusedException.Of(
                TableProblem.NotATable, FilePath, $"Sheet '{_sheet}' cannot be read after row {last}: {e.Message.TrimEnd('.')}.",
                "open it in a spreadsheet program and save it again as .xlsx", null, last + 1));

    private IEnumerable<TableRow> Read()
    {
        using FileStream stream = OpenFile(FilePath);
        var settings = new OpenXmlConfiguration { FillMergedCells = Layout.RepeatMerged, TrimColumnNames = false };
        using var reader = stream.GetReader(useHeaderRow: false, _sheet, ExcelType.XLSX, "A1", settings);
        int line = 0;
        while (reader.Read())
        {
            CheckColumns(reader.FieldCount);
            CheckRows(line++);
            var cells = new Cell[reader.FieldCount];
            for (int i = 0; i < cells.Length; i++)
            {
                cells[i] = ToCell(reader.GetValue(i));
            }

            yield return new TableRow(line, line, cells);
        }
    }

    private Cell ToCell(object? value) => value switch
    {
        null or DBNull => default,
        string text => Cell.Of(text),
        double number => Cell.Of(number),
        bool truth => new Cell(CellKind.Truth, null, truth ? 1 : 0),
        DateTime time => Cell.Of(Shift(time)),
        TimeSpan span => new Cell(CellKind.Span, null, span.TotalSeconds),
        IFormattable other => Cell.Of(other.ToString(null, System.Globalization.CultureInfo.InvariantCulture)),
        _ => Cell.Of(value.ToString() ?? ""),
    };

    private DateTime Shift(DateTime time)
    {
        if (_from1904)
        {
            return time < DateTime.MaxValue.AddDays(-DaysTo1904) ? time.AddDays(DaysTo1904) : time;
        }

        return time < AfterFalseLeapDay && time.Year >= 1899 ? time.AddDays(1) : time;
    }
}
