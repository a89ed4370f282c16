// SPDX-License-Identifier: Apache-2.0
using CsCheck;
using Heatwright.Chemistry;
using Heatwright.Converter.Gas;

namespace Heatwright.Converter.Tests.Gas;

public sealed class HoodTests
{
    private static readonly HoodSettings Settings = new(60, 60e3);

    private static readonly (GasSpecies Species, Element Element, int Atoms)[] Atoms =
    [
        (GasSpecies.CO, Element.C, 1), (GasSpecies.CO, Element.O, 1), (GasSpecies.CO2, Element.C, 1), (GasSpecies.CO2, Element.O, 2),
        (GasSpecies.H2, Element.H, 2), (GasSpecies.H2O, Element.H, 2), (GasSpecies.H2O, Element.O, 1), (GasSpecies.O2, Element.O, 2),
        (GasSpecies.N2, Element.N, 2), (GasSpecies.Ar, Element.Ar, 1), (GasSpecies.CH4, Element.C, 1), (GasSpecies.CH4, Element.H, 4),
        (GasSpecies.SO2, Element.S, 1), (GasSpecies.SO2, Element.O, 2),
    ];

    private static readonly Gen<(MouthGas Mouth, HoodSettings Settings)> Cases = Gen.Select(
        Gen.Double[0.001, 1].Array[7], Gen.Double[0.1, 60], Gen.Double[1300, 2300], Gen.Double[5, 120], Gen.Double[0, 2e5])
        .Select((x, flow, k, suction, ua) => (
            new MouthGas(
                new GasMixture(
                    (GasSpecies.CO, x[0] * 5), (GasSpecies.CO2, x[1]), (GasSpecies.H2, x[2] * 0.1), (GasSpecies.H2O, x[3] * 0.1),
                    (GasSpecies.O2, x[4] * 0.2), (GasSpecies.N2, x[5]), (GasSpecies.Ar, x[6] * 0.1)),
                flow,
                k),
            new HoodSettings(suction, ua)));

    private static MouthGas Mouth(double flow, double co = 90, double co2 = 10) =>
        new(new GasMixture((GasSpecies.CO, co), (GasSpecies.CO2, co2)), flow, 1873.15);

    [Fact]
    public void Elements_and_energy_balance_over_any_mouth_gas_and_fan() =>
        Cases.Sample(
            c =>
            {
                HoodGas g = Hood.Run(c.Mouth, c.Settings);
                double taken = c.Mouth.FlowNm3PerS - g.EscapedNm3PerS;
                foreach (Element e in (Element[])[Element.C, Element.H, Element.O, Element.N, Element.Ar])
                {
                    double into = (taken * Count(c.Mouth.Gas, e)) + (g.AirNm3PerS * Count(GasMixture.DryAir, e));
                    Assert.Equal(into, g.WetNm3PerS * Count(g.Wet, e), 1e-9 * Math.Max(1, into));
                }

                double perNm3 = 1 / PhysicalConstants.NormalMolarVolume;
                double before = perNm3 * ((taken * c.Mouth.Gas.Enthalpy(c.Mouth.TemperatureK)) + (g.AirNm3PerS * GasMixture.DryAir.Enthalpy(c.Settings.AirK)));
                double after = (perNm3 * g.WetNm3PerS * g.Wet.Enthalpy(g.TemperatureK)) + g.HeatToCoolantW;
                Assert.Equal(before, after, 1e-9 * Math.Max(Math.Abs(before), g.HeatToCoolantW));
                Assert.Equal(c.Settings.SuctionNm3PerS, g.DryNm3PerS, 1e-9 * c.Settings.SuctionNm3PerS);
                Assert.True(g.AirNm3PerS == 0 || g.EscapedNm3PerS == 0);
                Assert.True(g.Wet[GasSpecies.O2] * (g.Wet[GasSpecies.CO] + g.Wet[GasSpecies.H2]) < 1e-12);
            },
            seed: "0000K5Hq2l20",
            iter: 2000);

    /// <summary>500 Nm³ CO with an oxygen factor of 0.1 take 119 Nm³ of air with 21 % O2 (stoichiometry): here 50 of CO need 25 of O2.</summary>
    [Fact]
    public void A_tenth_of_the_oxygen_needed_is_the_air_by_stoichiometry()
    {
        // Dry volume after burning: 50 + air − its oxygen.
        double air = 0.1 * 25 / GasMixture.DryAir[GasSpecies.O2];
        HoodGas g = Hood.Run(Mouth(50, 100, 0), new HoodSettings(50 + air - 2.5, 50e3));
        Assert.Equal(air, g.AirNm3PerS, 1e-9);
        Assert.Equal(0.1, g.CombustionFactor, 1e-9);
        Assert.Equal(119, 10 * air, 0.8);
    }

    [Fact]
    public void A_fan_weaker_than_the_vessel_draws_no_air_and_lets_gas_escape()
    {
        HoodGas g = Hood.Run(Mouth(50), new HoodSettings(40, 50e3));
        Assert.Equal(0, g.AirNm3PerS);
        Assert.Equal(10, g.EscapedNm3PerS, 1e-9);
        Assert.Equal(90, g.DryPercent(GasSpecies.CO), 1e-9);
        Assert.Equal(1873.15, g.FlameK, 1e-6);
    }

    [Fact]
    public void Much_air_leaves_air_with_the_carbon_burnt()
    {
        HoodGas g = Hood.Run(Mouth(1), new HoodSettings(500, 50e3));
        Assert.Equal(0, g.DryPercent(GasSpecies.CO), 1e-12);
        Assert.Equal(100.0 / 500, g.DryPercent(GasSpecies.CO2), 0.05);
        Assert.InRange(g.DryPercent(GasSpecies.O2), 20.5, 20.946);
        Assert.False(g.FuelWithOxygen);
    }

    [Fact]
    public void No_gas_from_the_vessel_gives_cold_air_warmed_by_the_walls()
    {
        HoodGas g = Hood.Run(Mouth(0), Settings);
        Assert.Equal(60, g.AirNm3PerS, 1e-9);
        Assert.Equal(HeatInput.AmbientK, g.FlameK, 1e-6);
        Assert.InRange(g.TemperatureK, HeatInput.AmbientK, Settings.CoolantK);
        Assert.True(g.HeatToCoolantW < 0);
    }

    [Fact]
    public void Without_walls_the_gas_keeps_its_flame_temperature_and_with_endless_walls_it_takes_theirs()
    {
        HoodGas none = Hood.Run(Mouth(40), Settings with { TransferWPerK = 0 });
        HoodGas endless = Hood.Run(Mouth(40), Settings with { TransferWPerK = 1e7 });
        Assert.Equal(none.FlameK, none.TemperatureK, 1e-6);
        Assert.Equal(0, none.HeatToCoolantW, 1e-3 * none.FlameK);
        Assert.Equal(Settings.CoolantK, endless.TemperatureK, 1e-3);
    }

    /// <summary>
    /// Adiabatic temperatures of 90 CO/10 CO2 at 1600 °C with air of 25 °C by the NASA TM-4513 (1993) data with dissociation: 2169 K at an
    /// oxygen factor of 0.1, 2373 K at 0.2. Without dissociation the hood's flame must lie above, by little where fuel is in excess.
    /// </summary>
    [Theory]
    [InlineData(0.1, 2169, 15)]
    [InlineData(0.2, 2373, 35)]
    public void Flame_temperature_is_the_tabulated_one_where_fuel_is_in_excess(double factor, double tabulatedK, double dissociationK)
    {
        double air = factor * 0.5 * 36 / GasMixture.DryAir[GasSpecies.O2];
        HoodGas g = Hood.Run(Mouth(40), new HoodSettings(40 + (air * (1 - GasMixture.DryAir[GasSpecies.O2])), 50e3));
        Assert.Equal(factor, g.CombustionFactor, 1e-6);
        Assert.InRange(g.FlameK, tabulatedK - 5, tabulatedK + dissociationK);
    }

    /// <summary>20 Nm³/s of CO below ignition in a fan of 60: a third CO beside two thirds of air.</summary>
    [Fact]
    public void Gas_too_cold_to_burn_is_flagged()
    {
        HoodGas g = Hood.Run(new MouthGas(new GasMixture((GasSpecies.CO, 1)), 20, 700), Settings);
        Assert.Equal(100.0 / 3, g.DryPercent(GasSpecies.CO), 1e-9);
        Assert.True(g.FuelWithOxygen);
        Assert.False(Hood.Run(Mouth(20, 100, 0), Settings).FuelWithOxygen);
    }

    /// <summary>Skirt down: a tenth of the oxygen needed, so nine tenths of the CO are left; a fan too weak for that still governs.</summary>
    [Fact]
    public void Held_combustion_factor_limits_the_air()
    {
        HoodGas held = Hood.Run(Mouth(40), Settings with { SuctionNm3PerS = 200, HeldCombustionFactor = 0.1 });
        Assert.Equal(0.1, held.CombustionFactor, 1e-9);
        Assert.Equal(0.9 * 36, held.WetNm3PerS * held.Wet[GasSpecies.CO], 1e-9);
        Assert.True(held.DryNm3PerS < 60);
        HoodGas weak = Hood.Run(Mouth(40), Settings with { SuctionNm3PerS = 42, HeldCombustionFactor = 0.1 });
        Assert.Equal(42, weak.DryNm3PerS, 1e-9);
        Assert.Equal(0, Hood.Run(Mouth(40), Settings with { SuctionNm3PerS = 30, HeldCombustionFactor = 0.1 }).AirNm3PerS);
    }

    [Fact]
    public void More_suction_means_more_air_less_carbon_monoxide()
    {
        HoodGas[] g = [.. new double[] { 45, 55, 70, 100, 150 }.Select(s => Hood.Run(Mouth(40), Settings with { SuctionNm3PerS = s }))];
        for (int i = 1; i < g.Length; i++)
        {
            Assert.True(g[i].AirNm3PerS > g[i - 1].AirNm3PerS);
            Assert.True(g[i].DryPercent(GasSpecies.CO) <= g[i - 1].DryPercent(GasSpecies.CO));
        }
    }

    [Fact]
    public void Wrong_arguments_are_named()
    {
        ArgumentOutOfRangeException e = Assert.Throws<ArgumentOutOfRangeException>(() => Hood.Run(Mouth(double.NaN), Settings));
        Assert.Contains("gas at the mouth", e.Message, StringComparison.Ordinal);
        e = Assert.Throws<ArgumentOutOfRangeException>(() => Hood.Run(Mouth(10), Settings with { SuctionNm3PerS = 0 }));
        Assert.Contains("suction", e.Message, StringComparison.Ordinal);
    }

    private static double Count(GasMixture gas, Element element) =>
        Atoms.Where(a => a.Element == element).Sum(a => gas[a.Species] * a.Atoms);
}
