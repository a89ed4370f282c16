// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;
using Heatwright.Cli.Input;
using Heatwright.Cli.Output;
using Heatwright.Converter;
using Heatwright.Converter.Charge;
using Heatwright.Shop;
using Heatwright.Shop.Planning;
using Heatwright.Shop.Units;

namespace Heatwright.Cli.Commands;

/// <summary><c>heatwright correct</c>: from one in-blow measurement, oxygen and coolant left to give, and the odds.</summary>
internal static class CorrectCommand
{
    public static readonly string[] Examples =
    [
        "heatwright correct examples/heats/ordinary.yaml --at 82% --temperature 1550 --carbon 0.48",
        "heatwright correct examples/heats/ordinary.yaml --at 82% --temperature \"1545 °C\"",
        "heatwright correct examples/heats/ordinary.yaml --at 82% --temperature 1555 --carbon 0.45 --json",
    ];

    public static Command Create()
    {
        var works = new WorksOptions();
        var ensemble = new EnsembleOptions(1000);
        var output = new OutputOptions();
        Option<double?> at = Amount.Option("--at", Kinds.Share, "%", 50, 99, "82 %", "Oxygen metered at the measurement, % of plan. Default: where the practice measures.");
        Option<double?> temperature = Amount.Option("--temperature", Kinds.Temperature, "°C", 1300, 1800, "1570 °C", "Bath temperature; a bare number is in °C.");
        temperature.Required = true;
        Option<double?> carbon = Amount.Option("--carbon", Kinds.MassPercent, "%", 0.02, 4.5, "0.38 %", "Carbon; a bare number is in mass %. Leave out when the reading failed.");
        Option<double?> most = Amount.Option("--most-coolant", Kinds.Mass, "t", 0, 20, "2 t", "Most of each coolant that may go in now; a bare number is in t. Default: 3 t or what the heat allows.");
        var command = new Command("correct", "From one in-blow measurement: oxygen and coolant left to give, with the odds of each option.");
        works.AddTo(command);
        foreach (Option option in new Option[] { at, temperature, carbon, most })
        {
            command.Options.Add(option);
        }

        ensemble.AddTo(command);
        output.AddTo(command);
        command.SetAction(parsed =>
        {
            (Works w, Heat heat, string source) = works.Load(parsed);
            Charge charge = heat.Charge ?? throw new BadInputException(
                $"{parsed.GetValue(works.Heat)}: heat {heat.Id} has no charge.", "add a 'charge:' block with what was charged, or write one with 'heatwright plan --write FILE'");
            double percent = parsed.GetValue(at) ?? heat.Practice.MeasurementPercent
                ?? throw new BadInputException($"--at is missing and practice {heat.Practice.Id} has no measurement.", "say where it was taken, for example --at 82%");
            var context = new AnswerContext(w, heat, source, ensemble.Seed(parsed), ensemble.Members(parsed));
            MeasurementUncertainty u = w.Plant.Measurement;
            var measurement = new InBlowMeasurement(
                percent, parsed.GetValue(temperature)!.Value, parsed.GetValue(carbon), u.InBlowTemperatureK, u.InBlowCarbonPercent);
            var request = new CorrectionRequest
            {
                Heat = HeatBuilder.Build(w, heat, charge),
                Measurement = measurement,
                TemperatureK = Window(heat.Order.TemperatureK, heat.Order.TemperatureAimK),
                CarbonPercent = Window(heat.Order.CarbonPercent, heat.Order.CarbonAimPercent),
                Coolants = [.. Coolants(w, heat, parsed.GetValue(most))],
                MostPhosphorusPercent = heat.Order.EndPercent.GetValueOrDefault(Chemistry.Element.P)?.Most,
                Ensemble = new EnsembleDraw(context.Members, context.Seed, inputs: HeatPlanner.Inputs(u)),
            };
            CorrectionAdvice advice;
            using (new Progress($"heat {heat.Id}: weighing {context.Members} members"))
            {
                advice = CorrectionSearch.Advise(request);
            }

            return output.Write(parsed, CorrectAnswer.Of(context, request, advice));
        });
        return command;
    }

    private static EndWindow Window(Limits limits, double aim) => new(limits.Least ?? 0, limits.Most ?? double.MaxValue, aim);

    // Coolants that the heat allows, else those on stock; cheapest first. 3 t is what one hopper usually holds (common practice, no source).
    private static IEnumerable<(FluxMaterial Material, double MostKg)> Coolants(Works works, Heat heat, double? mostKg)
    {
        IEnumerable<AvailableAddition> allowed = heat.Plan.Additions.Where(a => a.Addition.Role == AdditionRole.Coolant);
        IEnumerable<AvailableAddition> coolants = allowed.Any() ? allowed
            : works.Materials.Additions.Values.Where(a => a.Role == AdditionRole.Coolant).Select(a => new AvailableAddition(a, 0, a.StockKg));
        return coolants.OrderBy(a => a.Addition.Account.PriceEurPerKg).ThenBy(a => a.Addition.Id, StringComparer.Ordinal)
            .Select(a => (a.Addition.Material, mostKg ?? Math.Min(3000, a.MostKg)));
    }
}
