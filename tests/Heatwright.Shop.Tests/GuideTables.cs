// SPDX-License-Identifier: Apache-2.0
using System.Text;
using Heatwright.Shop.Formats;
using Heatwright.Shop.Shapes;
using Heatwright.Shop.Units;

namespace Heatwright.Shop.Tests;

/// <summary>The tables of docs/guide/files.md, made from the shapes that the loader follows.</summary>
internal static class GuideTables
{
    /// <summary>Table names in the guide and their Markdown.</summary>
    public static IReadOnlyDictionary<string, string> All { get; } = FileFormats.All
        .ToDictionary(f => f.Kind, Fields)
        .Append(KeyValuePair.Create("units", UnitTable()))
        .ToDictionary(p => p.Key, p => p.Value);

    /// <summary>The guide with every table renewed.</summary>
    public static string Renew(string guide)
    {
        foreach ((string name, string table) in All)
        {
            (string begin, string end) = ($"<!-- table {name} -->\n", "<!-- end -->");
            int from = guide.IndexOf(begin, StringComparison.Ordinal);
            int to = from < 0 ? -1 : guide.IndexOf(end, from, StringComparison.Ordinal);
            if (to < 0)
            {
                throw new InvalidOperationException($"The guide has no place for table {name}.");
            }

            guide = guide[..(from + begin.Length)] + "\n" + table + "\n" + guide[to..];
        }

        return guide;
    }

    private static string Fields(FileFormat format)
    {
        var text = new StringBuilder("| field | must | what | written |\n| --- | --- | --- | --- |\n");
        foreach (Field field in format.Shape.Fields)
        {
            Rows(text, field.Name, field.Required, field.Note, field.Shape);
        }

        return text.ToString();
    }

    private static void Rows(StringBuilder text, string path, bool required, string note, Shape shape)
    {
        switch (shape)
        {
            case BlockShape block when block.Fields.Count > 4 && block.Fields.All(f => IsMassPercent(f.Shape)):
                Row(text, path, required, note, Analysis(block));
                break;
            case BlockShape block:
                Row(text, path, required, note, "block");
                foreach (Field f in block.Fields)
                {
                    Rows(text, $"{path}.{f.Name}", f.Required, f.Note, f.Shape);
                }

                break;
            case NamedShape { Item: BlockShape item }:
                Row(text, path, required, note, "named entries");
                foreach (Field f in item.Fields)
                {
                    Rows(text, $"{path}.NAME.{f.Name}", f.Required, f.Note, f.Shape);
                }

                break;
            case NamedShape named:
                Row(text, path + ".NAME", required, note, named.Item.Describe);
                break;
            case ListShape { Item: BlockShape item }:
                Row(text, path, required, note, "list");
                foreach (Field f in item.Fields)
                {
                    Rows(text, $"{path}[].{f.Name}", f.Required, f.Note, f.Shape);
                }

                break;
            case ListShape { Item: VariantShape variants }:
                Row(text, path, required, note, "list of acts");
                foreach ((string word, BlockShape variant) in variants.Variants)
                {
                    string fields = string.Join("; ", variant.Fields.Skip(1).Select(f => $"`{f.Name}`{(f.Required ? "" : " (may be left out)")}: {f.Note}, {f.Shape.Describe}"));
                    Row(text, "… phase: " + word, false, fields.Length == 0 ? "" : fields, "block");
                }

                break;
            default:
                Row(text, path, required, note, $"{shape.Describe}; e.g. `{shape.Example}`");
                break;
        }
    }

    private static void Row(StringBuilder text, string path, bool required, string note, string written) =>
        text.Append("| `").Append(path).Append("` | ").Append(required ? "yes" : "").Append(" | ").Append(note).Append(" | ").Append(written.Replace("|", "\\|", StringComparison.Ordinal)).Append(" |\n");

    private static bool IsMassPercent(Shape shape) =>
        shape is RangeShape || (shape is QuantityShape q && q.Limits.Count == 1 && q.Limits[0].Kind == Kinds.MassPercent);

    private static string Analysis(BlockShape block)
    {
        if (block.Fields[0].Shape is RangeShape range)
        {
            return $"by element ({string.Join(", ", block.Fields.Select(f => f.Name))}): {range.Describe}; e.g. `{range.Example}`";
        }

        // Most parts share one range; those are listed without it.
        var ranges = block.Fields.Select(f => (f.Name, f.Required, ((QuantityShape)f.Shape).Limits[0].Most)).ToList();
        double usual = ranges.GroupBy(r => r.Most).OrderByDescending(g => g.Count()).First().Key;
        IEnumerable<string> parts = block.Fields.Select(f =>
        {
            QuantityLimit limit = ((QuantityShape)f.Shape).Limits[0];
            return (f.Required ? $"**{f.Name}**" : f.Name) + (limit.Most == usual ? "" : $" ({limit.Phrase(Kinds.MassPercent.Units[0])})");
        });
        return $"mass %, up to {UnitText.Number(usual)} % where not said otherwise: {string.Join(", ", parts)}";
    }

    private static string UnitTable()
    {
        var text = new StringBuilder("| kind | units | example |\n| --- | --- | --- |\n");
        foreach (QuantityKind kind in Kinds.All)
        {
            IEnumerable<string> units = kind.Units.Select(u => $"`{u.Symbol}`" + (u.Spellings.Length == 0 ? "" : $" (also {string.Join(", ", u.Spellings.Select(s => $"`{s}`"))})"));
            text.Append("| ").Append(kind.Name).Append(" | ").Append(string.Join(", ", units)).Append(" | `").Append(kind.Example).Append("` |\n");
        }

        return text.ToString();
    }
}
