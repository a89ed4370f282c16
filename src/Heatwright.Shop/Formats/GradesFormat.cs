// SPDX-License-Identifier: Apache-2.0
using Heatwright.Shop.Shapes;

namespace Heatwright.Shop.Formats;

/// <summary>grades.yaml.</summary>
internal static class GradesFormat
{
    private static readonly BlockShape GradeShape = new(
        "a grade",
        new("standard", new TextShape(120, "EN 10025-2:2004"), "standard and edition"),
        new("table", new TextShape(120, "Table 2"), "place in the standard", Required: false),
        new("source", new TextShape(400, "where the limits were read"), "where the limits were read"),
        new("status", new WordShape("table", "memory"), "`table`: read in a published table; `memory`: check against the standard before use"),
        new("ladle", AnalysisShapes.Ranges("limits of the ladle analysis"), "limits of the ladle analysis"),
        new("note", new TextShape(400, "Nb max 0.05 %"), "limits that are not by element, and remarks", Required: false));

    public static readonly FileFormat Format = new("grades", "Steel grades and their limits", new BlockShape(
        "grades",
        [
            .. FileFormat.Head("grades"),
            new("grades", new NamedShape(GradeShape, 1, 400, "S235JR"), "grades by name"),
        ]));

    public static IReadOnlyDictionary<string, Grade> Map(BlockValue v) =>
        v.Entries("grades").ToDictionary(p => p.Key, p => MapGrade(p.Key, (BlockValue)p.Value));

    private static Grade MapGrade(string id, BlockValue v) => new(
        id,
        v.Text("standard")!,
        v.Text("table"),
        v.Text("source")!,
        v.Text("status") == "table" ? GradeStatus.Table : GradeStatus.Memory,
        AnalysisShapes.ToRanges(v.Block("ladle")),
        v.Text("note"));
}
