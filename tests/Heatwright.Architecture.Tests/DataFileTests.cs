// SPDX-License-Identifier: Apache-2.0
using System.Text.Json;
using System.Text.RegularExpressions;

namespace Heatwright.Architecture.Tests;

/// <summary>
/// A number from the literature is worth its source. Data in the rooms say what they hold, in which units, and from where: a CSV
/// file in leading # lines and a source column (or a "Source: …" in those lines), a JSON file in "title", "units" and "source".
/// </summary>
public sealed partial class DataFileTests
{
    private static readonly string[] DataFiles =
        [.. Repository.Files.Where(f => f.StartsWith("src/", StringComparison.Ordinal) && f.Contains("/Data/", StringComparison.Ordinal))];

    [Fact]
    public void Every_data_file_says_where_its_numbers_come_from() =>
        Offenders.None(DataFiles.Select(f => (File: f, Fault: Fault(f, Repository.Read(f)))).Where(f => f.Fault is not null));

    [Theory]
    [InlineData("a.csv", "x,source\n1,\"Smith, 1990\"\n", "no # line")]
    [InlineData("a.csv", "# Heat in J/mol.\nx,y\n1,2\n", "no source")]
    [InlineData("a.csv", "# Heat in J/mol.\nx,source\n1,Smith 1990\n2,\n", "line 4 has no source")]
    [InlineData("a.csv", "# Heat in J/mol.\nx,source,note\n\"1,2\",\"Smith \"\"the\"\" 1990\",\n", null)]
    [InlineData("a.csv", "# Heat in J/mol.\n# Source: Smith 1990, table 2\nx,y\n1,2\n", null)]
    [InlineData("a.csv", "# Coefficients, no units. Source: Smith 1990, table 2.\nx,y\n1,2\n", null)]
    [InlineData("a.csv", "# Coefficients, no units. Source:\nx,y\n1,2\n", "no source")]
    [InlineData("a.json", """{"title": "t", "units": "K", "source": "Smith 1990"}""", null)]
    [InlineData("a.json", """{"title": "t", "source": "Smith 1990"}""", "no units")]
    [InlineData("a.json", """{"title": "t", "units": "K", "rows": [{"source": "Smith"}, {"source": " "}]}""", "no source")]
    [InlineData("a.json", """{"title": "t", "units": "K", "rows": [{"source": "Smith"}, {"source": ["A", "B"]}]}""", null)]
    [InlineData("a.bin", "x", "neither .csv nor .json")]
    public void Rule_tells_a_sourced_file_from_one_that_is_not(string file, string text, string? fault)
    {
        if (fault is null)
        {
            Assert.Null(Fault(file, text));
        }
        else
        {
            Assert.Contains(fault, Fault(file, text), StringComparison.Ordinal);
        }
    }

    private static string? Fault(string file, string text) => Path.GetExtension(file) switch
    {
        ".csv" => CsvFault(text.TrimEnd().Split('\n')),
        ".json" => JsonFault(JsonDocument.Parse(text).RootElement),
        _ => "neither .csv nor .json",
    };

    private static string? CsvFault(string[] lines)
    {
        int header = Array.FindIndex(lines, l => !l.StartsWith('#'));
        if (header <= 0)
        {
            return "no # line on what it holds and its units";
        }

        if (lines[..header].Any(l => SourceNote().IsMatch(l)))
        {
            return null;
        }

        int column = Cells(lines[header]).IndexOf("source");
        if (column < 0)
        {
            return "no source column and no 'Source: …' in a # line";
        }

        int bare = Array.FindIndex(lines, header + 1, l => string.IsNullOrWhiteSpace(Cells(l).ElementAtOrDefault(column)));
        return bare < 0 ? null : $"line {bare + 1} has no source";
    }

    private static List<string> Cells(string line)
    {
        var cells = new List<string> { string.Empty };
        bool quoted = false;
        foreach (char c in line)
        {
            if (c == '"')
            {
                quoted = !quoted;
            }
            else if (c == ',' && !quoted)
            {
                cells.Add(string.Empty);
            }
            else
            {
                cells[^1] += c;
            }
        }

        return cells;
    }

    private static string? JsonFault(JsonElement root)
    {
        if (root.ValueKind != JsonValueKind.Object || !HasText(root, "title") || !HasText(root, "units"))
        {
            return "no title or no units at its top";
        }

        bool eachRow = root.EnumerateObject()
            .Where(p => p.Value.ValueKind == JsonValueKind.Array && p.Value.GetArrayLength() > 0)
            .Any(p => p.Value.EnumerateArray().All(row => row.ValueKind == JsonValueKind.Object && HasText(row, "source")));
        return HasText(root, "source") || eachRow ? null : "no source at its top nor in each row";
    }

    private static bool HasText(JsonElement element, string name) => element.TryGetProperty(name, out JsonElement value) && value.ValueKind switch
    {
        JsonValueKind.String => !string.IsNullOrWhiteSpace(value.GetString()),
        JsonValueKind.Array => value.GetArrayLength() > 0,
        JsonValueKind.Object => value.EnumerateObject().Any(),
        _ => false,
    };

    [GeneratedRegex(@"\bSource: *\w")]
    private static partial Regex SourceNote();
}
