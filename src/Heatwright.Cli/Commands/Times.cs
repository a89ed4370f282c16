// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using Heatwright.Cli.Input;

namespace Heatwright.Cli.Commands;

/// <summary>Times on the command line and in answers.</summary>
internal static class Times
{
    private static readonly string[] WithoutOffset = ["yyyy-MM-dd HH:mm", "yyyy-MM-dd HH:mm:ss", "yyyy-MM-ddTHH:mm", "yyyy-MM-ddTHH:mm:ss", "yyyy-MM-dd"];
    private static readonly string[] WithOffset = ["yyyy-MM-ddTHH:mm:sszzz", "yyyy-MM-ddTHH:mm:ss.FFFzzz", "yyyy-MM-ddTHH:mmzzz", "yyyy-MM-ddTHH:mm:ssZ", "yyyy-MM-ddTHH:mm:ss.FFFZ", "yyyy-MM-ddTHH:mmZ"];

    /// <summary>The clock on the wall of the works: HEATWRIGHT_ZONE, else this machine's.</summary>
    public static TimeZoneInfo Zone => Environment.GetEnvironmentVariable("HEATWRIGHT_ZONE") switch
    {
        { Length: > 0 } name => TimeZoneInfo.TryFindSystemTimeZoneById(name, out TimeZoneInfo? zone)
            ? zone
            : throw new BadInputException($"HEATWRIGHT_ZONE: '{name}' is not a time zone that is known here.", "set it to an IANA name such as Etc/UTC or Europe/Lisbon"),
        _ => TimeZoneInfo.Local,
    };

    /// <summary>The moment that a text names, by the clock of the works where it names no offset; now when there is none.</summary>
    /// <exception cref="BadInputException">It names none, or one that the clock change skips or repeats.</exception>
    public static DateTimeOffset Parse(string? text, string field)
    {
        if (text is null)
        {
            return TimeProvider.System.GetUtcNow();
        }

        if (DateTimeOffset.TryParseExact(text, WithOffset, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out DateTimeOffset exact))
        {
            return exact.ToUniversalTime();
        }

        if (!DateTime.TryParseExact(text, WithoutOffset, CultureInfo.InvariantCulture, DateTimeStyles.None, out DateTime local))
        {
            throw new BadInputException($"{field}: '{text}' is not a time.", "write 2026-11-25 08:12, or with an offset 2026-11-25T08:12:00+01:00");
        }

        TimeZoneInfo zone = Zone;
        if (zone.IsInvalidTime(local) || zone.IsAmbiguousTime(local))
        {
            throw new BadInputException(
                $"{field}: '{text}' {(zone.IsInvalidTime(local) ? "does not exist" : "happens twice")} where the clock changes ({zone.Id}).",
                $"write it with its offset, for example {local:yyyy-MM-ddTHH:mm}:00+00:00");
        }

        return new DateTimeOffset(local, zone.GetUtcOffset(local)).ToUniversalTime();
    }

    /// <summary>RFC 3339 in UTC with milliseconds.</summary>
    public static string Utc(DateTimeOffset time) => time.ToUniversalTime().ToString("yyyy-MM-ddTHH:mm:ss.fffZ", CultureInfo.InvariantCulture);

    /// <summary>By the clock of the works, to the minute, for people.</summary>
    public static string Shown(DateTimeOffset time) => TimeZoneInfo.ConvertTime(time, Zone).ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);
}
