// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Converter.Charge;
using static Heatwright.Converter.Blow.BlowState;

namespace Heatwright.Converter.Blow;

/// <summary>What an addition turns into, kg per kg as charged.</summary>
internal readonly struct FluxSplit
{
    public FluxSplit(FluxMaterial material, double ferricShare)
    {
        Slag = new double[SlagCount];
        Metal = new double[MetalCount];
        SolidAnalysis a = material.Analysis;
        (double feOx, double fe) = IronOxide.Split(a[Constituent.FeO] / 100, a[Constituent.Fe2O3] / 100, ferricShare);
        foreach (Constituent c in Enum.GetValues<Constituent>())
        {
            double w = a[c] / 100;
            int slag = Array.IndexOf(SlagConstituents, c);
            if (c is Constituent.FeO or Constituent.Fe2O3)
            {
                continue;
            }

            if (slag >= 0)
            {
                Slag[slag] += w;
            }
        }

        Slag[FeO] = feOx;
        Slag[CaO] += a[Constituent.CaCO3] / 100 * Constituents.MolarMass(Constituent.CaO) / Constituents.MolarMass(Constituent.CaCO3);
        Slag[MgO] += a[Constituent.MgCO3] / 100 * Constituents.MolarMass(Constituent.MgO) / Constituents.MolarMass(Constituent.MgCO3);
        Metal[Fe] = (a[Constituent.Fe] / 100) + fe;
        Metal[C] = a[Constituent.C] / 100;
        Metal[Si] = a[Constituent.Si] / 100;
        Metal[Mn] = a[Constituent.Mn] / 100;
        Metal[Al] = a[Constituent.Al] / 100;
        Metal[P] = a[Constituent.P] / 100;
        Metal[S] = a[Constituent.S] / 100;
        CO2Kmol = (a[Constituent.CaCO3] / 100 / Constituents.MolarMass(Constituent.CaCO3))
            + (a[Constituent.MgCO3] / 100 / Constituents.MolarMass(Constituent.MgCO3));
        H2OKmol = a[Constituent.H2O] / 100 / Constituents.MolarMass(Constituent.H2O);
        double cold = 0;
        foreach (Constituent c in Enum.GetValues<Constituent>())
        {
            cold += a[c] / 100 * Enthalpies.AsCharged(c);
        }

        ColdEnthalpy = cold;
    }

    public double[] Slag { get; }

    public double[] Metal { get; }

    public double CO2Kmol { get; }

    public double H2OKmol { get; }

    /// <summary>Enthalpy as charged at 298.15 K, J/kg.</summary>
    public double ColdEnthalpy { get; }
}

/// <summary>
/// Iron oxide in the slag is one pseudo-oxide FeO(1+φ/2) with a fixed share φ of trivalent iron. Oxides that come in with another
/// ratio keep their oxygen; metallic iron makes up the difference (scale and ore take iron from the bath, or give it).
/// </summary>
internal static class IronOxide
{
    /// <summary>Molar mass of the pseudo-oxide, kg per kmol iron.</summary>
    public static double MolarMass(double ferricShare) =>
        AtomicWeights.Of(Element.Fe) + (AtomicWeights.Of(Element.O) * OxygenPerIron(ferricShare));

    public static double OxygenPerIron(double ferricShare) => 1 + (ferricShare / 2);

    /// <summary>Mass of pseudo-oxide and of iron (may be negative) from FeO and Fe2O3, in the unit of the arguments.</summary>
    public static (double Oxide, double Iron) Split(double feO, double fe2O3, double ferricShare)
    {
        double oxygen = (feO / Constituents.MolarMass(Constituent.FeO)) + (3 * fe2O3 / Constituents.MolarMass(Constituent.Fe2O3));
        double iron = (feO / Constituents.MolarMass(Constituent.FeO)) + (2 * fe2O3 / Constituents.MolarMass(Constituent.Fe2O3));
        double oxide = oxygen / OxygenPerIron(ferricShare);
        return (oxide * MolarMass(ferricShare), (iron - oxide) * AtomicWeights.Of(Element.Fe));
    }

    /// <summary>Enthalpy of the pseudo-oxide at the reference and its slope, J/kg and J/(kg K).</summary>
    public static (double AtReference, double Slope) Enthalpy(double ferricShare)
    {
        double two = (1 - ferricShare) * Constituents.MolarMass(Constituent.FeO);
        double three = ferricShare / 2 * Constituents.MolarMass(Constituent.Fe2O3);
        (double h2, double c2) = Enthalpies.InSlag(Constituent.FeO);
        (double h3, double c3) = Enthalpies.InSlag(Constituent.Fe2O3);
        double m = two + three;
        return (((two * h2) + (three * h3)) / m, ((two * c2) + (three * c3)) / m);
    }
}

/// <summary>What a class of scrap turns into, kg per kg as weighed.</summary>
internal readonly struct ScrapSplit
{
    public ScrapSplit(ScrapMaterial material, double ferricShare)
    {
        Slag = new double[SlagCount];
        Metal = new double[MetalCount];
        double metallic = material.MetallicShare;
        for (int i = 0; i < MetalCount; i++)
        {
            Metal[i] = metallic * material.Analysis[MetalElements[i]] / 100;
        }

        (double feOx, double fe) = IronOxide.Split(0, material.RustPercent / 100, ferricShare);
        Slag[FeO] = feOx;
        Metal[Fe] += fe;
        Slag[SiO2] = 0.75 * material.DirtPercent / 100;
        Slag[Al2O3] = 0.25 * material.DirtPercent / 100;
        H2OKmol = material.MoisturePercent / 100 / Constituents.MolarMass(Constituent.H2O);
        double inert = 0;
        foreach (Element e in InertElements)
        {
            inert += metallic * material.Analysis[e] / 100;
        }

        Inert = inert;
        ColdEnthalpy = (material.RustPercent / 100 * Enthalpies.AsCharged(Constituent.Fe2O3))
            + (0.75 * material.DirtPercent / 100 * Enthalpies.AsCharged(Constituent.SiO2))
            + (0.25 * material.DirtPercent / 100 * Enthalpies.AsCharged(Constituent.Al2O3))
            + (material.MoisturePercent / 100 * Enthalpies.AsCharged(Constituent.H2O));
        CarbonPercent = material.Analysis[Element.C];
    }

    public double[] Slag { get; }

    public double[] Metal { get; }

    public double H2OKmol { get; }

    /// <summary>Ni + Cu + Mo + Sn, kg/kg.</summary>
    public double Inert { get; }

    /// <summary>Enthalpy at 298.15 K, J/kg: rust, dirt and moisture; metal counts zero.</summary>
    public double ColdEnthalpy { get; }

    public double CarbonPercent { get; }
}

/// <summary>The slag poured with hot metal, mass %: an ordinary blast-furnace slag (common practice, no source).</summary>
internal static class CarriedSlag
{
    public static readonly SolidAnalysis Analysis = new(new Dictionary<Constituent, double>
    {
        [Constituent.CaO] = 40,
        [Constituent.SiO2] = 37,
        [Constituent.Al2O3] = 12,
        [Constituent.MgO] = 9,
        [Constituent.CaS] = 2,
    });
}
