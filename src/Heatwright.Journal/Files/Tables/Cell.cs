// SPDX-License-Identifier: Apache-2.0
using System.Globalization;

namespace Heatwright.Journal.Files.Tables;

/// <summary>What a cell holds.</summary>
public enum CellKind
{
    /// <summary>Nothing.</summary>
    Blank,
    /// <summary>Text; always so in CSV.</summary>
    Text,
    /// <summary>A number that the file itself types as one.</summary>
    Number,
    /// <summary>A date or time of day that the file itself types as one; local, without zone, unless the kind is UTC.</summary>
    Time,
    /// <summary>A length of time.</summary>
    Span,
    /// <summary>True or false.</summary>
    Truth,
}

/// <summary>One cell of a table.</summary>
/// <param name="Kind">What it holds.</param>
/// <param name="Text">Text as it stands in the file.</param>
/// <param name="Number">The number; seconds for a length of time; 1 or 0 for true or false.</param>
/// <param name="Time">The date and time; of kind UTC where the file says so.</param>
public readonly record struct Cell(CellKind Kind, string? Text = null, double Number = double.NaN, DateTime Time = default)
{
    /// <summary>A cell of text.</summary>
    public static Cell Of(string text) => text.Length == 0 ? default : new Cell(CellKind.Text, text);

    /// <summary>A cell of a number.</summary>
    public static Cell Of(double number) => new(CellKind.Number, null, number);

    /// <summary>A cell of a date.</summary>
    public static Cell Of(DateTime time) => new(CellKind.Time, null, double.NaN, time);

    /// <summary>The content as text: numbers in the fewest digits that read back, whole numbers without a decimal point.</summary>
    public string AsText() => Kind switch
    {
        CellKind.Text => Text!,
        CellKind.Number => Math.Abs(Number) < 1e15 && Number == Math.Floor(Number)
            ? Number.ToString("0", CultureInfo.InvariantCulture)
            : Number.ToString("R", CultureInfo.InvariantCulture),
        CellKind.Time => Time.ToString(Time.TimeOfDay == TimeSpan.Zero ? "yyyy-MM-dd" : "yyyy-MM-dd HH:mm:ss.FFF", CultureInfo.InvariantCulture),
        CellKind.Span => TimeSpan.FromSeconds(Number).ToString("c", CultureInfo.InvariantCulture),
        CellKind.Truth => Number == 1 ? "true" : "false",
        _ => "",
    };
}

/// <summary>One row of a table.</summary>
/// <param name="Line">Line of a text file, or row of a sheet, from 1.</param>
/// <param name="LastLine">Last line, where a quoted cell runs over several; else the same.</param>
/// <param name="Cells">As many as stand in the file; a sheet's rows have as many as its header.</param>
public readonly record struct TableRow(int Line, int LastLine, Cell[] Cells)
{
    /// <summary>The cell, blank beyond the row's end.</summary>
    public Cell this[int column] => column < Cells.Length ? Cells[column] : default;

    /// <summary>All cells are blank.</summary>
    public bool IsBlank => Array.TrueForAll(Cells, c => c.Kind == CellKind.Blank || (c.Kind == CellKind.Text && string.IsNullOrWhiteSpace(c.Text)));
}
