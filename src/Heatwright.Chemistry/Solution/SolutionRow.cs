// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry;

/// <summary>Which handbook's Gibbs energies of solution are meant.</summary>
public enum SolutionSet
{
    /// <summary>The Making, Shaping and Treating of Steel, ch. 2, table 2.2. The default: it covers every solute here.</summary>
    Msts,
    /// <summary>JSPS Steelmaking Data Sourcebook 1988.</summary>
    Jsps,
}

/// <summary>
/// Gibbs energy of solution of one element in liquid iron, ΔG = A + B T (J/mol of solute atoms), from a pure reference
/// substance to the 1 mass-% Henrian state.
/// </summary>
/// <param name="Solute">Dissolved element.</param>
/// <param name="ReferenceId">Identifier of the pure reference in <see cref="Substances"/>.</param>
/// <param name="ReferenceMoles">Moles of the reference per mole of solute atoms (0.5 for O2).</param>
/// <param name="Set">Handbook.</param>
/// <param name="EnthalpyJPerMol">A: the enthalpy of solution, J/mol.</param>
/// <param name="SlopeJPerMolK">B, J/mol.K.</param>
/// <param name="FromK">Least temperature, K.</param>
/// <param name="ToK">Greatest temperature, K.</param>
/// <param name="FromMemory">True when the row was recalled and not read in a source.</param>
/// <param name="Source">Publication.</param>
/// <param name="Note">Remark, may be empty.</param>
public sealed record SolutionRow(
    Element Solute,
    string ReferenceId,
    double ReferenceMoles,
    SolutionSet Set,
    double EnthalpyJPerMol,
    double SlopeJPerMolK,
    double FromK,
    double ToK,
    bool FromMemory,
    string Source,
    string Note)
{
    /// <summary>The pure reference.</summary>
    public Substance Reference { get; } = Substances.Get(ReferenceId);

    /// <summary>Gibbs energy of solution, J/mol.</summary>
    /// <exception cref="ChemistryRangeException">The temperature is outside the row's range.</exception>
    public double Gibbs(double temperatureK) => EnthalpyJPerMol + (SlopeJPerMolK
        * ChemistryRangeException.Require(temperatureK, FromK, ToK, "K", $"temperature of [{Solute}] solution ({Set})"));
}
