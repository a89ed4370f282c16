// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;
using System.Runtime.CompilerServices;
using Heatwright.Cli.Commands.Record;
using Heatwright.Cli.Input;
using Heatwright.Cli.Output;
using Heatwright.Converter.Charge;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;
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
        "heatwright plan examples/heats/ordinary.yaml --record --by anna --reason \"first of the sequence\"",
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
        var record = new Option<bool>("--record") { Description = "Put order, plan and the files of the works into the journal." };
        var reason = new Option<string?>("--reason") { Description = "With --record: why it was planned so.", HelpName = "WORDS" };
        var journal = new JournalPlaceOption();
        var by = new PersonOption();
        var command = new Command("plan", "Choose hot metal, scrap, additions and oxygen so that the order is met with the confidence asked for.");
        works.AddTo(command);
        command.Options.Add(objective);
        command.Options.Add(write);
        command.Options.Add(record);
        command.Options.Add(reason);
        journal.AddTo(command);
        by.AddTo(command);
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

            if (parsed.GetValue(record))
            {
                using IJournalStore store = journal.Open(parsed, write: true, mayMake: true);
                IReadOnlyList<Entry> written = PlanRecord.Write(
                    store, context, Weighable(charge), found, BlowRun.Of(w, heat, Weighable(charge), 10, Math.Min(200, context.Members), context.Seed), by.Actor(parsed), parsed.GetValue(reason) ?? "");
                Console.Error.WriteLine($"heatwright: recorded in {store.Place}, heat {heat.Id}: {string.Join(", ", written.Select(e => $"entry {e.Sequence} ({e.Kind.Name()})"))}.");
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
