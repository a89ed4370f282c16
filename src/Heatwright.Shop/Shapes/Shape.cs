// SPDX-License-Identifier: Apache-2.0
using System.Text.Json.Nodes;
using Heatwright.Shop.Files;

namespace Heatwright.Shop.Shapes;

/// <summary>
/// What may stand in a place of a file. The loader, the published JSON Schema and the tables of the guide all come from
/// the same shapes, so they cannot disagree about a field.
/// </summary>
internal abstract class Shape
{
    /// <summary>A value as one would write it; used in mends.</summary>
    public abstract string Example { get; }

    /// <summary>What may be written, for the guide.</summary>
    public abstract string Describe { get; }

    /// <summary>Reads a value, or notes why not and returns null.</summary>
    public abstract object? Read(Node node, Reading reading, string field);

    /// <summary>JSON Schema (draft 2020-12) of the value as it looks once YAML is turned into JSON.</summary>
    public abstract JsonObject ToSchema();

    /// <summary>The scalar of the node, or null with the problem noted.</summary>
    protected ScalarNode? Scalar(Node node, Reading reading, string field)
    {
        if (node is not ScalarNode scalar)
        {
            string what = node is ListNode ? "a list" : "a block";
            reading.Add(
                ProblemCode.WrongShape, node, field, null, $"{Last(field)} is one value, and {what} is written.", "one value", $"write {Last(field)}: {Example}");
            return null;
        }

        if (scalar.IsEmpty || string.IsNullOrWhiteSpace(scalar.Text))
        {
            reading.Add(
                ProblemCode.MissingValue, node, field, scalar.Text, $"{Last(field)} has no value.", null, $"write {Last(field)}: {Example}");
            return null;
        }

        return scalar;
    }

    /// <summary>Last part of a field's path.</summary>
    protected static string Last(string field)
    {
        int dot = field.LastIndexOf('.');
        string last = dot < 0 ? field : field[(dot + 1)..];
        return last.Length == 0 ? "value" : last;
    }
}
