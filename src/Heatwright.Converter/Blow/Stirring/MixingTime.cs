// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Converter.Blow.Stirring;

/// <summary>
/// Time to mix a gas-stirred bath to 95 %, s. Three correlations give 70, 77 and 178 s for one ladle: a mixing time is good to a factor
/// of two. They were
/// fitted on ladles and water models; a converter's bath is flatter and its own CO stirs far more while it decarburises.
/// </summary>
public static class MixingTime
{
    /// <summary>
    /// t = 800 ε^−0.4, ε in W/t. K. Nakanishi and others, Ironmaking Steelmaking 2 (1975) 193, from memory; ladles, RH and converters
    /// of the time.
    /// </summary>
    public static double Nakanishi1975(double wattPerTonne) =>
        800 * Math.Pow(Check.InRange(wattPerTonne, 0.1, 1e5, "W/t", nameof(wattPerTonne)), -0.4);

    /// <summary>
    /// t = 37 ε^−⅓ R^(5/3)/L, ε in W/kg, vessel radius R and bath depth L in m. D. Mazumdar, R. I. L. Guthrie, Metall. Trans. B 17
    /// (1986) 725–733, from memory; one central plug.
    /// </summary>
    public static double MazumdarGuthrie1986(double wattPerKg, double depthM, double radiusM)
    {
        Check.InRange(wattPerKg, 1e-4, 100, "W/kg", nameof(wattPerKg));
        RequireVessel(depthM, radiusM);
        return 37 * Math.Pow(wattPerKg, -1.0 / 3) * Math.Pow(radiusM, 5.0 / 3) / depthM;
    }

    /// <summary>
    /// t = 15 Q^−0.38 L^−0.56 R², Q in m³/s at bath temperature and mean height. J. Mandal, S. Patil, M. Madan, D. Mazumdar, Metall.
    /// Mater. Trans. B (36, 2005: from memory), abstract
    /// with the signs of the exponents restored; two plugs, water models of 0.3–0.6 m.
    /// </summary>
    public static double DualPlug2005(double flowM3PerS, double depthM, double radiusM)
    {
        Check.InRange(flowM3PerS, 1e-6, 10, "m³/s", nameof(flowM3PerS));
        RequireVessel(depthM, radiusM);
        return 15 * Math.Pow(flowM3PerS, -0.38) * Math.Pow(depthM, -0.56) * radiusM * radiusM;
    }

    private static void RequireVessel(double depthM, double radiusM)
    {
        Check.InRange(depthM, 0.05, 10, "m", nameof(depthM));
        Check.InRange(radiusM, 0.05, 10, "m", nameof(radiusM));
    }
}
