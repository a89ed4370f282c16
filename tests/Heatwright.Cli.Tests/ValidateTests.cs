// SPDX-License-Identifier: Apache-2.0
using System.Text.Json;

namespace Heatwright.Cli.Tests;

public sealed class ValidateTests : IDisposable
{
    private readonly Terminal _terminal = new();

    public void Dispose() => _terminal.Dispose();

    [Fact]
    public void Every_example_is_without_fault()
    {
        string[] files = [.. Directory.EnumerateFiles(_terminal.File("examples"), "*.yaml", SearchOption.AllDirectories).Select(f => Path.GetRelativePath(_terminal.Folder, f))];
        Ran ran = _terminal.Run(["validate", .. files]).Ends(0);
        Assert.All(files, f => Assert.Contains(f + ": ", ran.Output, StringComparison.Ordinal));
        Assert.DoesNotContain("unknown kind", ran.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void All_problems_of_all_files_come_at_once_with_place_value_limit_and_mend()
    {
        string heat = _terminal.Changed("examples/heats/ordinary.yaml", "Si: 0.45 %", "Si: -0.45 %");
        File.WriteAllText(_terminal.File(heat), File.ReadAllText(_terminal.File(heat)).Replace("confidence: 90 %", "confidence: 190 %", StringComparison.Ordinal));
        string practice = _terminal.Write(
            "examples/practices/bent.yaml",
            File.ReadAllText(_terminal.File("examples/practices/ordinary.yaml")).Replace("height: 2.3 m", "height: 23 m", StringComparison.Ordinal).Replace("practice: ordinary", "practice: bent", StringComparison.Ordinal));
        using JsonDocument json = JsonDocument.Parse(_terminal.Run("validate", heat, practice, "--json").Ends(2).Output);
        JsonElement[] problems = [.. json.RootElement.GetProperty("problems").EnumerateArray()];
        Assert.Contains(problems, p => p.GetProperty("file").GetString() == heat && p.GetProperty("field").GetString() == "hotMetal.analysis.Si");
        Assert.Contains(problems, p => p.GetProperty("file").GetString() == heat && p.GetProperty("field").GetString() == "order.confidence");
        Assert.Contains(problems, p => p.GetProperty("file").GetString()!.EndsWith("bent.yaml", StringComparison.Ordinal) && p.GetProperty("value").GetString() == "23 m");
        Assert.All(problems, p =>
        {
            Assert.True(p.GetProperty("line").GetInt32() > 0);
            Assert.True(p.GetProperty("column").GetInt32() > 0);
            Assert.NotEqual("", p.GetProperty("mend").GetString());
        });
    }

    [Fact]
    public void Text_names_field_value_limit_and_mend()
    {
        Ran ran = _terminal.Run("validate", _terminal.Changed("examples/heats/ordinary.yaml", "confidence: 90 %", "confidence: 190 %")).Ends(2);
        foreach (string part in new[] { "changed.yaml:", "field  order.confidence", "value  190 %", "limit  ", "mend   " })
        {
            Assert.Contains(part, ran.Output, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void File_that_is_not_there_is_a_problem_like_any_other() =>
        Assert.Contains("file-missing", _terminal.Run("validate", "nowhere.yaml").Ends(2).Output, StringComparison.Ordinal);
}
