// SPDX-License-Identifier: Apache-2.0
using System.Text.Json;

namespace Heatwright.Cli.Tests;

public sealed class PlanTests : IDisposable
{
    private const string Ordinary = "examples/heats/ordinary.yaml";
    private readonly Terminal _terminal = new();

    public void Dispose() => _terminal.Dispose();

    [Fact]
    public void Planned_heat_can_be_written_blown_and_meets_its_order()
    {
        string easy = _terminal.Changed(Ordinary, "confidence: 90 %", "confidence: 60 %");
        string planned = "examples/heats/planned.yaml";
        string text = _terminal.Run("plan", easy, "--members", "100", "--write", planned, "--json").Ends(0).Output;
        using JsonDocument plan = JsonDocument.Parse(text);
        Assert.True(plan.RootElement.GetProperty("feasible").GetBoolean());
        using JsonDocument blow = JsonDocument.Parse(_terminal.Run("blow", planned, "--members", "20", "--json").Ends(0).Output);
        JsonElement end = blow.RootElement.GetProperty("end");
        Assert.InRange(end.GetProperty("temperatureC").GetProperty("asWritten").GetDouble(), 1639, 1671);
        Assert.InRange(end.GetProperty("carbonPercent").GetProperty("asWritten").GetDouble(), 0.029, 0.061);
        Assert.InRange(end.GetProperty("phosphorusPercent").GetProperty("asWritten").GetDouble(), 0, 0.0185);
        Assert.Equal(text, _terminal.Run("plan", easy, "--members", "100", "--json").Ends(0).Output);
    }

    [Fact]
    public void What_cannot_be_had_comes_back_with_its_reasons_and_exit_code_1()
    {
        string impossible = _terminal.Changed(Ordinary, "P: max 0.018 %", "P: max 0.0001 %");
        Ran ran = _terminal.Run("plan", impossible, "--members", "100").Ends(1);
        Assert.Contains("There is no plan that keeps every limit, because", ran.Output, StringComparison.Ordinal);
        Assert.Contains("phosphorus", ran.Output, StringComparison.Ordinal);
        Assert.Contains("not for use", ran.Output, StringComparison.Ordinal);
        using JsonDocument json = JsonDocument.Parse(_terminal.Run("plan", impossible, "--members", "100", "--json").Ends(1).Output);
        Assert.False(json.RootElement.GetProperty("feasible").GetBoolean());
        Assert.NotEmpty(json.RootElement.GetProperty("because").EnumerateArray());
    }

    [Fact]
    public void Masses_of_the_charge_are_the_same_in_every_form()
    {
        string easy = _terminal.Changed(Ordinary, "confidence: 90 %", "confidence: 60 %");
        string[] plan = ["plan", easy, "--members", "60"];
        using JsonDocument json = JsonDocument.Parse(_terminal.Run([.. plan, "--json"]).Ends(0).Output);
        string csv = _terminal.Run([.. plan, "--csv"]).Ends(0).Output;
        string table = _terminal.Run(plan).Ends(0).Output;
        foreach (JsonElement material in json.RootElement.GetProperty("charge").GetProperty("materials").EnumerateArray().Where(m => m.GetProperty("mostKg").GetDouble() > 0))
        {
            string name = material.GetProperty("material").GetString()!;
            double kg = material.GetProperty("massKg").GetDouble();
            Assert.Contains(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{name},{kg:R},kg,"), csv, StringComparison.Ordinal);
            Assert.Matches($"(?m)^{name} +{(kg / 1000).ToString("F2", System.Globalization.CultureInfo.InvariantCulture)}  t ", table);
        }
    }
}
