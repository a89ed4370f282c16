// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry;

/// <summary>
/// Elements dissolved in liquid iron: Gibbs energy and enthalpy of solution, and absolute enthalpies of dissolved
/// elements and of whole melts for heat balances. Data: Data/solution.csv. Default set: <see cref="SolutionSet.Msts"/>,
/// because it covers all solutes; where it and JSPS differ the handbook (11-solution-in-iron) says by how much.
/// Enthalpies are those of the dilute solution; the change of enthalpy with composition is not known well enough to add.
/// </summary>
public static class IronSolution
{
    private static readonly Lazy<SolutionRow[]> Table = new(Load);
    private static readonly Lazy<SolutionRow?[,]> Defaults = new(() =>
    {
        var first = new SolutionRow?[2, AtomicWeights.Count];
        foreach (SolutionRow row in Table.Value)
        {
            first[(int)row.Set, (int)row.Solute] ??= row;
        }

        return first;
    });

    /// <summary>All rows of the table.</summary>
    public static IReadOnlyList<SolutionRow> Rows => Table.Value;

    /// <summary>The row of a solute in a set: the set's default reference state. JSPS rows that are missing fall back on MSTS.</summary>
    /// <exception cref="KeyNotFoundException">Neither set lists the element.</exception>
    public static SolutionRow Row(Element solute, SolutionSet set = SolutionSet.Msts) =>
        Defaults.Value[(int)set, (int)solute] ?? Defaults.Value[(int)SolutionSet.Msts, (int)solute]
        ?? throw new KeyNotFoundException($"No Gibbs energy of solution in liquid iron for {solute}.");

    /// <summary>True when the element has a row (iron itself, argon and fluorine have none).</summary>
    public static bool Has(Element solute) => Defaults.Value[(int)SolutionSet.Msts, (int)solute] is not null;

    /// <summary>Enthalpy of solution, J/mol of solute atoms, from the row's reference state.</summary>
    public static double EnthalpyOfSolution(Element solute, SolutionSet set = SolutionSet.Msts) => Row(solute, set).EnthalpyJPerMol;

    /// <summary>Gibbs energy of solution to 1 mass-%, J/mol of solute atoms.</summary>
    /// <exception cref="ChemistryRangeException">The temperature is outside the row's range.</exception>
    public static double GibbsOfSolution(Element solute, double temperatureK, SolutionSet set = SolutionSet.Msts) =>
        Row(solute, set).Gibbs(temperatureK);

    /// <summary>
    /// Absolute enthalpy of an element dissolved in liquid iron, J/mol of atoms (pure elements at 298.15 K = 0): enthalpy of
    /// the pure reference at the temperature plus enthalpy of solution. Iron is liquid iron, undercooled below 1809 K.
    /// </summary>
    /// <exception cref="ChemistryRangeException">The temperature is outside the reference's data.</exception>
    public static double DissolvedEnthalpy(Element element, double temperatureK, SolutionSet set = SolutionSet.Msts)
    {
        if (element == Element.Fe)
        {
            return LiquidIron.Value.Enthalpy(temperatureK);
        }

        SolutionRow row = Row(element, set);
        return (row.ReferenceMoles * row.Reference.Enthalpy(temperatureK)) + row.EnthalpyJPerMol;
    }

    /// <summary>Heat capacity that goes with <see cref="DissolvedEnthalpy"/>, J/mol.K of atoms.</summary>
    /// <exception cref="ChemistryRangeException">The temperature is outside the reference's data.</exception>
    public static double DissolvedHeatCapacity(Element element, double temperatureK, SolutionSet set = SolutionSet.Msts)
    {
        if (element == Element.Fe)
        {
            return LiquidIron.Value.HeatCapacity(temperatureK);
        }

        SolutionRow row = Row(element, set);
        return row.ReferenceMoles * row.Reference.HeatCapacity(temperatureK);
    }

    /// <summary>Absolute Gibbs energy of an element in the 1 mass-% Henrian state, J/mol of atoms; for iron, of pure liquid iron.</summary>
    /// <exception cref="ChemistryRangeException">The temperature is outside the row's range or the reference's data.</exception>
    public static double DissolvedGibbs(Element element, double temperatureK, SolutionSet set = SolutionSet.Msts)
    {
        if (element == Element.Fe)
        {
            return LiquidIron.Value.Gibbs(temperatureK);
        }

        SolutionRow row = Row(element, set);
        return (row.ReferenceMoles * row.Reference.Gibbs(temperatureK)) + row.Gibbs(temperatureK);
    }

    /// <summary>
    /// Absolute enthalpy of a liquid iron melt, J/kg (pure elements at 298.15 K = 0). Zero is the same as everywhere else, so the
    /// heat of solution of each element is inside.
    /// </summary>
    /// <exception cref="ChemistryRangeException">The temperature is outside the data of an element present.</exception>
    /// <exception cref="KeyNotFoundException">An element present has no solution data.</exception>
    public static double MeltEnthalpyPerKg(IronMelt melt, double temperatureK, SolutionSet set = SolutionSet.Msts)
    {
        ArgumentNullException.ThrowIfNull(melt);
        double sum = 0;
        for (int i = 0; i < AtomicWeights.Count; i++)
        {
            double percent = melt[(Element)i];
            if (percent != 0)
            {
                sum += percent * 10 / AtomicWeights.Of((Element)i) * DissolvedEnthalpy((Element)i, temperatureK, set);
            }
        }

        return sum;
    }

    private static readonly Lazy<Substance> LiquidIron = new(() => Substances.Get("Fe(l)"));

    private static SolutionRow[] Load() => [.. DataFile.ReadCsv("solution.csv").Select(r => new SolutionRow(
        r.Enumeration<Element>("solute"),
        r.Text("reference"),
        r.Number("reference_moles"),
        r.Enumeration<SolutionSet>("set"),
        r.Number("A_J_mol"),
        r.Number("B_J_molK"),
        r.Number("from_K"),
        r.Number("to_K"),
        r.Text("mark") == "from memory",
        r.Text("source"),
        r.Text("note")))];
}
