// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using System.Reflection;
using System.Text;
using System.Text.Json;

namespace Heatwright.Tests;

/// <summary>One row of a table of check values: input, expected output, tolerance, source, and how far the row can be trusted.</summary>
/// <param name="Id">Name of the row.</param>
/// <param name="Inputs">Arguments by name, and the name of the function under "fn".</param>
/// <param name="Expected">Expected value.</param>
/// <param name="Tolerance">Largest distance allowed.</param>
/// <param name="Source">Published source.</param>
/// <param name="Status">"table" and "worked-example" are independent of the formula; the others prove the implementation of a formula only.</param>
internal sealed record CheckRow(string Id, JsonElement Inputs, double Expected, double Tolerance, string Source, string Status)
{
    /// <summary>True when the expected value does not come from the formula itself.</summary>
    public bool IsIndependent => Status is "table" or "worked-example";

    /// <summary>Name of the function.</summary>
    public string Function => Inputs.GetProperty("fn").GetString()!;

    /// <summary>A numeric argument.</summary>
    public double this[string name] => Inputs.GetProperty(name).GetDouble();
}

/// <summary>Reads the tables that lie beside the tests as embedded resources.</summary>
internal static class CheckRows
{
    /// <summary>Rows of a table of check values.</summary>
    public static IReadOnlyList<CheckRow> Read(string fileName) =>
        [.. ReadTable(fileName).Select(r => new CheckRow(
            r["id"],
            JsonDocument.Parse(r["inputs"]).RootElement,
            double.Parse(r["expected"], CultureInfo.InvariantCulture),
            double.Parse(r["tolerance"], CultureInfo.InvariantCulture),
            r["source"],
            r["status"]))];

    /// <summary>Rows of a comma-separated table by column name. Quotes as in RFC 4180; no line breaks inside a field.</summary>
    public static IReadOnlyList<IReadOnlyDictionary<string, string>> ReadTable(string fileName)
    {
        Assembly assembly = typeof(CheckRows).Assembly;
        string name = assembly.GetManifestResourceNames().Single(n => n.EndsWith("." + fileName, StringComparison.Ordinal));
        using var reader = new StreamReader(assembly.GetManifestResourceStream(name)!);
        List<string> header = Split(reader.ReadLine()!);
        var rows = new List<IReadOnlyDictionary<string, string>>();
        while (reader.ReadLine() is { } line)
        {
            rows.Add(header.Zip(Split(line)).ToDictionary(p => p.First, p => p.Second, StringComparer.Ordinal));
        }

        return rows;
    }

    private static List<string> Split(string line)
    {
        var fields = new List<string>();
        var field = new StringBuilder();
        bool quoted = false;
        for (int i = 0; i < line.Length; i++)
        {
            char c = line[i];
            if (c == '"')
            {
                if (quoted && i + 1 < line.Length && line[i + 1] == '"')
                {
                    field.Append('"');
                    i++;
                }
                else
                {
                    quoted = !quoted;
                }
            }
            else if (c == ',' && !quoted)
            {
                fields.Add(field.ToString());
                field.Clear();
            }
            else
            {
                field.Append(c);
            }
        }

        fields.Add(field.ToString());
        return fields;
    }
}
