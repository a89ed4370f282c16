// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Learning.Validation;

namespace Heatwright.Learning.Tests.Validation;

public sealed class MeasuredHeatsTests
{
    private static MeasuredHeats Read(string heats) => MeasuredHeats.Of(
        MeasuredTable.Parse("heats.csv", heats),
        MeasuredTable.Parse("end.csv", InventedTables.EndGas(InventedTables.GasAtEnd(7, 1, 9, 0.05))),
        MeasuredTable.Parse("blow.csv", InventedTables.BlowGas(InventedTables.GasOfBlow(9))));

    [Fact]
    public void Heats_are_sorted_into_sets_and_time_order_without_those_that_burnt_coal()
    {
        MeasuredHeats m = Read(InventedTables.Heats(
            InventedTables.Heat(12), InventedTables.Heat(11, si: null), InventedTables.Heat(13, coalKg: 1500), InventedTables.Heat(20, "B", oxygenNm3: 15800)));
        Assert.Equal([11, 12], m.EndPoints.Select(h => h.Number));
        Assert.Null(m.EndPoints[0].Analysis);
        Assert.Equal(0.45, m.EndPoints[1].Analysis!.Si);
        Assert.Equal(1650, m.EndPoints[1].EndC);
        Assert.Equal(15800, Assert.Single(m.Oxygen).OxygenNm3);
        Assert.Null(m.Oxygen[0].EndC);
        Assert.Equal(4, m.HeatsRead);
        Assert.Equal(333, m.EndPoints[1].ChargeT, 1e-12);
        Assert.Equal(10, Assert.Single(m.EndGas).CarbonGas);
        Assert.Equal(900, Assert.Single(m.BlowGas).TemperatureC.Upper, 1e-9);
    }

    [Fact]
    public void Missing_folder_and_file_are_named()
    {
        string folder = Path.Combine(AppContext.BaseDirectory, "no such folder");
        Assert.Contains("no such folder' does not exist; give the folder", Refused(() => MeasuredHeats.Read(folder)), StringComparison.Ordinal);
        string there = AppContext.BaseDirectory;
        Assert.Contains($"holds no file {MeasuredHeats.HeatsFile}", Refused(() => MeasuredHeats.Read(there)), StringComparison.Ordinal);
    }

    [Fact]
    public void A_missing_column_is_named_with_those_that_are_there()
    {
        string message = Refused(() => Read(InventedTables.Heats(InventedTables.Heat(1)).Replace("coal_kg", "coke_kg", StringComparison.Ordinal)));
        Assert.Contains("heats.csv has no column 'coal_kg'; it has heat_no, set,", message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("1650", "hot", "line 4, column end_T_C is 'hot'; write a number")]
    [InlineData("1650", "165", "line 4, column end_T_C is 165; it must lie between 1300 and 1900")]
    [InlineData("1650", "NaN", "line 4, column end_T_C is NaN; it must lie between")]
    [InlineData("1650", "", "line 4, column end_T_C is empty; it must be given")]
    [InlineData(",A,", ",C,", "heat 1: set is 'C'; it must be A or B")]
    [InlineData("1390", "-5", "column hot_metal_T_C is -5")]
    public void A_wrong_value_is_named_with_its_line_and_column(string right, string wrong, string message) =>
        Assert.Contains(message, Refused(() => Read(InventedTables.Heats(InventedTables.Heat(1)).Replace(right, wrong, StringComparison.Ordinal))), StringComparison.Ordinal);

    [Theory]
    [InlineData("")]
    [InlineData("# only remarks\n# more")]
    public void A_text_without_a_header_is_refused(string text) =>
        Assert.Contains("has no header row", Refused(() => MeasuredTable.Parse("a.csv", text)), StringComparison.Ordinal);

    [Theory]
    [InlineData("a,b\n1\n")]
    [InlineData("a,a\n1,2\n")]
    public void A_ragged_or_doubled_table_is_refused(string text) =>
        Assert.Contains("a.csv is not a table", Refused(() => MeasuredTable.Parse("a.csv", text)), StringComparison.Ordinal);

    /// <summary>4.77 % at 1350 °C in Fe–C (Chipman / Neumann, from memory; Gokcen 1994: 4.76).</summary>
    [Fact]
    public void Hot_metal_carbon_is_the_saturation_lowered_by_silicon()
    {
        var pure = new RecordedAnalysis(0, 0, 0, 0, 0, 0, 0, 0, 0);
        Assert.Equal(4.77, HotMetalCarbon.SaturationPercent(1350, pure), 5e-3);
        Assert.Equal(-0.31, HotMetalCarbon.SaturationPercent(1350, pure with { Si = 1 }) - HotMetalCarbon.SaturationPercent(1350, pure), 1e-9);
        Assert.Throws<ChemistryRangeException>(() => HotMetalCarbon.SaturationPercent(1000, pure));
    }

    private static string Refused(Action action) => Assert.Throws<ValidationDataException>(action).Message;
}
