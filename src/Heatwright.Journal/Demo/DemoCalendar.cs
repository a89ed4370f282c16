// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Journal.Demo;

/// <summary>
/// The invented works' clock: western European time with summer time by the rule of the European directive 2000/84/EC
/// (last Sundays of March and October, 01:00 UTC), built here so that no machine's time zone data change the year.
/// Shifts begin at 6, 14 and 22 o'clock by that clock; four crews A to D take them in turn.
/// </summary>
public static class DemoCalendar
{
    /// <summary>The works' time zone.</summary>
    public static TimeZoneInfo Zone { get; } = TimeZoneInfo.CreateCustomTimeZone(
        "Larkmoor",
        TimeSpan.Zero,
        "Larkmoor",
        "Larkmoor winter time",
        "Larkmoor summer time",
        [
            TimeZoneInfo.AdjustmentRule.CreateAdjustmentRule(
                DateTime.MinValue.Date,
                DateTime.MaxValue.Date,
                TimeSpan.FromHours(1),
                TimeZoneInfo.TransitionTime.CreateFloatingDateRule(new DateTime(1, 1, 1, 1, 0, 0), 3, 5, DayOfWeek.Sunday),
                TimeZoneInfo.TransitionTime.CreateFloatingDateRule(new DateTime(1, 1, 1, 2, 0, 0), 10, 5, DayOfWeek.Sunday)),
        ]);

    /// <summary>The moment of a local date and time. Times that the clock shows twice are taken the first time.</summary>
    public static DateTimeOffset Utc(DateOnly day, TimeOnly time)
    {
        DateTime local = day.ToDateTime(time);
        TimeSpan offset = Zone.IsAmbiguousTime(local) ? TimeSpan.FromHours(1) : Zone.GetUtcOffset(local);
        return new DateTimeOffset(local - offset, TimeSpan.Zero);
    }

    /// <summary>By the works' clock.</summary>
    public static DateTime Local(DateTimeOffset moment) => TimeZoneInfo.ConvertTime(moment, Zone).DateTime;

    /// <summary>The crew on shift, A to D.</summary>
    public static char Crew(DateTimeOffset moment)
    {
        // Shift by shift in turn, so that every crew sees every time of day within four days.
        DateTime shifted = Local(moment).AddHours(-6);
        int shift = (DateOnly.FromDateTime(shifted).DayNumber * 3) + (shifted.Hour / 8);
        return "ABCD"[shift % 4];
    }

    /// <summary>Share of the year that has passed, 0 to 1: what seasons are read from.</summary>
    public static double Season(DateTimeOffset moment) => (Local(moment).DayOfYear - 1) / 365.25;
}
