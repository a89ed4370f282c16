// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Blow;
using Heatwright.Journal.Demo;
using Heatwright.Journal.Entries;
using Heatwright.Shop;

namespace Heatwright.Journal.Tests.Demo;

/// <summary>The hidden plant differs from the model, drifts, and errs at its rates.</summary>
[Collection(FilledYear.Name)]
public sealed class HiddenPlantTests(FilledYear year)
{
    private static readonly DemoOptions Whole = new();

    private static readonly Lazy<(DemoSchedule Schedule, IReadOnlyList<HiddenHeat> Hidden)> WholeYear = new(() =>
    {
        var schedule = DemoSchedule.Of(Whole);
        return (schedule, HiddenCourse.Of(Whole, schedule, ShopLoader.DemonstrationWorks));
    });

    /// <summary>Following must not be a tautology: the model run with what was weighed does not give what came out.</summary>
    [Fact]
    public void The_model_with_its_starting_parameters_misses_the_plant_by_more_than_probes_err()
    {
        double[] offK = [.. year.Heats.Select(h => h.AsBlown.TemperatureK - h.Ends[0].TemperatureK)];
        double mean = offK.Average();
        double deviation = Math.Sqrt(offK.Average(o => (o - mean) * (o - mean)));
        Assert.InRange(deviation, 9, 25);
        double logP = Math.Sqrt(year.Heats.Average(h => Math.Pow(Math.Log(h.AsBlown.P / h.Ends[0].PhosphorusPercent), 2)));
        Assert.InRange(logP, 0.08, 0.6);
        Assert.All(year.Heats, h => Assert.NotEqual(ModelParameters.Default, h.Hidden.Parameters));
    }

    /// <summary>Nor would the right parameters do: weights, analyses, skull and slag's habit are left.</summary>
    [Fact]
    public void Not_even_the_hidden_parameters_explain_the_ends_from_what_was_weighed()
    {
        DemoHeat[] some = [.. year.Heats.Take(60)];
        BlowResult[] runs = BlowModel.Run(
            [.. some.Select(h => h.Story.Charge.Written with
            {
                Programme = h.Story.Charge.Written.Programme with { BlownFraction = h.Story.Blows[0].EndPercent / 100 },
            })],
            [.. some.Select(h => h.Hidden.Parameters)]);
        (double Model, double True)[] pairs = [.. some.Zip(runs, (h, r) => (r.End.TemperatureK, h.Ends[0].TemperatureK)).Where((_, i) => some[i].Story.Correction.OreKg == 0)];
        double mean = pairs.Average(p => p.Model - p.True);
        Assert.InRange(Math.Sqrt(pairs.Average(p => Math.Pow(p.Model - p.True - mean, 2))), 5, 20);
    }

    /// <summary>The same heats on another lining: what a reline does to a forecast that does not know of it.</summary>
    [Fact]
    public void A_reline_moves_the_ends_of_heats_that_are_charged_alike()
    {
        DemoHeat[] some = [.. year.Heats.Take(40)];
        double MeanK(double liningHeats)
        {
            BlowResult[] runs = BlowModel.Run(
                [.. some.Select(h => h.Story.Charge.True)],
                [.. some.Select(h => h.Hidden.Parameters with
                {
                    HeatLossScale = h.Hidden.Parameters.HeatLossScale * HiddenPlant.LossOverLining(liningHeats) / HiddenPlant.LossOverLining(h.LiningHeats),
                })]);
            return runs.Average(r => r.End.TemperatureK);
        }

        double old = MeanK(4300), first = MeanK(2), settled = MeanK(300);
        Assert.True(settled - old > 5, $"an old lining lets heat through: {settled - old:F1} K");
        Assert.True(settled - first > 10, $"a new one drinks it: {settled - first:F1} K");
        Assert.InRange(DemoSchedule.Of(FilledYear.Options).FirstOnNewLining, FilledYear.Options.Heats / 2, FilledYear.Options.Heats - 20);
    }

    [Fact]
    public void Drifts_go_on_over_the_year_and_calibration_and_reline_end_them()
    {
        (DemoSchedule schedule, IReadOnlyList<HiddenHeat> hidden) = WholeYear.Value;
        var south = schedule.Heats.Where(s => s.Unit == "South").ToArray();
        double Loss(Func<HeatSlot, bool> which) => south.Where(which).Average(s => hidden[s.Index].Parameters.HeatLossScale);
        Assert.True(Loss(s => s.LiningHeats > 4200) - Loss(s => s.LiningHeats is > 100 and < 1000) > 0.08);
        double Season(int month) => schedule.Heats.Where(s => DemoCalendar.Local(s.ChargeAt).Month == month).Average(s => hidden[s.Index].Parameters.PhosphorusOffset);
        Assert.True(Season(1) - Season(7) > 0.05);
        double Use(Func<HeatSlot, bool> which) => schedule.Heats.Where(which).Average(s => hidden[s.Index].Parameters.OxygenUse);
        Assert.True(Use(s => s.LanceHeats < 40) - Use(s => s.LanceHeats > 190) > 0.005);
        DateTimeOffset calibrated = schedule.ScaleCalibrations[1];
        double Scale(double fromDay, double toDay) => schedule.Heats
            .Where(s => (s.ChargeAt - calibrated).TotalDays >= fromDay && (s.ChargeAt - calibrated).TotalDays < toDay).Average(s => hidden[s.Index].IronScale);
        Assert.True(Scale(-10, 0) - Scale(0, 10) > 0.003);
    }

    [Fact]
    public void Mishaps_come_at_about_their_rates()
    {
        const int Heats = 40_000;
        HeatMishaps[] drawn = [.. Enumerable.Range(1, Heats).Select(i => HeatMishaps.Draw(1, i))];
        DemoRates rates = HiddenPlant.Rates;
        void About(double rate, Func<HeatMishaps, bool> which)
        {
            // Four standard deviations of a count: one false alarm in sixteen thousand.
            double band = 4 * Math.Sqrt(rate * (1 - rate) / Heats);
            Assert.InRange(drawn.Count(which) / (double)Heats, rate - band, rate + band);
        }

        About(rates.BadProbe, m => m.BadProbe);
        About(rates.MissedMeasurement, m => m.MissedMeasurement);
        About(rates.WrongScrapClass, m => m.WrongScrapClass);
        About(rates.LimeNotOpened, m => m.LimeNotOpened);
        About(rates.MisKeyed, m => m.MisKeyed);
        About(rates.SwappedSample, m => m.SwappedSample);
        About(rates.LateAnalysis, m => m.LateAnalysis);
        About(rates.StaleIron, m => m.StaleIron);
        About(rates.Held, m => m.Held);
        About(rates.TapNotKeyed, m => m.TapNotKeyed);
    }

    [Fact]
    public void Each_mishap_shows_in_the_record_as_it_would()
    {
        foreach (DemoHeat heat in year.Heats)
        {
            EntryBody[] bodies = [.. year.ByHeat[heat.Number].Select(e => e.Body)];
            HeatMishaps m = heat.Story.Mishaps;
            MeasurementBody[] inBlow = [.. bodies.OfType<MeasurementBody>().Where(b => b.Point == HeatPoint.InBlow)];
            Assert.Equal(m.BadProbe, inBlow.Any(b => b.Status == ReadingStatus.Bad));
            Assert.Equal(!m.MissedMeasurement && (!m.BadProbe || m.SecondDip), inBlow.Any(b => b.Status == ReadingStatus.Good));
            Assert.Equal(m.Held, bodies.Any(b => b is OperationBody { State: OperationState.Held }));
            Assert.Equal(m.MisKeyed, bodies.Any(b => b is CorrectionBody { Replacement: ChargeBody { What: ChargeKind.HotMetal } }));
            Assert.Equal(m.SwappedSample, bodies.Any(b => b is CorrectionBody { Replacement: AnalysisBody }));
            Assert.Equal(m.TapNotKeyed, !bodies.Any(b => b is OperationBody { Operation: HeatOperation.Tap, State: OperationState.Complete }));
        }
    }
}
