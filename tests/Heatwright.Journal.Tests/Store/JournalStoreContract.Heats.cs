// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Store;

namespace Heatwright.Journal.Tests.Store;

public abstract partial class JournalStoreContract
{
    private static readonly HeatRow[] Rows =
    [
        new("100", Sample.Time, "tapped", "S235", "K1", "2031-03-03", "night", 0, "{}"),
        new("101", Sample.Time.AddHours(1), "closed", "DC04", "K2", "2031-03-04", "early", 2, """{"steelKg":160000}"""),
        new("102a", Sample.Time.AddHours(2), "closed", "S235", "K1", "2031-03-04", "late", 0, "{}"),
        new("10%", Sample.Time.AddHours(3), "ordered", "", "", "2031-03-05", "early", 0, "{}"),
    ];

    public static TheoryData<string> Filters() => [.. Expectations.Keys];

    private static readonly Dictionary<string, (HeatFilter Filter, string Heats)> Expectations = new(StringComparer.Ordinal)
    {
        ["all"] = (new HeatFilter(), "10% 102a 101 100"),
        ["stage"] = (new HeatFilter(Stage: "closed"), "102a 101"),
        ["grade"] = (new HeatFilter(Grade: "S235"), "102a 100"),
        ["no grade"] = (new HeatFilter(Grade: ""), "10%"),
        ["unit"] = (new HeatFilter(Unit: "K2"), "101"),
        ["dates"] = (new HeatFilter(FromShiftDate: "2031-03-04", ToShiftDate: "2031-03-04"), "102a 101"),
        ["shift"] = (new HeatFilter(Shift: "early"), "10% 101"),
        ["part"] = (new HeatFilter(HeatContains: "2A"), "102a"),
        ["percent sign"] = (new HeatFilter(HeatContains: "0%"), "10%"),
        ["empty part"] = (new HeatFilter(HeatContains: ""), "10% 102a 101 100"),
        ["stale"] = (new HeatFilter(StaleOnly: true), "101"),
        ["oldest"] = (new HeatFilter(Order: HeatOrder.Oldest), "100 101 102a 10%"),
        ["number"] = (new HeatFilter(Order: HeatOrder.Number), "10% 100 101 102a"),
        ["by grade"] = (new HeatFilter(Order: HeatOrder.Grade), "10% 101 102a 100"),
        ["by stage"] = (new HeatFilter(Order: HeatOrder.Stage), "102a 101 10% 100"),
        ["page"] = (new HeatFilter(Skip: 1, Take: 2), "102a 101"),
        ["together"] = (new HeatFilter(Stage: "closed", Unit: "K1", StaleOnly: false), "102a"),
    };

    [Theory]
    [MemberData(nameof(Filters))]
    public void The_heat_list_is_filtered_and_sorted(string name)
    {
        IHeatTable heats = Open().Heats;
        heats.Save(Rows, 9);
        (HeatFilter filter, string expected) = Expectations[name];
        Assert.Equal(expected, string.Join(' ', heats.Query(filter).Select(r => r.Heat)));
        Assert.Equal(name == "page" ? 4 : expected.Split(' ').Length, heats.Count(filter));
    }

    [Fact]
    public void Rows_come_back_as_they_were_saved()
    {
        IHeatTable heats = Open().Heats;
        Assert.Equal(0, heats.UpTo());
        heats.Save(Rows, 9);
        Assert.Equal(9, heats.UpTo());
        Assert.Equal(Rows.OrderBy(r => r.Heat, StringComparer.Ordinal), heats.Query(new HeatFilter(Order: HeatOrder.Number)));
        IReadOnlyDictionary<string, HeatRow> some = heats.Get(["101", "none", "100", "101"]);
        Assert.Equal([Rows[0], Rows[1]], some.Values.OrderBy(r => r.Heat, StringComparer.Ordinal));
        Assert.Empty(heats.Get([]));
        heats.Save([Rows[0] with { Stage = "closed" }], 10);
        Assert.Equal("closed", heats.Get(["100"])["100"].Stage);
        Assert.Equal(1200, heats.Get([.. Enumerable.Range(0, 1200).Select(i => $"x{i}")]).Count + 1200);
    }

    [Fact]
    public void An_older_list_does_not_replace_a_newer_one()
    {
        IHeatTable heats = Open().Heats;
        heats.Save([Rows[0] with { Stage = "closed" }], 10);
        heats.Save([Rows[0]], 9);
        Assert.Equal(10, heats.UpTo());
        Assert.Equal("closed", heats.Get(["100"])["100"].Stage);
    }

    [Fact]
    public void A_cleared_list_takes_no_rows_that_were_computed_before()
    {
        IHeatTable slow = Open().Heats;
        IHeatTable other = Open().Heats;
        slow.Save(Rows, 9);
        Assert.Equal(9, slow.UpTo());
        other.Clear();
        slow.Save([Rows[0]], 10);
        Assert.Equal(0, other.UpTo());
        Assert.Equal(0, other.Count(new HeatFilter()));
        Assert.Equal(0, slow.UpTo());
        slow.Save(Rows, 10);
        Assert.Equal(4, other.Count(new HeatFilter()));
    }
}
