// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using System.Text.Json.Nodes;
using Heatwright.Shop.Files;
using Heatwright.Shop.Units;

namespace Heatwright.Shop.Shapes;

/// <summary>A text of at most so many characters.</summary>
internal sealed class TextShape(int most, string example) : Shape
{
    public override string Example => example;

    public override string Describe => $"text, at most {most} characters";

    public override object? Read(Node node, Reading reading, string field)
    {
        ScalarNode? scalar = Scalar(node, reading, field);
        if (scalar is null)
        {
            return null;
        }

        string text = scalar.Text.Trim();
        if (text.Length > most)
        {
            reading.Add(
                ProblemCode.BadName, node, field, text, $"{Last(field)} has {text.Length} characters.", $"{most} characters", "shorten it");
            return null;
        }

        return text;
    }

    public override JsonObject ToSchema() => new() { ["type"] = new JsonArray("string", "number"), ["maxLength"] = most };
}

/// <summary>A plain number without unit: a count or a ratio.</summary>
internal sealed class NumberShape(double least, double most, bool whole, string example) : Shape
{
    public override string Example => example;

    public override string Describe => $"{(whole ? "whole number" : "number")}, {UnitText.Number(least)} to {UnitText.Number(most)}";

    public override object? Read(Node node, Reading reading, string field)
    {
        ScalarNode? scalar = Scalar(node, reading, field);
        if (scalar is null)
        {
            return null;
        }

        string text = scalar.Text.Trim();
        string limit = $"{UnitText.Number(least)} to {UnitText.Number(most)}";
        if (!UnitText.TrySplit(text, out double number, out string unit))
        {
            bool infinite = text.TrimStart('+', '-', '.').ToUpperInvariant() is "NAN" or "INF" or "INFINITY";
            reading.Add(
                infinite ? ProblemCode.NotFinite : ProblemCode.NotANumber, node, field, text, $"{Last(field)} is not a number.", limit,
                $"write {Last(field)}: {example}");
            return null;
        }

        if (!scalar.Plain)
        {
            reading.Add(
                ProblemCode.NotANumber, node, field, text, $"{Last(field)} is a plain number and stands in quotes.", limit, $"write {text} without quotes");
            return null;
        }

        if (unit.Length > 0)
        {
            reading.Add(
                ProblemCode.UnexpectedUnit, node, field, text, $"{Last(field)} is a plain number without a unit.", limit,
                $"write {number.ToString("0.######", CultureInfo.InvariantCulture)}");
            return null;
        }

        if (!(number >= least && number <= most))
        {
            reading.Add(
                number < 0 && least >= 0 ? ProblemCode.Negative : ProblemCode.OutOfRange, node, field, text, $"{Last(field)} is out of range.", limit,
                $"write a value of {limit}, for example {example}");
            return null;
        }

        if (whole && number != Math.Floor(number))
        {
            reading.Add(ProblemCode.NotWhole, node, field, text, $"{Last(field)} is a whole number.", limit, $"write {Math.Round(number):0}");
            return null;
        }

        return number;
    }

    public override JsonObject ToSchema() => new()
    {
        ["type"] = whole ? "integer" : "number",
        ["minimum"] = least,
        ["maximum"] = most,
    };
}

/// <summary>One word of a list.</summary>
internal sealed class WordShape(params string[] words) : Shape
{
    public IReadOnlyList<string> Words { get; } = words;

    public override string Example => Words[0];

    public override string Describe => string.Join(", ", Words.Select(w => $"`{w}`"));

    public override object? Read(Node node, Reading reading, string field)
    {
        ScalarNode? scalar = Scalar(node, reading, field);
        if (scalar is null)
        {
            return null;
        }

        string text = scalar.Text.Trim();
        if (Words.Contains(text))
        {
            return text;
        }

        string? near = Nearest.Of(text, Words);
        reading.Add(
            ProblemCode.UnknownWord, node, field, text, $"{Last(field)} cannot be '{Reading.Shorten(text, 40)}'.", string.Join(", ", Words),
            near is null ? $"write one of: {string.Join(", ", Words)}" : $"write {near}");
        return null;
    }

    public override JsonObject ToSchema() => new() { ["enum"] = new JsonArray([.. Words.Select(w => (JsonNode)w)]) };
}

/// <summary>A name that another file defines.</summary>
internal sealed class NameShape(string what, string code, Func<References, IReadOnlyCollection<string>?> known, string example) : Shape
{
    public override string Example => example;

    public override string Describe => $"name of a {what}";

    public override object? Read(Node node, Reading reading, string field)
    {
        ScalarNode? scalar = Scalar(node, reading, field);
        return scalar is not null && Check(scalar.Text.Trim(), scalar, reading, field) ? scalar.Text.Trim() : null;
    }

    /// <summary>Notes a name that is not known.</summary>
    public bool Check(string name, Node node, Reading reading, string field)
    {
        IReadOnlyCollection<string>? names = known(reading.References);
        if (names is null || names.Contains(name))
        {
            return true;
        }

        string? near = Nearest.Of(name, names);
        string list = Reading.Shorten(string.Join(", ", names), 240);
        reading.Add(
            code, node, field, name, $"There is no {what} '{Reading.Shorten(name, 40)}'.", list,
            near is null ? $"write one of: {list}" : $"write {near}");
        return false;
    }

    public override JsonObject ToSchema() => new() { ["type"] = new JsonArray("string", "number"), ["description"] = Describe };
}
