// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;
using Heatwright.Journal.Views;

namespace Heatwright.Journal.Tests.Views;

public sealed class HeatListTests
{
    private static readonly ShiftPlan TwoShifts = new("Etc/UTC", [new("day", new TimeOnly(6, 0)), new("dark", new TimeOnly(18, 0))]);

    [Fact]
    public void Row_says_what_the_heat_came_to()
    {
        using var shop = new ShopOfHeats();
        shop.Heats(5);
        HeatRow row = new HeatList(shop.Store).Find("L-1004")!;
        HeatSummary s = HeatSummary.Of(row);
        Assert.Equal(("closed", "S235JR", "North", "2026-03-09", "early", 0), (row.Stage, row.Grade, row.Unit, row.ShiftDate, row.Shift, row.Stale));
        Assert.Equal((17.0, 1, 8304.0, 158_004.0), (s.BlowMinutes!.Value, s.Reblows, s.OxygenNm3!.Value, s.SteelKg!.Value));
        Assert.Equal((1922.0, 0.04, 0.012, 0.11), (s.EndTemperatureK!.Value, s.EndCarbonPercent!.Value, s.EndPhosphorusPercent!.Value, s.EndManganesePercent!.Value));
        Assert.Equal((false, true), (s.FirstHit, s.Hit));
        Assert.Equal(170_000, s.HotMetalKg + s.ScrapKg);
        Assert.Equal(shop.Store.Version("L-1004"), s.Version);
    }

    [Fact]
    public void List_catches_up_with_what_was_written_since()
    {
        using var shop = new ShopOfHeats();
        var list = new HeatList(shop.Store);
        Assert.Empty(list.Query());
        shop.Heats(6, closed: false);
        Assert.Equal(6, list.Count());
        Assert.All(list.Query(), r => Assert.Equal("tapped", r.Stage));
        shop.Say("L-1003", new EndBody(150_000), ShopOfHeats.First.AddHours(5));
        Assert.Equal("L-1003", Assert.Single(list.Query(new HeatFilter(Stage: "closed"))).Heat);
        Assert.Equal(shop.Store.Head().Sequence, shop.Store.Heats.UpTo());
    }

    [Fact]
    public void Rows_made_from_zero_equal_rows_caught_up_bit_by_bit()
    {
        using var shop = new ShopOfHeats();
        var list = new HeatList(shop.Store);
        for (int i = 0; i < 6; i++)
        {
            shop.Heats(4, 4 * i, closed: i % 2 == 0);
            shop.Say(ShopOfHeats.Number(i), new NoteBody("seen"), ShopOfHeats.First);
            list.CatchUp();
        }

        HeatRow[] caughtUp = [.. list.All()];
        list.Rebuild();
        Assert.Equal(24, caughtUp.Length);
        Assert.Equal(caughtUp, list.All());
    }

    [Fact]
    public void Journal_that_may_only_be_read_has_the_same_list()
    {
        using var shop = new ShopOfHeats();
        shop.Heats(7);
        new HeatList(shop.Store).CatchUp();
        shop.Heats(5, 7, closed: false);
        using IJournalStore readOnly = shop.ReadOnly();
        var list = new HeatList(readOnly);
        HeatRow[] read = [.. list.All()];
        list.Rebuild();
        Assert.Equal(read, list.All());
        Assert.True(shop.Store.Heats.UpTo() < shop.Store.Head().Sequence, "a reader must not write");
        Assert.Equal(new HeatList(shop.Store).All(), read);
    }

    [Fact]
    public void Rows_of_another_plan_of_shifts_are_kept_apart()
    {
        using var shop = new ShopOfHeats();
        shop.Heats(3);
        Assert.Equal("early", new HeatList(shop.Store).Find("L-1000")!.Shift);
        Assert.Equal("day", new HeatList(shop.Store, TwoShifts).Find("L-1000")!.Shift);
        Assert.Equal("early", shop.Store.Heats.Get(["L-1000"])["L-1000"].Shift);
    }

    /// <summary>Two programs at one journal, each by its own clock on the wall: neither sees the other's dates, whoever writes or rebuilds.</summary>
    [Fact]
    public void Lists_by_two_clocks_do_not_mix()
    {
        using var shop = new ShopOfHeats();
        shop.Heats(24);
        using IJournalStore there = JournalPlace.Open(shop.Path, new JournalOptions { Clock = shop.Clock });
        ShiftPlan east = new("Asia/Tokyo");
        HeatList here = new(shop.Store), far = new(there, east);
        Check(24);
        far.Rebuild();
        Check(24);
        shop.Heats(6, 24);
        far.CatchUp();
        Check(30);
        here.Rebuild();
        Check(30);

        // A third that clears the rows and makes them by its shifts, as programs do that look only once.
        there.Heats.Clear();
        new HeatList(there, east).CatchUp();
        shop.Heats(6, 30);
        Check(36);

        void Check(int heats)
        {
            Assert.All(new[] { here, far }, list =>
            {
                HeatRow[] rows = [.. list.All()];
                Assert.Equal(heats, rows.Length);
                Assert.Equal(rows.Reverse(), list.Query(new HeatFilter(Take: 1000)));
                Assert.All(rows, r => Assert.Equal(HeatSummary.RowOf(HeatRecord.Read(shop.Store, r.Heat), list.Shifts), r));
                foreach (IGrouping<string, HeatRow> day in rows.GroupBy(r => r.ShiftDate))
                {
                    DateOnly date = DateOnly.Parse(day.Key);
                    MaterialUse use = MaterialUse.Of(list, date, date);
                    Assert.Equal(day.Count(), use.Heats);
                    Assert.Equal(day.Sum(r => HeatSummary.Of(r).HotMetalKg), use.Lines.Single(l => l.Material == MaterialKey.HotMetal).ActualKg);
                }
            });
            Assert.NotEqual(here.All().Select(r => r.ShiftDate + r.Shift), far.All().Select(r => r.ShiftDate + r.Shift));
        }
    }

    [Fact]
    public void Rows_that_two_programs_began_at_once_are_sorted_out()
    {
        using var shop = new ShopOfHeats();
        shop.Heats(12);
        HeatList day = new(shop.Store, TwoShifts);
        long upTo = shop.Store.Head().Sequence;
        var list = new HeatList(shop.Store);
        list.CatchUp();
        shop.Store.Heats.Save([HeatSummary.RowOf(HeatRecord.Read(shop.Store, "L-1003"), TwoShifts)], upTo);
        Assert.Equal("early", list.Find("L-1003")!.Shift);
        Assert.DoesNotContain(list.All(), r => r.Shift is "day" or "dark");
        Assert.DoesNotContain(day.All(), r => r.Shift is not ("day" or "dark"));
        Assert.Equal(12, day.Count(new HeatFilter(Shift: "day")) + day.Count(new HeatFilter(Shift: "dark")));
    }

    [Fact]
    public void Rows_of_an_earlier_program_are_made_anew_and_those_of_a_later_one_left()
    {
        using var shop = new ShopOfHeats();
        shop.Heats(3);
        new HeatList(shop.Store).CatchUp();
        HeatRow row = shop.Store.Heats.Get(["L-1002"])["L-1002"];
        string later = row.Summary.Replace($"\"mark\":\"{HeatSummary.Layout} ", "\"mark\":\"99 ", StringComparison.Ordinal);
        string earlier = later.Replace("\"99 ", "\"1 ", StringComparison.Ordinal);
        foreach ((string summary, string stored) in new[] { (earlier, row.Summary), (later, later) })
        {
            shop.Store.Heats.Save([row with { Summary = summary }], shop.Store.Head().Sequence);
            Assert.Equal(row, new HeatList(shop.Store).Find("L-1002"));
            Assert.Equal(stored, shop.Store.Heats.Get(["L-1002"])["L-1002"].Summary);
        }
    }

    [Fact]
    public void Heat_that_moves_while_all_are_gone_through_comes_once()
    {
        using var shop = new ShopOfHeats();
        shop.Heats(1100, closed: false);
        var list = new HeatList(shop.Store);
        var seen = new List<string>();
        foreach (HeatRow row in list.All())
        {
            seen.Add(row.Heat);
            if (seen.Count == 10)
            {
                // A late entry makes the last heat the oldest: every later page would begin one heat too early.
                shop.Say(ShopOfHeats.Number(1099), new NoteBody("ordered long before"), ShopOfHeats.First.AddDays(-1));
                list.CatchUp();
            }
        }

        Assert.Equal(Enumerable.Range(0, 1100).Select(ShopOfHeats.Number), seen);
    }

    [Fact]
    public void Rows_thrown_away_by_someone_else_while_they_are_made_are_made_all_the_same()
    {
        using var shop = new ShopOfHeats();
        shop.Heats(400);
        var list = new HeatList(shop.Store);
        bool cleared = false;
        list.CatchUp(_ =>
        {
            if (!cleared)
            {
                cleared = true;
                using var other = JournalPlace.Open(shop.Path, new JournalOptions { Clock = shop.Clock });
                other.Heats.Clear();
            }
        });
        Assert.True(cleared);
        Assert.Equal(400, shop.Store.Heats.Count(new HeatFilter()));
    }

    [Fact]
    public void Stale_result_shows_in_the_row()
    {
        using var shop = new ShopOfHeats();
        shop.Heats(2);
        shop.Say("L-1001", new ResultBody(ResultQuestion.Forecast, new Dictionary<string, Expected>(), new Basis("Heatwright 0.1.0"), ["charge/*"]), ShopOfHeats.First);
        var list = new HeatList(shop.Store);
        Assert.Empty(list.Query(new HeatFilter(StaleOnly: true)));
        shop.Say("L-1001", new ChargeBody(ChargeKind.Scrap, 100, "heavy"), ShopOfHeats.First);
        Assert.Equal("L-1001", Assert.Single(list.Query(new HeatFilter(StaleOnly: true))).Heat);
    }
}
