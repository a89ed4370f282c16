// SPDX-License-Identifier: Apache-2.0
using System.Text.Json.Nodes;
using Heatwright.Shop.Files;
using Heatwright.Shop.Shapes;
using Heatwright.Shop.Units;

namespace Heatwright.Shop.Formats;

/// <summary>A kind of file: its shape and what it becomes.</summary>
/// <param name="Kind">Word in the field <c>kind</c>.</param>
/// <param name="Title">One line for the guide.</param>
/// <param name="Shape">Shape of the file.</param>
internal sealed record FileFormat(string Kind, string Title, BlockShape Shape)
{
    /// <summary>Version of the formats.</summary>
    public const int Version = 1;

    /// <summary>Fields that begin each file.</summary>
    public static Field[] Head(string kind) =>
    [
        new("kind", new WordShape(kind), "kind of file"),
        new("format", new NumberShape(Version, Version, whole: true, "1"), "version of the format"),
        new("note", new TextShape(2000, "Invented for the demonstration."), "remark", Required: false),
    ];

    /// <summary>Reads bytes. The value is null when there is any problem.</summary>
    public BlockValue? Read(ReadOnlySpan<byte> bytes, Reading reading)
    {
        Node? node = NodeReader.Read(bytes, reading);
        if (node is null)
        {
            return null;
        }

        if (node is BlockNode block && block.TryGet("kind", out _, out Node kind) && kind is ScalarNode { IsEmpty: false } k && k.Text != Kind)
        {
            reading.Add(
                ProblemCode.WrongFileKind, kind, "kind", k.Text, $"This is not a {Kind} file.", Kind,
                FileFormats.All.Any(f => f.Kind == k.Text) ? $"use this file where a {k.Text} file is asked for, or write {Kind}" : $"write {Kind}");
            return null;
        }

        if (node is BlockNode top && top.TryGet("format", out _, out Node format) && format is ScalarNode { IsEmpty: false } f
            && UnitText.TrySplit(f.Text, out double version, out string unit) && unit.Length == 0 && version != Version)
        {
            reading.Add(
                ProblemCode.UnknownFormat, format, "format", f.Text, $"Format {Reading.Shorten(f.Text, 20)} is not known to this version.", $"{Version}",
                $"write {Version}, or use the version of the program that wrote the file");
            return null;
        }

        var value = Shape.Read(node, reading, "") as BlockValue;
        return reading.Count == 0 ? value : null;
    }

    /// <summary>The published JSON Schema of the file.</summary>
    public JsonObject ToSchema()
    {
        JsonObject body = Shape.ToSchema();
        var schema = new JsonObject
        {
            ["$schema"] = "https://json-schema.org/draft/2020-12/schema",
            ["$id"] = $"urn:heatwright:schema:{Kind}:{Version}",
            ["title"] = Title,
        };
        foreach ((string name, JsonNode? node) in body.ToList())
        {
            body.Remove(name);
            schema[name] = node;
        }

        return schema;
    }
}

/// <summary>All kinds of file.</summary>
internal static class FileFormats
{
    /// <summary>In the order in which they build on one another.</summary>
    public static IReadOnlyList<FileFormat> All { get; } =
        [PlantFormat.Format, MaterialsFormat.Format, GradesFormat.Format, PracticeFormat.Format, HeatFormat.Format];
}
