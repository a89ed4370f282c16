// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using Heatwright.Shop.Files;

namespace Heatwright.Journal.Files.Import;

/// <summary>What a file gives by a mapping, before anything is written.</summary>
/// <param name="File">File name.</param>
/// <param name="Facts">What was found out about the file.</param>
/// <param name="Rows">Rows read, blank ones and remarks apart.</param>
/// <param name="Heats">Heats that would be taken.</param>
/// <param name="From">Time of the earliest row that would be taken, UTC; null when there is none.</param>
/// <param name="To">Time of the latest.</param>
/// <param name="Columns">Figures of each column of the mapping.</param>
/// <param name="Unmapped">Columns that the mapping does not speak of: they are not taken.</param>
/// <param name="Ignored">Number of columns left out knowingly.</param>
/// <param name="RejectedRows">Number of rows that cannot be taken.</param>
/// <param name="Rejects">Problems of the first of them.</param>
/// <param name="Remarks">What else should be known: hours that come twice, repeated heats, assumed times.</param>
public sealed record ImportPreview(
    string File, IReadOnlyList<string> Facts, int Rows, int Heats, DateTimeOffset? From, DateTimeOffset? To, IReadOnlyList<ColumnSummary> Columns,
    IReadOnlyList<string> Unmapped, int Ignored, int RejectedRows, IReadOnlyList<Problem> Rejects, IReadOnlyList<string> Remarks)
{
    /// <summary>Columns most of whose values no shop has, so that the unit is probably wrong.</summary>
    public IEnumerable<ColumnSummary> DoubtfulColumns => OwnLayout ? [] : Columns.Where(c => c.UnitDoubtful);

    /// <summary>The file was written by this program and states its units itself: what a journal held is not doubted a second time.</summary>
    internal bool OwnLayout { get; init; }

    /// <summary>The preview as lines for a terminal.</summary>
    public IEnumerable<string> Lines()
    {
        yield return $"{File}: {string.Join("; ", Facts)}";
        string times = From is { } from ? $", {Minute(from)} to {Minute(To!.Value)} UTC" : "";
        yield return $"{Rows} rows, {Heats} heats{times}, {RejectedRows} rows rejected";
        yield return "columns (least / median / largest):";
        foreach (ColumnSummary column in Columns)
        {
            yield return "  " + column;
            foreach ((string unit, int count) in column.UnitsInCells)
            {
                yield return $"    {count} cells state {unit} themselves";
            }

            if (column.Decimals is { } decimals && decimals != "decimal point")
            {
                yield return "    " + decimals;
            }

            if (DoubtfulColumns.Contains(column))
            {
                yield return $"    most values are outside what a shop can have: check the unit ({column.Quantity.Kind?.UnitList()}); the import stops at this unless it is accepted";
            }
        }

        if (Unmapped.Count > 0)
        {
            yield return $"not taken, columns that the mapping does not speak of ({Unmapped.Count}): {string.Join(", ", Unmapped)}";
        }

        if (Ignored > 0)
        {
            yield return $"columns ignored as the mapping says: {Ignored}";
        }

        foreach (string remark in Remarks)
        {
            yield return remark;
        }

        foreach (Problem problem in Rejects)
        {
            yield return problem.ToString();
        }
    }

    private static string Minute(DateTimeOffset time) => time.UtcDateTime.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);
}

/// <summary>How far an import is.</summary>
/// <param name="Step">"reading", "comparing" or "writing".</param>
/// <param name="Done">Rows, heats or entries so far.</param>
/// <param name="Of">Of how many; null when not known yet.</param>
public sealed record ImportProgress(string Step, int Done, int? Of);

/// <summary>How a file is imported.</summary>
public sealed record ImportOptions
{
    /// <summary>Rejected rows are let go; they are listed in the import's entry. Otherwise one rejected row stops the import.</summary>
    public bool AcceptRejects { get; init; }

    /// <summary>Columns most of whose values lie outside what a shop can have are taken all the same. Otherwise one of them stops the import.</summary>
    public bool AcceptDoubtful { get; init; }

    /// <summary>Where the journal holds something else, put it right as the file says. Otherwise a difference stops the import.</summary>
    public bool Correct { get; init; }

    /// <summary>Why; needed for corrections.</summary>
    public string Reason { get; init; } = "";

    /// <summary>Who imports and corrects, e.g. "person:anna": stands in the import's own entry and in corrections. Null: the mapping's actor.</summary>
    public string? Actor { get; init; }

    /// <summary>Number of rejected rows that a preview shows.</summary>
    public int MostShown { get; init; } = 20;

    /// <summary>Called as it goes on.</summary>
    public Action<ImportProgress>? Progress { get; init; }

    /// <summary>Clock for the import's own entry and for corrections.</summary>
    public TimeProvider Clock { get; init; } = TimeProvider.System;
}

/// <summary>What became of an import.</summary>
public enum ImportStatus
{
    /// <summary>Written, all of it, durably.</summary>
    Written,
    /// <summary>The journal holds all of it already; nothing was written.</summary>
    NothingNew,
    /// <summary>Rows are rejected; nothing was written.</summary>
    Rejected,
    /// <summary>Most values of a column lie outside what a shop can have: its unit is probably wrong. Nothing was written.</summary>
    Doubtful,
    /// <summary>The journal holds other values; nothing was written.</summary>
    Differs,
    /// <summary>Someone wrote to one of the heats meanwhile; nothing was written. Import again.</summary>
    Overtaken,
}

/// <summary>A value of the file that is not the journal's.</summary>
/// <param name="Row">Row of the file.</param>
/// <param name="Heat">Heat number.</param>
/// <param name="Quantity">Quantity.</param>
/// <param name="InJournal">What the journal holds; null when the entry lacks it.</param>
/// <param name="InFile">What the file says.</param>
/// <param name="Hindrance">Why a correction cannot put it right; null when it can.</param>
public sealed record ImportDifference(int Row, string Heat, ImportQuantity Quantity, WideValue? InJournal, WideValue InFile, string? Hindrance)
{
    /// <summary>One line for a terminal.</summary>
    public override string ToString() =>
        $"row {Row}, heat {Heat}: {Quantity.Name} is {InJournal?.Say(Quantity) ?? "not there"} in the journal and {InFile.Say(Quantity)} in the file"
        + (Hindrance is null ? "" : $" ({Hindrance})");
}

/// <summary>What became of an import.</summary>
/// <param name="Status">Written or not.</param>
/// <param name="Preview">What the file gave.</param>
/// <param name="Entries">Number of entries written, the import's own included.</param>
/// <param name="NewHeats">Heats that the journal did not have.</param>
/// <param name="AddedTo">Heats that it had and that got something more.</param>
/// <param name="Unchanged">Heats of which it held everything.</param>
/// <param name="Corrected">Corrections written.</param>
/// <param name="Differences">Values that differ, row by row.</param>
public sealed record ImportOutcome(
    ImportStatus Status, ImportPreview Preview, int Entries, int NewHeats, int AddedTo, int Unchanged, int Corrected, IReadOnlyList<ImportDifference> Differences);
