// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Cli.Tests;

/// <summary>Bad input through the whole program: exit code 2, the field, and how to mend it; never a stack trace.</summary>
public sealed class BadInputTests : IDisposable
{
    private const string Ordinary = "examples/heats/ordinary.yaml";
    private readonly Terminal _terminal = new();

    public void Dispose() => _terminal.Dispose();

    [Theory]
    [InlineData("temperature: 1350 °C", "temperature: 1350", "hotMetal.temperature", "write 1350 °C")]
    [InlineData("temperature: 1350 °C", "temperature: 2462 °F", "hotMetal.temperature", "°C")]
    [InlineData("temperature: 1350 °C", "temperature: 9000 °C", "hotMetal.temperature", "Allowed:")]
    [InlineData("temperature: 1350 °C", "temperature: .nan", "hotMetal.temperature", "Mend:")]
    [InlineData("C: 4.5 %", "C: 104.5 %", "hotMetal.analysis", "Mend:")]
    [InlineData("Si: 0.45 %", "Si: -0.45 %", "hotMetal.analysis.Si", "Mend:")]
    [InlineData("Si: 0.45 %", "Si: 0,45 %", "hotMetal.analysis.Si", "0.45")]
    [InlineData("Si: 0.45 %", "Si: 0.45 %\n    Si: 0.5 %", "Si", "Mend:")]
    [InlineData("grade: S235JR", "grade: S236JR", "order.grade", "S235JR")]
    [InlineData("practice: ordinary", "practice: ordinery", "practice", "ordinary")]
    [InlineData("    returns:", "    retruns:", "charge.scrap", "returns")]
    [InlineData("confidence: 90 %", "confidence: 190 %", "order.confidence", "Allowed:")]
    public void Wrong_value_is_refused_with_a_mend(string from, string to, string field, string mend)
    {
        Ran ran = _terminal.Run("blow", _terminal.Changed(Ordinary, from, to)).Ends(2);
        Assert.Empty(ran.Output);
        Assert.Contains("changed.yaml:", ran.Errors, StringComparison.Ordinal);
        Assert.Contains(field, ran.Errors, StringComparison.Ordinal);
        Assert.Contains(mend, ran.Errors, StringComparison.Ordinal);
        Assert.Contains("Mend:", ran.Errors, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", ran.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void Missing_file() => Refused("The file is not there", "blow", "no-such.yaml");

    [Fact]
    public void Empty_file() => Refused("Mend:", "blow", _terminal.Write("empty.yaml", ""));

    [Fact]
    public void Folder_in_place_of_a_file() => Refused("Mend:", "blow", "examples");

    [Fact]
    public void Truncated_file()
    {
        string text = File.ReadAllText(_terminal.File(Ordinary));
        Refused("Mend:", "blow", _terminal.Write("examples/heats/cut.yaml", text[..(text.IndexOf("analysis:", StringComparison.Ordinal) + 15)]));
    }

    [Fact]
    public void Heat_without_a_charge() => Refused("let 'heatwright plan' choose one", "blow", "examples/heats/to-be-planned.yaml");

    [Fact]
    public void Unknown_option() => Refused("--help", "blow", Ordinary, "--sead", "1");

    [Fact]
    public void Both_json_and_csv() => Refused("write one of them", "blow", Ordinary, "--json", "--csv");

    [Fact]
    public void Too_few_members() => Refused("20 to 20000", "blow", Ordinary, "--members", "3");

    [Fact]
    public void Step_of_the_table_out_of_range() => Refused("write 5 or 10", "blow", Ordinary, "--every", "0");

    [Fact]
    public void Picture_into_a_folder_that_is_not_there() => Refused("may be written", "blow", Ordinary, "--members", "20", "--svg", "nowhere/a.svg");

    [Fact]
    public void Missing_plant_file() => Refused("no-plant.yaml", "blow", Ordinary, "--plant", "no-plant.yaml");

    [Fact]
    public void No_record_of_measured_heats() => Refused("point --data at a folder", "check-model", "--data", "nowhere");

    [Fact]
    public void No_command() => Refused("--help");

    private void Refused(string mend, params string[] arguments)
    {
        Ran ran = _terminal.Run(arguments).Ends(2);
        Assert.Contains(mend, ran.Errors, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", ran.Errors, StringComparison.Ordinal);
    }
}
