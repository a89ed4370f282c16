// SPDX-License-Identifier: Apache-2.0
using System.Reflection;
using Heatwright.Converter;
using Heatwright.Converter.Blow;
using Heatwright.Converter.Charge;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Views;
using Heatwright.Shop;
using Heatwright.Shop.Planning;

namespace Heatwright.Journal.Lifecycle;

/// <summary>How a question is asked.</summary>
/// <param name="Seed">Seed of the ensemble.</param>
/// <param name="Members">Members of the ensemble behind the bands, 20 to 20 000. 200 give the ends of a band to about a sixth of its width.</param>
/// <param name="WorksEntry">Id of the works entry that the files come from; null: the demonstration works, or files that the journal does not hold.</param>
/// <param name="Parameters">Model parameters that differ from the defaults, by name (<see cref="ModelParameters"/>).</param>
public sealed record QuestionOptions(int Seed = 1, int Members = 200, Guid? WorksEntry = null, IReadOnlyDictionary<string, double>? Parameters = null);

/// <summary>What became of a question: a result, or words that say why there is none.</summary>
/// <param name="Result">The result, ready to be entered.</param>
/// <param name="Notes">What the answer advises, first; then what was assumed and what it warns of.</param>
/// <param name="Refusal">Why there is none, and the mend.</param>
public sealed record HeatAnswer(ResultBody? Result, IReadOnlyList<string> Notes, string? Refusal);

/// <summary>Asks the blow model about a heat of the record. Nothing is written here.</summary>
public static class HeatQuestions
{
    /// <summary>Model and version as results name it.</summary>
    public static string Model { get; } =
        "Heatwright " + (typeof(HeatQuestions).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion.Split('+')[0] ?? "0");

    // 10th and 90th percentile of the normal distribution, in standard deviations (Abramowitz and Stegun 1964, table 26.5).
    private const double Decile = 1.28155;

    /// <summary>Answers a question from what the record holds.</summary>
    public static HeatAnswer Ask(HeatRecord record, Works works, ResultQuestion question, QuestionOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(works);
        options ??= new QuestionOptions();
        try
        {
            ModelParameters parameters = ParametersOf(options.Parameters);
            ChargedHeat heat = ChargedHeat.Of(record, works);
            return question == ResultQuestion.Forecast ? Forecast(heat, options, parameters) : Correct(heat, options, parameters);
        }
        catch (CannotAskException e)
        {
            return new HeatAnswer(null, [], e.Message);
        }
        catch (ArgumentException e)
        {
            // The model's own limits: the message names field, value and limit.
            return new HeatAnswer(null, [], $"The model does not take this heat: {e.Message} Mend: correct the entry that says so.");
        }
    }

    private static HeatAnswer Forecast(ChargedHeat heat, QuestionOptions options, ModelParameters parameters)
    {
        OperationRun? blow = heat.Blow;
        bool over = blow?.Ended is not null;
        HeatInput input = ChargedProgramme.Build(heat, blow?.Ended ?? DateTimeOffset.MaxValue, ahead: !over);
        if (over && blow!.OxygenNm3 is { } blown)
        {
            input = input with { Programme = input.Programme with { BlownFraction = blown / heat.PlannedNm3 } };
        }
        else if (over)
        {
            heat.Note("Oxygen as planned: the end of the blow does not say how much was blown.");
        }

        BlowResult single = BlowModel.Run(input, parameters);
        BlowPoint[] ends = [.. Draw(heat, options, parameters).Run(input).Select(r => r.End)];
        var values = new Dictionary<string, Expected>(StringComparer.Ordinal);
        foreach ((string quantity, Func<BlowPoint, double> value) in EndQuantities.All)
        {
            Band band = Band.Of(ends.Select(value));
            values[quantity] = new Expected(value(single.End), band.Low, band.High);
        }

        BlowProgramme p = input.Programme;
        values[ResultQuantity.OxygenNm3] = new Expected(p.OxygenNm3 * p.BlownFraction);
        values[ResultQuantity.BlowS] = new Expected(single.End.TimeS - p.ChargeToBlowS - p.AfterStirS);
        string[] reads =
        [
            "order", "plan", "charge/*", "analysis/hot-metal/metal/*", "measurement/hot-metal/*",

            // Before the blow, additions and oxygen are those of the plan: as they fall they follow it, and change nothing here.
            .. blow is not null || heat.Record.Additions.Any() ? ["addition/converter/*"] : Array.Empty<string>(),
            .. over ? ["operation/blow/*"] : Array.Empty<string>(),
        ];
        return Answer(heat, ResultQuestion.Forecast, values, options, reads, single.Balance, []);
    }

    private static HeatAnswer Correct(ChargedHeat heat, QuestionOptions options, ModelParameters parameters)
    {
        Fact<MeasurementBody> measured = heat.Use(heat.Record.Measurements.LastOrDefault(m =>
                m.Body is { Point: HeatPoint.InBlow, Status: not ReadingStatus.Bad, TemperatureK: not null } && !(m.Time > heat.Blow?.Ended)))
            ?? throw new CannotAskException("There is no in-blow measurement with a temperature in the first blow. Mend: enter it.");
        HeatInput input = ChargedProgramme.Build(heat, measured.Time, ahead: false);
        double percent = MeasuredAt(heat, input, measured);
        MeasurementUncertainty u = heat.Works.Plant.Measurement;
        var request = new CorrectionRequest
        {
            Heat = input,
            Measurement = new InBlowMeasurement(percent, measured.Body.TemperatureK!.Value, measured.Body.CarbonPercent, u.InBlowTemperatureK, u.InBlowCarbonPercent),
            TemperatureK = Window(heat.Order?.TemperatureK, "temperature", 20),
            CarbonPercent = Window(heat.Order?.CarbonPercent, "carbon", 0.02),
            Coolants = [.. Coolants(heat.Works)],
            MostPhosphorusPercent = heat.Order?.EndPercent?.GetValueOrDefault("P")?.Most,
            Ensemble = Draw(heat, options, parameters),
            Parameters = parameters,
        };
        CorrectionAdvice advice = CorrectionSearch.Advise(request);
        CorrectionOption best = advice.Best;
        Expected Normal(double mean, double deviation) => new(mean, Math.Max(0, mean - (Decile * deviation)), mean + (Decile * deviation));
        var values = new Dictionary<string, Expected>(StringComparer.Ordinal)
        {
            [ResultQuantity.TemperatureK] = Normal(best.TemperatureK, best.TemperatureDeviationK),
            [ResultQuantity.CarbonPercent] = Normal(best.CarbonPercent, best.CarbonDeviationPercent),
            [ResultQuantity.SlagFeoPercent] = new(best.SlagFeOPercent),
            [ResultQuantity.SteelKg] = new(best.MetalKg),
            [ResultQuantity.OxygenNm3] = new(best.EndOxygenPercent / 100 * heat.PlannedNm3),
        };
        string coolant = best.Coolant is null || best.CoolantKg < 1 ? "no coolant" : $"{best.CoolantKg:F0} kg {best.Coolant}";

        string advised = FormattableString.Invariant($"Best odds {best.InWindow:F2} of both windows: {best.OxygenToBlowNm3:F0} Nm3 from the measurement on, {coolant}. The values are the end with this advice followed, not without it.");
        return Answer(
            heat,
            ResultQuestion.Correction,
            values,
            options,
            ["order", "plan", "charge/*", "analysis/hot-metal/metal/*", "measurement/hot-metal/*", "measurement/in-blow/*", "addition/converter/*"],
            BlowModel.Run(input, parameters).Balance,
            advice.Warnings,
            advised);
    }

    private static HeatAnswer Answer(
        ChargedHeat heat, ResultQuestion question, Dictionary<string, Expected> values, QuestionOptions options, string[] reads, HeatBalance balance, IReadOnlyList<string> words, string? advice = null)
    {
        var basis = new Basis(Model, options.WorksEntry, options.Seed, options.Members, options.Parameters, heat.Inputs);
        double residual = Math.Max(balance.WorstElementResidual, Math.Abs(balance.EnergyResidual));
        return new HeatAnswer(new ResultBody(question, values, basis, reads, BalanceResidual: residual), [.. advice is null ? Array.Empty<string>() : [advice], .. heat.Notes, .. words], null);
    }

    private static EnsembleDraw Draw(ChargedHeat heat, QuestionOptions options, ModelParameters parameters) =>
        new(options.Members, options.Seed, inputs: HeatPlanner.Inputs(heat.Works.Plant.Measurement), centre: parameters);

    private static double MeasuredAt(ChargedHeat heat, HeatInput input, Fact<MeasurementBody> measured)
    {
        if (measured.Body.OxygenNm3 is { } oxygen)
        {
            return 100 * oxygen / heat.PlannedNm3;
        }

        if (ChargedProgramme.Percent(heat, input.Programme, measured.Time) is { } percent)
        {
            heat.Note(FormattableString.Invariant($"Measured at {percent:F1} % of the oxygen by its time: the reading does not say how much was blown."));
            return percent;
        }

        double written = heat.Practice.MeasurementPercent
            ?? throw new CannotAskException("Neither the reading, nor the times of the blow, nor the practice say how much oxygen was blown at the measurement. Mend: enter the oxygen with the reading.");
        heat.Note($"Measured where the practice does it, at {written} % of the oxygen.");
        return written;
    }

    // A window with one end gets the other at a usual distance, as in the files of heats.
    private static EndWindow Window(Window? window, string what, double width)
    {
        if (window is not { } w || (w.Least is null && w.Most is null))
        {
            throw new CannotAskException($"The order has no window of end {what}. Mend: enter an order with one.");
        }

        double least = w.Least ?? Math.Max(0, w.Most!.Value - width);
        double most = w.Most ?? least + width;
        return new EndWindow(least, most, w.Aim ?? ((least + most) / 2));
    }

    // Coolants on stock, cheapest first. 3 t is what one hopper usually holds (common practice, no source).
    private static IEnumerable<(FluxMaterial Material, double MostKg)> Coolants(Works works) =>
        works.Materials.Additions.Values.Where(a => a.Role == AdditionRole.Coolant)
            .OrderBy(a => a.Account.PriceEurPerKg).ThenBy(a => a.Id, StringComparer.Ordinal)
            .Select(a => (a.Material, Math.Min(3000, a.StockKg)));

    private static ModelParameters ParametersOf(IReadOnlyDictionary<string, double>? changed)
    {
        if (changed is null || changed.Count == 0)
        {
            return ModelParameters.Default;
        }

        ConstructorInfo made = typeof(ModelParameters).GetConstructors().Single(c => c.GetParameters().Length > 1);
        string[] names = [.. made.GetParameters().Select(p => p.Name!)];
        string[] unknown = [.. changed.Keys.Where(k => !names.Contains(k, StringComparer.OrdinalIgnoreCase))];
        if (unknown.Length > 0)
        {
            throw new CannotAskException($"This model has no parameter '{string.Join("', '", unknown)}'. Mend: ask with the program that made the result, or without it.");
        }

        var given = new Dictionary<string, double>(changed, StringComparer.OrdinalIgnoreCase);
        return (ModelParameters)made.Invoke(BindingFlags.DoNotWrapExceptions, null, [.. made.GetParameters().Select(p => (object)(given.TryGetValue(p.Name!, out double v) ? v : (double)p.DefaultValue!))], null);
    }
}
