// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;
using System.CommandLine.Parsing;
using Heatwright.Shop.Units;

namespace Heatwright.Cli.Input;

/// <summary>Options that are quantities: a number with its unit, or a bare number in a unit that the help names.</summary>
internal static class Amount
{
    /// <summary>An option in the base unit of its kind.</summary>
    /// <param name="name">Name with dashes.</param>
    /// <param name="kind">What it measures.</param>
    /// <param name="bareUnit">Unit of a number without one.</param>
    /// <param name="least">Least, in the bare unit.</param>
    /// <param name="most">Most, in the bare unit.</param>
    /// <param name="example">For the help.</param>
    /// <param name="description">For the help.</param>
    public static Option<double?> Option(string name, QuantityKind kind, string bareUnit, double least, double most, string example, string description)
    {
        Unit bare = kind.Find(bareUnit)!;
        return new Option<double?>(name)
        {
            Description = description,
            HelpName = example,
            CustomParser = result => Parse(result, name, kind, bare, least, most),
        };
    }

    /// <summary>An argument in the base unit of its kind.</summary>
    public static Argument<double> Argument(string name, QuantityKind kind, string bareUnit, double least, double most, string example, string description)
    {
        Unit bare = kind.Find(bareUnit)!;
        return new Argument<double>(name)
        {
            Description = $"{description} For example {example}; a bare number is in {bare.Symbol}.",
            CustomParser = result => Parse(result, name, kind, bare, least, most) ?? 0,
        };
    }

    private static double? Parse(ArgumentResult result, string name, QuantityKind kind, Unit bare, double least, double most)
    {
        string text = result.Tokens.Count == 1 ? result.Tokens[0].Value : "";
        if (text.Contains(',', StringComparison.Ordinal))
        {
            result.AddError($"{name}: '{text}' has a comma. Mend: write a decimal point and no thousands sign, for example {name} \"{kind.Example}\".");
            return null;
        }

        if (!UnitText.TrySplit(text, out double number, out string unitText))
        {
            result.AddError($"{name}: '{text}' is not a number with a unit. Mend: write {name} \"{kind.Example}\", or a bare number in {bare.Symbol}.");
            return null;
        }

        Unit? unit = unitText.Length == 0 ? bare : kind.Find(unitText);
        if (unit is null)
        {
            result.AddError($"{name}: '{unitText}' is not a unit of {kind.Name}. Mend: write {kind.UnitList()}, for example {name} \"{kind.Example}\".");
            return null;
        }

        double value = unit.ToBase(number);
        double shown = bare.FromBase(value);
        if (!(shown >= least && shown <= most))
        {
            result.AddError(
                $"{name}: {UnitText.Number(shown)} {bare.Symbol} lies outside {UnitText.Number(least)} to {UnitText.Number(most)} {bare.Symbol}. Mend: check the number and its unit.");
            return null;
        }

        return value;
    }
}
