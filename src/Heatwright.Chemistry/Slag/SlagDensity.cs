// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry.Slag;

/// <summary>
/// Density of liquid slag by partial molar volumes at 1 773 K with +1·10⁻⁴ per K. K. C. Mills, B. J. Keene, Int. Mater. Rev. 32 (1987)
/// 1–120;
/// K. C. Mills and others, ISIJ Int. 56 (2016) 264–273. Expected ±2–5 %.
/// </summary>
public static class SlagDensity
{
    /// <summary>
    /// kg/m³. Volumes in cm³/mol: SiO2 19.55 + 7.966 X, Al2O3 28.31 + 32 X − 31.45 X², CaO 20.7, MgO 16.1, FeO 15.8, MnO 15.6, Fe2O3
    /// 38.4, TiO2 24,
    /// CaF2 31.3, Cr2O3 29.2, P2O5 65.7 (from memory); V2O3 as Cr2O3 and CaS 28 (from its solid) are assumptions for small amounts.
    /// </summary>
    /// <exception cref="ChemistryRangeException">Temperature outside 1 473–2 200 K.</exception>
    public static double KgPerM3(SlagComposition slag, double temperatureK)
    {
        ArgumentNullException.ThrowIfNull(slag);
        ChemistryRangeException.Require(temperatureK, 1473, 2200, "K", "temperature of the slag");
        double volume = 0;
        double mass = 0;
        for (int i = 0; i < SlagComposition.Count; i++)
        {
            var oxide = (Constituent)i;
            double x = slag.MoleFraction(oxide);
            volume += x * MolarVolumeCm3(oxide, x);
            mass += x * Constituents.MolarMass(oxide);
        }

        return 1000 * mass / (volume * (1 + (1e-4 * (temperatureK - 1773))));
    }

    private static double MolarVolumeCm3(Constituent oxide, double x) => oxide switch
    {
        Constituent.SiO2 => 19.55 + (7.966 * x),
        Constituent.Al2O3 => 28.31 + (32 * x) - (31.45 * x * x),
        Constituent.CaO => 20.7,
        Constituent.MgO => 16.1,
        Constituent.FeO => 15.8,
        Constituent.MnO => 15.6,
        Constituent.Fe2O3 => 38.4,
        Constituent.TiO2 => 24,
        Constituent.CaF2 => 31.3,
        Constituent.Cr2O3 or Constituent.V2O3 => 29.2,
        Constituent.P2O5 => 65.7,
        _ => 28,
    };
}
