// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry;

/// <summary>The elements that a heat accounts for. The order is the row order of every balance.</summary>
public enum Element
{
    /// <summary>Iron.</summary>
    Fe,
    /// <summary>Carbon.</summary>
    C,
    /// <summary>Silicon.</summary>
    Si,
    /// <summary>Manganese.</summary>
    Mn,
    /// <summary>Phosphorus.</summary>
    P,
    /// <summary>Sulphur.</summary>
    S,
    /// <summary>Titanium.</summary>
    Ti,
    /// <summary>Vanadium.</summary>
    V,
    /// <summary>Chromium.</summary>
    Cr,
    /// <summary>Nickel.</summary>
    Ni,
    /// <summary>Copper.</summary>
    Cu,
    /// <summary>Molybdenum.</summary>
    Mo,
    /// <summary>Tin.</summary>
    Sn,
    /// <summary>Aluminium.</summary>
    Al,
    /// <summary>Calcium.</summary>
    Ca,
    /// <summary>Magnesium.</summary>
    Mg,
    /// <summary>Oxygen.</summary>
    O,
    /// <summary>Nitrogen.</summary>
    N,
    /// <summary>Hydrogen.</summary>
    H,
    /// <summary>Argon.</summary>
    Ar,
    /// <summary>Fluorine.</summary>
    F,
}

/// <summary>
/// Standard atomic weights, g/mol. Source: IUPAC Commission on Isotopic Abundances and Atomic Weights, abridged
/// standard atomic weights (2021 table); where IUPAC gives an interval, its conventional value. Written from memory of
/// that table; the checks in the tests compare them with the molar masses printed in the NASA and JANAF sets.
/// </summary>
public static class AtomicWeights
{
    private static readonly double[] GramsPerMole = CreateTable();

    /// <summary>Number of elements accounted for.</summary>
    public const int Count = (int)Element.F + 1;

    /// <summary>Standard atomic weight in g/mol (numerically kg/kmol).</summary>
    public static double Of(Element element) => GramsPerMole[(int)element];

    private static double[] CreateTable()
    {
        double[] table = new double[Count];
        table[(int)Element.Fe] = 55.845;
        table[(int)Element.C] = 12.011;
        table[(int)Element.Si] = 28.085;
        table[(int)Element.Mn] = 54.938;
        table[(int)Element.P] = 30.974;
        table[(int)Element.S] = 32.06;
        table[(int)Element.Ti] = 47.867;
        table[(int)Element.V] = 50.942;
        table[(int)Element.Cr] = 51.996;
        table[(int)Element.Ni] = 58.693;
        table[(int)Element.Cu] = 63.546;
        table[(int)Element.Mo] = 95.95;
        table[(int)Element.Sn] = 118.71;
        table[(int)Element.Al] = 26.982;
        table[(int)Element.Ca] = 40.078;
        table[(int)Element.Mg] = 24.305;
        table[(int)Element.O] = 15.999;
        table[(int)Element.N] = 14.007;
        table[(int)Element.H] = 1.008;
        table[(int)Element.Ar] = 39.95;
        table[(int)Element.F] = 18.998;
        return table;
    }
}
