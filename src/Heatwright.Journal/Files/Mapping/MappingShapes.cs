// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using System.Text.Json.Nodes;
using Heatwright.Journal.Files.Import;
using Heatwright.Shop.Files;
using Heatwright.Shop.Shapes;
using ShapeReading = Heatwright.Shop.Files.Reading;

namespace Heatwright.Journal.Files.Mapping;

/// <summary>A block whose names are the columns of a file: any text of one line.</summary>
internal sealed class ColumnsShape(Shape item) : Shape
{
    private const int MostColumns = 2_000;
    private const int LongestName = 200;

    public override string Example => $"(block, e.g. hot_metal_kg: {item.Example})";

    public override string Describe => $"columns of the file by name: {item.Describe}";

    public override object? Read(Node node, ShapeReading reading, string field)
    {
        if (node is not BlockNode { Entries.Count: > 0 and <= MostColumns } block)
        {
            reading.Add(
                ProblemCode.WrongShape, node, field, (node as ScalarNode)?.Text, $"{Last(field)} is a block of columns of the file.", $"1 to {MostColumns} columns",
                "write on lines below, indented: 'column name': {quantity: hot-metal.mass, unit: kg}");
            return null;
        }

        var values = new Dictionary<string, object>(StringComparer.Ordinal);
        bool good = true;
        foreach ((ScalarNode key, Node value) in block.Entries)
        {
            string path = $"{field}.{key.Text}";
            if (key.Text.Length is 0 or > LongestName)
            {
                reading.Add(ProblemCode.BadName, key, path, key.Text, "This is no name of a column.", $"1 to {LongestName} signs", "write the name as it stands in the file");
                good = false;
            }

            object? read = item.Read(value, reading, path);
            good &= read is not null;
            if (read is not null)
            {
                values[key.Text] = read;
            }
        }

        return good ? values : null;
    }

    public override JsonObject ToSchema() => new()
    {
        ["type"] = "object",
        ["propertyNames"] = new JsonObject { ["minLength"] = 1, ["maxLength"] = LongestName },
        ["additionalProperties"] = item.ToSchema(),
        ["minProperties"] = 1,
        ["maxProperties"] = MostColumns,
    };
}

/// <summary>Name of a quantity of the catalogue.</summary>
internal sealed class QuantityNameShape : Shape
{
    public override string Example => "hot-metal.mass";

    public override string Describe => "name of a quantity; `heatwright journal quantities` lists them";

    public override object? Read(Node node, ShapeReading reading, string field)
    {
        if (Scalar(node, reading, field) is not { } scalar)
        {
            return null;
        }

        string name = scalar.Text.Trim();
        if (ImportQuantity.Find(name) is { } found)
        {
            return found;
        }

        string? near = Nearest.Of(name, QuantityCatalogue.KnownNames);
        string families = string.Join(", ", ImportQuantity.Describe().Select(d => d.Name));
        reading.Add(
            ProblemCode.UnknownWord, node, field, name, $"There is no quantity '{ShapeReading.Shorten(name, 60)}'.", families,
            near is null ? "write one of the quantities named, or put the column under ignore" : $"write {near}");
        return null;
    }

    public override JsonObject ToSchema() => new()
    {
        ["type"] = "string",
        ["description"] = Describe,
        ["pattern"] = "^(" + string.Join('|', ImportQuantity.Describe().Select(d => Pattern(d.Name))) + ")$",
    };

    private static string Pattern(string name)
    {
        int open = name.IndexOf('<', StringComparison.Ordinal);
        int close = name.IndexOf('>', StringComparison.Ordinal);
        string free = open < 0 ? "" : ".+";
        return open < 0 ? Escape(name) : Escape(name[..open]) + free + Escape(name[(close + 1)..]);
    }

    private static string Escape(string text) => text.Replace(".", "\\.", StringComparison.Ordinal);
}

/// <summary>An IANA time zone that this machine knows.</summary>
internal sealed class ZoneShape : Shape
{
    public override string Example => "Europe/Berlin";

    public override string Describe => "time zone by its IANA name; `UTC` for universal time";

    public override object? Read(Node node, ShapeReading reading, string field)
    {
        if (Scalar(node, reading, field) is not { } scalar)
        {
            return null;
        }

        if (TimeZoneInfo.TryFindSystemTimeZoneById(scalar.Text.Trim(), out TimeZoneInfo? zone))
        {
            return zone.Id;
        }

        string? near = Nearest.Of(scalar.Text.Trim(), TimeZoneInfo.GetSystemTimeZones().Select(z => z.Id));
        reading.Add(
            ProblemCode.UnknownWord, node, field, scalar.Text, "There is no such time zone.", "IANA names such as Europe/Berlin, or UTC",
            near is null ? "write the zone in which the file's clock ran" : $"write {near}");
        return null;
    }

    public override JsonObject ToSchema() => new() { ["type"] = "string", ["description"] = Describe };
}

/// <summary>A local date, with or without time of day.</summary>
internal sealed class LocalTimeShape : Shape
{
    private static readonly string[] Patterns = ["yyyy-MM-dd", "yyyy-MM-dd HH:mm", "yyyy-MM-dd HH:mm:ss"];

    public override string Example => "2021-01-01 06:00";

    public override string Describe => "date, or date and time, as 2021-01-01 06:00";

    public override object? Read(Node node, ShapeReading reading, string field)
    {
        if (Scalar(node, reading, field) is not { } scalar)
        {
            return null;
        }

        if (DateTime.TryParseExact(scalar.Text.Trim(), Patterns, CultureInfo.InvariantCulture, DateTimeStyles.None, out DateTime time) && time.Year is >= 1990 and < 2200)
        {
            return time;
        }

        reading.Add(ProblemCode.NotANumber, node, field, scalar.Text, $"{Last(field)} is not a date.", "1990-01-01 to 2199-12-31", $"write {Last(field)}: {Example}");
        return null;
    }

    public override JsonObject ToSchema() => new() { ["type"] = "string", ["description"] = Describe, ["pattern"] = @"^\s*\d{4}-\d{2}-\d{2}( \d{2}:\d{2}(:\d{2})?)?\s*$" };
}

/// <summary>One sign, or the word "tab".</summary>
internal sealed class SignShape(string example, string signs) : Shape
{
    public override string Example => example;

    public override string Describe => $"one of {string.Join(' ', signs)} or the word tab";

    public override object? Read(Node node, ShapeReading reading, string field)
    {
        if (Scalar(node, reading, field) is not { } scalar)
        {
            return null;
        }

        string text = scalar.Text == "tab" ? "\t" : scalar.Text;
        if (text.Length == 1 && (signs.Contains(text[0], StringComparison.Ordinal) || text == "\t"))
        {
            return text;
        }

        reading.Add(ProblemCode.UnknownWord, node, field, scalar.Text, $"{Last(field)} is one sign.", string.Join(' ', signs) + " or tab", $"write {Last(field)}: {Example}");
        return null;
    }

    public override JsonObject ToSchema() => new() { ["enum"] = new JsonArray([.. signs.Select(s => (JsonNode)s.ToString()), "tab"]) };
}
