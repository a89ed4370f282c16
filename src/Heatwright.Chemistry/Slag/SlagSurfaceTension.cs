// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry.Slag;

/// <summary>
/// Surface tension of liquid slag by summing over mole fractions, −0.15 mN/m per K from 1 773 K. K. C. Mills (2011); Mills and others
/// (2016).
/// </summary>
public static class SlagSurfaceTension
{
    /// <summary>
    /// N/m. Oxides at 1 773 K, mN/m: SiO2 260, TiO2 360, Al2O3 655, FeO 645, MgO 635, MnO 645, CaO 625, Fe2O3 300, CaF2 290, Cr2O3 800.
    /// P2O5, V2O3 and CaS
    /// are left out (no value; P2O5 and sulphur lower it) and the rest scaled up, so read it as an upper bound: converter slags are
    /// about 0.45–0.50 N/m
    /// (from memory).
    /// </summary>
    /// <exception cref="ChemistryRangeException">Temperature outside 1 473–2 200 K.</exception>
    public static double NewtonPerM(SlagComposition slag, double temperatureK)
    {
        ArgumentNullException.ThrowIfNull(slag);
        ChemistryRangeException.Require(temperatureK, 1473, 2200, "K", "temperature of the slag");
        double sum = 0;
        double known = 0;
        for (int i = 0; i < SlagComposition.Count; i++)
        {
            var oxide = (Constituent)i;
            double at1773 = MillinewtonPerM(oxide);
            if (at1773 > 0)
            {
                sum += slag.MoleFraction(oxide) * at1773;
                known += slag.MoleFraction(oxide);
            }
        }

        return 1e-3 * ((sum / known) - (0.15 * (temperatureK - 1773)));
    }

    private static double MillinewtonPerM(Constituent oxide) => oxide switch
    {
        Constituent.SiO2 => 260,
        Constituent.TiO2 => 360,
        Constituent.Al2O3 => 655,
        Constituent.FeO => 645,
        Constituent.MgO => 635,
        Constituent.MnO => 645,
        Constituent.CaO => 625,
        Constituent.Fe2O3 => 300,
        Constituent.CaF2 => 290,
        Constituent.Cr2O3 => 800,
        _ => 0,
    };
}
