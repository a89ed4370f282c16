// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Learning.Validation;

/// <summary>One claim about the model and whether it holds.</summary>
/// <param name="What">Claim.</param>
/// <param name="Holds">True when it holds on the data read.</param>
/// <param name="Found">Figures.</param>
public sealed record Verdict(string What, bool Holds, string Found);

/// <summary>Everything found. <see cref="ToMarkdown"/> writes the handbook's chapter; the pictures are drawn from the same figures.</summary>
public sealed record ValidationReport(
    MeasuredHeats Data,
    TemperatureResult Temperature,
    OxygenDemand Oxygen,
    DecarburisationResult Decarburisation,
    HoodGasResult Gas,
    ConsumptionResult Consumption,
    IReadOnlyList<PublishedFigure> Published)
{
    /// <summary>The claims, in the order of the chapter.</summary>
    public IReadOnlyList<Verdict> Verdicts
    {
        get
        {
            TemperatureResult t = Temperature;
            Forecast Of(string name) => t.Forecasts.Single(f => f.Name == name);
            double mean = Of(TemperatureCheck.MeanName).Second.Rmse;
            double least = Of(TemperatureCheck.RegressionName).Second.Rmse;
            double balance = t.Balance.Second.Rmse;
            double trimmed = Of(TemperatureCheck.TrimmedName).Second.Rmse;
            bool Rates(Func<RateAtEnd, double> of) => Decarburisation.Rates.All(r => r.InsideWide(of(r)));
            string RateText(Func<RateAtEnd, double> of) => string.Join(", ", Decarburisation.Rates.Select(r => $"{r.Class.CarbonPercent:0.000} %: {of(r):0.00}"));
            return
            [
                new("End temperature: RMSE of the balance, one fitted number, no worse than least squares on the same inputs", balance <= least, $"{balance:0.0} against {least:0.0} °C"),
                new("The same beside the mean of the first half (within a tenth)", balance <= 1.1 * mean, $"{balance:0.0} against {mean:0.0} °C"),
                new("With two more fitted numbers, the mean and the share of the expected deviation that the crew leaves: no worse than least squares and beside the mean", trimmed <= least && trimmed <= 1.1 * mean, $"{trimmed:0.0} °C"),
                new("Oxygen per tonne: bias within 2 %, nothing fitted to oxygen", Math.Abs(Oxygen.BiasPercent) <= 2, $"{Oxygen.BiasPercent:+0.0;−0.0} %"),
                new($"Decarburisation at the end inside the published quartiles over mid-blow ({DecarburisationCheck.MidBlowLeast:0}–{DecarburisationCheck.MidBlowMost:0} %), no analyser delay", Rates(r => r.Model), RateText(r => r.Model)),
                new($"The same with a delay of {DecarburisationCheck.LagS:0} s", Rates(r => r.ModelLagged), RateText(r => r.ModelLagged)),
                new("Gas after air entry mid-blow inside the published quartiles (CO, CO2, N2, O2, temperature)", Gas.Quantities.All(q => q.Inside), string.Join(", ", Gas.Quantities.Select(q => $"{q.Name} {q.MidBlow:0.0}"))),
                new("Consumption of an ordinary heat inside the published ranges", Consumption.Rows.All(r => r.Inside), Outside(Consumption.Rows.Where(r => !r.Inside).Select(r => r.Name))),
                new(
                    "Published equilibria and properties met within their tolerance, listed disagreements of sources apart",
                    Published.All(p => p.Agrees || p.Disagreement is not null),
                    $"{Published.Count(p => p.Agrees)} of {Published.Count}; sources differ on {Published.Count(p => !p.Agrees && p.Disagreement is not null)}"),
            ];
        }
    }

    /// <summary>The chapter as Markdown. Pictures are linked as <c>pictures/NAME</c>.</summary>
    public string ToMarkdown() => ValidationText.Of(this);

    private static string Outside(IEnumerable<string> names)
    {
        string[] all = [.. names];
        return all.Length == 0 ? "all inside" : "outside: " + string.Join(", ", all);
    }
}
