// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Journal.Files.Export;

/// <summary>Kinds of file that are written.</summary>
public enum ExportFormat
{
    /// <summary>Text by RFC 4180, UTF-8.</summary>
    Csv,
    /// <summary>Workbook with an "about" sheet.</summary>
    Xlsx,
    /// <summary>Parquet with units in its key-value metadata.</summary>
    Parquet,
    /// <summary>JSON; entries only.</summary>
    Json,
}

/// <summary>How an export is made.</summary>
public sealed record ExportOptions
{
    /// <summary>Heats to take, in this order; null: all, oldest first.</summary>
    public IReadOnlyList<string>? Heats { get; init; }

    /// <summary>How the heats were chosen, in words, for the "about" sheet.</summary>
    public string Filter { get; init; } = "all heats";

    /// <summary>Entries: leave the signal blocks out.</summary>
    public bool LeaveSignalsOut { get; init; }

    /// <summary>A file that is there already is replaced; otherwise that is refused.</summary>
    public bool Replace { get; init; }

    /// <summary>Clock for the time of the export.</summary>
    public TimeProvider Clock { get; init; } = TimeProvider.System;

    /// <summary>Program and version, for the "about" sheet.</summary>
    public string Program { get; init; } = Lifecycle.HeatQuestions.Model;
}

/// <summary>What was written.</summary>
/// <param name="Rows">Heats or entries.</param>
/// <param name="Columns">Columns.</param>
/// <param name="LeftOut">Heats that have none of the quantities of the table, or entries left out.</param>
/// <param name="Head">End of the journal that it shows.</param>
public sealed record ExportOutcome(int Rows, int Columns, int LeftOut, string Head);

/// <summary>What an export says of itself.</summary>
internal sealed record ExportAbout(string What, string Place, string Head, DateTimeOffset Time, string Filter, string Program)
{
    public IEnumerable<(string Key, string Value)> Lines()
    {
        yield return ("what", What);
        yield return ("journal", Place);
        yield return ("head", Head);
        yield return ("exported", Time.ToUniversalTime().ToString("yyyy-MM-dd HH:mm:ss'Z'", System.Globalization.CultureInfo.InvariantCulture));
        yield return ("filter", Filter);
        yield return ("program", Program);
        yield return ("times", "UTC");
        yield return ("gas volumes", "Nm3 at 0 °C and 101.325 kPa");
        yield return ("percent", "by mass");
        yield return ("below", "a value written as <0.002 lies below that limit of detection");
    }
}
