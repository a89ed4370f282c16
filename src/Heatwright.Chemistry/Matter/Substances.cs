// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry;

/// <summary>
/// The pure substances of a heat, read once from Data/species.json on first use. <c>(l)</c> names a liquid alone, with
/// its declared undercooled range; <c>(g)</c> a vapour of something that is condensed at room temperature;
/// <c>(l,JANAF)</c> a second published description of the same liquid.
/// </summary>
public static class Substances
{
    private static readonly Lazy<Dictionary<string, Substance>> Table = new(Load);

    /// <summary>Identifiers of all substances.</summary>
    public static IReadOnlyCollection<string> Ids => Table.Value.Keys;

    /// <summary>All substances.</summary>
    public static IReadOnlyCollection<Substance> All => Table.Value.Values;

    /// <summary>The substance with this identifier.</summary>
    /// <exception cref="KeyNotFoundException">There is none; the message lists those there are.</exception>
    public static Substance Get(string id) => Table.Value.TryGetValue(id, out Substance? substance)
        ? substance
        : throw new KeyNotFoundException($"No substance '{id}'. There are: {string.Join(", ", Ids.Order(StringComparer.Ordinal))}.");

    /// <summary>
    /// The pure solid or liquid that an analysed constituent is counted as, and how many moles of it one mole of the
    /// constituent is (P2O5 is half a P4O10). Phosphorus is white phosphorus, water is liquid water.
    /// </summary>
    public static (Substance Substance, double MolesPerMole) Of(Constituent constituent) => constituent switch
    {
        Constituent.P2O5 => (Get("P4O10"), 0.5),
        Constituent.H2O => (Get("H2O(l)"), 1),
        _ => (Get(constituent.ToString()), 1),
    };

    private static Dictionary<string, Substance> Load()
    {
        using Stream stream = DataFile.Open("species.json");
        SpeciesFile file = SpeciesFile.Read(stream);
        var phases = new Dictionary<string, PhaseSet>(StringComparer.Ordinal);
        foreach ((string id, PhaseRecord record) in file.Phases)
        {
            phases.Add(id, new PhaseSet(record, file.GasConstant));
        }

        var substances = new Dictionary<string, Substance>(StringComparer.Ordinal);
        foreach (SubstanceRecord s in file.Substances)
        {
            substances.Add(s.Id, new Substance(s.Id, s.Name, Array.ConvertAll(s.Phases, p => phases[p]), s.TransitionsK, s.Undercooled));
        }

        return substances;
    }
}
