// SPDX-License-Identifier: Apache-2.0
using System.Text.Json;

namespace Heatwright.Chemistry.Tests;

/// <summary>Every table says where its numbers come from, what unit they have and which are recalled.</summary>
public class DataFileTests
{
    private static readonly string[] Own =
        ["solution.csv", "interactions.csv", "interactions2.csv", "sieverts.csv", "equilibria.csv", "liquidus.csv", "flammability.csv"];

    public static TheoryData<string> Tables => [.. Own];

    [Theory]
    [MemberData(nameof(Tables))]
    public void A_table_starts_with_what_it_holds_and_each_row_has_a_source_and_a_mark(string name)
    {
        using var reader = new StreamReader(DataFile.Open(name));
        Assert.StartsWith("# ", reader.ReadLine(), StringComparison.Ordinal);
        int rows = 0;
        foreach (DataFile.Row row in DataFile.ReadCsv(name))
        {
            Assert.True(row.Text("source").Length > 8);
            Assert.Contains(row.Text("mark"), (string[])["published", "from memory"]);
            rows++;
        }

        Assert.True(rows > 0);
    }

    [Fact]
    public void The_species_file_states_reference_units_and_models()
    {
        using var document = JsonDocument.Parse(DataFile.Open("species.json"));
        foreach (string field in (string[])["title", "reference", "units", "models", "cold_to_K", "undercooled_to_K"])
        {
            Assert.True(document.RootElement.TryGetProperty(field, out _), field);
        }
    }

    /// <summary>Transition heats written in the file are those the two sets give, within 1 %, or 60 J/mol where the heat is
    /// small.</summary>
    [Fact]
    public void Transition_heats_in_the_file_are_those_of_the_sets()
    {
        using var document = JsonDocument.Parse(DataFile.Open("species.json"));
        int count = 0;
        foreach (JsonElement s in document.RootElement.GetProperty("substances").EnumerateArray())
        {
            if (!s.TryGetProperty("transitions", out JsonElement transitions))
            {
                continue;
            }

            Transition[] ours = [.. Substances.Get(s.GetProperty("id").GetString()!).Transitions];
            for (int i = 0; i < ours.Length; i++)
            {
                if (transitions[i].TryGetProperty("heat_J_mol", out JsonElement heat))
                {
                    double written = heat.GetDouble();
                    Assert.True(
                        Math.Abs(ours[i].HeatJPerMol - written) <= Math.Max(60, 0.01 * Math.Abs(written)),
                        $"{s.GetProperty("id")} at {ours[i].AtK} K: written {written}, sets give {ours[i].HeatJPerMol:F1} J/mol");
                    count++;
                }
            }
        }

        Assert.True(count > 30);
    }

    /// <summary>Heats of fusion against the CRC Handbook table, kJ/mol, within 4 %, those further off with their reason.</summary>
    [Theory]
    [InlineData("Fe", 13.81, "")]
    [InlineData("FeO", 24.1, "")]
    [InlineData("CaO", 80, "")]
    [InlineData("MgO", 77, "")]
    [InlineData("Al2O3", 111.1, "")]
    [InlineData("Cr2O3", 125, "")]
    [InlineData("Fe3O4", 138, "")]
    [InlineData("CaF2", 30, "")]
    [InlineData("FeS", 31.5, "")]
    [InlineData("Si", 50.21, "")]
    [InlineData("Al", 10.71, "")]
    [InlineData("Ti", 14.15, "")]
    [InlineData("Cr", 21.00, "")]
    [InlineData("Ni", 17.48, "")]
    [InlineData("Cu", 13.26, "")]
    [InlineData("Mo", 37.48, "")]
    [InlineData("Mn", 12.91, "JANAF 12.06, which the set follows")]
    [InlineData("V", 21.5, "JANAF 22.85, which the set follows")]
    public void Heat_of_fusion_agrees_with_the_CRC_Handbook(string id, double kJPerMol, string knownReason)
    {
        double heat = Substances.Get(id).Transitions.Last().HeatJPerMol / 1000;
        double deviation = Math.Abs((heat / kJPerMol) - 1);
        if (knownReason.Length == 0)
        {
            Assert.True(deviation <= 0.04, $"{id}: {heat:F2} against {kJPerMol} kJ/mol");
        }
        else
        {
            Assert.True(deviation is > 0.04 and < 0.07, $"{id}: {heat:F2} against {kJPerMol} kJ/mol ({knownReason})");
        }
    }

    [Theory]
    [InlineData("CaMg(CO3)2", 184.4008)]
    [InlineData("Fe0.947O", 68.8846)]
    [InlineData("Ca(OH)2", 74.0927)]
    public void A_formula_is_read(string formula, double gPerMol) => Assert.Equal(gPerMol, ChemicalFormula.MolarMass(formula), 0.01);

    [Theory]
    [InlineData("Xx")]
    [InlineData("Ca(OH")]
    [InlineData("CaO)")]
    [InlineData("2CaO")]
    public void A_wrong_formula_is_refused(string formula) => Assert.Throws<FormatException>(() => ChemicalFormula.Parse(formula));

    [Fact]
    public void An_unknown_substance_is_refused_with_the_list()
    {
        var e = Assert.Throws<KeyNotFoundException>(() => Substances.Get("Unobtainium"));
        Assert.Contains("CaO", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_substance_without_entropy_says_so()
    {
        Substance s = Substances.Get("Ca4P2O9");
        Assert.True(double.IsFinite(s.Enthalpy(1000)));
        Assert.Throws<NotSupportedException>(() => s.Gibbs(1000));
    }
}
