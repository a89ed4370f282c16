// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using Heatwright.Journal.Files.Mapping;
using Heatwright.Journal.Files.Tables;

namespace Heatwright.Journal.Files.Import;

/// <summary>
/// Times of rows, made UTC. In the hour that comes twice when clocks are put back the earlier instant is meant and the row is
/// counted; an hour that clocks jump over does not exist and is refused.
/// </summary>
internal sealed class LocalTimes(TimeRule rule)
{
    private static readonly string[] IsoPatterns =
    [
        "yyyy-MM-dd'T'HH:mm:ss.FFFFFFFK", "yyyy-MM-dd HH:mm:ss.FFFFFFFK", "yyyy-MM-dd'T'HH:mmK", "yyyy-MM-dd HH:mmK", "yyyy-MM-dd",
    ];

    private static readonly string[] ClockPatterns = [@"h\:mm", @"hh\:mm", @"h\:mm\:ss", @"hh\:mm\:ss"];

    private readonly TimeZoneInfo _zone = TimeZoneInfo.FindSystemTimeZoneById(rule.Zone);
    private int _assumed;

    /// <summary>Rows whose local time came twice.</summary>
    public int Ambiguous { get; private set; }

    /// <summary>The first of those rows.</summary>
    public int AmbiguousRow { get; private set; }

    /// <summary>The next time of a file without times.</summary>
    public DateTimeOffset NextAssumed()
    {
        DateTime local = rule.Assume!.Value;
        TimeSpan offset = _zone.IsInvalidTime(local) ? _zone.BaseUtcOffset : Offset(local);
        return new DateTimeOffset(local, offset).AddMinutes(_assumed++).ToUniversalTime();
    }

    /// <summary>Reads the cells of date and time of a row.</summary>
    /// <returns>Null and the time, or what is wrong with the text given back.</returns>
    public (string Code, string Text, string Why)? Read(ReadOnlySpan<Cell> cells, int row, out DateTimeOffset time)
    {
        time = default;
        var text = new List<string>();
        DateTime? date = null;
        TimeSpan clock = TimeSpan.Zero;
        foreach (Cell cell in cells)
        {
            switch (cell.Kind)
            {
                case CellKind.Blank:
                    break;
                case CellKind.Time when cell.Time.Year >= 1900 || date is null:
                    date = cell.Time.Year >= 1900 ? cell.Time : date;
                    clock += cell.Time.Year >= 1900 ? TimeSpan.Zero : cell.Time.TimeOfDay;
                    break;
                case CellKind.Time:
                    clock += cell.Time.TimeOfDay;
                    break;
                case CellKind.Span:
                    clock += TimeSpan.FromSeconds(cell.Number);
                    break;
                default:
                    text.Add(cell.AsText().Trim());
                    break;
            }
        }

        string written = string.Join(' ', text.Where(t => t.Length > 0));
        if (written.Length == 0 && date is { } typed)
        {
            return Make(Rounded(typed + clock), written, row, out time);
        }

        if (written.Length == 0)
        {
            return (TableProblem.NotATime, "", "has no time");
        }

        // A typed date beside a clock as text, and the reverse, are usual in sheets that were typed by hand.
        if (date is { } day && TimeSpan.TryParseExact(written, ClockPatterns, CultureInfo.InvariantCulture, out TimeSpan hand))
        {
            return Make(Rounded(day + hand), written, row, out time);
        }

        if (date is null && clock > TimeSpan.Zero)
        {
            written += clock.ToString(rule.Pattern?.Contains('s', StringComparison.Ordinal) == true ? @"\ hh\:mm\:ss" : @"\ hh\:mm", CultureInfo.InvariantCulture);
        }

        if (rule.Pattern is null)
        {
            return (TableProblem.NotATime, written, "is text, and the mapping states no pattern for it");
        }

        string[] patterns = rule.Pattern == "iso" ? IsoPatterns : [rule.Pattern];
        try
        {
            // With an offset or Z in the text the zone of the mapping does not matter.
            if (DateTime.TryParseExact(written, patterns, CultureInfo.InvariantCulture, DateTimeStyles.AdjustToUniversal, out DateTime local))
            {
                return Make(Rounded(local), written, row, out time);
            }
        }
        catch (FormatException)
        {
            return (TableProblem.NotATime, written, $"cannot be read: '{rule.Pattern}' is no pattern of a time");
        }

        return (TableProblem.NotATime, written, $"is not a time written as {(rule.Pattern == "iso" ? "2024-03-31T12:00:00Z" : rule.Pattern)}");
    }

    private (string, string, string)? Make(DateTime local, string written, int row, out DateTimeOffset time)
    {
        time = default;
        string shown = written.Length > 0 ? written : local.ToString("yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture);
        if (local.Kind == DateTimeKind.Utc)
        {
            time = new DateTimeOffset(local);
        }
        else if (_zone.IsInvalidTime(local))
        {
            return (TableProblem.NoSuchTime, shown, $"does not exist in {rule.Zone}: the clocks were put forward over it");
        }
        else if (local.Year is < 2 or > 9998)
        {
            return (TableProblem.NotATime, shown, "is no time of a heat");
        }
        else
        {
            if (_zone.IsAmbiguousTime(local))
            {
                AmbiguousRow = Ambiguous++ == 0 ? row : AmbiguousRow;
            }

            time = new DateTimeOffset(local, Offset(local)).ToUniversalTime();
        }

        return time.Year is >= 1990 and < 2200 ? null : (TableProblem.NotATime, shown, "lies outside 1990 to 2199, which a journal holds");
    }

    // The larger offset is the earlier instant.
    private TimeSpan Offset(DateTime local) => _zone.IsAmbiguousTime(local) ? _zone.GetAmbiguousTimeOffsets(local).Max() : _zone.GetUtcOffset(local);

    private static DateTime Rounded(DateTime time) =>
        new((time.Ticks + (TimeSpan.TicksPerMillisecond / 2)) / TimeSpan.TicksPerMillisecond * TimeSpan.TicksPerMillisecond, time.Kind);
}
