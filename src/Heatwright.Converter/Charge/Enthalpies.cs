// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;

namespace Heatwright.Converter.Charge;

/// <summary>
/// The one set of enthalpies that both the blow and the balances use, J/kg, elements at 298.15 K = 0.
/// </summary>
/// <remarks>
/// Linear in temperature about 1873.15 K, so that a temperature follows from an enthalpy without iteration and the energy
/// closes to the last digits. Values and slopes are taken from the substances of Heatwright.Chemistry (NASA and JANAF sets)
/// plus the enthalpy of solution; between 1473 and 2023 K the straight line stays within 0.5 % of them (tested). Slag follows
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

    private static double FormationJPerMol(Constituent constituent) => constituent switch
    {
        Constituent.CaO => -634920,
        Constituent.MgO => -601600,
        Constituent.SiO2 => -910700,
        Constituent.Al2O3 => -1675700,
        Constituent.FeO => -272044,
        Constituent.Fe2O3 => -824248,
        Constituent.MnO => -385200,
        Constituent.P2O5 => -1505050,
        Constituent.TiO2 => -944000,
        Constituent.V2O3 => -1216800,
        Constituent.Cr2O3 => -1140600,
        Constituent.CaF2 => -1228000,
        Constituent.CaS => -475000,
        Constituent.CaCO3 => -1206600,
        Constituent.MgCO3 => -1113636,
        Constituent.H2O => -285830,
        _ => 0,
    };

    private static (double, double)[] BuildMetal()
    {
        var table = new (double, double)[AtomicWeights.Count];
        table[(int)Element.Fe] = (75404, 46.02);
        table[(int)Element.C] = (32354 + 22590, 24.6);
        table[(int)Element.Si] = (91547 - 131500, 27.2);
        table[(int)Element.Mn] = (78399 + 4080, 46.02);
        table[(int)Element.P] = ((201402 / 2.0) - 122170, 37.59 / 2);
        table[(int)Element.S] = ((187514 / 2.0) - 135060, 39.73 / 2);
        table[(int)Element.Ti] = (67897 - 46020, 46.8);
        table[(int)Element.V] = (70752 - 42260, 46.2);
        table[(int)Element.Cr] = (78457, 39.33);
        table[(int)Element.Al] = (58676 - 63180, 31.75);
        table[(int)Element.O] = ((54428 / 2.0) - 117150, 37.23 / 2);
        table[(int)Element.N] = ((51587 / 2.0) + 3600, 35.52 / 2);
        table[(int)Element.H] = ((48631 / 2.0) + 36480, 33.42 / 2);
        foreach (Element e in (Element[])[Element.Ni, Element.Cu, Element.Mo, Element.Sn])
        {
            table[(int)e] = table[(int)Element.Fe];
        }

        return table;
    }

    private static (double, double)[] BuildSlag()
    {
        var table = new (double, double)[Constituents.Count];
        table[(int)Constituent.FeO] = (-153690, 68.2);
        table[(int)Constituent.Fe2O3] = (-599494, 142.32);
        table[(int)Constituent.SiO2] = (-791449, 83.5);
        table[(int)Constituent.MnO] = (-259400, 79.91);
        table[(int)Constituent.P2O5] = (-2437783 / 2.0, 185);
        table[(int)Constituent.CaO] = (-554147, 54.51);
        table[(int)Constituent.MgO] = (-522367, 54.62);
        table[(int)Constituent.Al2O3] = (-1482880, 136.95);
        table[(int)Constituent.TiO2] = (-827174, 83.82);
        table[(int)Constituent.V2O3] = (-1007371, 144.5);
        table[(int)Constituent.Cr2O3] = (-939684, 137.79);
        table[(int)Constituent.CaF2] = (-1044723, 99.0);
        table[(int)Constituent.CaS] = (-388117, 61.09);
        return table;
    }
}
