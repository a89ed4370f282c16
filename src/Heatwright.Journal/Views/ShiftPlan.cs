// SPDX-License-Identifier: Apache-2.0
using System.Globalization;

namespace Heatwright.Journal.Views;

/// <summary>A shift that was or will be worked.</summary>
/// <param name="Date">Date of the works on which it began.</param>
/// <param name="Name">Its name, e.g. "night".</param>
/// <param name="From">Begin, UTC.</param>
/// <param name="Until">End, UTC; belongs to the next shift.</param>
public sealed record WorkedShift(DateOnly Date, string Name, DateTimeOffset From, DateTimeOffset Until)
{
    /// <summary>The date as rows and files carry it: yyyy-MM-dd.</summary>
    public string DateText => Date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}

/// <summary>One shift of every day.</summary>
/// <param name="Name">Name.</param>
/// <param name="Start">Begin by the clock on the wall.</param>
public sealed record DailyShift(string Name, TimeOnly Start);

/// <summary>
/// The shifts of the works, by the clock on its wall. A shift belongs to the date on which it began, so the night after Monday is
/// Monday's also at four on Tuesday. On the nights on which the clock is put, the night shift is an hour shorter or longer; a start that
/// the clock skips comes an hour later by the wall (when it would have come), and one that it shows twice is the first of the two.
/// </summary>
public sealed class ShiftPlan
{
    private readonly TimeZoneInfo _zone;

    /// <param name="timeZone">Time zone by its IANA name, e.g. "Etc/UTC".</param>
    /// <param name="shifts">Shifts in the order of their starts; null: three of 8 h from 06:00.</param>
    /// <exception cref="ArgumentException">The zone is unknown, there is no shift, or starts or names do not differ and rise.</exception>
    public ShiftPlan(string timeZone = "Etc/UTC", IReadOnlyList<DailyShift>? shifts = null)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(timeZone);
        if (!TimeZoneInfo.TryFindSystemTimeZoneById(timeZone, out TimeZoneInfo? zone))
        {
            throw new ArgumentException($"Time zone '{timeZone}' is not known here. Mend: an IANA name such as Etc/UTC or Europe/Lisbon, with the zone data of the system installed.", nameof(timeZone));
        }

        Shifts = shifts ?? [new("early", new TimeOnly(6, 0)), new("late", new TimeOnly(14, 0)), new("night", new TimeOnly(22, 0))];
        bool rising = Shifts.Zip(Shifts.Skip(1)).All(p => p.First.Start < p.Second.Start);
        if (Shifts.Count == 0 || !rising || Shifts.Select(s => s.Name).Distinct(StringComparer.Ordinal).Count() < Shifts.Count)
        {
            throw new ArgumentException("A plan of shifts needs at least one shift, starts that rise through the day, and a name of its own for each.", nameof(shifts));
        }

        TimeZone = timeZone;
        _zone = zone;
    }

    /// <summary>Three shifts of 8 h from 06:00 UTC.</summary>
    public static ShiftPlan Default { get; } = new();

    /// <summary>Time zone by its IANA name.</summary>
    public string TimeZone { get; }

    /// <summary>Shifts of a day in order.</summary>
    public IReadOnlyList<DailyShift> Shifts { get; }

    /// <summary>Text that differs where plans differ.</summary>
    public string Mark => TimeZone + " " + string.Join(' ', Shifts.Select(s => s.Name + "@" + s.Start.ToString("HH:mm", CultureInfo.InvariantCulture)));

    /// <summary>The shift in which a moment lies.</summary>
    public WorkedShift At(DateTimeOffset time)
    {
        // A clock that was never set must not stop a list: years at the ends of the calendar go to its first and last days.
        time = time.Year < 2 ? new DateTimeOffset(2, 1, 1, 12, 0, 0, TimeSpan.Zero) : time.Year > 9998 ? new DateTimeOffset(9998, 12, 31, 12, 0, 0, TimeSpan.Zero) : time;
        DateOnly local = DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(time, _zone).DateTime);

        // Starts are compared as moments, not by the wall: on the night of the change the wall shows some times twice.
        for (int day = 1; day >= -2; day--)
        {
            for (int i = Shifts.Count - 1; i >= 0; i--)
            {
                WorkedShift shift = Of(local.AddDays(day), i);
                if (shift.From <= time && time < shift.Until)
                {
                    return shift;
                }
            }
        }

        throw new InvalidOperationException($"No shift holds {time:O}.");
    }

    /// <summary>The shift of a date by name.</summary>
    /// <exception cref="ArgumentException">The plan has none of this name.</exception>
    public WorkedShift Of(DateOnly date, string name)
    {
        int index = Shifts.ToList().FindIndex(s => s.Name == name);
        return index >= 0
            ? Of(date, index)
            : throw new ArgumentException($"There is no shift '{name}'. Mend: one of {string.Join(", ", Shifts.Select(s => s.Name))}.", nameof(name));
    }

    /// <summary>The wall clock of the works with its offset, for people.</summary>
    public DateTimeOffset Local(DateTimeOffset time) => TimeZoneInfo.ConvertTime(time, _zone);

    private WorkedShift Of(DateOnly date, int index)
    {
        bool last = index == Shifts.Count - 1;
        return new WorkedShift(
            date, Shifts[index].Name, Moment(date, Shifts[index].Start), last ? Moment(date.AddDays(1), Shifts[0].Start) : Moment(date, Shifts[index + 1].Start));
    }

    private DateTimeOffset Moment(DateOnly date, TimeOnly time)
    {
        DateTime wall = date.ToDateTime(time);
        if (_zone.IsInvalidTime(wall))
        {
            // Counted on from a time before the skip, as if the clock had not been put.
            DateTime before = wall.AddHours(-3);
            return new DateTimeOffset(before, _zone.GetUtcOffset(before)).AddHours(3).ToUniversalTime();
        }

        TimeSpan offset = _zone.IsAmbiguousTime(wall) ? _zone.GetAmbiguousTimeOffsets(wall).Max() : _zone.GetUtcOffset(wall);
        return new DateTimeOffset(wall, offset).ToUniversalTime();
    }
}
