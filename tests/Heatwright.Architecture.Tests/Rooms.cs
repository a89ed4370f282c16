// SPDX-License-Identifier: Apache-2.0
using System.Reflection;

namespace Heatwright.Architecture.Tests;

/// <summary>A project under src, and what it may use.</summary>
/// <param name="Name">Name of the project.</param>
/// <param name="AssemblyName">Name of what it builds.</param>
/// <param name="MayUse">Rooms below it.</param>
/// <param name="Packages">Packages it may reference itself.</param>
public sealed record Room(string Name, string AssemblyName, string[] MayUse, string[] Packages)
{
    public Assembly Load() => Assembly.LoadFrom(Path.Combine(AppContext.BaseDirectory, AssemblyName + ".dll"));

    public override string ToString() => Name;
}

/// <summary>The house: which room stands on which. A new arrow is a decision, written here and in docs/decisions.</summary>
public static class Rooms
{
    private static readonly string[] Heat = ["Heatwright.Converter", "Heatwright.Chemistry"];

    public static readonly Room[] All =
    [
        new("Heatwright.Chemistry", "Heatwright.Chemistry", [], []),
        new("Heatwright.Converter", "Heatwright.Converter", ["Heatwright.Chemistry"], []),
        new("Heatwright.Optimise", "Heatwright.Optimise", Heat, ["Google.OrTools"]),
        new("Heatwright.Shop", "Heatwright.Shop", Heat, ["YamlDotNet", "JsonSchema.Net"]),
        new("Heatwright.Learning", "Heatwright.Learning", ["Heatwright.Shop", .. Heat], ["MathNet.Numerics", "Sep"]),
        new(
            "Heatwright.Journal",
            "Heatwright.Journal",
            ["Heatwright.Shop", .. Heat],
            ["Microsoft.Data.Sqlite", "Dapper", "Npgsql", "Sep", "MiniExcel", "SpreadCheetah", "Parquet.Net", "System.IO.Hashing"]),
        new("Heatwright.Reports", "Heatwright.Reports", ["Heatwright.Learning", "Heatwright.Shop", .. Heat], ["ScottPlot"]),
        new(
            "Heatwright.Cli",
            "heatwright",
            ["Heatwright.Reports", "Heatwright.Journal", "Heatwright.Learning", "Heatwright.Shop", "Heatwright.Optimise", .. Heat],
            ["System.CommandLine", "Spectre.Console"]),
    ];

    /// <summary>The rooms that compute a heat: same input, same answer, and nothing else happens.</summary>
    public static readonly Room[] Pure = [All[0], All[1]];

    /// <summary>Every pair (room, room that it must not know).</summary>
    public static TheoryData<string, string> ForbiddenArrows()
    {
        var data = new TheoryData<string, string>();
        foreach (Room room in All)
        {
            foreach (Room other in All.Where(o => o != room && !room.MayUse.Contains(o.Name)))
            {
                data.Add(room.Name, other.Name);
            }
        }

        return data;
    }

    public static TheoryData<string> PureNames() => [.. Pure.Select(r => r.Name)];

    public static TheoryData<string> Names() => [.. All.Select(r => r.Name)];

    public static Room Named(string name) => All.Single(r => r.Name == name);
}
