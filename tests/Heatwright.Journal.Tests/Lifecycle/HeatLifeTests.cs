// SPDX-License-Identifier: Apache-2.0
using CsCheck;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Lifecycle;
using Heatwright.Journal.Tests.Entries;
using Heatwright.Journal.Views;

namespace Heatwright.Journal.Tests.Lifecycle;

public sealed class HeatLifeTests
{
    [Theory]
    [InlineData(0, HeatStage.Ordered)]
    [InlineData(1, HeatStage.Planned)]
    [InlineData(5.6, HeatStage.Planned)]
    [InlineData(9, HeatStage.Charged)]
    [InlineData(12, HeatStage.Blowing)]
    [InlineData(25.5, HeatStage.Measured)]
    [InlineData(29, HeatStage.Ended)]
    [InlineData(34, HeatStage.Blowing)]
    [InlineData(35, HeatStage.Ended)]
    [InlineData(44, HeatStage.Ended)]
    [InlineData(45, HeatStage.Tapped)]
    [InlineData(55, HeatStage.Closed)]
    public void Ordinary_heat_goes_through_its_stages(double minute, HeatStage stage)
    {
        HeatFacts facts = HeatFacts.Of("L-1001", HeatScript.Whole().Entries());
        Assert.Equal(stage, HeatLife.Until(facts, HeatScript.At(minute)).Stage);
        Assert.Empty(HeatLife.Of(facts).Irregularities);
    }

    [Fact]
    public void Reblow_is_a_repeat_of_the_same_heat()
    {
        HeatLife life = HeatScript.Whole().Record().Life;
        Assert.Equal(["blow", "reblow 1", "tap"], life.Operations.Select(o => o.Name));
        Assert.Equal(1, life.Reblows);
        Assert.Equal([17, 1, 6], life.Operations.Select(o => o.Duration!.Value.TotalMinutes));
    }

    [Fact]
    public void Any_order_of_arrival_gives_the_same_record()
    {
        HeatScript script = HeatScript.Whole();
        Guid lime = script.New.First(e => e.Body is AdditionBody).Id;
        Guid first = script.Say(60, new CorrectionBody(lime, new AdditionBody("lime", 3100, AdditionPlace.Converter, 900)), reason: "misread");
        script.Say(61, new CorrectionBody(lime, new AdditionBody("lime", 3200, AdditionPlace.Converter, 900)), reason: "misread again");
        script.Say(62, new CorrectionBody(first, new AdditionBody("ore", 1, AdditionPlace.Converter)), reason: "no matter: overtaken");
        string expected = Told(script.Entries());
        Gen.Shuffle(Enumerable.Range(0, script.Count).ToArray()).Sample(order => Assert.Equal(expected, Told(script.Entries(order))), iter: 500);
    }

    [Fact]
    public void Irregular_input_never_throws() =>
        Gen.Select(EntryGen.Plain, Gen.Double[0, 20], Gen.Int[-1, 12]).Array[0, 12].Sample(said =>
        {
            var script = new HeatScript();
            var ids = new List<Guid>();
            foreach ((EntryBody body, double minute, int corrects) in said)
            {
                EntryBody say = corrects >= 0 && body is not SignalBlockBody
                    ? new CorrectionBody(corrects < ids.Count ? ids[corrects] : Guid.NewGuid(), corrects % 3 == 0 ? null : body)
                    : body;
                ids.Add(script.Say(minute, say));
            }

            HeatRecord record = script.Record();
            Assert.Equal(said.Length, record.Version);
            Assert.Equal(
                said.Length, record.Facts.All.Count + record.Facts.Withdrawn.Count + record.Corrections.Count);
            Assert.NotNull(record.PlannedAndActual);
            if (said.Length > 0)
            {
                Assert.NotNull(HeatSummary.Of(HeatSummary.RowOf(record, ShiftPlan.Default)));
            }
        }, iter: 2000);

    [Fact]
    public void Operations_in_any_order_end_where_the_strongest_says()
    {
        Gen<OperationBody> operation = Gen.Select(Gen.Enum<HeatOperation>(), Gen.Enum<OperationState>(), Gen.Int[1, 2], (o, s, i) => new OperationBody(o, s, i));
        operation.Array[0, 15].Sample(all =>
        {
            var script = new HeatScript();
            for (int i = 0; i < all.Length; i++)
            {
                script.Say(i, all[i]);
            }

            HeatLife life = script.Record().Life;
            bool tapped = all.Any(o => o is { Operation: HeatOperation.Tap, State: OperationState.Complete });
            Assert.Equal(tapped, life.Stage == HeatStage.Tapped);
            Assert.All(life.Operations, o => Assert.True(o.Ended is null || o.Began is null || o.Facts.Count > 1));
        });
    }

    [Theory]
    [InlineData("tap began at 06:41 UTC without an end of blow")]
    [InlineData("closed at 06:55 UTC without a tap")]
    [InlineData("blow began at 06:12 UTC before hot metal was charged")]
    [InlineData("in-blow measurement at 06:08 UTC while no blow ran")]
    [InlineData("scrap heavy weighed at 06:20 UTC after the blow began")]
    [InlineData("blow complete at 06:30 UTC without a begin")]
    [InlineData("reblow 1 began at 06:20 UTC while blow ran")]
    [InlineData("reblow 1 began at 06:40 UTC after the tap")]
    [InlineData("blow began again at 06:35 UTC after it had ended; a repeat has an index of its own")]
    [InlineData("addition of lime at 06:59 UTC after the heat was closed")]
    [InlineData("end measurement at 06:20 UTC without an end of blow")]
    public void What_does_not_fit_is_taken_and_said(string words)
    {
        var s = new HeatScript();
        switch (words.Split(" at 06", 2)[0])
        {
            case "tap began":
                s.Begin(12, HeatOperation.Blow);
                s.Begin(41, HeatOperation.Tap);
                s.Complete(45, HeatOperation.Tap);
                Assert.Equal(HeatStage.Tapped, s.Record().Stage);
                break;
            case "closed":
                s.Say(55, new EndBody());
                break;
            case "blow began":
                s.Begin(12, HeatOperation.Blow);
                break;
            case "in-blow measurement":
                s.Say(8, new MeasurementBody(HeatPoint.InBlow, 1800));
                break;
            case "scrap heavy weighed":
                s.Begin(12, HeatOperation.Blow);
                s.Say(20, new ChargeBody(ChargeKind.Scrap, 1000, "heavy"));
                break;
            case "blow complete":
                s.Complete(30, HeatOperation.Blow);
                break;
            case "reblow 1 began" when words.Contains("06:20", StringComparison.Ordinal):
                s.Begin(12, HeatOperation.Blow);
                s.Begin(20, HeatOperation.Reblow);
                s.Complete(25, HeatOperation.Blow);
                Assert.Equal(HeatStage.Blowing, s.Record().Stage);
                break;
            case "reblow 1 began":
                s.Complete(30, HeatOperation.Blow);
                s.Complete(35, HeatOperation.Tap);
                s.Begin(40, HeatOperation.Reblow);
                Assert.Equal(HeatStage.Tapped, s.Record().Stage);
                break;
            case "blow began again":
                s.Begin(12, HeatOperation.Blow);
                s.Complete(30, HeatOperation.Blow);
                s.Begin(35, HeatOperation.Blow);
                break;
            case "addition of lime":
                s.Complete(50, HeatOperation.Tap);
                s.Say(55, new EndBody());
                s.Say(59, new AdditionBody("lime", 1));
                break;
            default:
                s.Begin(12, HeatOperation.Blow);
                s.Say(20, new MeasurementBody(HeatPoint.EndOfBlow, 1900));
                break;
        }

        Assert.Contains(words, s.Record().Irregularities.Select(i => i.Text));
    }

    [Fact]
    public void Time_held_is_not_time_blown()
    {
        var s = new HeatScript();
        s.Begin(10, HeatOperation.Blow);
        s.Say(14, new OperationBody(HeatOperation.Blow, OperationState.Held));
        s.Begin(17, HeatOperation.Blow);
        s.Complete(28, HeatOperation.Blow);
        OperationRun blow = s.Record().Operations[0];
        Assert.Equal(TimeSpan.FromMinutes(3), blow.Held);
        Assert.Equal(TimeSpan.FromMinutes(15), blow.Duration);
    }

    [Fact]
    public void Withdrawn_tap_is_no_tap()
    {
        HeatScript s = HeatScript.Whole();
        Guid tap = s.New.Single(e => e.Body is OperationBody { Operation: HeatOperation.Tap, State: OperationState.Complete }).Id;
        Guid end = s.New.Single(e => e.Body is EndBody).Id;
        s.Say(56, new CorrectionBody(end), reason: "wrong heat");
        Guid withdrawal = s.Say(57, new CorrectionBody(tap), reason: "wrong heat");
        Assert.Equal(HeatStage.Ended, s.Record().Stage);

        // And the withdrawal itself may have been the mistake.
        s.Say(58, new CorrectionBody(withdrawal), reason: "it was the right heat");
        Assert.Equal(HeatStage.Tapped, s.Record().Stage);
    }

    private static string Told(List<Entry> entries)
    {
        HeatRecord r = HeatRecord.Of("L-1001", entries);
        return string.Join('\n',
            [
                r.Stage.Name(),
                .. r.Facts.All.Select(f => $"{f.Time:O} {EntryWords.Of(f.Body)} {(f.Original is null ? "" : EntryWords.Of(f.Original))} {string.Join('/', f.Changes.Select(c => c.Correction.Id))}"),
                .. r.Operations.Select(o => $"{o.Name} {o.Began:O} {o.Ended:O} {o.OxygenNm3}"),
                .. r.Corrections.Select(c => $"{c.Entry.Id} {c.Target?.Id} {c.Holds}"),
                .. r.PlannedAndActual.Select(l => $"{l.Group} {l.Name} {l.Planned} {l.Actual}"),
                .. r.Irregularities.Select(i => i.Text),
            ]);
    }
}
