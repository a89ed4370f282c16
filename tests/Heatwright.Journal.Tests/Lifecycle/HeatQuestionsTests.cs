// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Blow;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Lifecycle;
using Heatwright.Shop;

namespace Heatwright.Journal.Tests.Lifecycle;

public sealed class HeatQuestionsTests
{
    /// <summary>The record of a heat that went as its file says gives the model the same heat as the file does.</summary>
    [Fact]
    public void Forecast_from_the_record_is_the_forecast_from_the_heat_file()
    {
        using var heat = new RecordedHeat();
        heat.Charged();
        HeatAnswer answer = HeatQuestions.Ask(heat.Record, RecordedHeat.Works, ResultQuestion.Forecast, new QuestionOptions(Members: 20));
        BlowPoint end = BlowModel.Run(HeatBuilder.Build(RecordedHeat.Works, heat.Heat)).End;

        // Times of dosing are not in the record: 20 s stand for 20 to 60 s.
        Assert.Equal(end.TemperatureK, answer.Result!.Values[ResultQuantity.TemperatureK].Value, 1.0);
        Assert.Equal(end.C, answer.Result.Values[ResultQuantity.CarbonPercent].Value, 0.002);
        Assert.Equal(end.P, answer.Result.Values[ResultQuantity.PhosphorusPercent].Value, 0.001);
        Assert.Equal("Hot metal analysis as planned: none has come from the laboratory.", Assert.Single(answer.Notes));
        Assert.True(answer.Result.BalanceResidual < 1e-6, $"{answer.Result.BalanceResidual}");
    }

    [Fact]
    public void Forecast_before_the_blow_takes_additions_and_oxygen_from_the_plan_and_says_so()
    {
        using var heat = new RecordedHeat();
        heat.Charged(blown: false);
        HeatAnswer answer = HeatQuestions.Ask(heat.Record, RecordedHeat.Works, ResultQuestion.Forecast, new QuestionOptions(Members: 20));
        Assert.Contains(answer.Notes, n => n.StartsWith("Additions as planned", StringComparison.Ordinal));
        BlowPoint end = BlowModel.Run(HeatBuilder.Build(RecordedHeat.Works, heat.Heat)).End;
        Assert.Equal(end.TemperatureK, answer.Result!.Values[ResultQuantity.TemperatureK].Value, 1e-9);

        // What falls later as planned does not make it stale; another weight of scrap does.
        Guid forecast = heat.Say(answer.Result);
        heat.Say(new AdditionBody("lime", 900, OxygenNm3: 0));
        Assert.False(heat.Record.Results.Single(r => r.Fact.Id == forecast).IsStale);
        heat.Say(new ChargeBody(ChargeKind.Scrap, 400, "heavy"));
        Assert.True(heat.Record.Results.Single(r => r.Fact.Id == forecast).IsStale);
    }

    [Fact]
    public void Band_holds_the_value_and_the_same_seed_gives_the_same_bytes()
    {
        using var heat = new RecordedHeat();
        heat.Charged();
        ResultBody first = HeatQuestions.Ask(heat.Record, RecordedHeat.Works, ResultQuestion.Forecast, new QuestionOptions(Members: 40)).Result!;
        ResultBody second = HeatQuestions.Ask(heat.Record, RecordedHeat.Works, ResultQuestion.Forecast, new QuestionOptions(Members: 40)).Result!;
        Assert.Equal(EntryText.Write(first), EntryText.Write(second));
        Expected temperature = first.Values[ResultQuantity.TemperatureK];
        Assert.InRange(temperature.Value, temperature.Low!.Value, temperature.High!.Value);

        // The trade misses by 12 to 17 K without a measurement (from memory): 10 to 90 % is 2.6 of that.
        Assert.InRange(temperature.High.Value - temperature.Low.Value, 20, 60);
    }

    [Fact]
    public void Correction_follows_the_measurement()
    {
        using var heat = new RecordedHeat();
        heat.Charged(blown: false);
        heat.Say(new OperationBody(HeatOperation.Blow, OperationState.Running, 1, "North"));
        double at = 0.82 * heat.Heat.Charge!.OxygenNm3;
        Guid probe = heat.Say(new MeasurementBody(HeatPoint.InBlow, 1835, 0.45, OxygenNm3: at, Index: 1));
        ResultBody cold = HeatQuestions.Ask(heat.Record, RecordedHeat.Works, ResultQuestion.Correction, new QuestionOptions(Members: 100)).Result!;
        heat.Say(new CorrectionBody(probe, new MeasurementBody(HeatPoint.InBlow, 1855, 0.45, OxygenNm3: at)), reason: "misread");
        HeatAnswer hot = HeatQuestions.Ask(heat.Record, RecordedHeat.Works, ResultQuestion.Correction, new QuestionOptions(Members: 100));

        // A hotter bath ends hotter, or with less oxygen, or with coolant.
        Assert.NotEqual(cold.Values[ResultQuantity.TemperatureK].Value, hot.Result!.Values[ResultQuantity.TemperatureK].Value);
        Assert.StartsWith("Best odds", hot.Notes[0], StringComparison.Ordinal);
        Assert.Contains("with this advice followed", hot.Notes[0], StringComparison.Ordinal);
        Assert.Contains(hot.Notes.Skip(1), n => n.StartsWith("Hot metal analysis as planned", StringComparison.Ordinal));
        Assert.InRange(hot.Result.Values[ResultQuantity.OxygenNm3].Value, at, 1.12 * heat.Heat.Charge.OxygenNm3);
        Assert.Contains(probe, hot.Result.Basis.Inputs!);
    }

    [Fact]
    public void Laboratory_figure_below_its_limit_counts_half_and_missing_ones_come_from_the_plan()
    {
        using var heat = new RecordedHeat();
        heat.Charged(blown: false);
        heat.Say(new AnalysisBody(HeatPoint.HotMetal, SampledMatter.Metal, new Dictionary<string, Reading> { ["C"] = new(4.5), ["Si"] = new(0.45), ["Cu"] = new(0.02, Below: true), ["Zn"] = new(0.01) }));
        HeatAnswer answer = HeatQuestions.Ask(heat.Record, RecordedHeat.Works, ResultQuestion.Forecast, new QuestionOptions(Members: 20));
        Assert.Contains("Hot metal Cu is below 0.02 %: half of that is taken (common practice).", answer.Notes);
        Assert.Contains("Not followed in hot metal: Zn.", answer.Notes);
        Assert.Contains("Hot metal Cr, Mn, P, S, Ti, V as planned: not in the laboratory's answer.", answer.Notes.Select(Sorted));

        static string Sorted(string note) => note.StartsWith("Hot metal ", StringComparison.Ordinal) && note.EndsWith("laboratory's answer.", StringComparison.Ordinal)
            ? "Hot metal " + string.Join(", ", note["Hot metal ".Length..note.IndexOf(" as planned", StringComparison.Ordinal)].Split(", ").Order(StringComparer.Ordinal)) + note[note.IndexOf(" as planned", StringComparison.Ordinal)..]
            : note;
    }

    [Theory]
    [InlineData("no hot metal analysis", "no hot metal analysis")]
    [InlineData("unknown scrap", "no scrap class 'swarf'")]
    [InlineData("unknown addition", "no addition 'sand'")]
    [InlineData("no oxygen", "how much oxygen")]
    [InlineData("no order", "no converter")]
    [InlineData("impossible temperature", "hot metal temperature")]
    public void What_cannot_be_asked_is_refused_in_words(string what, string words)
    {
        using var heat = new RecordedHeat();
        switch (what)
        {
            case "no hot metal analysis":
                heat.Charged(blown: false, plan: p => p with { HotMetalPercent = null });
                break;
            case "unknown scrap":
                heat.Charged(blown: false);
                heat.Say(new ChargeBody(ChargeKind.Scrap, 400, "swarf"));
                break;
            case "unknown addition":
                heat.Charged(blown: false);
                heat.Say(new AdditionBody("sand", 400));
                break;
            case "no oxygen":
                heat.Charged(blown: false, plan: p => p with { OxygenNm3 = null });
                break;
            case "no order":
                heat.Say(new NoteBody("nothing else"));
                break;
            default:
                heat.Charged(blown: false);
                heat.Say(new ChargeBody(ChargeKind.HotMetal, 100_000, null, 4000));
                break;
        }

        HeatAnswer answer = HeatQuestions.Ask(heat.Record, RecordedHeat.Works, ResultQuestion.Forecast);
        Assert.Null(answer.Result);
        Assert.Contains(words, answer.Refusal, StringComparison.Ordinal);
        Assert.Contains("Mend: ", answer.Refusal, StringComparison.Ordinal);
    }

    [Fact]
    public void Additions_are_placed_by_time_where_the_oxygen_was_not_noted()
    {
        var s = new HeatScript();
        s.Say(0, new OrderBody("S235JR", "North", "ordinary", 160_000));
        s.Say(1, new PlanBody(new Dictionary<string, double>(), new Dictionary<string, double>(), "ordinary", 1, 142_700, 1623, new Dictionary<string, double> { ["C"] = 4.5, ["Si"] = 0.4 }, 8000));
        s.Begin(10, HeatOperation.Blow);
        s.Say(9, new AdditionBody("lime", 1000));
        s.Say(14, new AdditionBody("ore", 500));
        s.Complete(26, HeatOperation.Blow, oxygenNm3: 8000);
        s.Say(28, new AdditionBody("lime", 300));
        ChargedHeat heat = ChargedHeat.Of(s.Record(), RecordedHeat.Works);
        var additions = ChargedProgramme.Build(heat, HeatScript.At(26), ahead: false).Programme.Additions;
        Assert.Equal([("lime", 0.0), ("ore", 25.0)], additions.Select(a => (a.Material.Name, a.OxygenPercent)));
    }
}
