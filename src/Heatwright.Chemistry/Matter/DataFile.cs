// SPDX-License-Identifier: Apache-2.0
using System.Globalization;

namespace Heatwright.Chemistry;

/// <summary>Reads the embedded tables of Data/. A CSV has comment lines starting with '#', one header line, then rows.</summary>
internal static class DataFile
{
    /// <summary>An embedded file of the Data folder.</summary>
    public static Stream Open(string name) =>
        typeof(DataFile).Assembly.GetManifestResourceStream("Heatwright.Chemistry.Data." + name)
        ?? throw new InvalidDataException($"Embedded table Data/{name} is missing.");

    /// <summary>Rows of an embedded CSV.</summary>
    public static IEnumerable<Row> ReadCsv(string name)
    {
        using Stream stream = Open(name);
        using var reader = new StreamReader(stream);
        string[]? header = null;
        int line = 0;
        while (reader.ReadLine() is string text)
        {
            line++;
            if (text.Length == 0 || text[0] == '#')
            {
                continue;
            }

            string[] cells = Split(text);
            if (header is null)
            {
                header = cells;
            }
            else
            {
                yield return cells.Length == header.Length
                    ? new Row(name, line, header, cells)
                    : throw new InvalidDataException($"Data/{name} line {line}: {cells.Length} cells where the header has {header.Length}.");
            }
        }
    }

    private static string[] Split(string text)
    {
        var cells = new List<string>();
        var cell = new System.Text.StringBuilder();
        bool quoted = false;
        foreach (char c in text)
        {
            if (c == '"')
            {
                quoted = !quoted;
            }
            else if (c == ',' && !quoted)
            {
                cells.Add(cell.ToString().Trim());
                cell.Clear();
            }
            else
            {
                cell.Append(c);
            }
        }

        cells.Add(cell.ToString().Trim());
        return [.. cells];
    }

    /// <summary>One row of a table, by column name.</summary>
    internal sealed class Row(string file, int line, string[] header, string[] cells)
    {
        public string Text(string column)
        {
            int i = Array.IndexOf(header, column);
            return i >= 0 ? cells[i] : throw new InvalidDataException($"Data/{file} has no column '{column}'.");
        }

        public double Number(string column) => OptionalNumber(column)
            ?? throw new InvalidDataException($"Data/{file} line {line}: '{column}' is empty.");

        public double? OptionalNumber(string column)
        {
            string text = Text(column);
            return text.Length == 0 ? null
                : double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) ? value
                : throw new InvalidDataException($"Data/{file} line {line}: '{column}' is '{text}', not a number.");
        }

        public T Enumeration<T>(string column)
            where T : struct, Enum =>
            Enum.TryParse(Text(column), out T value) ? value
                : throw new InvalidDataException(
                    $"Data/{file} line {line}: '{column}' is '{Text(column)}', not one of {string.Join(", ", Enum.GetNames<T>())}.");
    }
}
