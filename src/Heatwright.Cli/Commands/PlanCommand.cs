// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;
using System.Runtime.CompilerServices;
using Heatwright.Cli.Input;
using Heatwright.Cli.Output;
using Heatwright.Converter.Charge;
using Heatwright.Optimise;
using Heatwright.Shop;
using Heatwright.Shop.Planning;

namespace Heatwright.Cli.Commands;

/// <summary><c>heatwright plan</c>: what to charge and blow.</summary>
internal static class PlanCommand
{
    public static readonly string[] Examples =
    [
        "heatwright plan examples/heats/to-be-planned.yaml",
        "heatwright plan examples/heats/ordinary.yaml --objective most-scrap",
        "heatwright plan examples/heats/to-be-planned.yaml --write planned.yaml",
        "heatwright plan examples/heats/ordinary.yaml --json > plan.json",
    ];

    public static Command Create()
    {
        var works = new WorksOptions();
        var ensemble = new EnsembleOptions(1000);
        var output = new OutputOptions();
        var pictures = new PictureOptions("spine");
        var objective = new Option<string?>("--objective")
        {
            Description = "What is made small or large; default: what the heat says.",
            HelpName = "cost|co2|most-scrap",
        };
        objective.AcceptOnlyFromAmong("cost", "co2", "most-scrap");
        var write = new Option<string?>("--write") { Description = "Write the heat with the planned charge, ready for 'heatwright blow'.", HelpName = "FILE" };
        var command = new Command("plan", "Choose hot metal, scrap, additions and oxygen so that the order is met with the confidence asked for.");
        works.AddTo(command);
        command.Options.Add(objective);
        command.Options.Add(write);
        ensemble.AddTo(command);
        pictures.AddTo(command);
        output.AddTo(command);
        command.SetAction(parsed =>
        {
            (Works w, Heat heat, string source) = works.Load(parsed);
            heat = heat with { Plan = heat.Plan with { Objective = Wanted(parsed.GetValue(objective), heat.Plan.Objective) } };
            var context = new AnswerContext(w, heat, source, ensemble.Seed(parsed), ensemble.Members(parsed));
            PlanRequest request = HeatPlanner.Request(w, heat, seed: context.Seed, members: Math.Max(50, context.Members));
            PlanResult result = Plan(request, heat);
            if (result is not PlanFound found)
            {
                return output.Write(parsed, PlanAnswer.Of(context, request, (PlanInfeasible)result));
            }

            Charge charge = HeatPlanner.Charge(w, heat, found.Decision);
            if (parsed.GetValue(write) is { } file)
            {
                File.WriteAllText(file, HeatWriter.Write(heat, Weighable(charge), heat.Note));
            }

            pictures.Write(parsed, (which, dark) => BlowCommand.PictureOf(which, context, BlowRun.Of(w, heat, charge, 10, Math.Min(1000, context.Members), context.Seed), dark));
            return output.Write(parsed, PlanAnswer.Of(context, request, found));
        });
        return command;
    }

    // Nobody weighs grams; what is not charged need not stand in the file.
    private static Charge Weighable(Charge charge)
    {
        static Dictionary<string, double> Whole(IReadOnlyDictionary<string, double> massKg) =>
            massKg.Where(m => m.Value >= 0.5).ToDictionary(m => m.Key, m => Math.Round(m.Value), StringComparer.Ordinal);
        return charge with
        {
            HotMetalKg = Math.Round(charge.HotMetalKg),
            ScrapKg = Whole(charge.ScrapKg),
            AdditionsKg = Whole(charge.AdditionsKg),
            OxygenNm3 = Math.Round(charge.OxygenNm3),
        };
    }

    // Apart, so that the solver's native library is loaded only here.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static PlanResult Plan(PlanRequest request, Heat heat)
    {
        using var solver = new GlopLinearProgram();
        using var progress = new Progress($"heat {heat.Id}: planning");
        return Planner.Plan(request, solver);
    }

    private static Objective Wanted(string? word, Objective fallback) => word switch
    {
        "cost" => Objective.Cost,
        "co2" => Objective.Co2,
        "most-scrap" => Objective.MostScrap,
        _ => fallback,
    };
}
