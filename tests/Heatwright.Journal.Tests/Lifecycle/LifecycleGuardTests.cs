// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Lifecycle;
using Heatwright.Journal.Store;

namespace Heatwright.Journal.Tests.Lifecycle;

public sealed class LifecycleGuardTests
{
    private static readonly DateTimeOffset Now = HeatScript.At(120);

    [Fact]
    public void Ordinary_heat_may_be_entered_by_hand_from_order_to_closing()
    {
        HeatScript whole = HeatScript.Whole();
        List<Entry> entries = whole.Entries();
        for (int i = 0; i < entries.Count; i++)
        {
            HeatFacts before = HeatFacts.Of("L-1001", entries.Take(i));
            Assert.Null(LifecycleGuard.Refusal(before, whole.New[i], Now));
        }
    }

    [Theory]
    [InlineData("tap while blowing", 20, "no end of blow is entered")]
    [InlineData("reblow while blowing", 20, "a reblow follows an end of blow")]
    [InlineData("blow before hot metal", 6, "enter the hot metal first")]
    [InlineData("second begin", 20, "runs already")]
    [InlineData("in-blow before blow", 10, "no blow ran")]
    [InlineData("end measurement while blowing", 20, "enter the end of the blow first")]
    [InlineData("scrap while blowing", 20, "before the blow")]
    [InlineData("closing before tap", 40, "closed after the tap")]
    [InlineData("plan after tap", 50, "nothing left to plan")]
    [InlineData("lime after tap", 50, "tapped")]
    [InlineData("lime after closing", 58, "closed before")]
    [InlineData("closing twice", 58, "closed before")]
    [InlineData("tomorrow", 1500, "in the future")]
    [InlineData("retained slag while blowing", 20, "retained slag is in the vessel before the blow")]
    [InlineData("hot metal again", 10, "already weighed at 2026-03-09 06:09 UTC, 142.9 t")]
    [InlineData("correction of nothing", 60, "has no entry")]
    [InlineData("empty note", 20, "empty")]
    [InlineData("end of no reblow", 40, "has not begun")]
    public void Slip_is_refused_in_words(string slip, double minute, string words)
    {
        HeatFacts facts = HeatFacts.Of("L-1001", HeatScript.Whole().Entries());
        (EntryBody body, string reason) = slip switch
        {
            "tap while blowing" => ((EntryBody)new OperationBody(HeatOperation.Tap, OperationState.Running), ""),
            "reblow while blowing" => (new OperationBody(HeatOperation.Reblow, OperationState.Running), ""),
            "blow before hot metal" or "second begin" => (new OperationBody(HeatOperation.Blow, OperationState.Running), ""),
            "in-blow before blow" => (new MeasurementBody(HeatPoint.InBlow, 1800), ""),
            "end measurement while blowing" => (new MeasurementBody(HeatPoint.EndOfBlow, 1900), ""),
            "scrap while blowing" => (new ChargeBody(ChargeKind.Scrap, 500, "heavy"), ""),
            "closing before tap" or "closing twice" => (new EndBody(), ""),
            "plan after tap" => (new PlanBody(new Dictionary<string, double>(), new Dictionary<string, double>()), ""),
            "lime after tap" or "lime after closing" or "tomorrow" => (new AdditionBody("lime", 100), ""),
            "retained slag while blowing" => (new ChargeBody(ChargeKind.RetainedSlag, 4000), ""),
            "hot metal again" => (new ChargeBody(ChargeKind.HotMetal, 142_900, null, 1625), ""),
            "correction of nothing" => (new CorrectionBody(Guid.NewGuid()), "why not"),
            "empty note" => (new NoteBody(""), ""),
            _ => (new OperationBody(HeatOperation.Reblow, OperationState.Complete, 2), ""),
        };
        Assert.Contains(words, LifecycleGuard.Refusal(facts, NewEntry.Of("L-1001", body, HeatScript.At(minute), "person:anna", reason), Now), StringComparison.Ordinal);
    }

    /// <summary>What the journal refuses whoever writes is left to it: to be taken "as a fact" all the same it cannot be.</summary>
    [Fact]
    public void Missing_reason_is_left_to_the_journal()
    {
        using var heat = new RecordedHeat();
        Guid order = heat.Say(new OrderBody("S235JR"));
        foreach (EntryBody body in new EntryBody[] { new DecisionBody("tap or blow on", "tap"), new CorrectionBody(order) })
        {
            NewEntry entry = NewEntry.Of(RecordedHeat.Number, body, heat.Clock.Now, "person:anna");
            Assert.Null(LifecycleGuard.Refusal(heat.Record.Facts, entry, heat.Clock.Now));
            Assert.Contains("reason", Assert.Throws<JournalException>(() => heat.Store.Append(entry)).Message, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Second_ladle_is_taken_when_it_is_named_and_so_is_one_after_a_withdrawn_weight()
    {
        HeatScript s = HeatScript.Whole();
        var again = NewEntry.Of("L-1001", new ChargeBody(ChargeKind.HotMetal, 20_000), HeatScript.At(10), "person:anna");
        Assert.NotNull(LifecycleGuard.Refusal(s.Record().Facts, again, Now));
        Assert.Null(LifecycleGuard.Refusal(s.Record().Facts, NewEntry.Of("L-1001", new ChargeBody(ChargeKind.HotMetal, 20_000, Lot: "ladle 8"), HeatScript.At(10), "person:anna"), Now));
        s.Say(60, new CorrectionBody(s.New.First(e => e.Body is ChargeBody { What: ChargeKind.HotMetal }).Id), reason: "other heat");
        Assert.Null(LifecycleGuard.Refusal(s.Record().Facts, again, Now));
    }

    [Theory]
    [InlineData("late addition")]
    [InlineData("note")]
    [InlineData("correction")]
    [InlineData("result")]
    public void After_closing_come_late_facts_notes_corrections_and_results(string what)
    {
        HeatFacts facts = HeatFacts.Of("L-1001", HeatScript.Whole().Entries());
        (EntryBody body, double minute) = what switch
        {
            "late addition" => ((EntryBody)new AdditionBody("lime", 100), 20.0),
            "note" => (new NoteBody("slopped"), 70),
            "correction" => (new CorrectionBody(facts.Entries[3].Id), 70),
            _ => (new ResultBody(ResultQuestion.Forecast, new Dictionary<string, Expected>(), new Basis("Heatwright 0.1.0"), []), 70),
        };
        Assert.Null(LifecycleGuard.Refusal(facts, NewEntry.Of("L-1001", body, HeatScript.At(minute), "person:anna", "said so"), Now));
    }
}
