// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry;

/// <summary>
/// Water and steam by the IAPWS Industrial Formulation 1997, regions 1 to 4. Source: IAPWS R7-97(2012). Range 273.15–1073.15 K and up to
/// 100 MPa; region 5 (above 1073.15 K) is left out because boiler steam never gets there. The release's verification tables 5, 15, 33, 35
/// and 36 are reproduced to all nine printed digits.
/// </summary>
public static class Steam
{
    /// <summary>Least temperature, K.</summary>
    public const double MinimumK = 273.15;

    /// <summary>Greatest temperature, K.</summary>
    public const double MaximumK = 1073.15;

    /// <summary>Greatest pressure, Pa.</summary>
    public const double MaximumPa = 100e6;

    /// <summary>Critical temperature, K.</summary>
    public const double CriticalK = 647.096;

    /// <summary>Critical pressure, Pa.</summary>
    public const double CriticalPa = 22.064e6;

    /// <summary>Critical density, kg/m³.</summary>
    public const double CriticalDensity = 322;

    private const double Region13K = 623.15;
    private const double Region23TopK = 863.15;
    private const double LeastPa = 1;

    /// <summary>State at pressure and temperature. At saturation the vapour is returned.</summary>
    /// <exception cref="ChemistryRangeException">Outside 273.15–1073.15 K or 1 Pa–100 MPa.</exception>
    public static SteamState At(double pressurePa, double temperatureK)
    {
        RequirePressure(pressurePa);
        ChemistryRangeException.Require(temperatureK, MinimumK, MaximumK, "K", "temperature of water or steam");
        if (temperatureK <= Region13K)
        {
            return pressurePa > SaturationPressure(temperatureK)
                ? If97Regions.Region1(pressurePa, temperatureK)
                : If97Regions.Region2(pressurePa, temperatureK);
        }

        if (temperatureK > Region23TopK || pressurePa <= BoundaryPressure(temperatureK))
        {
            return If97Regions.Region2(pressurePa, temperatureK);
        }

        bool liquidLike = temperatureK >= CriticalK || pressurePa > SaturationPressure(temperatureK);
        return Region3At(pressurePa, temperatureK, liquidLike);
    }

    /// <summary>State of region 3 at density and temperature, the form in which its equation is written.</summary>
    /// <exception cref="ChemistryRangeException">Outside 623.15–863.15 K or 50–800 kg/m³.</exception>
    public static SteamState AtDensity(double densityKgPerM3, double temperatureK)
    {
        ChemistryRangeException.Require(temperatureK, Region13K, Region23TopK, "K", "temperature of steam region 3");
        ChemistryRangeException.Require(densityKgPerM3, 50, 800, "kg/m³", "density of steam region 3");
        return If97Regions.Region3(densityKgPerM3, temperatureK);
    }

    /// <summary>Saturation pressure, Pa. Eq. 30.</summary>
    /// <exception cref="ChemistryRangeException">Outside 273.15–647.096 K.</exception>
    public static double SaturationPressure(double temperatureK)
    {
        ChemistryRangeException.Require(temperatureK, MinimumK, CriticalK, "K", "temperature of saturated steam");
        double[] n = If97Tables.Instance.Region4;
        double theta = temperatureK + (n[8] / (temperatureK - n[9]));
        double a = (theta * theta) + (n[0] * theta) + n[1];
        double b = (n[2] * theta * theta) + (n[3] * theta) + n[4];
        double c = (n[5] * theta * theta) + (n[6] * theta) + n[7];
        return 1e6 * Math.Pow(2 * c / (-b + Math.Sqrt((b * b) - (4 * a * c))), 4);
    }

    /// <summary>Saturation temperature, K. Eq. 31.</summary>
    /// <exception cref="ChemistryRangeException">Outside 611.213 Pa–22.064 MPa.</exception>
    public static double SaturationTemperature(double pressurePa)
    {
        ChemistryRangeException.Require(pressurePa, 611.212677, CriticalPa, "Pa", "pressure of saturated steam");
        double[] n = If97Tables.Instance.Region4;
        double beta = Math.Pow(pressurePa / 1e6, 0.25);
        double e = (beta * beta) + (n[2] * beta) + n[5];
        double f = (n[0] * beta * beta) + (n[3] * beta) + n[6];
        double g = (n[1] * beta * beta) + (n[4] * beta) + n[7];
        double d = 2 * g / (-f - Math.Sqrt((f * f) - (4 * e * g)));
        double sum = n[9] + d;
        return (sum - Math.Sqrt((sum * sum) - (4 * (n[8] + (n[9] * d))))) / 2;
    }

    /// <summary>Saturated water at a pressure.</summary>
    /// <exception cref="ChemistryRangeException">As for <see cref="SaturationTemperature"/>.</exception>
    public static SteamState SaturatedLiquid(double pressurePa)
    {
        double t = SaturationTemperature(pressurePa);
        return t <= Region13K ? If97Regions.Region1(pressurePa, t) : Region3At(pressurePa, t, liquidLike: true);
    }

    /// <summary>Saturated steam at a pressure.</summary>
    /// <exception cref="ChemistryRangeException">As for <see cref="SaturationTemperature"/>.</exception>
    public static SteamState SaturatedVapour(double pressurePa)
    {
        double t = SaturationTemperature(pressurePa);
        return t <= Region13K ? If97Regions.Region2(pressurePa, t) : Region3At(pressurePa, t, liquidLike: false);
    }

    /// <summary>Heat of vaporisation at a pressure, J/kg.</summary>
    /// <exception cref="ChemistryRangeException">As for <see cref="SaturationTemperature"/>.</exception>
    public static double HeatOfVaporisation(double pressurePa) => SaturatedVapour(pressurePa).Enthalpy - SaturatedLiquid(pressurePa).Enthalpy;

    /// <summary>State at pressure and enthalpy; a wet state below the critical pressure has a vapour fraction.</summary>
    /// <exception cref="ChemistryRangeException">The pressure is out of range, or the enthalpy outside what 273.15–1073.15 K span at
    /// it.</exception>
    public static SteamState AtEnthalpy(double pressurePa, double enthalpyJPerKg)
    {
        RequirePressure(pressurePa);
        double least = At(pressurePa, MinimumK).Enthalpy;
        double most = At(pressurePa, MaximumK).Enthalpy;
        ChemistryRangeException.Require(enthalpyJPerKg, least, most, "J/kg", "enthalpy of water or steam");
        double low = MinimumK;
        double high = MaximumK;
        if (pressurePa is >= 611.212677 and < CriticalPa)
        {
            SteamState liquid = SaturatedLiquid(pressurePa);
            SteamState vapour = SaturatedVapour(pressurePa);
            if (enthalpyJPerKg >= liquid.Enthalpy && enthalpyJPerKg <= vapour.Enthalpy)
            {
                return Wet(liquid, vapour, (enthalpyJPerKg - liquid.Enthalpy) / (vapour.Enthalpy - liquid.Enthalpy));
            }

            // Stay strictly on the right side of the jump at saturation.
            (low, high) = enthalpyJPerKg < liquid.Enthalpy
                ? (MinimumK, liquid.TemperatureK * (1 - 1e-12))
                : (liquid.TemperatureK * (1 + 1e-12), MaximumK);
        }

        double t = RootSearch.Increasing(x => At(pressurePa, x).Enthalpy - enthalpyJPerKg, low, high);
        return At(pressurePa, t);
    }

    /// <summary>Pressure on the boundary between regions 2 and 3, Pa. Eq. 5.</summary>
    internal static double BoundaryPressure(double temperatureK)
    {
        double[] n = If97Tables.Instance.Boundary23;
        return 1e6 * (n[0] + (n[1] * temperatureK) + (n[2] * temperatureK * temperatureK));
    }

    private static SteamState Wet(SteamState liquid, SteamState vapour, double x)
    {
        double Mix(double l, double v) => l + (x * (v - l));
        return new SteamState(
            liquid.PressurePa,
            liquid.TemperatureK,
            Mix(liquid.SpecificVolume, vapour.SpecificVolume),
            Mix(liquid.Enthalpy, vapour.Enthalpy),
            Mix(liquid.Entropy, vapour.Entropy),
            Mix(liquid.InternalEnergy, vapour.InternalEnergy),
            double.NaN,
            double.NaN,
            4,
            x);
    }

    // The isotherm of region 3 has loops below the critical temperature: walk in from the liquid or from the vapour end to the first
    // crossing.
    private static SteamState Region3At(double pressurePa, double t, bool liquidLike)
    {
        const double Thinnest = 90;
        const double Densest = 780;
        const double Step = 5;
        double near = liquidLike ? Densest : Thinnest;
        double step = liquidLike ? -Step : Step;
        double far = near + step;
        double sign = liquidLike ? -1 : 1;
        while (far is > Thinnest and < Densest && sign * (If97Regions.Region3(far, t).PressurePa - pressurePa) < 0)
        {
            near = far;
            far += step;
        }

        double density = RootSearch.Increasing(d => If97Regions.Region3(d, t).PressurePa - pressurePa, Math.Min(near, far), Math.Max(near, far));
        SteamState s = If97Regions.Region3(density, t);
        return s with { PressurePa = pressurePa };
    }

    private static double RequirePressure(double pressurePa) =>
        ChemistryRangeException.Require(pressurePa, LeastPa, MaximumPa, "Pa", "pressure of water or steam");
}
