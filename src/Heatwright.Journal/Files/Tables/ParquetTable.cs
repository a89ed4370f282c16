// SPDX-License-Identifier: Apache-2.0
using Parquet;
using Parquet.Schema;

namespace Heatwright.Journal.Files.Tables;

/// <summary>A Parquet file of plain columns. Rows are numbered from 2, as if the names stood in row 1.</summary>
internal sealed class ParquetTable : TableSource
{
    // A row group is read whole.
    private const long MostCellsOfGroup = 20_000_000;

    public ParquetTable(string path, TableLayout layout, TableLimits limits)
        : base(path, layout, limits)
    {
        CheckFooter();
        (string[] names, int groups) = Guard(() => WithReader(r => (r.Schema.DataFields.Select(f => f.Name).ToArray(), r.RowGroupCount)));
        Found.Add($"Parquet, {names.Length} columns, {groups} row groups");
        SetHeader(names);
    }

    public override bool Typed => true;

    public override IEnumerable<TableRow> Rows()
    {
        int line = 1;
        int count = 0;
        int groups = Guard(() => WithReader(r => r.RowGroupCount));
        for (int g = 0; g < groups; g++)
        {
            Cell[][] columns = Guard(() => WithReader(r => ReadGroup(r, g)));
            for (int i = 0; columns.Length > 0 && i < columns[0].Length; i++)
            {
                CheckRows(++count);
                line++;
                var row = new TableRow(line, line, [.. columns.Select(c => c[i])]);
                if (!row.IsBlank)
                {
                    yield return row;
                }
            }
        }
    }

    private void CheckFooter()
    {
        using FileStream stream = OpenFile(FilePath);
        if (ParquetFooter.Fault(stream) is { } fault)
        {
            throw FileRefusedException.Of(TableProblem.NotATable, FilePath, $"The Parquet file cannot be read: {fault}.", "copy it again, or write it again", "a whole file");
        }
    }

    private Cell[][] ReadGroup(ParquetReader reader, int index)
    {
        using ParquetRowGroupReader group = reader.OpenRowGroupReader(index);
        if (group.RowCount > Limits.MostRows || group.RowCount < 0)
        {
            CheckRows(int.MaxValue);
        }

        int rows = (int)group.RowCount;
        if ((long)rows * reader.Schema.DataFields.Length > MostCellsOfGroup)
        {
            throw FileRefusedException.Of(
                TableProblem.TooLarge, FilePath, $"A row group holds {rows} rows of {reader.Schema.DataFields.Length} columns.", "write smaller row groups",
                $"at most {MostCellsOfGroup} cells in a row group");
        }

        return [.. reader.Schema.DataFields.Select(f => ReadColumn(group, f, rows))];
    }

    private Cell[] ReadColumn(ParquetRowGroupReader group, DataField field, int rows)
    {
        Cell[] Values<T>(Func<T, Cell> cell)
            where T : struct
        {
            var values = new T?[rows];
            group.ReadAsync(field, values.AsMemory()).AsTask().GetAwaiter().GetResult();
            return Array.ConvertAll(values, v => v is { } x ? cell(x) : default);
        }

        if (field.IsArray)
        {
            throw new NotSupportedException($"column '{field.Name}' holds lists");
        }

        if (field.ClrType == typeof(string) || field.ClrType == typeof(ReadOnlyMemory<char>))
        {
            string?[] texts = new string?[rows];
            group.ReadAsync(field, texts.AsMemory()!).AsTask().GetAwaiter().GetResult();
            return Array.ConvertAll(texts, t => t is null ? default : Cell.Of(t));
        }

        bool utc = field is DateTimeDataField { IsAdjustedToUTC: true };
        return field.ClrType switch
        {
            Type t when t == typeof(double) => Values<double>(Cell.Of),
            Type t when t == typeof(float) => Values<float>(v => Cell.Of(double.Parse(v.ToString("R")))),
            Type t when t == typeof(int) => Values<int>(v => Cell.Of((double)v)),
            Type t when t == typeof(long) => Values<long>(v => Cell.Of((double)v)),
            Type t when t == typeof(short) => Values<short>(v => Cell.Of((double)v)),
            Type t when t == typeof(decimal) => Values<decimal>(v => Cell.Of((double)v)),
            Type t when t == typeof(bool) => Values<bool>(v => new Cell(CellKind.Truth, null, v ? 1 : 0)),
            Type t when t == typeof(DateTime) => Values<DateTime>(v => Cell.Of(DateTime.SpecifyKind(v, utc ? DateTimeKind.Utc : DateTimeKind.Unspecified))),
            _ => throw new NotSupportedException($"column '{field.Name}' holds {field.ClrType.Name}"),
        };
    }

    private T WithReader<T>(Func<ParquetReader, T> use)
    {
        using FileStream stream = OpenFile(FilePath);
        ParquetReader reader = ParquetReader.CreateAsync(stream, null, leaveStreamOpen: true, CancellationToken.None).GetAwaiter().GetResult();
        try
        {
            return use(reader);
        }
        finally
        {
            reader.DisposeAsync().AsTask().GetAwaiter().GetResult();
        }
    }

    private T Guard<T>(Func<T> read)
    {
        try
        {
            return read();
        }
        catch (Exception e) when (e is not FileRefusedException)
        {
            // Broken bytes come out of the library as exceptions of many types.
            throw FileRefusedException.Of(
                TableProblem.NotATable, FilePath, "The Parquet file cannot be read: " + e.Message.TrimEnd('.') + ".",
                "write it again with plain columns of text, numbers, truth values and times", "plain columns");
        }
    }
}
