// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry.Slag;

/// <summary>
/// Foam index Σ (s) and foam height. The indices were measured with gas at cm/s; a converter has m/s, so height = Σ·V is an
/// extrapolation and
/// carries a parameter. For one slag the three indices span 0.07–0.75 s. Units: viscosity Pa·s, surface tension N/m, density kg/m³.
/// </summary>
public static class SlagFoam
{
    /// <summary>Σ = 570 μ/(ρσ)^½. K. Ito, R. J. Fruehan, Metall. Trans. B 20 (1989) 509–521, constant from memory.</summary>
    public static double IndexItoFruehan1989(double viscosityPaS, double surfaceTensionNPerM, double densityKgPerM3)
    {
        RequireProperties(viscosityPaS, surfaceTensionNPerM, densityKgPerM3);
        return 570 * viscosityPaS / Math.Sqrt(densityKgPerM3 * surfaceTensionNPerM);
    }

    /// <summary>Σ = 115 μ/(ρσ)^½. R. Jiang, R. J. Fruehan, Metall. Trans. B 22 (1991) 481–489, constant from memory.</summary>
    public static double IndexJiangFruehan1991(double viscosityPaS, double surfaceTensionNPerM, double densityKgPerM3)
    {
        RequireProperties(viscosityPaS, surfaceTensionNPerM, densityKgPerM3);
        return 115 * viscosityPaS / Math.Sqrt(densityKgPerM3 * surfaceTensionNPerM);
    }

    /// <summary>
    /// Σ = 115 μ^1.2/(σ^0.2 ρ D^0.9), bubble diameter D in m. Y. Zhang, R. J. Fruehan, Metall. Mater. Trans. B 26 (1995) 803–812,
    /// coefficients from memory; bubbles below 1 to above 5 mm.
    /// </summary>
    /// <exception cref="ChemistryRangeException">A property out of range, or bubbles outside 0.5–20 mm.</exception>
    public static double IndexZhangFruehan1995(double viscosityPaS, double surfaceTensionNPerM, double densityKgPerM3, double bubbleDiameterM)
    {
        RequireProperties(viscosityPaS, surfaceTensionNPerM, densityKgPerM3);
        ChemistryRangeException.Require(bubbleDiameterM, 0.5e-3, 20e-3, "m", "bubble diameter");
        return 115 * Math.Pow(viscosityPaS, 1.2) / (Math.Pow(surfaceTensionNPerM, 0.2) * densityKgPerM3 * Math.Pow(bubbleDiameterM, 0.9));
    }

    /// <summary>Superficial velocity (m/s) of CO from decarburisation: ideal gas at 101.325 kPa through the vessel's bore.</summary>
    /// <param name="decarburisationPercentPerMin">−d[%C]/dt, mass % per min.</param>
    /// <param name="metalT">Metal, t.</param>
    /// <param name="areaM2">Free cross-section, m².</param>
    /// <param name="temperatureK">Gas temperature, K.</param>
    public static double SuperficialVelocity(double decarburisationPercentPerMin, double metalT, double areaM2, double temperatureK)
    {
        ChemistryRangeException.Require(areaM2, 0.01, 1000, "m²", "cross-section of the vessel");
        ChemistryRangeException.Require(temperatureK, 273, 3000, "K", "gas temperature");
        double molPerS = decarburisationPercentPerMin / 100 * metalT * 1000 / 60 / (AtomicWeights.Of(Element.C) * 1e-3);
        return molPerS * BanYa.GasConstant * temperatureK / 101_325 / areaM2;
    }

    /// <summary>Foam height, m = index (s) × superficial velocity (m/s), the definition of the index (Ito and Fruehan 1989).</summary>
    public static double Height(double indexS, double superficialVelocityMPerS) =>
        ChemistryRangeException.Require(indexS, 0, double.MaxValue, "s", "foam index")
        * ChemistryRangeException.Require(superficialVelocityMPerS, 0, double.MaxValue, "m/s", "superficial velocity");

    private static void RequireProperties(double viscosityPaS, double surfaceTensionNPerM, double densityKgPerM3)
    {
        ChemistryRangeException.Require(viscosityPaS, 0, 1e4, "Pa·s", "viscosity");
        ChemistryRangeException.Require(surfaceTensionNPerM, 0.05, 2, "N/m", "surface tension");
        ChemistryRangeException.Require(densityKgPerM3, 1000, 8000, "kg/m³", "density");
    }
}
