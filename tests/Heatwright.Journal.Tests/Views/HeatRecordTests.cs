// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Lifecycle;
using Heatwright.Journal.Tests.Lifecycle;
using Heatwright.Journal.Views;

namespace Heatwright.Journal.Tests.Views;

public sealed class HeatRecordTests
{
    [Fact]
    public void Plan_stands_beside_what_was_done()
    {
        HeatRecord record = HeatScript.Whole().Record();
        PlannedLine Line(string group, string name) => record.PlannedAndActual.Single(l => l.Group == group && l.Name == name);
        Assert.Equal((6700.0, 6850.0, 150.0), (Line("charge", "heavy").Planned, Line("charge", "heavy").Actual, Line("charge", "heavy").Difference));
        Assert.Equal((142_700.0, 142_900.0), (Line("charge", "hot metal").Planned, Line("charge", "hot metal").Actual));
        Assert.Equal((5900.0, 5900.0, 2), (Line("addition", "lime").Planned, Line("addition", "lime").Actual, Line("addition", "lime").Entries.Count));
        Assert.Equal((null, 800.0), (Line("ladle", "ferromanganese").Planned, Line("ladle", "ferromanganese").Actual));
        Assert.Equal((8240.0, 8680.0, "Nm3"), (Line("oxygen", "oxygen").Planned, Line("oxygen", "oxygen").Actual, Line("oxygen", "oxygen").Unit));
        Assert.Equal((1623.0, 1625.0), (Line("hot metal", "temperature").Planned, Line("hot metal", "temperature").Actual));
        Assert.Equal((1925.0, "K"), (Line("end", ResultQuantity.TemperatureK).Actual, Line("end", ResultQuantity.TemperatureK).Unit));
        Assert.Equal(18 * 60, Line("end", ResultQuantity.BlowS).Actual);
    }

    [Fact]
    public void Figure_below_the_limit_of_detection_stays_one()
    {
        var s = new HeatScript();
        s.Say(0, new OrderBody("S235JR", EndPercent: new Dictionary<string, Window> { ["P"] = new(Most: 0.015), ["S"] = new(Most: 0.001), ["Cu"] = new(Least: 0.2) }));
        s.Say(1, new PlanBody(
            new Dictionary<string, double>(), new Dictionary<string, double>(), HotMetalPercent: new Dictionary<string, double> { ["S"] = 0.004 },
            Expected: new Dictionary<string, Expected> { [ResultQuantity.PhosphorusPercent] = new(0.012) }));
        s.Say(5, new AnalysisBody(HeatPoint.HotMetal, SampledMatter.Metal, new Dictionary<string, Reading> { ["S"] = new(0.002, Below: true) }));
        s.Complete(20, HeatOperation.Blow);
        s.Say(22, new AnalysisBody(HeatPoint.EndOfBlow, SampledMatter.Metal, new Dictionary<string, Reading> { ["P"] = new(0.005, Below: true), ["S"] = new(0.002, Below: true), ["Cu"] = new(0.02, Below: true) }));
        HeatRecord record = s.Record();
        PlannedLine sulphur = record.PlannedAndActual.Single(l => l is { Group: "hot metal", Name: "S" });
        Assert.Equal((true, 0.002, null), (sulphur.Below, sulphur.Actual, sulphur.Difference));
        PlannedLine End(string name) => record.PlannedAndActual.Single(l => l.Group == "end" && l.Name == name);
        Assert.Equal((true, null, false), (End(ResultQuantity.PhosphorusPercent).Below, End(ResultQuantity.PhosphorusPercent).Difference, End(ResultQuantity.PhosphorusPercent).Outside));

        // Below 0.02 is surely less than the least of 0.2; below 0.002 may be more or less than the most of 0.001.
        Assert.True(End("CuPercent").Outside);
        Assert.False(End(ResultQuantity.SulphurPercent).Outside);
        Assert.Equal(["CuPercent"], HeatSummary.Of(record, ShiftPlan.Default).Missed);
    }

    [Fact]
    public void Slag_poured_off_is_not_compared_with_slag_at_the_end()
    {
        HeatScript s = HeatScript.Whole();
        s.Say(2, new PlanBody(new Dictionary<string, double>(), new Dictionary<string, double>(), Expected: new Dictionary<string, Expected> { [ResultQuantity.SlagKg] = new(17_500) }));
        PlannedLine End(string name) => s.Record().PlannedAndActual.Single(l => l.Group == "end" && l.Name == name);
        Assert.Equal((17_500, null, null), (End(ResultQuantity.SlagKg).Planned, End(ResultQuantity.SlagKg).Actual, End(ResultQuantity.SlagKg).Difference));
        Assert.Equal((null, 14_000, "kg"), (End(EndValues.SlagPouredKg).Planned, End(EndValues.SlagPouredKg).Actual, End(EndValues.SlagPouredKg).Unit));
    }

    /// <summary>The best end value decides: the end analysis before the probe, after the reblow, on every ordered element.</summary>
    [Fact]
    public void End_is_judged_against_the_order_on_every_element_that_was_analysed()
    {
        HeatScript s = HeatScript.Whole();
        HeatSummary plain = HeatSummary.Of(s.Record(), ShiftPlan.Default);
        Assert.Equal((false, true, "cast"), (plain.FirstHit, plain.Hit, plain.Outcome));
        Assert.Empty(plain.Missed);
        OrderBody order = s.Record().Order!.Body;
        s.Say(2, order with { EndPercent = new Dictionary<string, Window> { ["P"] = new(Most: 0.012), ["Cu"] = new(Most: 0.1) } });
        HeatSummary judged = HeatSummary.Of(s.Record(), ShiftPlan.Default);
        Assert.Equal(false, judged.Hit);
        Assert.Equal([ResultQuantity.PhosphorusPercent], judged.Missed);
        PlannedLine line = Assert.Single(s.Record().PlannedAndActual, l => l.Outside);
        Assert.Equal((ResultQuantity.PhosphorusPercent, null, 0.012, 0.014), (line.Name, line.Least, line.Most, line.Actual));
        PlannedLine temperature = s.Record().PlannedAndActual.Single(l => l.Name == ResultQuantity.TemperatureK);
        Assert.Equal((1913.0, 1943.0, false), (temperature.Least, temperature.Most, temperature.Outside));

        // The laboratory's carbon stands in for the probe's.
        s.Say(38, new AnalysisBody(HeatPoint.EndOfBlow, SampledMatter.Metal, new Dictionary<string, Reading> { ["C"] = new(0.064), ["P"] = new(0.011) }, Index: 2));
        Assert.Equal([ResultQuantity.CarbonPercent], HeatSummary.Of(s.Record(), ShiftPlan.Default).Missed);
    }

    /// <summary>What was read before a reblow is not what the heat came to.</summary>
    [Fact]
    public void End_is_that_of_the_last_blow()
    {
        HeatRecord record = HeatScript.Whole().Record();
        Assert.Equal(1925, EndValues.Of(record)[ResultQuantity.TemperatureK].Value);
        Assert.Equal(1905, EndValues.OfFirst(record)[ResultQuantity.TemperatureK].Value);
        var unmeasured = new HeatScript();
        unmeasured.Complete(20, HeatOperation.Blow);
        unmeasured.Say(22, new MeasurementBody(HeatPoint.EndOfBlow, 1900, 0.05));
        unmeasured.Begin(24, HeatOperation.Reblow);
        unmeasured.Complete(25, HeatOperation.Reblow);
        Assert.False(EndValues.Of(unmeasured.Record()).ContainsKey(ResultQuantity.TemperatureK));
    }

    [Fact]
    public void Corrected_value_knows_what_it_was_who_changed_it_and_why()
    {
        HeatScript s = HeatScript.Whole();
        Guid scrap = s.New.First(e => e.Body is ChargeBody { Material: "heavy" }).Id;
        s.Say(60, new CorrectionBody(scrap, new ChargeBody(ChargeKind.Scrap, 6750, "heavy")), reason: "tare forgotten", actor: "person:ben");
        Fact<ChargeBody> fact = s.Record().Charges.Single(c => c.Body.Material == "heavy");
        Change change = Assert.Single(fact.Changes);
        Assert.Equal((6750, 6850), (fact.Body.MassKg, ((ChargeBody)fact.Original!).MassKg));
        Assert.Equal(("person:ben", "tare forgotten", "person:anna"), (change.Correction.Actor, change.Correction.Reason, fact.Entry.Actor));
        Assert.Equal(scrap, s.Record().Corrections.Single(c => c.Holds).Target!.Id);
    }

    [Fact]
    public void Fact_entered_as_the_wrong_kind_is_put_right_as_another()
    {
        var s = new HeatScript();
        Guid slip = s.Say(5, new AdditionBody("plate", 3000));
        s.Say(6, new CorrectionBody(slip, new ChargeBody(ChargeKind.Scrap, 3000, "plate")), reason: "it is scrap");
        Assert.Empty(s.Record().Additions);
        Assert.IsType<AdditionBody>(Assert.Single(s.Record().Charges).Original);
    }

    [Fact]
    public void Correction_that_meets_nothing_is_said()
    {
        var s = new HeatScript();
        s.Say(5, new CorrectionBody(Guid.NewGuid()), reason: "gone");
        Assert.Contains("does not have", Assert.Single(s.Record().Irregularities).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Record_can_be_read_as_it_was()
    {
        HeatScript s = HeatScript.Whole();
        Guid measurement = s.New.First(e => e.Body is MeasurementBody { Point: HeatPoint.InBlow }).Id;
        s.Say(60, new CorrectionBody(measurement, new MeasurementBody(HeatPoint.InBlow, 1810, 0.45)), reason: "misread");
        List<Entry> entries = s.Entries();

        // At 06:30 neither the correction nor the analysis of 06:37 was there.
        HeatRecord then = HeatRecord.Of("L-1001", entries, new AsOf(Arrival: HeatScript.At(30)));
        Assert.Equal(HeatStage.Ended, then.Stage);
        Assert.Equal(1830, then.Measurements.Single().Body.TemperatureK);
        Assert.Empty(then.Analyses);
        Assert.Equal(1810, HeatRecord.Of("L-1001", entries).Measurements.First().Body.TemperatureK);

        // At the sequence of an entry the record holds just the entries up to it.
        Assert.All(entries, e => Assert.Equal(e.Sequence, HeatRecord.Of("L-1001", entries, new AsOf(Sequence: e.Sequence)).Version));
    }

    [Fact]
    public void Fact_that_comes_long_after_is_marked_late()
    {
        var s = new HeatScript();
        s.Say(10, new AdditionBody("lime", 1000));
        s.Say(12, new AdditionBody("ore", 500), arrives: 40);
        Assert.Equal("ore", Assert.Single(s.Record().Additions, a => a.Late).Body.Material);
    }

    [Fact]
    public void Unreadable_entry_is_left_out_and_said()
    {
        List<Entry> entries = HeatScript.Whole().Entries();
        entries[1] = entries[1] with { SchemaVersion = 99 };
        HeatRecord record = HeatRecord.Of("L-1001", entries);
        Assert.Null(record.Plan);
        Assert.Contains("schema version 99", Assert.Single(record.Irregularities).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Decision_keeps_its_grounds_and_says_what_is_missing()
    {
        HeatScript s = HeatScript.Whole();
        Guid probe = s.New.First(e => e.Body is MeasurementBody { Point: HeatPoint.EndOfBlow }).Id;
        Guid gone = Guid.NewGuid();
        s.Say(32, new DecisionBody("tap or blow on", "blow on", ["tap", "blow on"], [probe, gone]), reason: "too cold");
        s.Say(60, new CorrectionBody(probe, new MeasurementBody(HeatPoint.EndOfBlow, 1915, 0.07)), reason: "other probe");
        DecisionView decision = Assert.Single(s.Record().Decisions);
        Assert.Equal([probe], decision.BasedOn.Select(b => b.Id));
        Assert.Equal([gone], decision.Missing);
        Assert.True(decision.GroundsChanged);
        Assert.Equal("blow on", decision.Fact.Body.Chosen);
    }
}
