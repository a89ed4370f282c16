// SPDX-License-Identifier: Apache-2.0
using System.Text.Json.Nodes;
using Heatwright.Shop.Files;
using Heatwright.Shop.Units;

namespace Heatwright.Shop.Shapes;

/// <summary>A field of a block.</summary>
/// <param name="Name">Name as written.</param>
/// <param name="Shape">What may stand there.</param>
/// <param name="Note">What it means, for schema and guide.</param>
/// <param name="Required">It must be there.</param>
/// <param name="MissingCode">Code when it is not.</param>
internal sealed record Field(string Name, Shape Shape, string Note, bool Required = true, string MissingCode = ProblemCode.MissingField);

/// <summary>A block with fixed field names.</summary>
internal sealed class BlockShape(string title, params Field[] fields) : Shape
{
    public string Title { get; } = title;

    public IReadOnlyList<Field> Fields { get; } = fields;

    /// <summary>Checks across fields; run on what could be read.</summary>
    public Action<BlockValue, Reading, string>? Across { get; init; }

    /// <summary>Mends for names that people write here by mistake.</summary>
    public IReadOnlyDictionary<string, string> Hints { get; init; } = new Dictionary<string, string>();

    public override string Example => string.Join(", ", Fields.Where(f => f.Required).Take(2).Select(f => f.Name)) is { Length: > 0 } s
        ? $"(block with {s} …)"
        : $"(block: {Title})";

    public override string Describe => Title;

    public override object? Read(Node node, Reading reading, string field)
    {
        if (node is not BlockNode block)
        {
            bool empty = node is ScalarNode { IsEmpty: true };
            reading.Add(
                empty ? ProblemCode.MissingValue : ProblemCode.WrongShape, node, field, (node as ScalarNode)?.Text,
                $"{(field.Length == 0 ? "The file" : Last(field))} is a block of named fields.", string.Join(", ", Fields.Select(f => f.Name)),
                Fields.Count == 0 ? "write a block" : $"write on lines below, indented: {Fields[0].Name}: {Fields[0].Shape.Example}");
            return null;
        }

        var values = new Dictionary<string, object?>(StringComparer.Ordinal);
        bool good = true;
        foreach (Field f in Fields)
        {
            string path = field.Length == 0 ? f.Name : field + "." + f.Name;
            if (block.TryGet(f.Name, out _, out Node value))
            {
                object? read = f.Shape.Read(value, reading, path);
                good &= read is not null;
                values[f.Name] = read;
            }
            else if (f.Required)
            {
                good = false;
                string where = field.Length == 0 ? "the file" : Last(field);
                reading.Add(f.MissingCode, node, path, null, $"{f.Name} is missing in {where}: {f.Note}.", null, $"add {f.Name}: {f.Shape.Example}");
            }
        }

        good &= NoteUnknown(block, reading, field);
        var result = new BlockValue(block, values);
        int before = reading.Count;
        Across?.Invoke(result, reading, field);
        return good && reading.Count == before ? result : null;
    }

    public override JsonObject ToSchema()
    {
        var properties = new JsonObject();
        var required = new JsonArray();
        foreach (Field f in Fields)
        {
            JsonObject schema = f.Shape.ToSchema();
            schema["description"] = f.Note + (schema["description"] is JsonValue d ? $" ({d})" : "");
            properties[f.Name] = schema;
            if (f.Required)
            {
                required.Add(f.Name);
            }
        }

        var result = new JsonObject { ["type"] = "object", ["properties"] = properties, ["additionalProperties"] = false };
        if (required.Count > 0)
        {
            result["required"] = required;
        }

        return result;
    }

    private bool NoteUnknown(BlockNode block, Reading reading, string field)
    {
        bool good = true;
        foreach ((ScalarNode key, Node value) in block.Entries)
        {
            if (Fields.Any(f => f.Name == key.Text) || reading.Full)
            {
                continue;
            }

            good = false;
            string[] names = [.. Fields.Select(f => f.Name)];
            string? near = Nearest.Of(key.Text, names);
            string path = field.Length == 0 ? key.Text : field + "." + key.Text;
            reading.Add(
                ProblemCode.UnknownField, key, path, (value as ScalarNode)?.Text, $"'{Reading.Shorten(key.Text, 40)}' is not a field here.",
                string.Join(", ", names), Hints.GetValueOrDefault(key.Text) ?? (near is null ? "delete it, or use one of the fields named" : $"write {near}"));
        }

        return good;
    }
}

/// <summary>A block that was read. Optional fields that were not written give null.</summary>
internal sealed class BlockValue(BlockNode node, IReadOnlyDictionary<string, object?> values)
{
    public BlockNode Node { get; } = node;

    /// <summary>Place of a field's value, or of the block.</summary>
    public Node At(string name) => Node.TryGet(name, out _, out Node value) ? value : Node;

    /// <summary>The text of a field as written, or null.</summary>
    public string? Written(string name) => At(name) is ScalarNode s ? s.Text : null;

    public object? Get(string name) => values.GetValueOrDefault(name);

    public double? Number(string name) => Get(name) switch
    {
        Quantity q => q.Value,
        double d => d,
        _ => null,
    };

    public double Number(string name, double otherwise) => Number(name) ?? otherwise;

    public string? Text(string name) => Get(name) as string;

    public BlockValue? Block(string name) => Get(name) as BlockValue;

    public Limits? Range(string name) => Get(name) as Limits;

    public IReadOnlyList<BlockValue> Blocks(string name) => Get(name) is IReadOnlyList<object> list ? [.. list.OfType<BlockValue>()] : [];

    /// <summary>Entries of a block with free names.</summary>
    public IReadOnlyDictionary<string, object> Entries(string name) =>
        Get(name) as IReadOnlyDictionary<string, object> ?? new Dictionary<string, object>();

    /// <summary>Fields that hold plain quantities, in written order of the shape.</summary>
    public IEnumerable<(string Name, double Value)> Numbers() =>
        values.Keys.Select(k => (k, Number(k))).Where(p => p.Item2 is not null).Select(p => (p.k, p.Item2!.Value));

    /// <summary>Fields that hold ranges.</summary>
    public IEnumerable<(string Name, Limits Value)> Ranges() =>
        values.Where(p => p.Value is Limits).Select(p => (p.Key, (Limits)p.Value!));
}
