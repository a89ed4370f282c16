// SPDX-License-Identifier: Apache-2.0
using System.Text.Json;

namespace Heatwright.Cli.Tests;

public sealed class CorrectTests : IDisposable
{
    private const string Ordinary = "examples/heats/ordinary.yaml";
    private readonly Terminal _terminal = new();

    public void Dispose() => _terminal.Dispose();

    /// <summary>Units: a bare number and the same with its unit are the same question.</summary>
    [Fact]
    public void Quantities_may_carry_their_units()
    {
        string bare = Correct("--at", "82", "--temperature", "1570", "--carbon", "0.38").Ends(0).Output;
        Assert.Equal(bare, Correct("--at", "82%", "--temperature", "1570 °C", "--carbon", "0.38 %").Ends(0).Output);
        Assert.Equal(bare, Correct("--at", "82 %", "--temperature", "1843.15 K", "--carbon", "3800 ppm").Ends(0).Output);
    }

    [Fact]
    public void Hotter_reading_foretells_a_hotter_end_of_the_blow_to_plan()
    {
        JsonElement hot = ToPlan("1560"), cold = ToPlan("1535");
        Assert.True(hot.GetProperty("temperatureC").GetDouble() > cold.GetProperty("temperatureC").GetDouble() + 5);
        Assert.InRange(hot.GetProperty("probabilityWindow").GetDouble(), 0, 1);
    }

    [Fact]
    public void Best_option_stands_first_and_is_no_worse_than_the_plan()
    {
        using JsonDocument json = JsonDocument.Parse(Correct("--temperature", "1550", "--json").Ends(0).Output);
        double[] odds = [.. json.RootElement.GetProperty("options").EnumerateArray().Select(o => o.GetProperty("probabilityWindow").GetDouble())];
        Assert.All(odds, o => Assert.True(odds[0] >= o - 0.005));
    }

    [Fact]
    public void Reading_that_does_not_fit_the_charge_is_doubted()
    {
        Ran ran = Correct("--at", "82%", "--temperature", "1680", "--carbon", "0.38");
        Assert.InRange(ran.ExitCode, 0, 1);
        Assert.Contains("Check the reading", ran.Output.ReplaceLineEndings(" "), StringComparison.Ordinal);
    }

    /// <summary>Far beyond scatter and instrument there is nothing to follow, in any form of the answer.</summary>
    [Theory]
    [InlineData("1550", "3")]
    [InlineData("1680", "0.48")]
    public void Absurd_reading_gives_no_option(string temperature, string carbon)
    {
        string[] reading = ["--at", "82%", "--temperature", temperature, "--carbon", carbon];
        Assert.Contains("No advice", Correct(reading).Ends(1).Output, StringComparison.Ordinal);
        using JsonDocument json = JsonDocument.Parse(Correct([.. reading, "--json"]).Ends(1).Output);
        Assert.Empty(json.RootElement.GetProperty("options").EnumerateArray());
    }

    [Fact]
    public void Temperature_alone_is_enough_where_the_carbon_reading_failed() =>
        Assert.DoesNotContain("Carbon  ", Correct("--temperature", "1570").Ends(0).Output, StringComparison.Ordinal);

    [Theory]
    [InlineData("--temperature", "1570 F", "write °C or K")]
    [InlineData("--temperature", "2900", "lies outside 1300 to 1800 °C")]
    [InlineData("--temperature", "warm", "1385 °C")]
    [InlineData("--temperature", "NaN", "not a number")]
    [InlineData("--carbon", "-0.1", "lies outside")]
    [InlineData("--carbon", "0,48", "decimal point")]
    [InlineData("--at", "182%", "lies outside 50 to 99 %")]
    public void Wrong_quantity_names_option_limit_and_mend(string option, string value, string part)
    {
        string[] rest = option == "--temperature" ? [] : ["--temperature", "1570"];
        Ran ran = Correct([option, value, .. rest]).Ends(2);
        Assert.Contains(option, ran.Errors, StringComparison.Ordinal);
        Assert.Contains(part, ran.Errors, StringComparison.Ordinal);
        Assert.Contains("Mend:", ran.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void Temperature_is_asked_for() => Assert.Contains("--temperature", Correct().Ends(2).Errors, StringComparison.Ordinal);

    private Ran Correct(params string[] arguments) => _terminal.Run(["correct", Ordinary, "--members", "300", .. arguments]);

    private JsonElement ToPlan(string temperature)
    {
        using JsonDocument json = JsonDocument.Parse(Correct("--temperature", temperature, "--json").Ends(0).Output);
        return json.RootElement.GetProperty("options").EnumerateArray()
            .Single(o => o.GetProperty("coolant").ValueKind == JsonValueKind.Null && Math.Abs(o.GetProperty("endOxygenPercentOfPlan").GetDouble() - 100) < 1e-6).Clone();
    }
}
