// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Lifecycle;
using Heatwright.Journal.Store;
using Heatwright.Journal.Tests.Store;
using Heatwright.Journal.Views;

namespace Heatwright.Journal.Tests.Lifecycle;

public sealed class RecomputeTests
{
    [Fact]
    public void Late_hot_metal_analysis_makes_the_forecast_stale_and_a_new_one_stands_beside_it()
    {
        using var heat = new RecordedHeat();
        heat.Charged();
        Guid forecast = heat.Ask(ResultQuestion.Forecast);
        ResultBody before = heat.Latest(ResultQuestion.Forecast);
        Guid decision = heat.Say(new DecisionBody("tap or blow on", "tap", null, [forecast]), reason: "on temperature");
        byte[] decided = heat.Store.Find(decision)!.BodyBytes.ToArray();
        Assert.Equal(0, heat.Record.OpenStale);
        Assert.Empty(Recompute.Run(heat.Store, RecordedHeat.Works, RecordedHeat.Number, heat.Clock).Results);

        // The sample was taken before charging; its answer comes now, with 0.15 % more silicon than was planned with.
        heat.Say(
            new AnalysisBody(HeatPoint.HotMetal, SampledMatter.Metal, new Dictionary<string, Reading> { ["C"] = new(4.5), ["Si"] = new(0.60) }), minutesAgo: 40);
        ResultView stale = heat.Record.Results.Single();
        Assert.True(stale.IsOpen);
        Assert.Equal("analysis/hot-metal/metal/1", stale.Stale.Single().Slot);
        Assert.True(heat.Record.Facts.Of<AnalysisBody>().Single().Late);

        RecomputeReport report = Recompute.Run(heat.Store, RecordedHeat.Works, RecordedHeat.Number, heat.Clock);
        Entry written = Assert.Single(report.Results).New!;
        ResultBody after = heat.Latest(ResultQuestion.Forecast);

        // Own estimate at the same oxygen: 214 kg Si give some 6.6 GJ and take 171 Nm3 O2 from iron and carbon, which would have given
        // some 4 GJ; the difference over 150 MJ/K of steel and slag is 17 K. Half and double of it are the bounds, and carbon is left over.
        double risenK = after.Values[ResultQuantity.TemperatureK].Value - before.Values[ResultQuantity.TemperatureK].Value;
        Assert.InRange(risenK, 8, 34);
        Assert.True(after.Values[ResultQuantity.CarbonPercent].Value > before.Values[ResultQuantity.CarbonPercent].Value);
        Assert.Equal(forecast, after.Replaces);
        Assert.Equal("program:heatwright/0.1.0", written.Actor);
        Assert.Contains("hot-metal analysis arrived", written.Reason, StringComparison.Ordinal);

        // The old one and the decision stand as they were; the decision is marked.
        HeatRecord record = heat.Record;
        Assert.Equal([forecast, written.Id], record.Results.Select(r => r.Fact.Id));
        Assert.Equal(EntryText.Write(before), heat.Store.Find(forecast)!.BodyBytes.ToArray());
        Assert.Equal(written.Id, record.Results[0].ReplacedBy);
        Assert.Equal(decided, heat.Store.Find(decision)!.BodyBytes.ToArray());
        Assert.True(record.Decisions.Single().GroundsChanged);
        Assert.Equal([forecast], record.Decisions.Single().BasedOn.Select(b => b.Id));

        // What was known when it was decided can still be read.
        HeatRecord then = HeatRecord.Read(heat.Store, RecordedHeat.Number, new AsOf(Sequence: heat.Store.Find(decision)!.Sequence));
        Assert.False(then.Decisions.Single().GroundsChanged);
        Assert.Equal(before.Values[ResultQuantity.TemperatureK], then.Results.Single().Fact.Body.Values[ResultQuantity.TemperatureK]);

        // Once more does nothing.
        long head = heat.Store.Head().Sequence;
        Assert.Empty(Recompute.Run(heat.Store, RecordedHeat.Works, RecordedHeat.Number, heat.Clock).Results);
        Assert.Equal(head, heat.Store.Head().Sequence);
        Assert.Equal(0, record.OpenStale);
    }

    [Fact]
    public void Corrected_scrap_weight_makes_the_forecast_stale_and_cools_it()
    {
        using var heat = new RecordedHeat();
        heat.Charged();
        Guid forecast = heat.Ask(ResultQuestion.Forecast);
        ResultBody before = heat.Latest(ResultQuestion.Forecast);
        Fact<ChargeBody> heavy = heat.Record.Charges.Single(c => c.Body.Material == "heavy");
        Guid correction = heat.Say(new CorrectionBody(heavy.Id, heavy.Body with { MassKg = heavy.Body.MassKg + 3000 }), reason: "box 2 was not zeroed");
        Assert.Contains("scrap weight of heavy was corrected", heat.Record.Results.Single().Stale.Single().Text, StringComparison.Ordinal);

        Entry written = Recompute.Run(heat.Store, RecordedHeat.Works, RecordedHeat.Number, heat.Clock).Results.Single().New!;
        ResultBody after = (ResultBody)written.Body;

        // 1 t of scrap to 160 t of steel cools by some 8 to 13 K (common practice, no source).
        double fallenK = before.Values[ResultQuantity.TemperatureK].Value - after.Values[ResultQuantity.TemperatureK].Value;
        Assert.InRange(fallenK, 12, 50);
        Assert.Contains("box 2 was not zeroed", written.Reason, StringComparison.Ordinal);
        Assert.Contains(correction, after.Basis.Inputs!);
        Assert.Equal(forecast, after.Replaces);
        Assert.Equal(heavy.Body.MassKg, ((ChargeBody)heat.Record.Charges.Single(c => c.Body.Material == "heavy").Original!).MassKg);
    }

    [Fact]
    public void What_cannot_be_computed_again_stays_stale_and_says_why()
    {
        using var heat = new RecordedHeat();
        heat.Charged();
        Guid forecast = heat.Ask(ResultQuestion.Forecast);
        heat.Say(new ChargeBody(ChargeKind.Scrap, 400, "swarf"), minutesAgo: 30);
        long head = heat.Store.Head().Sequence;
        Recomputed one = Recompute.Run(heat.Store, RecordedHeat.Works, RecordedHeat.Number, heat.Clock).Results.Single();
        Assert.Null(one.New);
        Assert.Contains("swarf", one.Refusal, StringComparison.Ordinal);
        Assert.Equal(head, heat.Store.Head().Sequence);
        Assert.True(heat.Record.Results.Single(r => r.Fact.Id == forecast).IsOpen);
    }

    [Fact]
    public void Result_is_computed_again_with_the_works_it_was_computed_with()
    {
        using var heat = new RecordedHeat();
        heat.Charged();
        NewEntry works = HeatEntries.Works(RecordedHeat.Works, heat.Clock.Now, "person:anna");
        heat.Store.Append(works);
        HeatAnswer answer = HeatQuestions.Ask(heat.Record, RecordedHeat.Works, ResultQuestion.Forecast, new QuestionOptions(Members: 20, WorksEntry: works.Id));
        Guid known = heat.Say(answer.Result!);
        heat.Say(answer.Result! with { Question = ResultQuestion.Correction, Basis = answer.Result.Basis with { Works = Guid.NewGuid() } });
        heat.Say(new ChargeBody(ChargeKind.Scrap, 400, "heavy"), minutesAgo: 30);

        // Another works in hand must not matter where the journal holds the right one.
        var other = RecordedHeat.Works with { Practices = new Dictionary<string, Shop.Practice>() };
        RecomputeReport report = Recompute.Run(heat.Store, other, RecordedHeat.Number, heat.Clock);
        Assert.NotNull(report.Results.Single(r => r.Stale.Fact.Id == known).New);
        Assert.Contains("does not hold the works", report.Results.Single(r => r.Stale.Fact.Id != known).Refusal, StringComparison.Ordinal);
    }

    [Fact]
    public void Plan_with_a_basis_is_stale_until_the_blow_and_is_not_made_again_here()
    {
        using var heat = new RecordedHeat();
        heat.Charged(blown: false, plan: p => p with { Basis = new Basis("Heatwright 0.1.0") });
        Assert.False(heat.Record.Plan!.IsStale);
        heat.Say(new AnalysisBody(HeatPoint.HotMetal, SampledMatter.Metal, new Dictionary<string, Reading> { ["Si"] = new(0.6) }), minutesAgo: 30);
        Assert.Equal(1, heat.Record.OpenStale);
        Assert.Contains("plan again", Recompute.Run(heat.Store, RecordedHeat.Works, RecordedHeat.Number, heat.Clock).StalePlan, StringComparison.Ordinal);
        heat.Say(new OperationBody(HeatOperation.Blow, OperationState.Running));
        Assert.True(heat.Record.Plan!.IsStale);
        Assert.Equal(0, heat.Record.OpenStale);
    }

    [Fact]
    public void Someone_who_writes_while_the_model_runs_is_not_overlooked()
    {
        using var heat = new RecordedHeat();
        heat.Charged();
        heat.Ask(ResultQuestion.Forecast, members: 20);
        heat.Say(new ChargeBody(ChargeKind.Scrap, 400, "heavy"), minutesAgo: 30);
        int times = 0;
        using var between = new InterruptedStore(heat.Store, () =>
        {
            if (times++ == 0)
            {
                heat.Say(new ChargeBody(ChargeKind.Scrap, 700, "returns"), minutesAgo: 30);
            }
        });
        Entry written = Recompute.Run(between, RecordedHeat.Works, RecordedHeat.Number, heat.Clock).Results.Single().New!;
        Assert.Equal(2, times);
        Assert.Contains("scrap weight of returns", written.Reason, StringComparison.Ordinal);
        Assert.Equal(0, heat.Record.OpenStale);
    }

    /// <summary>A journal in which something happens just before each append.</summary>
    private sealed class InterruptedStore(IJournalStore inner, Action before) : PassedOnStore(inner)
    {
        public override IReadOnlyList<AppendOutcome> Append(IReadOnlyList<AppendRequest> requests)
        {
            before();
            return base.Append(requests);
        }
    }
}
