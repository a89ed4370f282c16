// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry.Slag;

/// <summary>
/// Optical basicity Λ = Σ Xᵢ nᵢ Λᵢ / Σ Xᵢ nᵢ, X mole fractions and n oxygens per oxide. Values in the list of K. C. Mills, The
/// Estimation of Slag Properties, Southern African Pyrometallurgy (2011), after J. A. Duffy and M. D. Ingram, J. Non-Cryst. Solids
/// 21 (1976) 373; P2O5 0.40, V2O3 and Cr2O3 from memory. FeO and MnO are 1.0 in this list and about 0.5–0.6 in others: a figure
/// for an iron-rich slag means nothing without the list.
/// </summary>
public static class OpticalBasicity
{
    /// <summary>Λ of one oxide, or null where the list has none (calcium sulphide).</summary>
    public static double? OfOxide(Constituent oxide) => oxide switch
    {
        Constituent.CaO => 1.0,
        Constituent.SiO2 => 0.48,
        Constituent.MgO => 0.78,
        Constituent.FeO => 1.0,
        Constituent.MnO => 1.0,
        Constituent.Al2O3 => 0.60,
        Constituent.Fe2O3 => 0.75,
        Constituent.TiO2 => 0.61,
        Constituent.P2O5 => 0.40,
        Constituent.CaF2 => 1.2,
        Constituent.Cr2O3 => 0.69,
        Constituent.V2O3 => 0.69,
        _ => null,
    };

    /// <summary>Λ of a slag. Calcium sulphide is left out.</summary>
    public static double Of(SlagComposition slag)
    {
        ArgumentNullException.ThrowIfNull(slag);
        double sum = 0;
        double oxygens = 0;
        for (int i = 0; i < SlagComposition.Count; i++)
        {
            var oxide = (Constituent)i;
            if (OfOxide(oxide) is { } value)
            {
                double n = slag.MoleFraction(oxide) * OxygenEquivalents(oxide);
                sum += n * value;
                oxygens += n;
            }
        }

        return sum / oxygens;
    }

    // Two fluorines stand for one oxygen.
    private static int OxygenEquivalents(Constituent oxide) => oxide switch
    {
        Constituent.SiO2 or Constituent.TiO2 => 2,
        Constituent.Al2O3 or Constituent.Fe2O3 or Constituent.V2O3 or Constituent.Cr2O3 => 3,
        Constituent.P2O5 => 5,
        _ => 1,
    };
}
