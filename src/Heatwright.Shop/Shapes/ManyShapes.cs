// SPDX-License-Identifier: Apache-2.0
using System.Text.Json.Nodes;
using Heatwright.Shop.Files;

namespace Heatwright.Shop.Shapes;

/// <summary>A list of like things.</summary>
internal sealed class ListShape(Shape item, int least, int most) : Shape
{
    public Shape Item { get; } = item;

    public override string Example => "(list)";

    public override string Describe => $"list of {least} to {most}: {Item.Describe}";

    public override object? Read(Node node, Reading reading, string field)
    {
        if (node is not ListNode list)
        {
            reading.Add(
                ProblemCode.WrongShape, node, field, (node as ScalarNode)?.Text, $"{Last(field)} is a list.", $"{least} to {most} entries",
                "write each entry on its own line, beginning with `- `");
            return null;
        }

        bool good = true;
        if (list.Items.Count < least || list.Items.Count > most)
        {
            good = false;
            reading.Add(
                ProblemCode.WrongCount, node, field, list.Items.Count.ToString(), $"{Last(field)} has {list.Items.Count} entries.", $"{least} to {most} entries",
                list.Items.Count < least ? "add entries" : "take entries out");
        }

        var values = new List<object>();
        for (int i = 0; i < Math.Min(list.Items.Count, most) && !reading.Full; i++)
        {
            object? value = Item.Read(list.Items[i], reading, $"{field}[{i}]");
            good &= value is not null;
            if (value is not null)
            {
                values.Add(value);
            }
        }

        return good ? values : null;
    }

    public override JsonObject ToSchema() => new()
    {
        ["type"] = "array",
        ["items"] = Item.ToSchema(),
        ["minItems"] = least,
        ["maxItems"] = most,
    };
}

/// <summary>A block whose names are free (materials, grades) or refer to another file (charge by scrap class).</summary>
internal sealed class NamedShape(Shape item, int least, int most, string exampleName, NameShape? names = null, string countCode = ProblemCode.WrongCount) : Shape
{
    /// <summary>Longest name: fits a column of a printed heat sheet.</summary>
    public const int LongestName = 40;

    private const string NamePattern = @"^[\p{L}\p{N}][\p{L}\p{N} ._()/+-]{0,39}$";

    public Shape Item { get; } = item;

    public override string Example => $"(block, e.g. {exampleName}: {Item.Example})";

    public override string Describe => $"{least} to {most} named entries: {Item.Describe}";

    public override object? Read(Node node, Reading reading, string field)
    {
        if (node is not BlockNode block)
        {
            bool empty = node is ScalarNode { IsEmpty: true };
            reading.Add(
                empty ? ProblemCode.MissingValue : ProblemCode.WrongShape, node, field, (node as ScalarNode)?.Text, $"{Last(field)} is a block of named entries.",
                $"{least} to {most} entries", $"write on lines below, indented: {exampleName}: {Item.Example}");
            return null;
        }

        bool good = true;
        if (block.Entries.Count < least || block.Entries.Count > most)
        {
            good = false;
            reading.Add(
                countCode, node, field, block.Entries.Count.ToString(), $"{Last(field)} has {block.Entries.Count} entries.", $"{least} to {most} entries",
                block.Entries.Count < least ? "add entries" : "take entries out, or put like materials together");
        }

        var values = new Dictionary<string, object>(StringComparer.Ordinal);
        foreach ((ScalarNode key, Node value) in block.Entries.Take(most))
        {
            if (reading.Full)
            {
                return null;
            }

            string path = $"{field}.{key.Text}";
            bool named = NameIsGood(key, reading, path) && (names is null || names.Check(key.Text, key, reading, path));
            object? read = Item.Read(value, reading, path);
            good &= named && read is not null;
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
        ["propertyNames"] = new JsonObject { ["pattern"] = NamePattern },
        ["additionalProperties"] = Item.ToSchema(),
        ["minProperties"] = least,
        ["maxProperties"] = most,
    };

    private static bool NameIsGood(ScalarNode key, Reading reading, string path)
    {
        string name = key.Text;
        bool good = name.Length is > 0 and <= LongestName && char.IsLetterOrDigit(name[0])
            && name.All(c => char.IsLetterOrDigit(c) || c is ' ' or '.' or '_' or '(' or ')' or '/' or '+' or '-');
        if (!good)
        {
            reading.Add(
                ProblemCode.BadName, key, path, name, "The name is too long or holds signs that names cannot have.",
                $"1 to {LongestName} letters, digits, spaces or . _ ( ) / + -, beginning with a letter or digit", "write a shorter, plain name");
        }

        return good;
    }
}

/// <summary>A block that is one of several, told apart by the word in one field.</summary>
internal sealed class VariantShape(string discriminator, params (string Word, BlockShape Shape)[] variants) : Shape
{
    public IReadOnlyList<(string Word, BlockShape Shape)> Variants { get; } = variants;

    public override string Example => $"{{{discriminator}: {Variants[0].Word}, …}}";

    public override string Describe => "one of " + string.Join(", ", Variants.Select(v => $"`{v.Word}`"));

    public override object? Read(Node node, Reading reading, string field)
    {
        if (node is not BlockNode block)
        {
            reading.Add(ProblemCode.WrongShape, node, field, (node as ScalarNode)?.Text, $"{Last(field)} is a block.", null, $"write {Example}");
            return null;
        }

        string path = field + "." + discriminator;
        if (!block.TryGet(discriminator, out _, out Node word))
        {
            reading.Add(
                ProblemCode.MissingField, node, path, null, $"{discriminator} is missing.", string.Join(", ", Variants.Select(v => v.Word)),
                $"add {discriminator}: {Variants[0].Word}");
            return null;
        }

        var words = new WordShape([.. Variants.Select(v => v.Word)]);
        return words.Read(word, reading, path) is string chosen ? Variants.First(v => v.Word == chosen).Shape.Read(node, reading, field) : null;
    }

    public override JsonObject ToSchema() => new() { ["oneOf"] = new JsonArray([.. Variants.Select(v => (JsonNode)v.Shape.ToSchema())]) };
}
