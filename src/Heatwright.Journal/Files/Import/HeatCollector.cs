// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Files.Mapping;
using Heatwright.Journal.Files.Tables;
using Heatwright.Shop.Files;

namespace Heatwright.Journal.Files.Import;

/// <summary>
/// Goes through the rows once: keeps the figures of the columns, tells rows of one heat from each other, and collects the problems.
/// With <paramref name="keep"/> the heats themselves are kept too, in the order of their first rows.
/// </summary>
internal sealed class HeatCollector(TableSource table, ImportMapping mapping, RowReader reader, int mostShown, bool keep)
{
    private readonly Dictionary<string, int> _firstRow = new(StringComparer.Ordinal);
    private readonly Dictionary<string, HeatRow> _kept = new(StringComparer.Ordinal);
    private readonly HashSet<string> _twice = new(StringComparer.Ordinal);
    private readonly SortedDictionary<int, List<Problem>> _rejects = [];
    private readonly HashSet<int> _rejectedRows = [];
    private int _merged;
    private bool _noneTaken;
    private DateTimeOffset? _from;
    private DateTimeOffset? _to;

    /// <summary>Heats that can be taken, by order of their first rows.</summary>
    public List<HeatRow> Heats { get; } = [];

    /// <summary>Every problem of every rejected row, in order of rows; filled when heats are kept.</summary>
    public IEnumerable<Problem> Rejects => _rejects.Values.SelectMany(p => p);

    public ImportPreview Run(Action<int>? progress)
    {
        ColumnStatistics[] statistics = [.. reader.Cells.Select(c => new ColumnStatistics(c))];
        ColumnStatistics[] rejected = [.. reader.Cells.Select(c => new ColumnStatistics(c))];
        int rows = 0;
        int heats = 0;
        foreach (HeatRow row in reader.Read())
        {
            if (++rows % 1000 == 0)
            {
                progress?.Invoke(rows);
            }

            if (row.Problems.Count > 0)
            {
                Reject(row.Line, row.Problems);
                AddReadable(rejected, row);
                continue;
            }

            for (int i = 0; i < statistics.Length; i++)
            {
                statistics[i].Add(row.Values[i], row.Line);
            }

            _from = _from is null || row.Time < _from ? row.Time : _from;
            _to = _to is null || row.Time > _to ? row.Time : _to;
            if (_firstRow.TryAdd(row.Heat, row.Line))
            {
                heats++;
                Keep(row);
            }
            else
            {
                heats -= Repeat(row);
            }
        }

        if (keep)
        {
            Heats.AddRange(_kept.Values.Where(h => !_twice.Contains(h.Heat)).OrderBy(h => _firstRow[h.Heat]));
            heats = Heats.Count;
        }

        // One bad column in all rows must not hide what the others hold, least of all a second wrong unit.
        _noneTaken = rows > 0 && _firstRow.Count == 0;
        return new ImportPreview(
            table.Name, table.Facts, rows, heats, _from, _to, [.. (_noneTaken ? rejected : statistics).Select(s => s.Summary())], reader.Unmapped, reader.Ignored, _rejectedRows.Count,
            [.. Rejects.Take(mostShown)], [.. Remarks()])
        {
            OwnLayout = mapping.OwnLayout,
        };
    }

    private static void AddReadable(ColumnStatistics[] statistics, HeatRow row)
    {
        for (int i = 0; i < statistics.Length; i++)
        {
            if (row.Values[i] is { } value)
            {
                statistics[i].Add(value, row.Line);
            }
        }
    }

    private void Keep(HeatRow row)
    {
        if (keep || mapping.SameHeat == SameHeat.Merge)
        {
            _kept[row.Heat] = row;
        }
    }

    // Returns by how much the number of heats falls.
    private int Repeat(HeatRow row)
    {
        int first = _firstRow[row.Heat];
        switch (mapping.SameHeat)
        {
            case SameHeat.First:
                _merged++;
                return 0;
            case SameHeat.Last:
                _merged++;
                Keep(row);
                return 0;
            case SameHeat.Merge when !_twice.Contains(row.Heat) && Merge(_kept[row.Heat], row) is { } clash:
                return RejectBoth(first, row, $"Heat '{row.Heat}' stands in row {first} too, with another {clash.Name}.");
            case SameHeat.Merge:
                _merged++;
                return 0;
            default:
                return RejectBoth(first, row, $"Heat '{row.Heat}' stands in rows {first} and {row.Line}.");
        }
    }

    private int RejectBoth(int first, HeatRow row, string message)
    {
        Problem Of(int line) => new(
            TableProblem.HeatTwice, table.Name, line, 0, mapping.Heat, row.Heat, message, "each heat once",
            "take one of the rows out, or state sameHeat: first, last or merge in the mapping");
        bool known = !_twice.Add(row.Heat);
        if (!known)
        {
            Reject(first, [Of(first)]);
        }

        Reject(row.Line, [Of(row.Line)]);
        return known ? 0 : 1;
    }

    private ImportQuantity? Merge(HeatRow into, HeatRow row)
    {
        for (int i = 0; i < row.Values.Length; i++)
        {
            if (row.Values[i] is { } value)
            {
                if (into.Values[i] is { } other && !other.Equals(value))
                {
                    return reader.Cells[i].Rule.Quantity;
                }

                into.Values[i] = value;
            }
        }

        return null;
    }

    private void Reject(int line, IReadOnlyList<Problem> problems)
    {
        _rejectedRows.Add(line);

        // A preview shows the first few; an import that lets rows go lists them all.
        if (keep || _rejects.Count < mostShown)
        {
            if (!_rejects.TryGetValue(line, out List<Problem>? list))
            {
                _rejects[line] = list = [];
            }

            list.AddRange(problems);
        }
    }

    private IEnumerable<string> Remarks()
    {
        if (_noneTaken)
        {
            yield return "every row is rejected; the figures of the columns are those of the cells that can be read";
        }

        if (mapping.Time.Assume is not null)
        {
            yield return $"the file has no times: heats get consecutive minutes from {mapping.Time.Assume:yyyy-MM-dd HH:mm} {mapping.Time.Zone}, as the mapping says";
        }

        if (reader.Times.Ambiguous > 0)
        {
            yield return $"{reader.Times.Ambiguous} rows lie in the hour that comes twice when clocks are put back (first: row {reader.Times.AmbiguousRow}); the earlier one is taken";
        }

        if (_merged > 0)
        {
            string how = mapping.SameHeat switch { SameHeat.First => "the first holds", SameHeat.Last => "the last holds", _ => "they fill each other's blanks" };
            yield return $"{_merged} rows repeat a heat; {how}, as the mapping says";
        }
    }
}
