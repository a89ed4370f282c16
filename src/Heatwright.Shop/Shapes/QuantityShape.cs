// SPDX-License-Identifier: Apache-2.0
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Heatwright.Shop.Files;
using Heatwright.Shop.Units;

namespace Heatwright.Shop.Shapes;

/// <summary>A number with its unit. More than one kind when the trade uses both (Nm3/min and Nm3/(t min)).</summary>
/// <param name="limits">Kind, least and most in base units.</param>
internal sealed class QuantityShape(params QuantityLimit[] limits) : Shape
{
    /// <summary>Pattern of a decimal number.</summary>
    public const string NumberPattern = @"[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?";

    public QuantityShape(QuantityKind kind, double least, double most, string? example = null)
        : this(new QuantityLimit(kind, least, most, example ?? kind.Example))
    {
    }

    public IReadOnlyList<QuantityLimit> Limits { get; } = limits;

    public override string Example => Limits[0].Example;

    public override string Describe => string.Join(" or ", Limits.Select(l => $"{l.Kind.Name}, {l.Phrase(l.ExampleUnit)}"));

    public override object? Read(Node node, Reading reading, string field)
    {
        ScalarNode? scalar = Scalar(node, reading, field);
        return scalar is null ? null : ReadText(scalar.Text, scalar, reading, field);
    }

    /// <summary>Reads the text of one quantity; the node only gives the place.</summary>
    public Quantity? ReadText(string text, Node node, Reading reading, string field)
    {
        if (!QuantityReader.TryRead(text, [.. Limits.Select(l => l.Kind)], Example, node, reading, field, out Quantity quantity, out Unit unit))
        {
            return null;
        }

        QuantityLimit limit = Limits.First(l => l.Kind == quantity.Kind);
        return limit.Check(quantity.Value, unit, text, node, reading, field) ? quantity : null;
    }

    public override JsonObject ToSchema() => new()
    {
        ["type"] = "string",
        ["description"] = Describe,
        ["pattern"] = $@"^\s*{NumberPattern}\s*({UnitPattern(Limits.Select(l => l.Kind))})\s*$",
    };

    /// <summary>Alternatives of all spellings, for a schema pattern.</summary>
    public static string UnitPattern(IEnumerable<QuantityKind> kinds) =>
        string.Join('|', kinds.SelectMany(k => k.Units).SelectMany(u => u.Spellings.Prepend(u.Symbol)).SelectMany(Variants).Distinct().Select(Escape));

    // Schema patterns are ECMA regular expressions: only the signs that they treat specially are escaped.
    private static string Escape(string unit) => Regex.Replace(unit, @"[\\^$.|?*+()\[\]{}/]", m => "\\" + m.Value, RegexOptions.None, TimeSpan.FromSeconds(1));

    private static IEnumerable<string> Variants(string unit) =>
        unit.Contains("m3", StringComparison.Ordinal) ? [unit, unit.Replace("m3", "m³", StringComparison.Ordinal)] : [unit];
}

/// <summary>A kind with its range in base units.</summary>
internal sealed record QuantityLimit(QuantityKind Kind, double Least, double Most, string Example)
{
    public QuantityLimit(QuantityKind kind, double least, double most)
        : this(kind, least, most, kind.Example)
    {
    }

    /// <summary>Unit of the example.</summary>
    public Unit ExampleUnit => UnitText.TrySplit(Example, out _, out string unit) ? Kind.Find(unit) ?? Kind.Units[0] : Kind.Units[0];

    /// <summary>The range in a unit: "1150 to 1600 °C".</summary>
    public string Phrase(Unit unit) => $"{UnitText.Number(Round(unit.FromBase(Least)))} to {UnitText.Number(Round(unit.FromBase(Most)))} {unit.Symbol}";

    /// <summary>Notes a value outside the range; the limit is shown in the unit that was written.</summary>
    public bool Check(double value, Unit unit, string written, Node node, Reading reading, string field)
    {
        // A value on the limit must pass whatever unit it was written in.
        double slack = 1e-9 * Math.Max(Math.Abs(Least), Math.Abs(Most));
        if (value >= Least - slack && value <= Most + slack)
        {
            return true;
        }

        string name = field[(field.LastIndexOf('.') + 1)..];
        if (value < 0 && Least >= 0 && unit.FromBase(value) < 0)
        {
            reading.Add(
                ProblemCode.Negative, node, field, written, $"{name} is below zero.", Phrase(unit), $"write a value of {Phrase(unit)}, for example {Example}");
            return false;
        }

        reading.Add(
            ProblemCode.OutOfRange, node, field, written, $"{name} is out of range.", Phrase(unit), $"write a value of {Phrase(unit)}, for example {Example}");
        return false;
    }

    private static double Round(double value) => double.Parse(value.ToString("G9"));
}
