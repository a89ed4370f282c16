// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry.Tests;

public class GasTests
{
    private static readonly GasMixture Carbonmonoxide = new((GasSpecies.CO, 1));
    private static readonly GasMixture SimpleAir = new((GasSpecies.O2, 21), (GasSpecies.N2, 79));

    /// <summary>
    /// CO–CO2–O2–N2 flames with CO2 dissociation only, computed with the NASA TM-4513 (McBride, Gordon &amp; Reno 1993) polynomials,
    /// another set
    /// than here. The first is tabulated as about 2394 K in general references (from memory).
    /// </summary>
    [Theory]
    [InlineData(298.15, 1.0, 0.0, 1.0, 2398.1)]
    [InlineData(1873.15, 0.9, 0.1, 0.1, 2168.8)]
    [InlineData(1873.15, 0.9, 0.1, 0.2, 2373.1)]
    [InlineData(1873.15, 0.9, 0.1, 0.5, 2644.3)]
    [InlineData(1873.15, 0.9, 0.1, 1.0, 2552.7)]
    [InlineData(1873.15, 0.9, 0.1, 2.0, 2004.1)]
    public void Carbon_monoxide_burns_to_the_tabulated_temperature(double gasK, double co, double co2, double lambda, double expectedK)
    {
        var gas = new GasMixture((GasSpecies.CO, co), (GasSpecies.CO2, co2));
        double air = lambda * 0.5 * co / 0.21;
        CombustionResult r = Combustion.Adiabatic([new(gas, 1, gasK), new(SimpleAir, air, 298.15)]);
        Assert.Equal(expectedK, r.TemperatureK, 2.0);
    }

    /// <summary>
    /// Constant-pressure flame temperatures of stoichiometric mixtures with air from 298 K: CH4 2226 K, H2 2390 K, CO about 2400 K
    /// (Turns, An Introduction to Combustion, table B.1; from memory). O, H and NO are left out here: up to 15 K too hot.
    /// </summary>
    [Theory]
    [InlineData(GasSpecies.CH4, 2.0, 2226)]
    [InlineData(GasSpecies.H2, 0.5, 2390)]
    [InlineData(GasSpecies.CO, 0.5, 2400)]
    public void Fuels_in_air_reach_the_textbook_temperature(GasSpecies fuel, double oxygen, double expectedK)
    {
        CombustionResult r = Combustion.Adiabatic([new(new GasMixture((fuel, 1)), 1, 298.15), new(SimpleAir, oxygen / 0.21, 298.15)]);
        Assert.InRange(r.TemperatureK, expectedK - 5, expectedK + 15);
    }

    /// <summary>Water-gas shift constant at 1000 K: log K = 0.160 from JANAF log Kf of CO2 20.680, CO 10.459, H2O 10.061 (from
    /// memory).</summary>
    [Fact]
    public void Water_gas_shift_at_1000_K()
    {
        CombustionResult r = Combustion.Equilibrium(new GasMixture((GasSpecies.CO, 1), (GasSpecies.H2O, 1)), 2, 1000);
        double k = r.Gas[GasSpecies.CO2] * r.Gas[GasSpecies.H2] / (r.Gas[GasSpecies.CO] * r.Gas[GasSpecies.H2O]);
        Assert.Equal(0.160, Math.Log10(k), 0.01);
        Assert.Equal(2, r.Moles, 1e-9);
    }

    /// <summary>Dissociation of CO2 at 2500 K and 1 bar: log K = log Kf(CO) − log Kf(CO2), JANAF 6.840 − 8.280 at 2500 K (from
    /// memory).</summary>
    [Fact]
    public void Carbon_dioxide_dissociates_as_tabulated()
    {
        CombustionResult r = Combustion.Equilibrium(new GasMixture((GasSpecies.CO2, 1)), 1, 2500, 1e5);
        double k = r.Gas[GasSpecies.CO] * Math.Sqrt(r.Gas[GasSpecies.O2]) / r.Gas[GasSpecies.CO2];
        Assert.Equal(-1.44, Math.Log10(k), 0.02);
    }

    [Fact]
    public void Equilibrium_keeps_every_atom_over_random_gases()
    {
        var random = new Random(20240611);
        for (int i = 0; i < 500; i++)
        {
            var feed = new GasMixture(
                (GasSpecies.CO, random.NextDouble()), (GasSpecies.CO2, random.NextDouble()), (GasSpecies.H2, random.NextDouble()),
                (GasSpecies.H2O, random.NextDouble()), (GasSpecies.O2, random.NextDouble() * random.Next(3)), (GasSpecies.N2, 3 * random.NextDouble()));
            double t = 400 + (3600 * random.NextDouble());
            CombustionResult r = Combustion.Equilibrium(feed, 1, t);
            foreach (Element e in (Element[])[Element.C, Element.H, Element.O, Element.N])
            {
                Assert.Equal(Atoms(feed, e), r.Moles * Atoms(r.Gas, e), 1e-9);
            }

            double k = Math.Exp(-(Gibbs(GasSpecies.CO2, t) - Gibbs(GasSpecies.CO, t) - (0.5 * Gibbs(GasSpecies.O2, t))) / (PhysicalConstants.GasConstant * t));
            double actual = r.Gas[GasSpecies.CO2] / (r.Gas[GasSpecies.CO] * Math.Sqrt(r.Gas[GasSpecies.O2] * 1.01325));
            Assert.Equal(1, actual / k, 1e-6);
        }
    }

    [Fact]
    public void A_flame_keeps_its_enthalpy()
    {
        GasFeed[] feeds = [new(new GasMixture((GasSpecies.CO, 85), (GasSpecies.CO2, 12), (GasSpecies.H2, 3)), 1, 1923), new(GasMixture.DryAir, 0.7, 298.15)];
        CombustionResult r = Combustion.Adiabatic(feeds, heatRemovedJ: 20_000);
        Assert.Equal(feeds.Sum(f => f.Moles * f.Gas.Enthalpy(f.TemperatureK)) - 20_000, r.Moles * r.Gas.Enthalpy(r.TemperatureK), 0.01);
    }

    [Fact]
    public void Too_little_oxygen_for_the_carbon_is_refused() =>
        Assert.Throws<ChemistryRangeException>(() => Combustion.Equilibrium(new GasMixture((GasSpecies.CH4, 1), (GasSpecies.O2, 0.1)), 1, 1500));

    /// <summary>Mean molar mass of dry air 28.9644 g/mol and density 1.2929 kg/Nm³ (U.S. Standard Atmosphere 1976; trace gases make
    /// the rest).</summary>
    [Fact]
    public void Dry_air()
    {
        Assert.Equal(28.9644, GasMixture.DryAir.MolarMassGPerMol, 0.003);
        Assert.Equal(1.2929, GasMixture.DryAir.NormalDensity, 0.001);
        Assert.Equal(1.2929, GasMixture.DryAir.Density(273.15, 101_325), 0.001);
    }

    /// <summary>Molar volume of an ideal gas at 0 °C and 101.325 kPa: 22.413 969 54 L/mol (CODATA 2018).</summary>
    [Fact]
    public void Normal_molar_volume() => Assert.Equal(22.41396954e-3, PhysicalConstants.NormalMolarVolume, 1e-11);

    /// <summary>Heat of combustion of CO at 25 °C, 283.0 kJ/mol = 12.63 MJ/Nm³ (JANAF).</summary>
    [Fact]
    public void Heating_value_of_carbon_monoxide()
    {
        double h = Carbonmonoxide.Enthalpy(298.15) + (0.5 * new GasMixture((GasSpecies.O2, 1)).Enthalpy(298.15)) - new GasMixture((GasSpecies.CO2, 1)).Enthalpy(298.15);
        Assert.Equal(283.0, h / 1000, 0.1);
        Assert.Equal(12.63, h / PhysicalConstants.NormalMolarVolume / 1e6, 0.01);
    }

    [Fact]
    public void Temperature_at_an_enthalpy_inverts_it()
    {
        var gas = new GasMixture((GasSpecies.CO, 60), (GasSpecies.CO2, 20), (GasSpecies.N2, 20));
        Assert.Equal(1437.5, gas.TemperatureAt(gas.Enthalpy(1437.5)), 1e-6);
    }

    /// <summary>Le Chatelier for 95 CO + 5 H2 with 12.5 and 4.0 %: 11.30 % (worked example of the rule); pure gases give their own
    /// limits.</summary>
    [Fact]
    public void Lower_limit_by_Le_Chatelier()
    {
        Assert.Equal(11.2994, Flammability.LowerLimitPercentInAir(new GasMixture((GasSpecies.CO, 95), (GasSpecies.H2, 5)))!.Value, 0.0001);
        Assert.Equal(12.5, Flammability.LowerLimitPercentInAir(Carbonmonoxide)!.Value, 1e-9);
        Assert.Equal(74.2, Flammability.UpperLimitPercentInAir(Carbonmonoxide)!.Value, 1e-9);
        Assert.Equal(5.5, Flammability.LeastOxygenPercent(Carbonmonoxide)!.Value, 1e-9);
    }

    [Fact]
    public void Gas_that_cannot_burn_has_no_limit()
    {
        Assert.Null(Flammability.LowerLimitPercentInAir(GasMixture.DryAir));
        Assert.Null(Flammability.LowerLimitPercentInAir(new GasMixture((GasSpecies.CO, 5), (GasSpecies.N2, 95))));
        Assert.Equal(25, Flammability.LowerLimitPercentInAir(new GasMixture((GasSpecies.CO, 50), (GasSpecies.N2, 50)))!.Value, 1e-9);
    }

    [Fact]
    public void A_gas_of_nothing_or_of_negative_parts_is_refused()
    {
        Assert.Throws<ChemistryRangeException>(() => new GasMixture((GasSpecies.CO, 0)));
        Assert.Throws<ChemistryRangeException>(() => new GasMixture((GasSpecies.CO, -1), (GasSpecies.N2, 2)));
        Assert.Throws<ChemistryRangeException>(() => Carbonmonoxide.Enthalpy(150));
    }

    private static double Atoms(GasMixture gas, Element element) => Enum.GetValues<GasSpecies>().Sum(
        s => gas[s] * GasMixture.SubstanceOf(s).Atoms.Where(a => a.Element == element).Sum(a => a.Atoms));

    private static double Gibbs(GasSpecies s, double t) => GasMixture.SubstanceOf(s).Gibbs(t);
}
