// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Views;

namespace Heatwright.Journal.Tests.Views;

public sealed class ShopViewsTests
{
    private static readonly DateOnly Monday = new(2026, 3, 9);

    [Fact]
    public void Shift_holds_its_heats_sums_and_what_is_open()
    {
        using var shop = new ShopOfHeats();
        shop.Heats(16);
        shop.Heats(1, 16, closed: false);
        string open = ShopOfHeats.Number(16);
        shop.Say(open, new DelayBody("wait-crane", ShopOfHeats.First.AddHours(16.5), null, "North", "crane 2"), ShopOfHeats.First.AddHours(16.5));
        shop.Say(open, new NoteBody("hot spot at the cone"), ShopOfHeats.First.AddHours(16.6));
        var list = new HeatList(shop.Store);

        ShiftView late = ShiftView.Of(list, Monday, "late");
        Assert.Equal(Enumerable.Range(8, 8).Select(ShopOfHeats.Number), late.Heats.Select(h => h.Row.Heat));
        Assert.Equal(Enumerable.Range(8, 8).Sum(i => 158_000 + i), late.SteelKg);
        Assert.Equal(Enumerable.Range(8, 8).Sum(i => 8000 + i + (i % 4 == 0 ? 300 : 0)), late.OxygenNm3);
        Assert.Equal((2, 6, 8, 0), (late.Reblows, late.Hits, late.Judged, late.HeatsWithoutSteel));
        Assert.Equal(2 + (10 % 7) + 2 + (15 % 7), late.DelayMinutes["wait-ladle"]);
        Assert.Empty(late.Open);

        ShiftView night = ShiftView.At(list, ShopOfHeats.First.AddHours(17));
        Assert.Equal((Monday, "night"), (night.Shift.Date, night.Shift.Name));
        Assert.Equal(open, Assert.Single(night.Heats).Row.Heat);
        Assert.Equal(1, night.HeatsWithoutSteel);
        Assert.Equal(["tapped, not closed", "delay wait-crane lasts at North: crane 2"], night.Open.Select(o => o.Text));
        Assert.Equal("hot spot at the cone", Assert.Single(night.Remarks).Text);
    }

    [Fact]
    public void Shift_names_what_missed_with_what_delays_with_their_unit_and_decisions_with_their_reason()
    {
        using var shop = new ShopOfHeats();
        shop.Heats(8);
        shop.Say("L-1002", new MeasurementBody(HeatPoint.EndOfBlow, 1950, 0.045, Index: 2), ShopOfHeats.First.AddHours(2).AddMinutes(19));
        shop.Say("L-1003", new EndBody(158_003, null, null, "downgraded"), ShopOfHeats.First.AddHours(3).AddMinutes(45), "phosphorus");
        shop.Say("L-1002", new DecisionBody("tap or blow on", "tap"), ShopOfHeats.First.AddHours(2).AddMinutes(20), "ladle waits");
        ShiftView early = ShiftView.Of(new HeatList(shop.Store), Monday, "early");
        Assert.Equal(["L-1002", "L-1003"], early.Misses.Select(m => m.Heat));
        PlannedLine line = Assert.Single(early.Misses[0].Lines);
        Assert.Equal((ResultQuantity.TemperatureK, 1950.0, 1943.0), (line.Name, line.Actual, line.Most));
        Assert.Equal(("downgraded", "phosphorus"), (early.Misses[1].Outcome, early.Misses[1].Reason));
        Assert.Equal([("L-1000", "North", "wait-ladle"), ("L-1005", "South", "wait-ladle")], early.Delays.Select(d => (d.Heat, d.Unit, d.Body.Code)));
        Assert.Equal("ladle waits", Assert.Single(early.Remarks).Entry.Reason);
        Assert.Equal(["cast", "cast", "cast", "downgraded"], early.Heats.Take(4).Select(h => h.Summary.Outcome));
    }

    [Fact]
    public void Material_use_is_the_sum_of_the_entries()
    {
        using var shop = new ShopOfHeats();
        shop.Heats(48);
        var list = new HeatList(shop.Store);
        MaterialUse all = MaterialUse.Of(list, Monday, Monday.AddDays(2));
        Assert.Equal(48, all.Heats);
        Assert.Equal(shop.ActualKg, all.Lines.ToDictionary(l => l.Material, l => l.ActualKg));
        Assert.Equal(shop.PlannedKg, all.Lines.ToDictionary(l => l.Material, l => l.PlannedKg));

        // Cut at a date, the parts come to the whole.
        MaterialUse first = MaterialUse.Of(list, Monday, Monday), rest = MaterialUse.Of(list, Monday.AddDays(1), Monday.AddDays(9));
        Assert.Equal((24, 24), (first.Heats, rest.Heats));
        Assert.All(all.Lines, l => Assert.Equal(
            l.ActualKg, first.Lines.Single(f => f.Material == l.Material).ActualKg + rest.Lines.Single(f => f.Material == l.Material).ActualKg));

        // A corrected weight counts as corrected, a withdrawn one not at all.
        NewEntry[] scale = [NewEntry.Of("L-1000", new ChargeBody(ChargeKind.Scrap, 1000, "plate"), ShopOfHeats.First, "scale"), NewEntry.Of("L-1000", new ChargeBody(ChargeKind.Scrap, 500, "plate"), ShopOfHeats.First, "scale")];
        shop.Store.Append([new Journal.Store.AppendRequest(scale)]);
        shop.Say("L-1000", new CorrectionBody(scale[0].Id, new ChargeBody(ChargeKind.Scrap, 800, "plate")), ShopOfHeats.First, "misread");
        shop.Say("L-1000", new CorrectionBody(scale[1].Id), ShopOfHeats.First, "other heat");
        Assert.Equal(800, MaterialUse.Of(list, Monday, Monday).Lines.Single(l => l.Material == "scrap/plate").ActualKg);
    }

    [Fact]
    public void Ages_of_parts_are_counted_from_renewals_and_blown_heats()
    {
        using var shop = new ShopOfHeats();
        void Renew(double hour, WearPart part, bool renewed = true, double? age = null, string? serial = null) =>
            shop.Say("", new EquipmentBody("North", part, renewed, age, serial), ShopOfHeats.First.AddHours(hour));

        // North blows at even hours. The lining was 310 heats old before the first heat; a new one comes after ten heats of North.
        Renew(-1, WearPart.Lining, renewed: false, age: 310);
        Renew(5, WearPart.Lance, serial: "B-7");
        Renew(19, WearPart.Lining, age: 321);
        Renew(25, WearPart.Lance, serial: "B-8");
        Guid slip = shop.Say("", new EquipmentBody("North", WearPart.Lance, true), ShopOfHeats.First.AddHours(27));
        shop.Say("", new CorrectionBody(slip), ShopOfHeats.First.AddHours(27), "was South");
        shop.Heats(30);
        CampaignView view = CampaignView.Of(new HeatList(shop.Store), "North");

        Campaign old = view.Campaigns.First(c => c.Part == WearPart.Lining);
        Assert.Equal((10, 320.0, 321.0), (old.Heats, old.AgeHeats!.Value, old.CountedByWorks!.Value));
        Assert.Equal(5, view.Now("North", WearPart.Lining)!.AgeHeats);
        Campaign[] lances = [.. view.Campaigns.Where(c => c.Part == WearPart.Lance)];
        Assert.Equal([null, "B-7", "B-8"], lances.Select(l => l.Serial));
        Assert.Equal([3, 10, 2], lances.Select(l => l.Heats));
        Assert.Null(lances[0].AgeHeats);
        Assert.Null(view.Now("North", WearPart.Taphole)!.AgeHeats);

        // Heat 20 is the eleventh of North, the first on the new lining; the lance has had heats 6 to 18.
        HeatAges at = view.Heats.Single(h => h.Heat == ShopOfHeats.Number(20));
        Assert.Equal(0, at.Ages[WearPart.Lining]);
        Assert.Equal(7, at.Ages[WearPart.Lance]);
        Assert.False(at.Ages.ContainsKey(WearPart.Taphole));
        Assert.Equal(314, view.Heats.Single(h => h.Heat == ShopOfHeats.Number(8)).Ages[WearPart.Lining]);
    }

    [Fact]
    public void Ages_written_down_with_heats_are_followed_and_show_a_renewal_that_no_one_entered()
    {
        using var shop = new ShopOfHeats();
        shop.Heats(12);
        void Counted(int heat, double age) =>
            shop.Say(ShopOfHeats.Number(heat), new EquipmentBody("North", WearPart.Lining, Renewed: false, age, Counted: true), ShopOfHeats.First.AddHours(heat));

        // North blows heats 0, 2, 4 …: counted on from 1200, put right at heat 4 (one heat is missing), new at heat 8.
        Counted(0, 1200);
        Counted(4, 1203);
        Counted(8, 0);
        CampaignView view = CampaignView.Of(new HeatList(shop.Store), "North");
        Assert.Equal([1200, 1201, 1203, 1204, 0, 1], view.Heats.Select(h => h.Ages[WearPart.Lining]));
        Campaign[] linings = [.. view.Campaigns.Where(c => c.Part == WearPart.Lining)];
        Assert.Equal([(4, 1205.0), (2, 2.0)], linings.Select(c => (c.Heats, c.AgeHeats!.Value)));
        Assert.Equal(ShopOfHeats.First.AddHours(8), linings[1].Began);
        Assert.All(linings, c => Assert.Empty(c.Mended));
    }
}
