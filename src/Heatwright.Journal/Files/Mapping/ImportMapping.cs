// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Files.Import;
using Heatwright.Journal.Files.Tables;
using Heatwright.Shop.Units;

namespace Heatwright.Journal.Files.Mapping;

/// <summary>What to do when one heat stands in several rows.</summary>
public enum SameHeat
{
    /// <summary>All its rows are rejected.</summary>
    Reject,
    /// <summary>The first row holds.</summary>
    First,
    /// <summary>The last row holds.</summary>
    Last,
    /// <summary>Rows fill each other's blanks; where two say different things, both are rejected.</summary>
    Merge,
}

/// <summary>Where the time of a row comes from.</summary>
/// <param name="Columns">Columns of date and time; empty when the file has none.</param>
/// <param name="Pattern">How they are written, e.g. "dd.MM.yyyy HH:mm"; "iso" for 2024-03-31T12:00:00Z; null: only typed dates.</param>
/// <param name="Zone">Time zone of the file, IANA name.</param>
/// <param name="Assume">Local time of the first heat when the file has no times; each next heat gets one minute more.</param>
public sealed record TimeRule(IReadOnlyList<string> Columns, string? Pattern, string Zone, DateTime? Assume = null);

/// <summary>One column of the file.</summary>
/// <param name="Column">Its name.</param>
/// <param name="Quantity">What it holds.</param>
/// <param name="Unit">Unit of its numbers; null for text.</param>
/// <param name="Scale">Numbers are multiplied by this first: 100 for mass fractions in %.</param>
/// <param name="Missing">What stands for "nothing"; null: as for the whole file.</param>
/// <param name="ZeroIsMissing">A zero stands for "nothing".</param>
/// <param name="Sign">Decimal sign of the column; null: the table's.</param>
/// <param name="ImpossibleIsMissing">A value that no heat can have (below zero, above 100 %) stands for "nothing"; otherwise its row is rejected.</param>
/// <param name="BelowColumn">Column that says of each value whether it is a limit that the true one lies below (Parquet files of this program).</param>
public sealed record ColumnRule(
    string Column, ImportQuantity Quantity, Unit? Unit, double Scale = 1, IReadOnlyList<string>? Missing = null, bool ZeroIsMissing = false, DecimalSign? Sign = null,
    bool ImpossibleIsMissing = false, string? BelowColumn = null);

/// <summary>How a file of past heats is read. Saved as YAML (kind: mapping) and kept with every import in the journal.</summary>
public sealed record ImportMapping
{
    /// <summary>What stands for "nothing" unless the mapping says otherwise; capitals do not matter.</summary>
    public static IReadOnlyList<string> UsualMissing { get; } = ["n/a", "na", "#n/a", "-", "–", "—", "null", "none", "nan", "?"];

    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>Its text, as kept in the journal.</summary>
    public required string Text { get; init; }

    /// <summary>Where the table stands in the file.</summary>
    public TableLayout Table { get; init; } = TableLayout.Unknown;

    /// <summary>Decimal sign of all texts; null: each column must show its own.</summary>
    public DecimalSign? Sign { get; init; }

    /// <summary>Column of the heat number.</summary>
    public required string Heat { get; init; }

    /// <summary>Where times come from.</summary>
    public required TimeRule Time { get; init; }

    /// <summary>Who says what the file says.</summary>
    public required string Actor { get; init; }

    /// <summary>The columns that are taken.</summary>
    public required IReadOnlyList<ColumnRule> Columns { get; init; }

    /// <summary>Columns that are left out knowingly; a closing * stands for any ending.</summary>
    public IReadOnlyList<string> Ignore { get; init; } = [];

    /// <summary>What stands for "nothing"; blank always does.</summary>
    public IReadOnlyList<string> Missing { get; init; } = UsualMissing;

    /// <summary>What to do when one heat stands in several rows.</summary>
    public SameHeat SameHeat { get; init; }

    /// <summary>The heats are past: each was blown, tapped and closed, whatever else the file tells.</summary>
    public bool Past { get; init; } = true;

    /// <summary>The file was written by this program: texts are taken to the letter, and what a journal holds is never impossible.</summary>
    public bool OwnLayout { get; init; }

    /// <summary>Whether a column is left out knowingly.</summary>
    public bool Ignores(string column) => Ignore.Any(i => i.EndsWith('*') ? column.StartsWith(i[..^1], StringComparison.Ordinal) : column == i);
}
