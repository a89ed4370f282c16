// SPDX-License-Identifier: Apache-2.0
using System.Text.Json;
using Heatwright.Reports.Heats;

namespace Heatwright.Cli.Tests;

public sealed class ExplainTests : IDisposable
{
    private const string Ordinary = "examples/heats/ordinary.yaml";
    private readonly Terminal _terminal = new();

    public void Dispose() => _terminal.Dispose();

    [Fact]
    public void Terms_add_up_to_the_end_temperature_of_the_blow()
    {
        using JsonDocument explain = JsonDocument.Parse(_terminal.Run("explain", Ordinary, "--members", "20", "--json").Ends(0).Output);
        using JsonDocument blow = JsonDocument.Parse(_terminal.Run("blow", Ordinary, "--members", "20", "--json").Ends(0).Output);
        JsonElement account = explain.RootElement.GetProperty("heatAccount");
        double sum = account.GetProperty("hotMetalTemperatureC").GetDouble() + account.GetProperty("terms").EnumerateArray().Sum(t => t.GetProperty("temperatureK").GetDouble());
        Assert.Equal(blow.RootElement.GetProperty("end").GetProperty("temperatureC").GetProperty("asWritten").GetDouble(), sum, 1e-3);
        double iron = explain.RootElement.GetProperty("ironAccount").EnumerateArray().Sum(t => t.GetProperty("ironKg").GetDouble());
        Assert.Equal(0, iron, 1e-2);
    }

    [Fact]
    public void Table_shows_accounts_and_what_a_change_does()
    {
        string output = _terminal.Run("explain", Ordinary, "--members", "20").Ends(0).Output;
        foreach (string part in (string[])["C to CO", "end of blow", "Where the oxygen went", "Where the iron came from and went", "hot metal 10 K hotter", "100 Nm³ more oxygen"])
        {
            Assert.Contains(part, output, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Every_quantity_named_in_the_help_has_formula_and_source()
    {
        string help = _terminal.Run("explain", "--help").Ends(0).Output;
        Assert.All(Explanations.All, e => Assert.Contains(e.Key, help, StringComparison.Ordinal));
        foreach (string key in (string[])["temperature", "phosphorus", "foam"])
        {
            string output = _terminal.Run("explain", Ordinary, key, "--members", "20").Ends(0).Output;
            Assert.Contains("Formula: ", output, StringComparison.Ordinal);
            Assert.Contains("Source:  ", output, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Unknown_quantity_is_answered_with_the_list()
    {
        Ran ran = _terminal.Run("explain", Ordinary, "weather").Ends(2);
        Assert.Contains("'weather'", ran.Errors, StringComparison.Ordinal);
        Assert.Contains("temperature, carbon, phosphorus", ran.Errors, StringComparison.Ordinal);
    }
}
