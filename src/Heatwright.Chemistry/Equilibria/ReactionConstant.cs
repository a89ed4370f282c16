// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry;

/// <summary>log10 K with a flag that says whether the temperature lay inside the measured range.</summary>
/// <param name="Log10K">log10 of the constant.</param>
/// <param name="InRange">False when the equation was carried beyond its measured temperatures.</param>
public readonly record struct ConstantValue(double Log10K, bool InRange)
{
    /// <summary>The constant itself.</summary>
    public double K => Math.Pow(10, Log10K);
}

/// <summary>
/// A published equilibrium constant at liquid iron, log10 K = A/T + B. Gases in atm, pure oxides 1, solutes in the 1 mass-% state.
/// </summary>
/// <param name="Id">Identifier, for example <c>CO.BanyaMatoba</c>.</param>
/// <param name="Reaction">The reaction as written.</param>
/// <param name="Metal">Dissolved metal of a pure-oxide equilibrium, or null.</param>
/// <param name="MetalAtoms">Atoms of it per formula of oxide.</param>
/// <param name="OxygenAtoms">Atoms of oxygen per formula of oxide.</param>
/// <param name="A">A, K.</param>
/// <param name="B">B.</param>
/// <param name="FromK">Least temperature of the range, K.</param>
/// <param name="ToK">Greatest temperature of the range, K.</param>
/// <param name="FromMemory">True when the row was recalled and not read in a source.</param>
/// <param name="Source">Publication.</param>
/// <param name="Note">Remark, may be empty.</param>
public sealed record ReactionConstant(
    string Id,
    string Reaction,
    Element? Metal,
    int MetalAtoms,
    int OxygenAtoms,
    double A,
    double B,
    double FromK,
    double ToK,
    bool FromMemory,
    string Source,
    string Note)
{
    /// <summary>log10 K inside the range.</summary>
    /// <exception cref="ChemistryRangeException">The temperature is outside the range.</exception>
    public double Log10K(double temperatureK) =>
        (A / ChemistryRangeException.Require(temperatureK, FromK, ToK, "K", "temperature of " + Id)) + B;

    /// <summary>log10 K at any liquid-iron temperature (1400–2300 K), with a flag when that is beyond the measured range.</summary>
    /// <exception cref="ChemistryRangeException">The temperature is outside 1400–2300 K.</exception>
    public ConstantValue Evaluate(double temperatureK) => new(
        (A / ChemistryRangeException.Require(temperatureK, IronActivity.MinimumK, IronActivity.MaximumK, "K", "temperature of " + Id)) + B,
        temperatureK >= FromK && temperatureK <= ToK);
}

/// <summary>The table of published constants, Data/equilibria.csv.</summary>
public static class EquilibriumConstants
{
    private static readonly Lazy<Dictionary<string, ReactionConstant>> Table = new(() =>
        DataFile.ReadCsv("equilibria.csv").Select(Read).ToDictionary(r => r.Id, StringComparer.Ordinal));

    /// <summary>All rows.</summary>
    public static IReadOnlyCollection<ReactionConstant> All => Table.Value.Values;

    /// <summary>The row with this identifier.</summary>
    /// <exception cref="KeyNotFoundException">There is none; the message lists those there are.</exception>
    public static ReactionConstant Get(string id) => Table.Value.TryGetValue(id, out ReactionConstant? row)
        ? row
        : throw new KeyNotFoundException($"No equilibrium constant '{id}'. There are: {string.Join(", ", Table.Value.Keys)}.");

    private static ReactionConstant Read(DataFile.Row r) => new(
        r.Text("id"),
        r.Text("reaction"),
        r.Text("metal").Length == 0 ? null : r.Enumeration<Element>("metal"),
        (int)(r.OptionalNumber("metal_atoms") ?? 0),
        (int)(r.OptionalNumber("oxygen_atoms") ?? 0),
        r.Number("A_K"),
        r.Number("B"),
        r.Number("from_K"),
        r.Number("to_K"),
        r.Text("mark") == "from memory",
        r.Text("source"),
        r.Text("note"));
}
