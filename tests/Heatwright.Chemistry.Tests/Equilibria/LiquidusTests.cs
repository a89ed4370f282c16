// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry.Tests;

public class LiquidusTests
{
    private static readonly IronMelt LowCarbon = new((Element.C, 0.04), (Element.Mn, 0.12), (Element.P, 0.010), (Element.S, 0.010));
    private static readonly IronMelt Structural = new((Element.C, 0.10), (Element.Si, 0.2), (Element.Mn, 0.5), (Element.P, 0.010), (Element.S, 0.005));
    private static readonly IronMelt Medium = new((Element.C, 0.45), (Element.Si, 0.25), (Element.Mn, 0.65), (Element.P, 0.015), (Element.S, 0.015));
    private static readonly IronMelt High = new((Element.C, 0.80), (Element.Si, 0.2), (Element.Mn, 0.7));

    /// <summary>Each published equation worked by hand for four steels, °C. Null: outside the carbon range held here.</summary>
    public static TheoryData<string, double?, double?, double?, double?> Steels => new()
    {
        { "ContinuousCasting1994", 1532.3, 1523.7, 1491.3, 1461.5 },
        { "Hirai", 1534.5, 1526.2, 1489.8, null },
        { "JapaneseCasting1989", 1531.9, 1523.3, 1490.9, 1461.1 },
        { "CastingHandbookGeneral", 1535.0, 1527.5, null, null },
        { "CastingHandbookCarbon", 1534.5, 1527.4, 1494.8, 1471.1 },
        { "CastingVolume1980", 1531.3, 1523.2, 1494.8, 1467.7 },
        { "ThinSlab2006", 1533.2, 1526.0, null, null },
        { "Kawawa1973", 1531.6, 1523.7, 1494.7, 1468.7 },
    };

    [Theory]
    [MemberData(nameof(Steels))]
    public void Published_equations_give_their_values(string equation, double? lowCarbon, double? structural, double? medium, double? high)
    {
        foreach ((IronMelt melt, double? celsius) in (ReadOnlySpan<(IronMelt, double?)>)[(LowCarbon, lowCarbon), (Structural, structural), (Medium, medium), (High, high)])
        {
            if (celsius is double c)
            {
                Assert.Equal(c, Liquidus.TemperatureK(melt, equation) - 273.15, 0.06);
            }
            else
            {
                Assert.Throws<ChemistryRangeException>(() => Liquidus.TemperatureK(melt, equation));
            }
        }
    }

    /// <summary>Peritectic liquid 0.53 % C at 1494.6 °C (CALPHAD invariants, CompuTherm): each equation that reaches it, and how
    /// near.</summary>
    [Theory]
    [InlineData("Kawawa1973", 0.5)]
    [InlineData("CastingVolume1980", 1.0)]
    [InlineData("CastingHandbookCarbon", 3.5)]
    [InlineData("ContinuousCasting1994", 4.5)]
    [InlineData("JapaneseCasting1989", 5.0)]
    [InlineData("Hirai", 8.5)]
    [InlineData("IronCarbon", 12.0)]
    public void Peritectic_liquid(string equation, double within) =>
        Assert.Equal(1494.6, Liquidus.TemperatureK(new IronMelt((Element.C, 0.53)), equation) - 273.15, within);

    /// <summary>Stable eutectic 4.34 % C at 1153.4 °C (CompuTherm); the hot-metal line at 4.3 % is extended by its slope.</summary>
    [Fact]
    public void Hot_metal_line_runs_into_the_eutectic() =>
        Assert.Equal(1153.4, Liquidus.TemperatureK(new IronMelt((Element.C, 4.3)), "HotMetal") - 273.15 - (124.5 * 0.04), 45.0);

    [Theory]
    [InlineData("Kawawa1973", 0.04)]
    [InlineData("Kawawa1973", 0.35)]
    [InlineData("Hirai", 0.2)]
    [InlineData("CastingHandbookCarbon", 0.3)]
    [InlineData("CastingHandbookCarbon", 1.0)]
    [InlineData("HotMetal", 3.5)]
    [InlineData("IronCarbon", 2.5)]
    public void Carbon_from_the_arrest_inverts_the_liquidus(string equation, double carbon)
    {
        var others = new IronMelt((Element.Mn, 0.15), (Element.P, 0.015), (Element.S, 0.012));
        double arrest = Liquidus.TemperatureK(others.With(Element.C, carbon), equation);
        Assert.Equal(carbon, Liquidus.CarbonFromArrest(arrest, others, equation), 1e-9);
    }

    [Fact]
    public void An_arrest_above_the_freezing_point_of_iron_is_refused_with_the_limits()
    {
        var e = Assert.Throws<ChemistryRangeException>(() => Liquidus.CarbonFromArrest(1850, IronMelt.Pure));
        Assert.Equal(1536 + 273.15, e.Most, 1e-9);
        Assert.Contains(Liquidus.DefaultEquation, e.Message, StringComparison.Ordinal);
    }

    /// <summary>Graphite saturation 5.41 % at 1600 °C and 4.77 % at 1350 °C by the linear rule (Chipman, Neumann; from memory).</summary>
    [Theory]
    [InlineData(1600, 5.41)]
    [InlineData(1350, 4.77)]
    public void Graphite_saturation_by_the_linear_rule(double celsius, double percent) =>
        Assert.Equal(percent, Liquidus.GraphiteSaturationPercent(celsius + 273.15, IronMelt.Pure), 0.005);

    /// <summary>The rule and Gokcen's activity agree within 0.1 % C between 1200 and 1600 °C.</summary>
    [Theory]
    [InlineData(1200)]
    [InlineData(1350)]
    [InlineData(1500)]
    [InlineData(1600)]
    public void Two_ways_to_graphite_saturation_agree(double celsius) =>
        Assert.Equal(GokcenCarbon.SaturationPercent(celsius + 273.15), Liquidus.GraphiteSaturationPercent(celsius + 273.15, IronMelt.Pure), 0.1);

    [Fact]
    public void Every_equation_names_its_source() => Assert.All(Liquidus.Rows, r => Assert.True(r.Source.Length > 10, r.Id));
}
