// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Converter.Blow;

namespace Heatwright.Converter.Charge;

/// <summary>
/// The one set of enthalpies that both the blow and the balances use, J/kg, elements at 298.15 K = 0.
/// </summary>
/// <remarks>
/// Linear in temperature about 1873.15 K, so that a temperature follows from an enthalpy without iteration and the energy
/// closes to the last digits. Values and slopes are taken from the substances of Heatwright.Chemistry (NASA and JANAF sets)
/// plus the enthalpy of solution; the straight line stays within 300 J/mol for dissolved elements and 0.5 % for solid oxides (tested, with the
/// ranges). Slag follows
/// way (b) of the handbook: FeO, MnO, P2O5 and SiO2 counted as liquids, lime, magnesia and the rest as solids, and the heat of
/// forming silicate and phosphate added by <see cref="SilicateHeatJPerKmol"/> and <see cref="PhosphateHeatJPerKmol"/>.
/// </remarks>
public static class Enthalpies
{
    /// <summary>Reference temperature of the lines, K.</summary>
    public const double ReferenceK = 1873.15;

    /// <summary>Mean heat capacity of solid steel from 298 K to its liquidus, J/(kg K): JANAF iron, 1049 kJ/kg at 1809 K.</summary>
    public const double SolidSteelJPerKgK = 694;

    /// <summary>Heat to melt steel or frozen hot metal, J/kg (JANAF iron 247 kJ/kg; 270 quoted for low-alloy steel).</summary>
    public const double FusionJPerKg = 255e3;

    /// <summary>2 CaO(s) + SiO2(l) → silicate in slag, J per kmol SiO2: −100 kJ/mol from the oxides at 1873 K and −8 for liquid silica.</summary>
    public const double SilicateHeatJPerKmol = -108e6;

    /// <summary>3 CaO(s) + P2O5(l) → phosphate in slag, J per kmol P2O5 (from Ca3(PO4)2; 709 kJ/mol).</summary>
    public const double PhosphateHeatJPerKmol = -709e6;

    private static readonly (double AtReference, double Slope)[] MetalMolar = BuildMetal();
    private static readonly (double AtReference, double Slope)[] SlagMolar = BuildSlag();

    /// <summary>Enthalpy at the reference and slope of an element dissolved in liquid iron, J/kg and J/(kg K). Ni, Cu, Mo, Sn count as iron.</summary>
    public static (double AtReference, double Slope) Dissolved(Element element)
    {
        (double h, double cp) = MetalMolar[(int)element];
        double m = element is Element.Ni or Element.Cu or Element.Mo or Element.Sn ? AtomicWeights.Of(Element.Fe) : AtomicWeights.Of(element);
        return (h / m * 1000, cp / m * 1000);
    }

    /// <summary>Enthalpy at the reference and slope of a constituent of slag, J/kg and J/(kg K).</summary>
    public static (double AtReference, double Slope) InSlag(Constituent constituent)
    {
        (double h, double cp) = SlagMolar[(int)constituent];
        double m = Constituents.MolarMass(constituent);
        return (h / m * 1000, cp / m * 1000);
    }

    /// <summary>Enthalpy of an element dissolved in liquid iron at a temperature, J/kg.</summary>
    public static double Dissolved(Element element, double temperatureK)
    {
        (double h, double cp) = Dissolved(element);
        return h + (cp * (temperatureK - ReferenceK));
    }

    /// <summary>Enthalpy of a constituent of slag at a temperature, before the silicate and phosphate heats, J/kg.</summary>
    public static double InSlag(Constituent constituent, double temperatureK)
    {
        (double h, double cp) = InSlag(constituent);
        return h + (cp * (temperatureK - ReferenceK));
    }

    /// <summary>Enthalpy of formation of a constituent as charged at 298.15 K, J/kg.</summary>
    public static double AsCharged(Constituent constituent) => FormationJPerMol(constituent) / Constituents.MolarMass(constituent) * 1000;

    private static double FormationJPerMol(Constituent constituent)
    {
        (Substance substance, double moles) = Substances.Of(constituent);
        return moles * substance.Enthalpy(HeatInput.AmbientK);
    }

    /// <summary>Value at the reference and slope over the 250 K below it, where most of a heat is spent (and no pure element there melts).</summary>
    private static (double AtReference, double Slope) Line(Func<double, double> enthalpy) =>
        (enthalpy(ReferenceK), (enthalpy(ReferenceK) - enthalpy(ReferenceK - 250)) / 250);

    private static (double, double)[] BuildMetal()
    {
        var table = new (double, double)[AtomicWeights.Count];
        foreach (Element e in BlowState.MetalElements)
        {
            table[(int)e] = Line(t => IronSolution.DissolvedEnthalpy(e, t));
        }

        table[(int)Element.H] = Line(t => IronSolution.DissolvedEnthalpy(Element.H, t));
        foreach (Element e in BlowState.InertElements)
        {
            table[(int)e] = table[(int)Element.Fe];
        }

        return table;
    }

    private static (double, double)[] BuildSlag()
    {
        var table = new (double, double)[Constituents.Count];
        foreach (Constituent c in BlowState.SlagConstituents)
        {
            table[(int)c] = c switch
            {
                Constituent.FeO or Constituent.SiO2 or Constituent.MnO or Constituent.CaF2 => Line(Substances.Get($"{c}(l)").Enthalpy),
                Constituent.P2O5 => Line(t => 0.5 * Substances.Get("P4O10(l)").Enthalpy(t)),
                _ => Line(Substances.Of(c).Substance.Enthalpy),
            };
        }

        table[(int)Constituent.Fe2O3] = Line(Substances.Get("Fe2O3").Enthalpy);
        return table;
    }
}
