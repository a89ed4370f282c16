// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using nietras.SeparatedValues;

namespace Heatwright.Learning.Validation;

/// <summary>
/// A CSV table of plant data: leading lines that start with # are remarks, then a header, then rows. An empty field is a value that
/// was not recorded. Every complaint names file, line, column and value.
/// </summary>
public sealed class MeasuredTable
{
    private readonly Dictionary<string, int> _columns;
    private readonly List<(int Line, string[] Fields)> _rows;

    private MeasuredTable(string name, Dictionary<string, int> columns, List<(int Line, string[] Fields)> rows)
    {
        Name = name;
        _columns = columns;
        _rows = rows;
    }

    /// <summary>File name, for messages.</summary>
    public string Name { get; }

    /// <summary>Number of rows.</summary>
    public int Count => _rows.Count;

    /// <summary>Reads a file.</summary>
    /// <exception cref="ValidationDataException">Folder or file is missing, or the text is not a table.</exception>
    public static MeasuredTable Read(string directory, string fileName)
    {
        if (!Directory.Exists(directory))
        {
            throw new ValidationDataException($"The folder '{directory}' does not exist; give the folder that holds {fileName}.");
        }

        string path = Path.Combine(directory, fileName);
        if (!File.Exists(path))
        {
            throw new ValidationDataException($"The folder '{directory}' holds no file {fileName}; put it there or give another folder.");
        }

        return Parse(fileName, File.ReadAllText(path));
    }

    /// <summary>Reads a text.</summary>
    /// <exception cref="ValidationDataException">The text is not a table: no header, a repeated column, a row of another length.</exception>
    public static MeasuredTable Parse(string name, string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        int remarks = 0;
        int at = 0;
        while (at < text.Length && (text[at] == '#' || text[at] == '\n' || text[at] == '\r'))
        {
            int end = text.IndexOf('\n', at);
            at = end < 0 ? text.Length : end + 1;
            remarks++;
        }

        if (at >= text.Length)
        {
            throw new ValidationDataException($"{name} has no header row; the first line that does not start with # must name the columns.");
        }

        var columns = new Dictionary<string, int>(StringComparer.Ordinal);
        var rows = new List<(int, string[])>();
        try
        {
            using SepReader reader = Sep.New(',').Reader(o => o with { Unescape = true }).FromText(text[at..]);
            foreach (string column in reader.Header.ColNames)
            {
                columns.Add(column.Trim(), columns.Count);
            }

            foreach (SepReader.Row row in reader)
            {
                string[] fields = new string[row.ColCount];
                for (int i = 0; i < fields.Length; i++)
                {
                    fields[i] = row[i].ToString();
                }

                rows.Add((remarks + row.LineNumberFrom, fields));
            }
        }
        catch (Exception e) when (e is InvalidDataException or ArgumentException)
        {
            throw new ValidationDataException($"{name} is not a table with one header and rows of its length: {e.Message}", e);
        }

        return new MeasuredTable(name, columns, rows);
    }

    /// <summary>Text of a field.</summary>
    /// <exception cref="ValidationDataException">There is no such column.</exception>
    public string Text(int row, string column) => _rows[row].Fields[Index(column)].Trim();

    /// <summary>Number in a field, or null where it is empty.</summary>
    /// <exception cref="ValidationDataException">There is no such column, or the field is not a number between the limits.</exception>
    public double? Optional(int row, string column, double least, double most)
    {
        string text = Text(row, column);
        if (text.Length == 0)
        {
            return null;
        }

        if (!double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value))
        {
            throw new ValidationDataException($"{Where(row, column)} is '{text}'; write a number with a decimal point, or leave the field empty where nothing was recorded.");
        }

        if (!(value >= least && value <= most))
        {
            throw new ValidationDataException($"{Where(row, column)} is {text}; it must lie between {least:G6} and {most:G6}. Correct it or leave the row out.");
        }

        return value;
    }

    /// <summary>Number in a field that must be there.</summary>
    /// <exception cref="ValidationDataException">As for <see cref="Optional"/>, or the field is empty.</exception>
    public double Number(int row, string column, double least, double most) => Optional(row, column, least, most)
        ?? throw new ValidationDataException($"{Where(row, column)} is empty; it must be given. Fill it or leave the row out.");

    private int Index(string column) => _columns.TryGetValue(column, out int index)
        ? index
        : throw new ValidationDataException($"{Name} has no column '{column}'; it has {string.Join(", ", _columns.Keys)}.");

    private string Where(int row, string column) => $"{Name}, line {_rows[row].Line}, column {column}";
}
