// SPDX-License-Identifier: Apache-2.0
using Heatwright.Shop.Files;

namespace Heatwright.Journal.Files;

/// <summary>A file cannot be used. Every problem names place, value, limit and mend.</summary>
public sealed class FileRefusedException : Exception
{
    /// <summary>With its problems; at least one.</summary>
    public FileRefusedException(params IReadOnlyList<Problem> problems)
        : base(string.Join(Environment.NewLine, problems)) => Problems = problems;

    /// <summary>Every problem found.</summary>
    public IReadOnlyList<Problem> Problems { get; }

    internal static FileRefusedException Of(
        string code, string file, string message, string mend, string? limit = null, int line = 0, string field = "", string? value = null) =>
        new(new Problem(code, file, line, 0, field, value, message, limit, mend));
}

/// <summary>Stable codes of problems with tables, beside those of <see cref="ProblemCode"/>.</summary>
public static class TableProblem
{
    /// <summary>More bytes, rows, columns or unpacked bytes than allowed.</summary>
    public const string TooLarge = "too-large";
    /// <summary>Packed so tightly that unpacking could fill the memory.</summary>
    public const string PackedTooTightly = "packed-too-tightly";
    /// <summary>Not a table of a kind that is read here.</summary>
    public const string NotATable = "not-a-table";
    /// <summary>The workbook has no sheet of this name.</summary>
    public const string NoSuchSheet = "no-such-sheet";
    /// <summary>The table has no column of this name.</summary>
    public const string NoSuchColumn = "no-such-column";
    /// <summary>A row with more or fewer cells than the header.</summary>
    public const string RowLength = "row-length";
    /// <summary>Nothing in a column shows whether comma or point is the decimal sign.</summary>
    public const string DecimalUnclear = "decimal-unclear";
    /// <summary>A row without heat number.</summary>
    public const string NoHeat = "no-heat";
    /// <summary>A heat stands in more than one row.</summary>
    public const string HeatTwice = "heat-twice";
    /// <summary>Not a time of the pattern that the mapping states.</summary>
    public const string NotATime = "not-a-time";
    /// <summary>A local time that the clocks jumped over.</summary>
    public const string NoSuchTime = "no-such-time";
    /// <summary>A value that no shop can have.</summary>
    public const string Impossible = "impossible";
    /// <summary>A row that gives nothing but its heat number.</summary>
    public const string NothingInRow = "nothing-in-row";
    /// <summary>The journal holds something else.</summary>
    public const string Differs = "differs";
    /// <summary>Text that the file format cannot hold.</summary>
    public const string CannotHold = "cannot-hold";
}
