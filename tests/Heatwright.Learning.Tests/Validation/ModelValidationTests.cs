// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Blow;
using Heatwright.Learning.Validation;

namespace Heatwright.Learning.Tests.Validation;

/// <summary>The whole check against a plant whose truth is known.</summary>
public sealed class ModelValidationTests
{
    private static readonly Lazy<(ValidationReport Report, IReadOnlyList<string> Steps)> Known = new(() =>
    {
        DirectoryInfo folder = Directory.CreateTempSubdirectory("heatwright-");
        try
        {
            KnownPlant.Write(folder.FullName);
            var steps = new Steps();
            return (ModelValidation.Run(folder.FullName, steps), steps.Said);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    });

    private static ValidationReport Report => Known.Value.Report;

    [Fact]
    public void Hidden_heat_loss_is_found_on_the_first_half()
    {
        Assert.Equal(KnownPlant.HiddenHeatLoss, Report.Temperature.HeatLossScale, 0.15);
        Assert.Equal(0, Report.Temperature.NotReached);
    }

    [Fact]
    public void Where_nothing_is_hidden_the_balance_errs_by_the_probe_and_beats_mean_and_regression()
    {
        Forecast balance = Report.Temperature.Balance;
        Assert.InRange(balance.Second.Rmse, 0.6 * KnownPlant.ProbeSdC, 1.5 * KnownPlant.ProbeSdC);
        Forecast Of(string name) => Report.Temperature.Forecasts.Single(f => f.Name == name);
        Assert.True(Of(TemperatureCheck.MeanName).Second.Rmse > 4 * balance.Second.Rmse);
        Assert.True(Of(TemperatureCheck.RegressionName).Second.Rmse > balance.Second.Rmse);
        Assert.InRange(Math.Abs(balance.Second.Bias), 0, 1.5 * balance.Second.BiasHalfWidth95);
    }

    /// <summary>Unsteered heats: all of an expected deviation is found, and no residual slope stands out (6 intervals of 95 %).</summary>
    [Fact]
    public void Where_nothing_is_steered_residuals_have_no_slope()
    {
        Assert.False(Report.Temperature.Steered);
        Assert.DoesNotContain("steered to their aim", Report.ToMarkdown(), StringComparison.Ordinal);
        Assert.Equal(1, Report.Temperature.TrimLeft.Value, 2 * Report.Temperature.TrimLeft.HalfWidth95);
        Assert.All(Report.Temperature.Slopes, s => Assert.InRange(Math.Abs(s.Slope.Value), 0, 1.7 * s.Slope.HalfWidth95));
        Assert.All(Report.Temperature.Pairs, p => Assert.InRange(Math.Abs(p.Measured.Value - p.Model.Value), 0, 1.7 * p.Measured.HalfWidth95));
    }

    [Fact]
    public void Input_errors_have_the_signs_of_a_heat_balance()
    {
        double Of(string input) => Report.Temperature.InputErrors.Single(e => e.Input.StartsWith(input, StringComparison.Ordinal)).EffectC;
        Assert.True(Of("hot metal mass") > 0);
        Assert.True(Of("scrap mass") < 0);
        Assert.True(Of("lime") < 0);
        Assert.InRange(Of("hot metal temperature"), 2, 8);
        Assert.True(Of("hot metal Si") > 0);
        Assert.True(Of("scrap rust") < 0);
        Assert.True(Of("end C") < 0);
    }

    /// <summary>The end carbon assumed for oxygen is the median of the other set, not the hidden one: 1 % at most.</summary>
    [Fact]
    public void Oxygen_of_the_known_plant_is_met()
    {
        Assert.InRange(Math.Abs(Report.Oxygen.BiasPercent), 0, 6);
        Assert.Equal(24, Report.Oxygen.Points.Count);
        Assert.True(Report.Oxygen.AtCarbon[0].ModelNm3PerT > Report.Oxygen.AtCarbon[1].ModelNm3PerT);
        OxygenDemand exact = OxygenCheck.Run(
            Report.Data.Oxygen, KnownPlant.EndCarbonPercent, new AssumedPlant(), ModelParameters.Default with { HeatLossScale = KnownPlant.HiddenHeatLoss });
        Assert.Equal(0, exact.Middle.Second.Rmse, 1e-6);
    }

    [Fact]
    public void Hidden_suction_and_heat_transfer_of_the_hood_are_found()
    {
        Assert.Equal(1, Report.Gas.SuctionNm3PerS / KnownPlant.HiddenSuctionNm3PerS, 0.02);
        Assert.Equal(1, Report.Gas.TransferWPerK / KnownPlant.HiddenTransferWPerK, 0.06);
        Assert.All(Report.Gas.Quantities, q => Assert.True(q.Inside, q.Name));
    }

    [Fact]
    public void Published_figures_agree_or_name_who_disagrees() =>
        Assert.All(Report.Published, p => Assert.True(p.Agrees || p.Disagreement is not null, p.Quantity));

    [Fact]
    public void Rate_falls_with_carbon_and_a_delayed_analyser_shows_more()
    {
        Assert.Equal(4, Report.Decarburisation.Rates.Count);
        for (int i = 1; i < 4; i++)
        {
            Assert.True(Report.Decarburisation.Rates[i].Model > Report.Decarburisation.Rates[i - 1].Model);
        }

        Assert.All(Report.Decarburisation.Rates, r => Assert.True(r.ModelLagged > r.Model));
    }

    [Fact]
    public void Chapter_holds_every_verdict_and_no_heat_number()
    {
        string text = Report.ToMarkdown();
        Assert.All(Report.Verdicts, v => Assert.Contains($"| {v.What} | {(v.Holds ? "yes" : "**no**")} | {v.Found} |", text, StringComparison.Ordinal));
        Assert.DoesNotContain("NaN", text, StringComparison.Ordinal);
        Assert.DoesNotMatch(@"\b6[12]00\d\d\b", text);
        Assert.Equal(text, Report.ToMarkdown());
        Assert.True(Known.Value.Steps.Count >= 5);
    }

    [Fact]
    public void Too_few_heats_are_refused_with_the_number_needed()
    {
        string message = Assert.Throws<ValidationDataException>(
            () => TemperatureCheck.Run([.. Report.Data.EndPoints.Take(20)], new AssumedPlant(), ModelParameters.Default)).Message;
        Assert.Contains("There are 20 clean heats", message, StringComparison.Ordinal);
        Assert.Contains("at least 26", message, StringComparison.Ordinal);
    }

    /// <summary>Half way between 0.2 and 0.05 % C in the logarithm is 0.1 %.</summary>
    [Fact]
    public void Moment_of_a_carbon_lies_between_points_in_the_logarithm()
    {
        BlowPoint[] course =
        [
            new() { C = 0.2, OxygenPercent = 90, TimeS = 1000, TemperatureK = 1873.15 },
            new() { C = 0.05, OxygenPercent = 100, TimeS = 1100, TemperatureK = 1923.15 },
        ];
        CarbonEndPoint at = CarbonEnd.At(course, 0.1, 16000);
        Assert.True(at.Reached);
        Assert.Equal(15200, at.OxygenNm3, 1e-6);
        Assert.Equal(1050, at.TimeS, 1e-9);
        Assert.Equal(1625, at.TemperatureC, 1e-9);
        Assert.False(CarbonEnd.At(course, 0.04, 16000).Reached);
    }

    private sealed class Steps : IProgress<string>
    {
        public List<string> Said { get; } = [];

        public void Report(string value) => Said.Add(value);
    }
}
