// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Converter.Blow.Jet;

/// <summary>
/// The cavity that one jet makes in the bath. The models differ: on one jet 0.19 m by Koria and Lange and by Banks and Chandrasekhara,
/// 0.44 m by Segawa. Use one
/// and carry a multiplier. Lance height is the distance from nozzle to quiet bath.
/// </summary>
public static class Cavity
{
    /// <summary>
    /// Dimensionless momentum M_h = 0.7854·10⁵ d_t² p_a (1.27 p₀/p_a − 1) cos a/(ρ g h³), pressures in bar. S. C. Koria, K. W. Lange,
    /// Steel Res. 58 (1987) 421–426,
    /// coefficients from memory.
    /// </summary>
    /// <param name="throatDiameterM">Throat of the nozzle, m.</param>
    /// <param name="stagnationPa">Supply pressure, absolute, Pa.</param>
    /// <param name="ambientPa">Pressure of the vessel, Pa.</param>
    /// <param name="inclinationDegrees">Nozzle axis from the vertical, degrees.</param>
    /// <param name="metalDensityKgPerM3">Metal, kg/m³.</param>
    /// <param name="lanceHeightM">Lance height, m.</param>
    public static double KoriaLangeMomentum(
        double throatDiameterM, double stagnationPa, double ambientPa, double inclinationDegrees, double metalDensityKgPerM3, double lanceHeightM)
    {
        Check.InRange(throatDiameterM, 1e-3, 0.2, "m", nameof(throatDiameterM));
        Check.InRange(ambientPa, 1e4, 1e6, "Pa", nameof(ambientPa));
        Check.InRange(stagnationPa, ambientPa, 1e7, "Pa", nameof(stagnationPa));
        Check.InRange(inclinationDegrees, 0, 45, "degrees", nameof(inclinationDegrees));
        RequireBath(metalDensityKgPerM3, lanceHeightM);
        // 0.7854e5 with bars is π/4 with pascals.
        return Math.PI / 4 * throatDiameterM * throatDiameterM * ((1.27 * stagnationPa) - ambientPa) * Math.Cos(inclinationDegrees * Math.PI / 180)
            / (metalDensityKgPerM3 * Gravity.MPerS2 * lanceHeightM * lanceHeightM * lanceHeightM);
    }

    /// <summary>Depth, m: 4.469 h M_h^0.66. Koria and Lange 1987, from memory.</summary>
    public static double KoriaLangeDepthM(double dimensionlessMomentum, double lanceHeightM) =>
        4.469 * Check.InRange(lanceHeightM, 0.05, 10, "m", nameof(lanceHeightM)) * Math.Pow(dimensionlessMomentum, 0.66);

    /// <summary>
    /// Diameter at the bath surface, m: 2.813 h M_d^0.282 with the same dimensionless momentum. Koria and Lange 1987, from memory.
    /// </summary>
    public static double KoriaLangeDiameterM(double dimensionlessMomentum, double lanceHeightM) =>
        2.813 * Check.InRange(lanceHeightM, 0.05, 10, "m", nameof(lanceHeightM)) * Math.Pow(dimensionlessMomentum, 0.282);

    /// <summary>
    /// Depth n (m) from ṁu/(ρ g h³) = π/(2K²)·(n/h)(1 + n/h)², K = 7.5. R. B. Banks, D. V. Chandrasekhara, J. Fluid Mech. 15 (1963)
    /// 13–34, form and K from memory.
    /// The root is unique: the right-hand side rises with n.
    /// </summary>
    /// <param name="momentumN">Momentum of the jet (vertical part), N.</param>
    /// <param name="metalDensityKgPerM3">Metal, kg/m³.</param>
    /// <param name="lanceHeightM">Lance height, m.</param>
    /// <param name="decayConstant">K.</param>
    public static double BanksChandrasekharaDepthM(
        double momentumN, double metalDensityKgPerM3, double lanceHeightM, double decayConstant = FreeJet.DecayConstant)
    {
        Check.InRange(momentumN, 0, 1e6, "N", nameof(momentumN));
        Check.InRange(decayConstant, 1, 20, "-", nameof(decayConstant));
        RequireBath(metalDensityKgPerM3, lanceHeightM);
        double left = momentumN * 2 * decayConstant * decayConstant
            / (Math.PI * metalDensityKgPerM3 * Gravity.MPerS2 * lanceHeightM * lanceHeightM * lanceHeightM);
        // r(1 + r)² = left: Newton from above converges without fail, the curve being convex.
        double r = Math.Min(left, Math.Cbrt(left));
        for (int i = 0; i < 50; i++)
        {
            double error = (r * (1 + r) * (1 + r)) - left;
            double next = r - (error / ((1 + r) * (1 + (3 * r))));
            if (Math.Abs(next - r) <= 1e-15 * (1 + r))
            {
                break;
            }

            r = next;
        }

        return r * lanceHeightM;
    }

    /// <summary>
    /// Depth, m: L = L_h·exp(−0.78 h/L_h), L_h = 63 (k F/(n d))^⅔ with mm and Nm³/h. K. Segawa 1977, from memory; k (1.0 to 1.73) sets
    /// the answer.
    /// </summary>
    /// <param name="flowNm3PerS">Whole oxygen flow, Nm³/s.</param>
    /// <param name="nozzles">Number of nozzles.</param>
    /// <param name="throatDiameterM">Throat, m.</param>
    /// <param name="lanceHeightM">Lance height, m.</param>
    /// <param name="k">Nozzle coefficient.</param>
    public static double SegawaDepthM(double flowNm3PerS, int nozzles, double throatDiameterM, double lanceHeightM, double k = 1.0)
    {
        Check.InRange(flowNm3PerS, 0.01, 100, "Nm³/s", nameof(flowNm3PerS));
        Check.InRange(nozzles, 1, 12, "-", nameof(nozzles));
        Check.InRange(throatDiameterM, 1e-3, 0.2, "m", nameof(throatDiameterM));
        Check.InRange(lanceHeightM, 0.05, 10, "m", nameof(lanceHeightM));
        Check.InRange(k, 1.0, 1.73, "-", nameof(k));
        double atZeroMm = 63 * Math.Pow(k * flowNm3PerS * 3600 / (nozzles * throatDiameterM * 1000), 2.0 / 3);
        return 1e-3 * atZeroMm * Math.Exp(-0.78 * lanceHeightM * 1000 / atZeroMm);
    }

    /// <summary>Surface (m²) of a cavity shaped as a paraboloid of revolution of depth n and rim diameter D: exact geometry.</summary>
    public static double ParaboloidAreaM2(double depthM, double diameterM)
    {
        Check.InRange(depthM, 0, 10, "m", nameof(depthM));
        Check.InRange(diameterM, 1e-6, 20, "m", nameof(diameterM));
        double radius = diameterM / 2;
        double s = 4 * depthM * depthM / (radius * radius);
        // πR²·⅔·[(1 + s)^1.5 − 1]/s, factored so that a flat cavity gives πR² without cancellation.
        double root = Math.Sqrt(1 + s);
        return Math.PI * radius * radius * 2.0 / 3 * ((1 + s + root + 1) / (root + 1));
    }

    private static void RequireBath(double metalDensityKgPerM3, double lanceHeightM)
    {
        Check.InRange(metalDensityKgPerM3, 500, 15_000, "kg/m³", nameof(metalDensityKgPerM3));
        Check.InRange(lanceHeightM, 0.05, 10, "m", nameof(lanceHeightM));
    }
}
