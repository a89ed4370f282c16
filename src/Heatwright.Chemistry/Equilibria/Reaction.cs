// SPDX-License-Identifier: Apache-2.0
using System.Globalization;

namespace Heatwright.Chemistry;

/// <summary>One term of a reaction: moles (positive for products) of a pure substance or of atoms dissolved in liquid iron.</summary>
public sealed class ReactionTerm
{
    private readonly Substance? _substance;
    private readonly Element _element;
    private readonly SolutionSet _set;

    private ReactionTerm(double moles, Substance? substance, Element element, SolutionSet set)
    {
        Moles = moles;
        _substance = substance;
        _element = element;
        _set = set;
    }

    /// <summary>Stoichiometric number: positive for products, negative for reactants.</summary>
    public double Moles { get; }

    /// <summary>A pure substance of <see cref="Substances"/>.</summary>
    /// <exception cref="KeyNotFoundException">There is no such substance.</exception>
    public static ReactionTerm Pure(double moles, string substanceId) => new(moles, Substances.Get(substanceId), default, default);

    /// <summary>Atoms dissolved in liquid iron, 1 mass-% state (pure liquid iron for Fe).</summary>
    public static ReactionTerm Dissolved(double moles, Element element, SolutionSet set = SolutionSet.Msts) => new(moles, null, element, set);

    internal double Enthalpy(double t) => Moles * (_substance?.Enthalpy(t) ?? IronSolution.DissolvedEnthalpy(_element, t, _set));

    internal double Gibbs(double t) => Moles * (_substance?.Gibbs(t) ?? IronSolution.DissolvedGibbs(_element, t, _set));

    internal IEnumerable<(Element Element, double Atoms)> Atoms() => _substance is null
        ? [(_element, Moles)]
        : _substance.Atoms.Select(a => (a.Element, a.Atoms * Moles));
}

/// <summary>
/// A reaction between pure substances and elements dissolved in liquid iron: its heat, Gibbs energy and constant from the data of
/// <see cref="Substances"/> and <see cref="IronSolution"/>. Everything at the same temperature; gases at 1 bar (constants in atm
/// differ by 1.3 % per mole of gas).
/// </summary>
public sealed class Reaction
{
    private readonly ReactionTerm[] _terms;

    /// <param name="terms">Products with positive, reactants with negative moles.</param>
    /// <exception cref="ArgumentException">The elements do not balance; the message names the element and the surplus.</exception>
    public Reaction(params ReactionTerm[] terms)
    {
        ArgumentNullException.ThrowIfNull(terms);
        _terms = terms;
        foreach (IGrouping<Element, double> e in terms.SelectMany(t => t.Atoms()).GroupBy(a => a.Element, a => a.Atoms))
        {
            if (Math.Abs(e.Sum()) > 1e-9)
            {
                throw new ArgumentException($"The reaction does not balance: {e.Sum():+0.####;-0.####} atoms of {e.Key}.", nameof(terms));
            }
        }
    }

    /// <summary>
    /// Reads a reaction such as <c>[Si] + 2 [O] = SiO2</c>: substances by their identifier in <see cref="Substances"/>, dissolved atoms in
    /// brackets, numbers before them, " + " between terms.
    /// </summary>
    /// <exception cref="FormatException">The text has not one '=' or a term cannot be read.</exception>
    /// <exception cref="KeyNotFoundException">There is no such substance.</exception>
    /// <exception cref="ArgumentException">The elements do not balance.</exception>
    public static Reaction Parse(string text, SolutionSet set = SolutionSet.Msts)
    {
        ArgumentException.ThrowIfNullOrEmpty(text);
        string[] sides = text.Split(" = ");
        if (sides.Length != 2)
        {
            throw new FormatException($"'{text}' is not a reaction: it needs one ' = '.");
        }

        return new Reaction([.. Side(sides[0], -1, set), .. Side(sides[1], 1, set)]);
    }

    /// <summary>Heat of reaction, J; negative = heat given out.</summary>
    /// <exception cref="ChemistryRangeException">The temperature is outside the data of a term.</exception>
    public double Enthalpy(double temperatureK) => _terms.Sum(t => t.Enthalpy(temperatureK));

    /// <summary>Standard Gibbs energy of reaction, J.</summary>
    /// <exception cref="ChemistryRangeException">The temperature is outside the data of a term.</exception>
    public double Gibbs(double temperatureK) => _terms.Sum(t => t.Gibbs(temperatureK));

    /// <summary>log10 of the equilibrium constant.</summary>
    /// <exception cref="ChemistryRangeException">The temperature is outside the data of a term.</exception>
    public double Log10K(double temperatureK) =>
        -Gibbs(temperatureK) / (PhysicalConstants.GasConstant * temperatureK * Math.Log(10));

    private static IEnumerable<ReactionTerm> Side(string text, double sign, SolutionSet set)
    {
        foreach (string term in text.Split(" + ", StringSplitOptions.TrimEntries))
        {
            string[] parts = term.Split(' ', StringSplitOptions.RemoveEmptyEntries);
            double moles = 1;
            if (parts.Length is 0 or > 2
                || (parts.Length == 2 && !double.TryParse(parts[0], NumberStyles.Float, CultureInfo.InvariantCulture, out moles)))
            {
                throw new FormatException($"'{term}' is not a term of a reaction: write a number, a space and a substance.");
            }

            string name = parts[^1];
            if (name[0] != '[')
            {
                yield return ReactionTerm.Pure(sign * moles, name);
            }
            else if (name[^1] == ']' && Enum.TryParse(name[1..^1], out Element element))
            {
                yield return ReactionTerm.Dissolved(sign * moles, element, set);
            }
            else
            {
                throw new FormatException($"'{name}' is not a dissolved element.");
            }
        }
    }
}
