// SPDX-License-Identifier: Apache-2.0
using CsCheck;
using Heatwright.Journal.Views;

namespace Heatwright.Journal.Tests.Views;

public sealed class ShiftPlanTests
{
    // A zone that puts its clock at 01:00 UTC on the last Sundays of March and October.
    private static readonly ShiftPlan Lisbon = new("Europe/Lisbon");

    [Theory]
    [InlineData("2026-01-12T06:00:00Z", "2026-01-12", "early")]
    [InlineData("2026-01-12T13:59:59.999Z", "2026-01-12", "early")]
    [InlineData("2026-01-12T14:00:00Z", "2026-01-12", "late")]
    [InlineData("2026-01-12T22:00:00Z", "2026-01-12", "night")]
    [InlineData("2026-01-13T05:59:59.999Z", "2026-01-12", "night")]
    [InlineData("2026-01-01T01:00:00Z", "2025-12-31", "night")]
    [InlineData("2026-07-13T05:00:00Z", "2026-07-13", "early")]
    [InlineData("2026-07-13T04:59:00Z", "2026-07-12", "night")]
    public void Night_shift_belongs_to_the_date_it_began(string time, string date, string shift)
    {
        WorkedShift at = Lisbon.At(DateTimeOffset.Parse(time));
        Assert.Equal((date, shift), (at.DateText, at.Name));
    }

    [Theory]
    [InlineData("2026-03-28", 7)]
    [InlineData("2026-10-24", 9)]
    [InlineData("2026-10-25", 8)]
    public void Night_on_which_the_clock_is_put_is_an_hour_shorter_or_longer(string date, int hours)
    {
        WorkedShift night = Lisbon.Of(DateOnly.Parse(date), "night");
        Assert.Equal(TimeSpan.FromHours(hours), night.Until - night.From);
        for (DateTimeOffset t = night.From; t < night.Until; t = t.AddMinutes(10))
        {
            Assert.Equal(night, Lisbon.At(t));
        }

        Assert.Equal("early", Lisbon.At(night.Until).Name);
    }

    /// <summary>The hour that the wall shows twice: the same wall time lies in one shift both times, and the moments stay apart.</summary>
    [Fact]
    public void Repeated_hour_is_shown_with_its_offset()
    {
        DateTimeOffset first = new(2026, 10, 25, 0, 30, 0, TimeSpan.Zero);
        Assert.Equal("01:30 +01:00", Lisbon.Local(first).ToString("HH:mm zzz"));
        Assert.Equal("01:30 +00:00", Lisbon.Local(first.AddHours(1)).ToString("HH:mm zzz"));
        Assert.Equal(Lisbon.At(first), Lisbon.At(first.AddHours(1)));
    }

    [Theory]
    [InlineData("02:30", "2026-03-29", "2026-03-29T01:30:00Z")]
    [InlineData("01:30", "2026-10-25", "2026-10-25T00:30:00Z")]
    public void Start_that_the_clock_skips_or_repeats_is_one_moment(string start, string date, string moment)
    {
        var plan = new ShiftPlan("Europe/Berlin", [new("a", TimeOnly.Parse(start).AddHours(start == "01:30" ? 1 : 0)), new("b", new TimeOnly(12, 0))]);
        Assert.Equal(DateTimeOffset.Parse(moment), plan.Of(DateOnly.Parse(date), "a").From);
    }

    [Fact]
    public void Every_moment_lies_in_one_shift_and_shifts_follow_each_other() =>
        Gen.Select(
            Gen.OneOf("Etc/UTC", "Europe/Lisbon", "America/St_Johns", "Australia/Lord_Howe", "Pacific/Apia", "Asia/Kolkata"),
            Gen.Int[0, 1439].Array[1, 4],
            Gen.Long[946_684_800, 2_208_988_800]).Sample((zone, starts, seconds) =>
        {
            var plan = new ShiftPlan(zone, [.. starts.Distinct().Order().Select((s, i) => new DailyShift($"s{i}", TimeOnly.MinValue.AddMinutes(s)))]);
            DateTimeOffset time = DateTimeOffset.FromUnixTimeSeconds(seconds);
            WorkedShift at = plan.At(time);
            Assert.True(at.From <= time && time < at.Until);
            Assert.Equal(at.Until, plan.At(at.Until).From);
            Assert.Equal(at, plan.At(at.From));
        });

    [Fact]
    public void Times_at_the_ends_of_the_calendar_have_a_shift_too()
    {
        Assert.Equal("0001-12-31", new ShiftPlan("Etc/UTC", [new("day", new TimeOnly(13, 0))]).At(DateTimeOffset.MinValue).DateText);
        Assert.Equal("9998-12-31", Lisbon.At(DateTimeOffset.MaxValue).DateText);
    }

    [Fact]
    public void Plan_that_means_nothing_is_refused()
    {
        Assert.Contains("Nowhere/Land", Assert.Throws<ArgumentException>(() => new ShiftPlan("Nowhere/Land")).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => new ShiftPlan("Etc/UTC", []));
        Assert.Throws<ArgumentException>(() => new ShiftPlan("Etc/UTC", [new("a", new TimeOnly(6, 0)), new("b", new TimeOnly(6, 0))]));
        Assert.Throws<ArgumentException>(() => new ShiftPlan("Etc/UTC", [new("a", new TimeOnly(6, 0)), new("a", new TimeOnly(7, 0))]));
        Assert.Throws<ArgumentException>(() => ShiftPlan.Default.Of(new DateOnly(2026, 1, 1), "dawn"));
    }
}
