// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Converter.Blow;

namespace Heatwright.Converter.Tests.Blow;

/// <summary>What the model can't follow or compute is refused by name; it never leaks from a balance or travels as NaN.</summary>
public sealed class RefusalTests
{
    private static string Refused(HeatInput heat, ModelParameters? parameters = null, BlowOptions? options = null) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => BlowModel.Run(heat, parameters ?? ModelParameters.Default, options)).Message;

    [Theory]
    [InlineData(Element.H)]
    [InlineData(Element.Ca)]
    [InlineData(Element.Mg)]
    public void An_element_of_the_metal_that_would_be_lost_is_refused(Element element)
    {
        HeatInput heat = TestHeats.Ordinary();
        HeatInput metal = heat with { HotMetal = heat.HotMetal with { Analysis = heat.HotMetal.Analysis.With(element, 0.001) } };
        Assert.Contains($"hot metal holds 0.001 % {element}", Refused(metal), StringComparison.Ordinal);
        ScrapCharge first = heat.Scrap[0];
        ScrapMaterial odd = first.Material with { Analysis = first.Material.Analysis.With(element, 0.001) };
        Assert.Contains($"heavy holds 0.001 % {element}", Refused(heat with { Scrap = [first with { Material = odd }] }), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(Constituent.Fe)]
    [InlineData(Constituent.CaCO3)]
    [InlineData(Constituent.H2O)]
    public void A_constituent_of_the_retained_slag_that_would_be_lost_is_refused(Constituent constituent)
    {
        var slag = new RetainedSlag(1500, new SolidAnalysis(new Dictionary<Constituent, double> { [Constituent.CaO] = 60, [Constituent.SiO2] = 35, [constituent] = 5 }));
        Assert.Contains($"retained slag holds 5 % {constituent}", Refused(TestHeats.Ordinary() with { RetainedSlag = slag }), StringComparison.Ordinal);
    }

    [Fact]
    public void Every_parameter_is_refused_when_it_is_not_a_number()
    {
        foreach (System.Reflection.PropertyInfo p in typeof(ModelParameters).GetProperties().Where(p => p.PropertyType == typeof(double)))
        {
            ModelParameters bad = ModelParameters.Default with { };
            p.SetValue(bad, double.NaN);
            Assert.Contains(p.Name, Refused(TestHeats.Ordinary(), bad), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Options_out_of_range_or_order_are_refused()
    {
        HeatInput heat = TestHeats.Ordinary();
        Assert.Contains("time step", Refused(heat, options: new BlowOptions(StepS: 0)), StringComparison.Ordinal);
        Assert.Contains("time step", Refused(heat, options: new BlowOptions(StepS: double.NaN)), StringComparison.Ordinal);
        Assert.Contains("rising order", Refused(heat, options: new BlowOptions(SnapshotPercents: [82, 60])), StringComparison.Ordinal);
    }
}
