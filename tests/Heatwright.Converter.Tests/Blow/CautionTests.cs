// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Blow;

namespace Heatwright.Converter.Tests.Blow;

/// <summary>Each flag has a heat that raises it and one that must not.</summary>
public sealed class CautionTests
{
    private static List<string> Of(HeatInput heat, CautionKind kind) =>
        [.. BlowCautions.Of(heat, BlowModel.Run(heat, new BlowOptions(RecordEveryS: 10))).Where(c => c.Kind == kind).Select(c => c.Text)];

    [Fact]
    public void An_ordinary_heat_says_only_where_its_partitions_are_extrapolated()
    {
        Assert.All(Of(TestHeats.Ordinary(), CautionKind.Range), t => Assert.Matches("artition|MgO saturation", t));
        Assert.DoesNotContain(Of(TestHeats.Ordinary(), CautionKind.Heat), t => t.Contains("not melted", StringComparison.Ordinal) || t.StartsWith("Over-oxidised", StringComparison.Ordinal));
    }

    [Fact]
    public void Unmelted_scrap_is_named() =>
        Assert.Contains(Of(TestHeats.Ordinary(heavyHalfM: 0.12), CautionKind.Heat), t => t.Contains("scrap are not melted", StringComparison.Ordinal));

    [Fact]
    public void Over_oxidation_is_named() =>
        Assert.Contains(Of(TestHeats.Ordinary(oxygenNm3: 9300), CautionKind.Heat), t => t.StartsWith("Over-oxidised", StringComparison.Ordinal));

    [Fact]
    public void A_nozzle_off_its_design_is_named()
    {
        HeatInput heat = TestHeats.Ordinary();
        HeatInput slow = heat with { Programme = heat.Programme with { OxygenFlowNm3PerS = [new(0, 3)] } };
        Assert.Contains(Of(slow, CautionKind.Range), t => t.Contains("nozzles", StringComparison.Ordinal));
        Assert.DoesNotContain(Of(heat, CautionKind.Range), t => t.Contains("nozzles", StringComparison.Ordinal));
    }

    [Fact]
    public void A_lance_in_the_bath_and_a_jet_beyond_the_droplet_data_are_named()
    {
        HeatInput heat = TestHeats.Ordinary();
        List<string> low = Of(heat with { Vessel = heat.Vessel with { LiningAgeHeats = 0 }, Programme = heat.Programme with { LanceHeightM = [new(0, 0.5)] } }, CautionKind.Range);
        Assert.Contains(low, t => t.Contains("within 0.6 m of the bath", StringComparison.Ordinal));
        HeatInput hard = heat with { Programme = heat.Programme with { LanceHeightM = [new(0, 0.7)], OxygenFlowNm3PerS = [new(0, 15)] } };
        Assert.Contains(Of(hard, CautionKind.Range), t => t.StartsWith("Blowing number", StringComparison.Ordinal));
    }

    [Fact]
    public void Foam_over_the_freeboard_is_named_as_likely_slopping()
    {
        HeatInput heat = TestHeats.Ordinary(lanceChangeM: 0.4);
        HeatInput low = heat with { Vessel = heat.Vessel with { InnerHeightM = 4.6 } };
        Assert.Contains(Of(low, CautionKind.Heat), t => t.StartsWith("Slopping likely", StringComparison.Ordinal));
    }

    [Fact]
    public void A_slag_short_of_magnesia_is_named()
    {
        HeatInput heat = TestHeats.Ordinary();
        HeatInput bare = heat with { Programme = heat.Programme with { Additions = [.. heat.Programme.Additions.Where(a => a.Material != TestHeats.DolomiticLime)] } };
        Assert.Contains(Of(bare, CautionKind.Heat), t => t.Contains("short of saturation", StringComparison.Ordinal));
    }

    [Fact]
    public void A_bath_that_stays_cold_says_that_partitions_are_extrapolated_throughout() =>
        Assert.Contains(Of(TestHeats.Ordinary(blownFraction: 0.5), CautionKind.Range), t => t.StartsWith("The bath never reached", StringComparison.Ordinal));
}
