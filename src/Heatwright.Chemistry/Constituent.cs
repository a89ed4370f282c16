// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry;

/// <summary>What fluxes, ores, dirt, coke and slags are made of. Analyses of solids are mass % of these.</summary>
public enum Constituent
{
    /// <summary>Lime, CaO.</summary>
    CaO,
    /// <summary>Magnesia, MgO.</summary>
    MgO,
    /// <summary>Silica, SiO2.</summary>
    SiO2,
    /// <summary>Alumina, Al2O3.</summary>
    Al2O3,
    /// <summary>Iron(II) oxide, FeO.</summary>
    FeO,
    /// <summary>Iron(III) oxide, Fe2O3.</summary>
    Fe2O3,
    /// <summary>Manganese oxide, MnO.</summary>
    MnO,
    /// <summary>Phosphorus oxide, P2O5.</summary>
    P2O5,
    /// <summary>Titanium oxide, TiO2.</summary>
    TiO2,
    /// <summary>Vanadium oxide, V2O3.</summary>
    V2O3,
    /// <summary>Chromium oxide, Cr2O3.</summary>
    Cr2O3,
    /// <summary>Fluorspar, CaF2.</summary>
    CaF2,
    /// <summary>Calcium sulphide, CaS: how sulphur is held in slag and flux.</summary>
    CaS,
    /// <summary>Calcium carbonate, CaCO3.</summary>
    CaCO3,
    /// <summary>Magnesium carbonate, MgCO3 (also the magnesium half of dolomite).</summary>
    MgCO3,
    /// <summary>Water, H2O, free or as hydrate.</summary>
    H2O,
    /// <summary>Free carbon (coke, recarburiser).</summary>
    C,
    /// <summary>Metallic iron.</summary>
    Fe,
    /// <summary>Metallic silicon (ferrosilicon).</summary>
    Si,
    /// <summary>Metallic manganese (ferromanganese).</summary>
    Mn,
    /// <summary>Metallic aluminium.</summary>
    Al,
    /// <summary>Elemental phosphorus in an alloy.</summary>
    P,
    /// <summary>Elemental sulphur in coke or an alloy.</summary>
    S,
}

/// <summary>Atoms per formula unit and molar masses of <see cref="Constituent"/>.</summary>
public static class Constituents
{
    /// <summary>Number of constituents.</summary>
    public const int Count = (int)Constituent.S + 1;

    private static readonly (Element Element, int Atoms)[][] Formulas =
    [
        [(Element.Ca, 1), (Element.O, 1)],
        [(Element.Mg, 1), (Element.O, 1)],
        [(Element.Si, 1), (Element.O, 2)],
        [(Element.Al, 2), (Element.O, 3)],
        [(Element.Fe, 1), (Element.O, 1)],
        [(Element.Fe, 2), (Element.O, 3)],
        [(Element.Mn, 1), (Element.O, 1)],
        [(Element.P, 2), (Element.O, 5)],
        [(Element.Ti, 1), (Element.O, 2)],
        [(Element.V, 2), (Element.O, 3)],
        [(Element.Cr, 2), (Element.O, 3)],
        [(Element.Ca, 1), (Element.F, 2)],
        [(Element.Ca, 1), (Element.S, 1)],
        [(Element.Ca, 1), (Element.C, 1), (Element.O, 3)],
        [(Element.Mg, 1), (Element.C, 1), (Element.O, 3)],
        [(Element.H, 2), (Element.O, 1)],
        [(Element.C, 1)],
        [(Element.Fe, 1)],
        [(Element.Si, 1)],
        [(Element.Mn, 1)],
        [(Element.Al, 1)],
        [(Element.P, 1)],
        [(Element.S, 1)],
    ];

    private static readonly double[] MolarMasses = [.. Formulas.Select(f => f.Sum(p => p.Atoms * AtomicWeights.Of(p.Element)))];

    /// <summary>Atoms per formula unit.</summary>
    public static IReadOnlyList<(Element Element, int Atoms)> Formula(Constituent constituent) => Formulas[(int)constituent];

    /// <summary>Molar mass in g/mol (numerically kg/kmol).</summary>
    public static double MolarMass(Constituent constituent) => MolarMasses[(int)constituent];

    /// <summary>Mass fraction of an element in the constituent, kg/kg.</summary>
    public static double MassFraction(Constituent constituent, Element element)
    {
        foreach ((Element e, int atoms) in Formulas[(int)constituent])
        {
            if (e == element)
            {
                return atoms * AtomicWeights.Of(e) / MolarMasses[(int)constituent];
            }
        }

        return 0;
    }
}
