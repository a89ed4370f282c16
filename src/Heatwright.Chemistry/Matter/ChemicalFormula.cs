// SPDX-License-Identifier: Apache-2.0
using System.Globalization;

namespace Heatwright.Chemistry;

/// <summary>Reads formulas such as <c>CaMg(CO3)2</c> or <c>Fe0.947O</c> into atoms per formula unit.</summary>
public static class ChemicalFormula
{
    /// <summary>Atoms per formula unit, in order of first appearance.</summary>
    /// <exception cref="FormatException">The text is not a formula of the elements of <see cref="Element"/>.</exception>
    public static IReadOnlyList<(Element Element, double Atoms)> Parse(string formula)
    {
        ArgumentException.ThrowIfNullOrEmpty(formula);
        var atoms = new List<(Element Element, double Atoms)>();
        int at = 0;
        ReadGroup(formula, ref at, 1, atoms);
        return at == formula.Length ? atoms : throw Bad(formula, at);
    }

    /// <summary>Molar mass in g/mol by <see cref="AtomicWeights"/>.</summary>
    public static double MolarMass(string formula) => Parse(formula).Sum(a => a.Atoms * AtomicWeights.Of(a.Element));

    private static void ReadGroup(string text, ref int at, double times, List<(Element Element, double Atoms)> atoms)
    {
        while (at < text.Length && text[at] != ')')
        {
            if (text[at] == '(')
            {
                var inner = new List<(Element Element, double Atoms)>();
                at++;
                ReadGroup(text, ref at, 1, inner);
                if (at >= text.Length)
                {
                    throw Bad(text, at);
                }

                at++;
                double count = ReadCount(text, ref at);
                foreach ((Element e, double n) in inner)
                {
                    Add(atoms, e, n * count * times);
                }
            }
            else
            {
                Element e = ReadElement(text, ref at);
                Add(atoms, e, ReadCount(text, ref at) * times);
            }
        }
    }

    private static Element ReadElement(string text, ref int at)
    {
        int length = at + 1 < text.Length && char.IsAsciiLetterLower(text[at + 1]) ? 2 : 1;
        if (char.IsAsciiLetterUpper(text[at]) && Enum.TryParse(text.AsSpan(at, length), out Element element))
        {
            at += length;
            return element;
        }

        throw Bad(text, at);
    }

    private static double ReadCount(string text, ref int at)
    {
        int start = at;
        while (at < text.Length && (char.IsAsciiDigit(text[at]) || text[at] == '.'))
        {
            at++;
        }

        return at == start ? 1 : double.Parse(text.AsSpan(start, at - start), CultureInfo.InvariantCulture);
    }

    private static void Add(List<(Element Element, double Atoms)> atoms, Element element, double count)
    {
        int i = atoms.FindIndex(a => a.Element == element);
        if (i < 0)
        {
            atoms.Add((element, count));
        }
        else
        {
            atoms[i] = (element, atoms[i].Atoms + count);
        }
    }

    private static FormatException Bad(string text, int at) => new($"'{text}' is not a chemical formula: unexpected text at position {at}.");
}
