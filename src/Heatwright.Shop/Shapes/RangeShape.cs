// SPDX-License-Identifier: Apache-2.0
using System.Text.Json.Nodes;
using Heatwright.Shop.Files;
using Heatwright.Shop.Units;

namespace Heatwright.Shop.Shapes;

/// <summary>A range as one says it: <c>max 0.035 %</c>, <c>min 2 t</c>, <c>0.05 to 0.09 %</c>.</summary>
internal sealed class RangeShape(QuantityKind kind, double least, double most, string example) : Shape
{
    private readonly QuantityLimit _limit = new(kind, least, most, string.Join(' ', example.Split(' ')[^2..]));

    public override string Example => example;

    public override string Describe => $"range of {kind.Name}: max, min, or two values with `to`; within {_limit.Phrase(ExampleUnit)}";

    private Unit ExampleUnit => kind.Find(example[(example.LastIndexOf(' ') + 1)..]) ?? kind.Units[0];

    public override object? Read(Node node, Reading reading, string field)
    {
        ScalarNode? scalar = Scalar(node, reading, field);
        if (scalar is null)
        {
            return null;
        }

        string text = scalar.Text.Trim();
        if (text.StartsWith("max ", StringComparison.Ordinal))
        {
            return One(text[4..], scalar, reading, field) is { } value ? new Limits(null, value) : null;
        }

        if (text.StartsWith("min ", StringComparison.Ordinal))
        {
            return One(text[4..], scalar, reading, field) is { } value ? new Limits(value, null) : null;
        }

        int to = text.IndexOf(" to ", StringComparison.Ordinal);
        if (to < 0)
        {
            NoteNoRange(text, scalar, reading, field);
            return null;
        }

        string upperText = text[(to + 4)..];
        string lowerText = text[..to];
        if (UnitText.TrySplit(lowerText, out _, out string lowerUnit) && lowerUnit.Length == 0
            && UnitText.TrySplit(upperText, out _, out string upperUnit))
        {
            lowerText += " " + upperUnit;
        }

        double? upper = One(upperText, scalar, reading, field);
        double? lower = upper is null ? null : One(lowerText, scalar, reading, field);
        if (lower is null || upper is null)
        {
            return null;
        }

        if (lower > upper)
        {
            string last = Last(field);
            reading.Add(
                ProblemCode.RangeReversed, scalar, field, text, $"{last} begins above its end.", "lower value first",
                UnitText.TrySplit(upperText, out double end, out string unit) && UnitText.TrySplit(lowerText, out double start, out _)
                    ? $"write {UnitText.Number(end)} to {UnitText.Number(start)} {unit}"
                    : "write the lower value first");
            return null;
        }

        return new Limits(lower, upper);
    }

    public override JsonObject ToSchema()
    {
        string units = QuantityShape.UnitPattern([kind]);
        return new JsonObject
        {
            ["type"] = "string",
            ["description"] = Describe,
            ["pattern"] = $@"^\s*((max|min)\s+{QuantityShape.NumberPattern}\s*({units})|{QuantityShape.NumberPattern}\s*({units})?\s+to\s+{QuantityShape.NumberPattern}\s*({units}))\s*$",
        };
    }

    private double? One(string text, ScalarNode scalar, Reading reading, string field)
    {
        if (!QuantityReader.TryRead(text, [kind], _limit.Example, scalar, reading, field, out Quantity quantity, out Unit unit))
        {
            return null;
        }

        return _limit.Check(quantity.Value, unit, scalar.Text, scalar, reading, field) ? quantity.Value : null;
    }

    private void NoteNoRange(string text, ScalarNode scalar, Reading reading, string field)
    {
        bool plainNumber = UnitText.TrySplit(text, out _, out string unit) && unit.Length == 0;
        bool plainQuantity = plainNumber || kind.Find(unit) is not null;
        string quantity = plainNumber ? $"{text} {ExampleUnit.Symbol}" : text;
        reading.Add(
            ProblemCode.WrongShape, scalar, field, text, $"{Last(field)} is a range.", "max …, min …, or … to …",
            plainQuantity ? $"write max {quantity}, min {quantity}, or two values with `to`" : $"write {Last(field)}: {example}");
    }
}
