// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Shop.Units;

/// <summary>A unit as it is written in a file.</summary>
/// <param name="Symbol">How it is written, e.g. <c>t</c>.</param>
/// <param name="Factor">Base units per unit.</param>
/// <param name="Offset">Added to the written number before the factor is applied (273.15 for °C, else 0).</param>
/// <param name="Spellings">Other spellings that are accepted.</param>
public sealed record Unit(string Symbol, double Factor, double Offset = 0, params string[] Spellings)
{
    /// <summary>The value in base units.</summary>
    public double ToBase(double number) => (number + Offset) * Factor;

    /// <summary>The number to write for a value in base units.</summary>
    public double FromBase(double value) => (value / Factor) - Offset;
}

/// <summary>
/// What is measured. Two kinds are never mixed even where the sign is the same: mass %, volume %, a share of the planned
/// oxygen and "% of the value" are four kinds.
/// </summary>
public sealed class QuantityKind
{
    internal QuantityKind(string name, string baseUnit, string example, params Unit[] units)
    {
        Name = name;
        BaseUnit = baseUnit;
        Example = example;
        Units = units;
    }

    /// <summary>Name with which messages speak of it, e.g. "mass".</summary>
    public string Name { get; }

    /// <summary>Unit of the value inside the program.</summary>
    public string BaseUnit { get; }

    /// <summary>A value as one would write it, e.g. "132 t".</summary>
    public string Example { get; }

    /// <summary>Accepted units; the first is the one that messages propose.</summary>
    public IReadOnlyList<Unit> Units { get; }

    /// <summary>The unit with this spelling, or null.</summary>
    public Unit? Find(string spelling)
    {
        string wanted = UnitText.Normalise(spelling);
        foreach (Unit unit in Units)
        {
            if (unit.Symbol == wanted || unit.Spellings.Contains(wanted))
            {
                return unit;
            }
        }

        return null;
    }

    /// <summary>The accepted units as a phrase: "t or kg".</summary>
    public string UnitList()
    {
        string[] symbols = [.. Units.Select(u => u.Symbol)];
        return symbols.Length == 1 ? symbols[0] : string.Join(", ", symbols[..^1]) + " or " + symbols[^1];
    }

    /// <inheritdoc/>
    public override string ToString() => Name;
}

/// <summary>A value read from a file, in the base unit of its kind.</summary>
/// <param name="Value">Value in <see cref="QuantityKind.BaseUnit"/>.</param>
/// <param name="Kind">What it measures.</param>
public readonly record struct Quantity(double Value, QuantityKind Kind);
