// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Demo;
using Heatwright.Journal.Entries;

namespace Heatwright.Journal.Tests.Demo;

public sealed class DemoScheduleTests
{
    private static readonly DemoSchedule Year = DemoSchedule.Of(new DemoOptions());

    [Fact]
    public void Two_thousand_heats_fill_about_a_year()
    {
        Assert.Equal(2000, Year.Heats.Count);
        Assert.InRange((Year.Heats[^1].ChargeAt - Year.Heats[0].ChargeAt).TotalDays, 300, 366);
        Assert.Equal(2000, Year.Heats.Select(h => h.Number).Distinct().Count());
    }

    [Fact]
    public void Heats_follow_each_other_with_room_for_a_reblow()
    {
        Assert.All(Year.Heats.Zip(Year.Heats.Skip(1)), p => Assert.True((p.Second.ChargeAt - p.First.ChargeAt).TotalMinutes >= 38));
        foreach (var unit in Year.Heats.GroupBy(h => h.Unit))
        {
            HeatSlot[] slots = [.. unit];
            Assert.All(slots.Zip(slots.Skip(1)), p => Assert.True((p.Second.ChargeAt - p.First.ChargeAt).TotalMinutes >= 65));
        }
    }

    [Fact]
    public void Ages_count_up_and_start_again_where_the_journal_says_that_a_part_was_renewed()
    {
        var renewed = Year.Events.Where(e => e.Body is EquipmentBody { Renewed: true }).ToArray();
        foreach (var unit in Year.Heats.GroupBy(h => h.Unit))
        {
            HeatSlot[] slots = [.. unit];
            foreach ((HeatSlot a, HeatSlot b) in slots.Zip(slots.Skip(1)))
            {
                bool Between(WearPart part) => renewed.Any(e => e.Body is EquipmentBody q && q.Unit == unit.Key && q.Part == part && e.At > a.ChargeAt && e.At <= b.ChargeAt);
                Assert.Equal(Between(WearPart.Lining) ? 0 : a.LiningHeats + 1, b.LiningHeats);
                Assert.Equal(Between(WearPart.Lance) ? 0 : a.LanceHeats + 1, b.LanceHeats);
                Assert.Equal(Between(WearPart.Taphole) ? 0 : a.TapholeHeats + 1, b.TapholeHeats);
            }
        }

        Assert.Single(renewed, e => e.Body is EquipmentBody { Part: WearPart.Lining });
        Assert.InRange(renewed.Count(e => e.Body is EquipmentBody { Part: WearPart.Lance }), 4, 14);
    }

    [Fact]
    public void North_runs_alone_while_South_is_relined()
    {
        Assert.All(Year.Heats.Skip(Year.RelineAt).Take(Year.FirstOnNewLining - Year.RelineAt), h => Assert.Equal("North", h.Unit));
        Assert.InRange(Year.FirstOnNewLining - Year.RelineAt, 30, 120);
        Assert.Equal(0, Year.Heats[Year.FirstOnNewLining].LiningHeats);
    }

    [Theory]
    [InlineData("2025-01-15T12:00:00Z", 12)]
    [InlineData("2025-03-30T00:59:59Z", 0)]
    [InlineData("2025-03-30T01:00:00Z", 2)]
    [InlineData("2025-07-15T12:00:00Z", 13)]
    [InlineData("2025-10-26T00:59:59Z", 1)]
    [InlineData("2025-10-26T01:00:00Z", 1)]
    [InlineData("2025-10-26T02:00:00Z", 2)]
    public void The_clock_changes_by_the_European_rule(string utc, int localHour) =>
        Assert.Equal(localHour, DemoCalendar.Local(DateTimeOffset.Parse(utc, System.Globalization.CultureInfo.InvariantCulture)).Hour);

    [Fact]
    public void Some_heats_are_made_while_the_clock_changes()
    {
        DateTimeOffset[] changes = [new(2025, 3, 30, 1, 0, 0, TimeSpan.Zero), new(2025, 10, 26, 1, 0, 0, TimeSpan.Zero)];
        Assert.All(changes, c => Assert.Contains(Year.Heats, h => Math.Abs((h.ChargeAt - c).TotalMinutes) < 60));
    }

    [Fact]
    public void Crews_take_the_shifts_in_turn()
    {
        Assert.Equal(4, Year.Heats.Select(h => DemoCalendar.Crew(h.ChargeAt)).Distinct().Count());
        var night = new DateTimeOffset(2025, 2, 3, 23, 0, 0, TimeSpan.Zero);
        Assert.Equal(DemoCalendar.Crew(night), DemoCalendar.Crew(night.AddHours(6)));
        Assert.NotEqual(DemoCalendar.Crew(night), DemoCalendar.Crew(night.AddHours(8)));
    }

    [Theory]
    [InlineData(0, 60, "Heats")]
    [InlineData(20_000, 60, "Heats")]
    [InlineData(10, -1, "HeatsWithSignals")]
    public void Bad_options_are_named(int heats, int signals, string name)
    {
        var e = Assert.Throws<ArgumentOutOfRangeException>(() => DemoYear.Entries(new DemoOptions { Heats = heats, HeatsWithSignals = signals }).First());
        Assert.Equal(name, e.ParamName);
        Assert.Contains("give", e.Message, StringComparison.Ordinal);
    }
}
