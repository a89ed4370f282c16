// SPDX-License-Identifier: Apache-2.0
using System.Runtime.Intrinsics;
using Heatwright.Chemistry;
using Heatwright.Converter.Blow;
using Heatwright.Converter.Charge;

namespace Heatwright.Converter.Tests.Charge;

/// <summary>The straight lines of the blow against the substances they stand for.</summary>
public sealed class EnthalpiesTests
{
    public static TheoryData<Element> Dissolved => [Element.Fe, Element.C, Element.Si, Element.Mn, Element.P, Element.S, Element.Al, Element.O, Element.N];

    public static TheoryData<Constituent> Solid => [Constituent.CaO, Constituent.MgO, Constituent.Al2O3, Constituent.TiO2, Constituent.CaS];

    [Theory]
    [MemberData(nameof(Dissolved))]
    public void Dissolved_elements_stay_within_300_joule_per_mole_between_1573_and_2023_K(Element element)
    {
        foreach (double t in (double[])[1573, 1673, 1773, 1873, 1973, 2023])
        {
            double line = Enthalpies.Dissolved(element, t) * AtomicWeights.Of(element) / 1000;
            Assert.Equal(IronSolution.DissolvedEnthalpy(element, t), line, 300.0);
        }
    }

    [Theory]
    [InlineData("CO", 0.003)]
    [InlineData("CO2", 0.003)]
    [InlineData("O2", 0.003)]
    [InlineData("H2", 0.008)]
    [InlineData("H2O(g)", 0.008)]
    [InlineData("N2", 0.003)]
    [InlineData("Ar", 0.003)]
    public void Gases_stay_near_their_heat_content_between_1573_and_2173_K(string gas, double share)
    {
        (double AtReference, double Slope) line = gas switch
        {
            "CO" => GasLine.CO,
            "CO2" => GasLine.CO2,
            "O2" => GasLine.O2,
            "H2" => GasLine.H2,
            "H2O(g)" => GasLine.H2O,
            "N2" => GasLine.N2,
            _ => GasLine.Ar,
        };
        Substance s = Substances.Get(gas);
        foreach (double t in (double[])[1573, 1673, 1873, 2073, 2173])
        {
            double content = s.Enthalpy(t) - s.Enthalpy(HeatInput.AmbientK);
            double straight = GasLine.At(line, Vector256.Create(t - Enthalpies.ReferenceK))[0] / 1000;
            Assert.Equal(s.Enthalpy(t), straight, share * content);
        }
    }

    [Theory]
    [MemberData(nameof(Solid))]
    public void Solid_oxides_stay_within_half_a_percent_of_their_enthalpy(Constituent constituent)
    {
        Substance s = Substances.Of(constituent).Substance;
        foreach (double t in (double[])[1473, 1673, 1873, 2023])
        {
            double line = Enthalpies.InSlag(constituent, t) * Constituents.MolarMass(constituent) / 1000;
            Assert.Equal(1, line / s.Enthalpy(t), 0.005);
        }
    }

    [Fact]
    public void Solid_steel_holds_what_JANAF_iron_holds_at_its_melting_point()
    {
        // JANAF (Chase 1998) table Fe-003: H(1809 K, solid) − H(298 K) = 1049 kJ/kg at 1535 °C, H(liquid) 1297.4 kJ/kg.
        Assert.Equal(1049e3, Enthalpies.SolidSteelJPerKgK * (1808.15 - 298.15), 6e3);
        Assert.InRange(Enthalpies.FusionJPerKg, 1297.4e3 - 1049e3, 270e3);
    }

    [Fact]
    public void Silicate_and_phosphate_heats_are_those_of_the_compounds()
    {
        // 2 CaO + SiO2 → Ca2SiO4 and 3 CaO + P2O5 → Ca3(PO4)2 at 1 500 K from the tabulated compounds (slag is a liquid: within 25 %).
        const double t = 1500;
        double silicate = Substances.Get("Ca2SiO4").Enthalpy(t) - (2 * Substances.Get("CaO").Enthalpy(t)) - Substances.Get("SiO2").Enthalpy(t);
        double phosphate = Substances.Get("Ca3(PO4)2").Enthalpy(t) - (3 * Substances.Get("CaO").Enthalpy(t)) - (0.5 * Substances.Get("P4O10(l)").Enthalpy(t));
        Assert.InRange(Enthalpies.SilicateHeatJPerKmol / 1000 / silicate, 0.75, 1.25);
        Assert.InRange(Enthalpies.PhosphateHeatJPerKmol / 1000 / phosphate, 0.75, 1.25);
    }

    [Theory]
    [InlineData(1200, 1128)]
    [InlineData(1300, 1216)]
    [InlineData(1350, 1260)]
    [InlineData(1400, 1304)]
    public void Hot_metal_holds_the_heat_computed_from_JANAF_and_solution_tables(double celsius, double kJPerKg)
    {
        // 4.5 C, 0.5 Si, 0.4 Mn, 0.10 P, 0.02 S: sum over JANAF-consistent elements plus enthalpies of solution (MSTS table 2.2); 0.5 % asked.
        double sum = 0;
        foreach ((Element e, double percent) in ((Element, double)[])[(Element.C, 4.5), (Element.Si, 0.5), (Element.Mn, 0.4), (Element.P, 0.1), (Element.S, 0.02), (Element.Fe, 94.48)])
        {
            sum += percent / 100 * Enthalpies.Dissolved(e, celsius + 273.15);
        }

        Assert.Equal(1, sum / 1000 / kJPerKg, 0.005);
    }
}
