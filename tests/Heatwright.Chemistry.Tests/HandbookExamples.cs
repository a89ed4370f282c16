// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry.Tests;

/// <summary>The code shown in docs/handbook/10 to 13, with the figures stated beside it.</summary>
public class HandbookExamples
{
    [Fact]
    public void Heat_of_burning_silicon()
    {
        double heat = Reaction.Parse("[Si] + O2 = SiO2").Enthalpy(1873);
        double iron = Substances.Get("Fe").HeatContentPerKg(298.15, 1873);
        Assert.Equal(-814.5e3, heat, 500.0);
        Assert.Equal(1350.2e3, iron, 500.0);
    }

    [Fact]
    public void Heat_content_of_hot_metal()
    {
        var hotMetal = new IronMelt((Element.C, 4.5), (Element.Si, 0.5), (Element.Mn, 0.4), (Element.P, 0.10), (Element.S, 0.02));
        double enthalpy = IronSolution.MeltEnthalpyPerKg(hotMetal, 1623.15);
        Assert.Equal(1.26e6, enthalpy, 0.005e6);
    }

    [Fact]
    public void Oxygen_at_the_end_of_a_blow()
    {
        var bath = new IronMelt((Element.C, 0.05), (Element.Mn, 0.12), (Element.P, 0.012));
        OxygenResult oxygen = DissolvedOxygen.WithCarbon(bath, 1923.15, carbonMonoxideAtm: 1.0);
        double underSlag = DissolvedOxygen.ActivityUnderIronOxide(0.25, 1923.15);
        Assert.Equal(0.054, oxygen.MassPercent, 0.0005);
        Assert.Equal(0.25 * 0.284 * Math.Pow(10, -0.15 * 0.284), underSlag, 0.0005);
    }

    [Fact]
    public void Converter_gas_burning_at_the_mouth()
    {
        var gas = new GasMixture((GasSpecies.CO, 85), (GasSpecies.CO2, 12), (GasSpecies.N2, 3));
        CombustionResult flame = Combustion.Adiabatic([new(gas, 1.0, 1900), new(GasMixture.DryAir, 0.25, 298.15)]);
        Assert.InRange(flame.TemperatureK, 2150, 2400);
        Assert.True(flame.Gas[GasSpecies.CO2] > gas[GasSpecies.CO2]);
    }

    /// <summary>Below about 0.012 % C at 1600 °C oxygen against carbon exceeds FeO saturation.</summary>
    [Theory]
    [InlineData(0.011, false)]
    [InlineData(0.014, true)]
    public void Where_iron_oxide_forms_first(double carbon, bool below) =>
        Assert.Equal(below, DissolvedOxygen.WithCarbon(new IronMelt((Element.C, carbon)), 1873.15).BelowIronOxideSaturation);
}
