// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Files.Mapping;
using Heatwright.Journal.Files.Tables;
using Heatwright.Journal.Store;
using Heatwright.Journal.Store.Append;
using Heatwright.Shop.Files;

namespace Heatwright.Journal.Files.Import;

/// <summary>One row of the file as quantities of a heat.</summary>
/// <param name="Line">Line or row of the file.</param>
/// <param name="Heat">Heat number; empty when it has none.</param>
/// <param name="Time">Source time, UTC.</param>
/// <param name="Values">By index of the mapping's columns; null where nothing stands.</param>
/// <param name="Problems">Why it cannot be taken; none when it can.</param>
internal sealed record HeatRow(int Line, string Heat, DateTimeOffset Time, WideValue?[] Values, IReadOnlyList<Problem> Problems);

/// <summary>A mapping laid over a table: finds the columns, decides each one's decimal sign from its content, and reads rows.</summary>
internal sealed class RowReader
{
    private readonly TableSource _table;
    private readonly ImportMapping _mapping;
    private readonly int _heat;
    private readonly int[] _time;
    private readonly int[] _columns;
    private readonly int[] _below;
    private readonly CellReader[] _cells;
    private readonly LocalTimes _times;

    /// <summary>Reads the whole file once to learn the decimal signs.</summary>
    /// <exception cref="FileRefusedException">Columns are missing, or a decimal sign cannot be known.</exception>
    public RowReader(TableSource table, ImportMapping mapping, Action<int>? rowsRead)
    {
        _table = table;
        _mapping = mapping;
        var index = new Dictionary<string, int>(StringComparer.Ordinal);
        for (int i = 0; i < table.Header.Count; i++)
        {
            // In files of others a blank around a name is a slip of the pen.
            index.TryAdd(mapping.OwnLayout ? table.Header[i] : table.Header[i].Trim(), i);
        }

        var problems = new List<Problem>();
        int Index(string column, string field)
        {
            if (index.TryGetValue(mapping.OwnLayout ? column : column.Trim(), out int at))
            {
                return at;
            }

            string? near = Nearest.Of(column, index.Keys);
            problems.Add(new Problem(
                TableProblem.NoSuchColumn, table.Name, 0, 0, field, column, "The table has no such column.", string.Join(", ", table.Header),
                near is null ? "write a name of the header, or take the column out of the mapping" : $"write {near}"));
            return -1;
        }

        _heat = Index(mapping.Heat, "heat");
        _time = [.. mapping.Time.Columns.Select(c => Index(c, "time"))];
        _columns = [.. mapping.Columns.Select(c => Index(c.Column, "columns"))];
        _below = [.. mapping.Columns.Select(c => c.BelowColumn is null ? -1 : Index(c.BelowColumn, "columns"))];
        if (problems.Count > 0)
        {
            throw new FileRefusedException(problems);
        }

        _times = new LocalTimes(mapping.Time);
        _cells = [.. mapping.Columns.Select(c => new CellReader(c, mapping, table.Typed))];
        FindSigns(rowsRead);
        HashSet<int> used = [_heat, .. _time, .. _columns, .. _below.Where(b => b >= 0)];
        Unmapped = [.. table.Header.Where((h, i) => !used.Contains(i) && !mapping.Ignores(h.Trim()))];
        Ignored = table.Header.Count - used.Count - Unmapped.Count;
    }

    /// <summary>Columns that the mapping does not speak of.</summary>
    public IReadOnlyList<string> Unmapped { get; }

    /// <summary>Number of columns that the mapping leaves out knowingly.</summary>
    public int Ignored { get; }

    /// <summary>Readers by index of the mapping's columns.</summary>
    public IReadOnlyList<CellReader> Cells => _cells;

    /// <summary>Times of the file.</summary>
    public LocalTimes Times => _times;

    /// <summary>The rows, in order.</summary>
    public IEnumerable<HeatRow> Read()
    {
        foreach (TableRow row in _table.Rows())
        {
            yield return Read(row);
        }
    }

    private HeatRow Read(TableRow row)
    {
        var problems = new List<Problem>();
        void Reject(string code, int column, string? value, string message, string? limit, string mend) =>
            problems.Add(new Problem(code, _table.Name, row.Line, column + 1, column < 0 || column >= _table.Header.Count ? "" : _table.Header[column], value, message, limit, mend));

        if (row.Cells.Length != _table.Header.Count && !_table.Typed)
        {
            string lines = row.LastLine > row.Line ? $" (lines {row.Line} to {row.LastLine})" : "";
            Reject(
                TableProblem.RowLength, -1, null, $"The row has {row.Cells.Length} cells{lines}, the header {_table.Header.Count}.", $"{_table.Header.Count} cells",
                row.LastLine > row.Line ? "look for a quote that is not closed, or is not doubled" : "look for a delimiter inside a cell, and put that cell in quotes");
            return new HeatRow(row.Line, HeatOf(row), default, new WideValue?[_columns.Length], problems);
        }

        string heat = HeatOf(row);
        if (heat.Length == 0)
        {
            Reject(TableProblem.NoHeat, _heat, null, "The row has no heat number.", null, "fill it, or leave the row out");
        }
        else
        {
            CheckHeat(heat, Reject);
        }

        DateTimeOffset time = default;
        if (_mapping.Time.Assume is not null)
        {
            time = _times.NextAssumed();
        }
        else
        {
            Span<Cell> cells = new Cell[_time.Length];
            for (int i = 0; i < _time.Length; i++)
            {
                cells[i] = row[_time[i]];
            }

            if (_times.Read(cells, row.Line, out time) is { } fault)
            {
                string shown = fault.Text.Length > 60 ? fault.Text[..60] + "…" : fault.Text;
                Reject(fault.Code, _time[0], fault.Text, shown.Length > 0 ? $"The time '{shown}' {fault.Why}." : $"The row {fault.Why}.", null, "correct it, or state time.pattern and time.zone as the file has them");
            }
        }

        var values = new WideValue?[_columns.Length];
        bool any = false;
        for (int i = 0; i < values.Length; i++)
        {
            (WideValue? value, CellFault? fault) = _cells[i].Read(row[_columns[i]]);
            values[i] = _below[i] >= 0 && value is { } v && row[_below[i]] is { Kind: CellKind.Truth, Number: 1 } ? v with { Below = true } : value;
            any |= value is not null;
            if (fault is { } f)
            {
                Reject(f.Code, _columns[i], f.Written, f.Message, f.Limit, f.Mend);
            }
        }

        if (!any && problems.Count == 0)
        {
            Reject(TableProblem.NothingInRow, -1, heat, "The row gives nothing of the heat.", null, "leave the row out, or map more columns");
        }

        return new HeatRow(row.Line, heat, time, values, problems);
    }

    private string HeatOf(TableRow row)
    {
        string text = row[_heat].AsText();
        if (_mapping.OwnLayout)
        {
            return _table.Typed ? text : FormulaText.Unescape(text);
        }

        text = text.Trim();
        return CellReader.IsMissing(text, _mapping.Missing) ? "" : text;
    }

    private static void CheckHeat(string heat, Action<string, int, string?, string, string?, string> reject)
    {
        try
        {
            EntryCheck.Heat(heat);
        }
        catch (JournalException e)
        {
            reject(ProblemCode.BadName, -1, heat, e.Message.Split(" Limit:")[0].TrimEnd('.') + ".", $"at most {EntryCheck.HeatLength} signs of one line", "correct the heat number");
        }
    }

    private void FindSigns(Action<int>? rowsRead)
    {
        if (_mapping.OwnLayout)
        {
            return;
        }

        int rows = 0;
        foreach (TableRow row in _table.Rows())
        {
            for (int i = 0; i < _cells.Length; i++)
            {
                _cells[i].Learn(row[_columns[i]]);
            }

            if (++rows % 1000 == 0)
            {
                rowsRead?.Invoke(rows);
            }
        }

        Problem[] problems = [.. _cells.Select(c => c.Decide(_table.Name)).OfType<Problem>()];
        if (problems.Length > 0)
        {
            throw new FileRefusedException(problems);
        }
    }
}
