// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry.Tests;

public class SolutionTests
{
    /// <summary>γ° that the handbook lists or that follows from its equation at 1873 K: ΔG = RT ln(γ° M_Fe / 100 M_i).</summary>
    [Theory]
    [InlineData(Element.C, SolutionSet.Msts, 0.57, 0.005)]
    [InlineData(Element.C, SolutionSet.Jsps, 0.538, 0.001)]
    [InlineData(Element.Si, SolutionSet.Msts, 0.0013, 0.0001)]
    [InlineData(Element.Mn, SolutionSet.Msts, 1.3, 0.01)]
    [InlineData(Element.Al, SolutionSet.Msts, 0.029, 0.0005)]
    [InlineData(Element.Al, SolutionSet.Jsps, 0.049, 0.0005)]
    [InlineData(Element.Cr, SolutionSet.Msts, 1.14, 0.005)]
    [InlineData(Element.Ni, SolutionSet.Msts, 0.66, 0.01)]
    [InlineData(Element.V, SolutionSet.Msts, 0.1, 0.001)]
    [InlineData(Element.Cu, SolutionSet.Msts, 8.6, 0.05)]
    [InlineData(Element.Mo, SolutionSet.Msts, 1.86, 0.005)]
    public void Raoultian_coefficient_at_infinite_dilution_is_the_handbooks(Element solute, SolutionSet set, double gamma, double tolerance)
    {
        double g = IronSolution.GibbsOfSolution(solute, 1873, set);
        double ours = Math.Exp(g / (PhysicalConstants.GasConstant * 1873)) * 100 * AtomicWeights.Of(solute) / AtomicWeights.Of(Element.Fe);
        Assert.Equal(gamma, ours, tolerance);
    }

    /// <summary>Known defect of the handbook: it lists γ°(s) = 0.038 for titanium, its own equation gives 0.052.</summary>
    [Fact]
    public void Titanium_equation_does_not_give_the_listed_coefficient()
    {
        double ours = Math.Exp(IronSolution.GibbsOfSolution(Element.Ti, 1873) / (PhysicalConstants.GasConstant * 1873)) * 100 * 47.867 / 55.845;
        Assert.Equal(0.052, ours, 0.0005);
    }

    /// <summary>Hot metal 4.5 C, 0.5 Si, 0.4 Mn, 0.10 P, 0.02 S: a second, separate calculation from the same sources, kJ/kg.</summary>
    [Theory]
    [InlineData(1200, 1128)]
    [InlineData(1250, 1172)]
    [InlineData(1300, 1216)]
    [InlineData(1350, 1260)]
    [InlineData(1400, 1304)]
    [InlineData(1450, 1348)]
    [InlineData(1500, 1391)]
    public void Heat_content_of_hot_metal(double celsius, double kJPerKg)
    {
        var melt = new IronMelt((Element.C, 4.5), (Element.Si, 0.5), (Element.Mn, 0.4), (Element.P, 0.10), (Element.S, 0.02));
        Assert.Equal(kJPerKg, IronSolution.MeltEnthalpyPerKg(melt, celsius + 273.15) / 1000, 1.5);
    }

    /// <summary>Steel 0.05 C, 0.12 Mn, 0.012 P, 0.012 S: a second, separate calculation from the same sources, kJ/kg.</summary>
    [Theory]
    [InlineData(1550, 1310)]
    [InlineData(1600, 1351)]
    [InlineData(1650, 1393)]
    [InlineData(1700, 1434)]
    [InlineData(1750, 1475)]
    public void Heat_content_of_steel(double celsius, double kJPerKg)
    {
        var melt = new IronMelt((Element.C, 0.05), (Element.Mn, 0.12), (Element.P, 0.012), (Element.S, 0.012));
        Assert.Equal(kJPerKg, IronSolution.MeltEnthalpyPerKg(melt, celsius + 273.15) / 1000, 1.5);
    }

    /// <summary>Liquid iron 1300–1750 °C against NIST WebBook: H = 46.024 t − 10.80543 kJ/mol, cp 824.1 J/kg.K (Chase 1998).</summary>
    [Theory]
    [InlineData(1809)]
    [InlineData(1873)]
    [InlineData(2023)]
    public void Liquid_iron_is_that_of_the_NIST_WebBook(double temperatureK)
    {
        Substance iron = Substances.Get("Fe(l)");
        Assert.Equal((46.024 * temperatureK) - 10_805.43, iron.Enthalpy(temperatureK), 5.0);
        Assert.Equal(824.1, iron.HeatCapacity(temperatureK) / iron.MolarMassGPerMol * 1000, 0.1);
    }

    /// <summary>The atomic weights against the molar masses printed in the NASA and JANAF sets (IUPAC 1999), g/mol.</summary>
    [Theory]
    [InlineData("CaO", 56.0774)]
    [InlineData("MgO", 40.3044)]
    [InlineData("SiO2", 60.0843)]
    [InlineData("Al2O3", 101.961276)]
    [InlineData("Fe2O3", 159.6882)]
    [InlineData("MnO", 70.9374)]
    [InlineData("P4O10", 283.889044)]
    [InlineData("TiO2", 79.8658)]
    [InlineData("V2O3", 149.8812)]
    [InlineData("Cr2O3", 151.9904)]
    [InlineData("CaF2", 78.0748)]
    [InlineData("CaS", 72.143)]
    [InlineData("Ca(OH)2", 74.09268)]
    [InlineData("CaMg(CO3)2", 184.4008)]
    [InlineData("Fe0.947O", 68.884615)]
    [InlineData("N2", 28.0134)]
    [InlineData("Ar", 39.948)]
    public void Molar_masses_agree_with_those_printed_in_the_sets(string id, double gPerMol) =>
        Assert.Equal(gPerMol, Substances.Get(id).MolarMassGPerMol, 0.0001 * gPerMol);

    [Fact]
    public void Every_constituent_has_a_substance_with_its_atoms()
    {
        foreach (Constituent c in Enum.GetValues<Constituent>())
        {
            (Substance s, double n) = Substances.Of(c);
            Assert.Equal(Constituents.MolarMass(c), n * s.MolarMassGPerMol, 1e-9 * Constituents.MolarMass(c));
        }
    }

    [Fact]
    public void Every_element_that_a_bath_can_hold_has_a_dissolved_enthalpy_from_1400_to_1944_K()
    {
        foreach (Element e in Enum.GetValues<Element>().Where(e => e is not (Element.Ar or Element.F)))
        {
            Assert.True(e == Element.Fe || IronSolution.Has(e), e.ToString());
            foreach (double t in (double[])[1400, 1600, 1873, 1944])
            {
                Assert.True(double.IsFinite(IronSolution.DissolvedEnthalpy(e, t)));
                Assert.True(IronSolution.DissolvedHeatCapacity(e, t) > 5);
            }
        }
    }

    [Fact]
    public void Every_row_names_its_source_and_its_reference_holds_the_solute() =>
        Assert.All(IronSolution.Rows, r =>
        {
            Assert.True(r.Source.Length > 10);
            Assert.Equal(1, r.ReferenceMoles * r.Reference.Atoms.Single(a => a.Element == r.Solute).Atoms, 1e-12);
        });

    [Fact]
    public void A_solution_energy_outside_its_range_is_refused()
    {
        var e = Assert.Throws<ChemistryRangeException>(() => IronSolution.GibbsOfSolution(Element.C, 1700, SolutionSet.Jsps));
        Assert.Equal(1773, e.Least);
        Assert.Equal(2073, e.Most);
    }
}
