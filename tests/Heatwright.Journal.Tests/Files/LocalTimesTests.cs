// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Files;
using Heatwright.Journal.Files.Import;
using Heatwright.Journal.Files.Mapping;
using Heatwright.Journal.Files.Tables;

namespace Heatwright.Journal.Tests.Files;

/// <summary>Clock changes of 2024 in central Europe: forward on 31 March at 02:00, back on 27 October at 03:00 (Directive 2000/84/EC).</summary>
public sealed class LocalTimesTests
{
    [Theory]
    [InlineData("31.03.2024 01:59", "2024-03-31T00:59:00Z")]
    [InlineData("31.03.2024 03:00", "2024-03-31T01:00:00Z")]
    [InlineData("27.10.2024 01:59", "2024-10-26T23:59:00Z")]
    [InlineData("27.10.2024 02:30", "2024-10-27T00:30:00Z")]
    [InlineData("27.10.2024 03:00", "2024-10-27T02:00:00Z")]
    [InlineData("01.07.2024 12:00", "2024-07-01T10:00:00Z")]
    public void Local_times_become_utc(string text, string utc)
    {
        var times = new LocalTimes(new TimeRule(["t"], "dd.MM.yyyy HH:mm", "Europe/Berlin"));
        Assert.Null(times.Read([Cell.Of(text)], 2, out DateTimeOffset time));
        Assert.Equal(DateTimeOffset.Parse(utc), time);
        Assert.Equal(TimeSpan.Zero, time.Offset);
    }

    [Fact]
    public void The_hour_that_comes_twice_is_the_earlier_one_and_counted()
    {
        var times = new LocalTimes(new TimeRule(["t"], "dd.MM.yyyy HH:mm", "Europe/Berlin"));
        times.Read([Cell.Of("27.10.2024 02:10")], 7, out _);
        times.Read([Cell.Of("27.10.2024 02:50")], 8, out _);
        Assert.Equal((2, 7), (times.Ambiguous, times.AmbiguousRow));
    }

    [Fact]
    public void The_hour_that_never_was_is_refused()
    {
        var times = new LocalTimes(new TimeRule(["t"], "dd.MM.yyyy HH:mm", "Europe/Berlin"));
        Assert.Equal(TableProblem.NoSuchTime, times.Read([Cell.Of("31.03.2024 02:30")], 2, out _)!.Value.Code);
    }

    [Fact]
    public void Typed_dates_need_no_pattern_and_date_and_clock_may_stand_apart()
    {
        var times = new LocalTimes(new TimeRule(["d", "c"], null, "Europe/Berlin"));
        Assert.Null(times.Read([Cell.Of(new DateTime(2024, 7, 1)), new Cell(CellKind.Span, null, 43_200)], 2, out DateTimeOffset time));
        Assert.Equal(DateTimeOffset.Parse("2024-07-01T10:00:00Z"), time);
        Assert.Null(times.Read([Cell.Of(new DateTime(2024, 7, 1)), Cell.Of(new DateTime(1899, 12, 30, 12, 0, 0))], 2, out time));
        Assert.Equal(DateTimeOffset.Parse("2024-07-01T10:00:00Z"), time);
        Assert.NotNull(times.Read([Cell.Of("2024-07-01"), default], 2, out _));
    }

    [Fact]
    public void One_of_date_and_clock_may_be_text()
    {
        var times = new LocalTimes(new TimeRule(["d", "c"], "dd.MM.yyyy HH:mm", "Europe/Berlin"));
        Assert.Null(times.Read([Cell.Of(new DateTime(2024, 7, 1)), Cell.Of("12:00")], 2, out DateTimeOffset time));
        Assert.Equal(DateTimeOffset.Parse("2024-07-01T10:00:00Z"), time);
        Assert.Null(times.Read([Cell.Of("01.07.2024"), new Cell(CellKind.Span, null, 43_200)], 2, out time));
        Assert.Equal(DateTimeOffset.Parse("2024-07-01T10:00:00Z"), time);
        Assert.NotNull(times.Read([Cell.Of(new DateTime(2024, 7, 1)), Cell.Of("noon")], 2, out _));
    }

    [Fact]
    public void A_time_with_its_own_offset_needs_no_zone()
    {
        var times = new LocalTimes(new TimeRule(["t"], "iso", "Europe/Berlin"));
        Assert.Null(times.Read([Cell.Of("2024-03-31T02:30:00.123+05:00")], 2, out DateTimeOffset time));
        Assert.Equal(DateTimeOffset.Parse("2024-03-30T21:30:00.123Z"), time);
    }

    [Theory]
    [InlineData("")]
    [InlineData("31.02.2024 12:00")]
    [InlineData("2024-03-31")]
    [InlineData("01.01.1066 12:00")]
    [InlineData("yesterday")]
    public void What_is_no_time_is_refused(string text) =>
        Assert.NotNull(new LocalTimes(new TimeRule(["t"], "dd.MM.yyyy HH:mm", "UTC")).Read([Cell.Of(text)], 2, out _));
}
