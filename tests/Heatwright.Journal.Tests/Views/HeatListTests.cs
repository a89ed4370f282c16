// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;
using Heatwright.Journal.Views;

namespace Heatwright.Journal.Tests.Views;

public sealed class HeatListTests
{
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
    public void Rows_of_another_plan_of_shifts_are_made_anew()
    {
        using var shop = new ShopOfHeats();
        shop.Heats(3);
        Assert.Equal("early", new HeatList(shop.Store).Find("L-1000")!.Shift);
        Assert.Equal("day", new HeatList(shop.Store, new ShiftPlan("Etc/UTC", [new("day", new TimeOnly(6, 0)), new("dark", new TimeOnly(18, 0))])).Find("L-1000")!.Shift);
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
