// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry.Tests;

/// <summary>
/// IAPWS-IF97 against the verification tables of IAPWS R7-97(2012), to all nine printed digits. Pressure in MPa, energies in kJ, as
/// printed. Table 33 and the boundary point were recalled; the others were compared with an independent implementation.
/// </summary>
public class SteamTests
{
    public static TheoryData<double, double, double, double, double, double, double, string> PressureTemperature => new()
    {
        { 300, 3, 0.100215168e-2, 0.115331273e3, 0.392294792, 0.417301218e1, 0.150773921e4, "Table 5" },
        { 300, 80, 0.971180894e-3, 0.184142828e3, 0.368563852, 0.401008987e1, 0.163469054e4, "Table 5" },
        { 500, 3, 0.120241800e-2, 0.975542239e3, 0.258041912e1, 0.465580682e1, 0.124071337e4, "Table 5" },
        { 300, 0.0035, 0.394913866e2, 0.254991145e4, 0.852238967e1, 0.191300162e1, 0.427920172e3, "Table 15" },
        { 700, 0.0035, 0.923015898e2, 0.333568375e4, 0.101749996e2, 0.208141274e1, 0.644289068e3, "Table 15" },
        { 700, 30, 0.542946619e-2, 0.263149474e4, 0.517540298e1, 0.103505092e2, 0.480386523e3, "Table 15" },
    };

    [Theory]
    [MemberData(nameof(PressureTemperature))]
    public void Regions_1_and_2_meet_the_verification_table(
        double t, double p, double v, double h, double s, double cp, double w, string table)
    {
        SteamState state = Steam.At(p * 1e6, t);
        Assert.Equal(table == "Table 5" ? 1 : 2, state.Region);
        Digits(v, state.SpecificVolume, table + " v");
        Digits(h, state.Enthalpy / 1000, table + " h");
        Digits(s, state.Entropy / 1000, table + " s");
        Digits(cp, state.HeatCapacity / 1000, table + " cp");
        Digits(w, state.SpeedOfSound, table + " w");
    }

    /// <summary>Table 33 (values from memory).</summary>
    [Theory]
    [InlineData(650, 500, 0.255837018e2, 0.186343019e4, 0.181226279e4, 0.405427273e1, 0.138935717e2, 0.502005554e3)]
    [InlineData(650, 200, 0.222930643e2, 0.237512401e4, 0.226365868e4, 0.485438792e1, 0.446579342e2, 0.383444594e3)]
    [InlineData(750, 500, 0.783095639e2, 0.225868845e4, 0.210206932e4, 0.446971906e1, 0.634165359e1, 0.760696041e3)]
    public void Region_3_meets_the_verification_table(double t, double rho, double p, double h, double u, double s, double cp, double w)
    {
        SteamState state = Steam.AtDensity(rho, t);
        Digits(p, state.PressurePa / 1e6, "Table 33 p");
        Digits(h, state.Enthalpy / 1000, "Table 33 h");
        Digits(u, state.InternalEnergy / 1000, "Table 33 u");
        Digits(s, state.Entropy / 1000, "Table 33 s");
        Digits(cp, state.HeatCapacity / 1000, "Table 33 cp");
        Digits(w, state.SpeedOfSound, "Table 33 w");
    }

    /// <summary>Table 35.</summary>
    [Theory]
    [InlineData(300, 0.353658941e-2)]
    [InlineData(500, 0.263889776e1)]
    [InlineData(600, 0.123443146e2)]
    public void Saturation_pressure_meets_the_verification_table(double t, double p) =>
        Digits(p, Steam.SaturationPressure(t) / 1e6, "Table 35");

    /// <summary>Table 36.</summary>
    [Theory]
    [InlineData(0.1, 0.372755919e3)]
    [InlineData(1, 0.453035632e3)]
    [InlineData(10, 0.584149488e3)]
    public void Saturation_temperature_meets_the_verification_table(double p, double t) =>
        Digits(t, Steam.SaturationTemperature(p * 1e6), "Table 36");

    /// <summary>Eq. 5 with the point printed beside it, 623.15 K and 16.5291643 MPa (from memory): where region 3 begins at
    /// saturation.</summary>
    [Fact]
    public void Boundary_of_regions_2_and_3_starts_at_saturation() =>
        Assert.Equal(16.5291643e6, Steam.SaturationPressure(623.15), 200.0);

    /// <summary>Feed water at 105 °C to saturated steam at 4 MPa: 2357.81 kJ/kg (a second implementation of IF97).</summary>
    [Fact]
    public void Heat_to_raise_steam_in_a_hood_boiler() =>
        Assert.Equal(2357.81, (Steam.SaturatedVapour(4e6).Enthalpy - Steam.At(4e6, 378.15).Enthalpy) / 1000, 0.01);

    /// <summary>Heat of vaporisation at 0.101325 MPa is 2256.5 kJ/kg (IAPWS steam tables, from memory).</summary>
    [Fact]
    public void Heat_of_vaporisation_at_one_atmosphere() => Assert.Equal(2256.5, Steam.HeatOfVaporisation(101_325) / 1000, 0.3);

    [Theory]
    [InlineData(1e5)]
    [InlineData(4e6)]
    [InlineData(16e6)]
    [InlineData(18e6)]
    [InlineData(21.5e6)]
    public void Saturated_phases_have_equal_Gibbs_energy(double p)
    {
        SteamState l = Steam.SaturatedLiquid(p);
        SteamState v = Steam.SaturatedVapour(p);
        Assert.True(v.SpecificVolume > l.SpecificVolume);

        // IF97's regions and its saturation line are separate equations: they agree to some 20 J/kg.
        Assert.Equal(l.Enthalpy - (l.TemperatureK * l.Entropy), v.Enthalpy - (v.TemperatureK * v.Entropy), 60.0);
    }

    [Theory]
    [InlineData(3e6, 400)]
    [InlineData(3e6, 600)]
    [InlineData(25e6, 660)]
    [InlineData(30e6, 640)]
    [InlineData(17e6, 627)]
    public void Heat_capacity_is_the_slope_of_enthalpy(double p, double t)
    {
        double slope = (Steam.At(p, t + 0.001).Enthalpy - Steam.At(p, t - 0.001).Enthalpy) / 0.002;
        Assert.Equal(Steam.At(p, t).HeatCapacity, slope, 1e-4 * slope);
    }

    [Theory]
    [InlineData(20e6, 623.15)]
    [InlineData(60e6, 623.15)]
    [InlineData(100e6, 623.15)]
    public void Regions_1_and_3_meet(double p, double t)
    {
        SteamState one = Steam.At(p, t);
        SteamState three = Steam.At(p, Math.BitIncrement(t));
        Assert.Equal((1, 3), (one.Region, three.Region));
        Assert.Equal(one.Enthalpy, three.Enthalpy, 200.0);
        Assert.Equal(1, one.SpecificVolume / three.SpecificVolume, 5e-4);
    }

    [Theory]
    [InlineData(650)]
    [InlineData(700)]
    [InlineData(800)]
    [InlineData(860)]
    public void Regions_2_and_3_meet(double t)
    {
        double p = Steam.BoundaryPressure(t);
        SteamState two = Steam.At(p * (1 - 1e-9), t);
        SteamState three = Steam.At(p * (1 + 1e-9), t);
        Assert.Equal((2, 3), (two.Region, three.Region));
        Assert.Equal(two.Enthalpy, three.Enthalpy, 200.0);
        Assert.Equal(1, two.SpecificVolume / three.SpecificVolume, 5e-4);
    }

    [Theory]
    [InlineData(4e6, 500e3)]
    [InlineData(4e6, 2000e3)]
    [InlineData(4e6, 3200e3)]
    [InlineData(20e6, 1900e3)]
    [InlineData(30e6, 1900e3)]
    [InlineData(1e5, 2600e3)]
    public void State_at_an_enthalpy_has_that_enthalpy(double p, double h)
    {
        SteamState s = Steam.AtEnthalpy(p, h);
        Assert.Equal(h, s.Enthalpy, 1e-6 * h);
        Assert.Equal(p, s.PressurePa);
    }

    [Fact]
    public void Wet_steam_has_a_vapour_fraction()
    {
        SteamState s = Steam.AtEnthalpy(4e6, 2000e3);
        Assert.Equal(4, s.Region);
        Assert.InRange(s.VapourFraction!.Value, 0.5, 0.6);
        Assert.Equal(Steam.SaturationTemperature(4e6), s.TemperatureK);
    }

    [Theory]
    [InlineData(1e5, 273.1)]
    [InlineData(1e5, 1073.2)]
    [InlineData(101e6, 500)]
    [InlineData(0, 500)]
    [InlineData(double.NaN, 500)]
    public void States_outside_the_formulation_are_refused(double p, double t) =>
        Assert.Throws<ChemistryRangeException>(() => Steam.At(p, t));

    private static void Digits(double expected, double actual, string what)
    {
        // Half a unit of the ninth digit, and the rounding of the printed number.
        double unit = Math.Pow(10, Math.Floor(Math.Log10(Math.Abs(expected))) - 8);
        Assert.True(Math.Abs(expected - actual) <= 0.51 * unit, $"{what}: printed {expected:G9}, computed {actual:G12}");
    }
}
