// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Converter.Blow.Jet;

/// <summary>
/// Metal thrown up by a jet. Subagyo, G. A. Brooks, K. S. Coley, G. A. Irons, ISIJ Int. 43 (2003) 983–989, coefficients from memory;
/// cold models and small melts.
/// </summary>
public static class Droplets
{
    /// <summary>Critical gas velocity at the cavity over the axis velocity of the jet, u_g = 0.44721 u_j.</summary>
    public const double SurfaceVelocityRatio = 0.44721;

    /// <summary>N_B = ρ_g u_g²/[2(σ g ρ)^½] with u_g = 0.44721 u_j. Drops are thrown above about N_B = 1.</summary>
    /// <param name="gasDensityKgPerM3">Gas at the bath, kg/m³.</param>
    /// <param name="axialVelocityMPerS">Axis velocity of the jet at the bath, m/s.</param>
    /// <param name="surfaceTensionNPerM">Metal, N/m.</param>
    /// <param name="metalDensityKgPerM3">Metal, kg/m³.</param>
    public static double BlowingNumber(double gasDensityKgPerM3, double axialVelocityMPerS, double surfaceTensionNPerM, double metalDensityKgPerM3)
    {
        Check.InRange(gasDensityKgPerM3, 0, 100, "kg/m³", nameof(gasDensityKgPerM3));
        Check.InRange(axialVelocityMPerS, 0, 1500, "m/s", nameof(axialVelocityMPerS));
        return FromDynamicPressure(0.5 * gasDensityKgPerM3 * axialVelocityMPerS * axialVelocityMPerS, surfaceTensionNPerM, metalDensityKgPerM3);
    }

    /// <summary>N_B from the axis's dynamic pressure ½ρu_j² (Pa): 0.2·q/(σ g ρ)^½. The same number without a gas density.</summary>
    public static double FromDynamicPressure(double dynamicPressurePa, double surfaceTensionNPerM, double metalDensityKgPerM3)
    {
        Check.InRange(dynamicPressurePa, 0, 1e7, "Pa", nameof(dynamicPressurePa));
        Check.InRange(surfaceTensionNPerM, 0.1, 3, "N/m", nameof(surfaceTensionNPerM));
        Check.InRange(metalDensityKgPerM3, 500, 15_000, "kg/m³", nameof(metalDensityKgPerM3));
        return SurfaceVelocityRatio * SurfaceVelocityRatio * dynamicPressurePa / Math.Sqrt(surfaceTensionNPerM * Gravity.MPerS2 * metalDensityKgPerM3);
    }

    /// <summary>Droplets per gas blown, kg/Nm³: N_B^3.2/(2.6·10⁶ + 2.0·10⁻⁴ N_B¹²)^0.2.</summary>
    /// <exception cref="ArgumentOutOfRangeException">N_B outside 0–30; the data reach about 15.</exception>
    public static double RateKgPerNm3(double blowingNumber)
    {
        Check.InRange(blowingNumber, 0, 30, "-", nameof(blowingNumber));
        double n2 = blowingNumber * blowingNumber;
        double n4 = n2 * n2;
        return Math.Pow(blowingNumber, 3.2) / Math.Pow(2.6e6 + (2.0e-4 * n4 * n4 * n4), 0.2);
    }
}
