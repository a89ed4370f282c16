// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Lifecycle;

namespace Heatwright.Journal.Tests.Lifecycle;

public sealed class StalenessTests
{
    private readonly HeatScript _heat = new();

    [Fact]
    public void Fact_in_a_slot_that_is_read_makes_stale_and_one_beside_it_does_not()
    {
        Guid result = Result(10, reads: ["charge/*", "order"]);
        _heat.Say(11, new AdditionBody("lime", 1));
        _heat.Say(12, new NoteBody("nothing"));
        Assert.Empty(Stale());
        _heat.Say(13, new ChargeBody(ChargeKind.Scrap, 1, "heavy"));
        Assert.Equal(["charge/scrap/heavy"], Stale()[result].Select(c => c.Slot));
        StaleCause cause = Stale()[result].Single();
        Assert.Equal("scrap weight of heavy arrived", cause.Text);
        Assert.Equal(HeatScript.At(13), cause.Entry.SourceTime);
    }

    [Theory]
    [InlineData("order", "order")]
    [InlineData("charge/hot-metal", "hot-metal weight")]
    [InlineData("addition/converter/lime/burnt", "addition of lime/burnt")]
    [InlineData("measurement/in-blow/1", "in-blow measurement")]
    [InlineData("measurement/end-of-blow/2", "end measurement 2")]
    [InlineData("analysis/end-of-blow/slag/1", "end slag analysis")]
    [InlineData("operation/charge-hot-metal/1", "begin or end of charge hot metal")]
    public void Slot_is_said_in_words(string slot, string words) => Assert.Equal(words, SlotWords.Of(slot));

    [Fact]
    public void Coolant_that_fell_after_the_answer_is_progress_and_one_that_fell_before_and_came_late_is_news()
    {
        Guid result = Result(10, reads: ["addition/converter/*"]);
        _heat.Say(11, new AdditionBody("ore", 800));
        Assert.Empty(Stale());
        _heat.Say(9, new AdditionBody("ore", 300));
        Assert.Equal(["addition/converter/ore"], Stale()[result].Select(c => c.Slot));
    }

    [Fact]
    public void What_came_before_does_not_make_stale()
    {
        _heat.Say(13, new ChargeBody(ChargeKind.Scrap, 1, "heavy"));
        Result(10, reads: ["charge/*"]);
        Assert.Empty(Stale());
    }

    [Fact]
    public void Correction_of_an_input_makes_stale_also_outside_the_slots()
    {
        Guid note = _heat.Say(5, new NoteBody("ladle 7"));
        Guid result = Result(10, reads: ["charge/*"], inputs: [note]);
        _heat.Say(11, new CorrectionBody(note, new NoteBody("ladle 8")), reason: "misread");
        Assert.Single(Stale()[result]);
    }

    [Fact]
    public void Correction_into_or_out_of_a_slot_makes_stale()
    {
        Guid into = _heat.Say(5, new AdditionBody("plate", 1));
        Guid outOf = _heat.Say(6, new ChargeBody(ChargeKind.Scrap, 1, "heavy"));
        Guid result = Result(10, reads: ["charge/*"]);
        _heat.Say(11, new CorrectionBody(into, new ChargeBody(ChargeKind.Scrap, 1, "plate")), reason: "it is scrap");
        _heat.Say(12, new CorrectionBody(outOf), reason: "other heat");
        Assert.Equal(["charge/scrap/heavy", "charge/scrap/plate"], Stale()[result].Select(c => c.Slot).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Correction_of_a_correction_makes_stale()
    {
        Guid scrap = _heat.Say(5, new ChargeBody(ChargeKind.Scrap, 1, "heavy"));
        Guid first = _heat.Say(6, new CorrectionBody(scrap, new ChargeBody(ChargeKind.Scrap, 2, "heavy")), reason: "misread");
        Guid result = Result(10, reads: ["charge/*"]);
        _heat.Say(11, new CorrectionBody(first), reason: "was right");
        Assert.Single(Stale()[result]);
    }

    [Fact]
    public void Fact_that_came_and_was_withdrawn_since_changes_nothing()
    {
        Result(10, reads: ["charge/*"]);
        Guid slip = _heat.Say(11, new ChargeBody(ChargeKind.Scrap, 1, "heavy"));
        _heat.Say(12, new CorrectionBody(slip), reason: "other heat");
        Assert.Empty(Stale());
    }

    [Fact]
    public void Withdrawn_result_is_no_longer_judged()
    {
        Guid result = Result(10, reads: ["charge/*"]);
        _heat.Say(11, new ChargeBody(ChargeKind.Scrap, 1, "heavy"));
        _heat.Say(12, new CorrectionBody(result), reason: "asked of the wrong heat");
        Assert.Empty(Stale());
    }

    [Fact]
    public void Only_the_latest_answer_to_a_question_is_open()
    {
        Guid first = Result(10, reads: ["charge/*"]);
        Guid second = Result(11, reads: ["charge/*"]);
        _heat.Say(12, new ChargeBody(ChargeKind.Scrap, 1, "heavy"));
        Assert.Equal([(first, false), (second, true)], _heat.Record().Results.Select(r => (r.Fact.Id, r.IsOpen)));
        Assert.Equal(1, _heat.Record().OpenStale);
    }

    private Guid Result(double minute, string[] reads, Guid[]? inputs = null) =>
        _heat.Say(minute, new ResultBody(ResultQuestion.Forecast, new Dictionary<string, Expected>(), new Basis("Heatwright 0.1.0", Inputs: inputs), reads));

    private IReadOnlyDictionary<Guid, IReadOnlyList<StaleCause>> Stale() => Staleness.Of(HeatFacts.Of(_heat.Heat, _heat.Entries()));
}
