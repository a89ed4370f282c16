// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;
using Heatwright.Cli.Input;
using Heatwright.Reports.Heats;
using Heatwright.Shop;

namespace Heatwright.Cli.Commands;

/// <summary><c>heatwright explain</c>: where the numbers of a heat come from.</summary>
internal static class ExplainCommand
{
    public static readonly string[] Examples =
    [
        "heatwright explain examples/heats/ordinary.yaml",
        "heatwright explain examples/heats/ordinary.yaml phosphorus",
        "heatwright explain examples/heats/ordinary.yaml --svg account.svg",
    ];

    public static Command Create()
    {
        var works = new WorksOptions();
        var ensemble = new EnsembleOptions(200);
        var output = new OutputOptions();
        var pictures = new PictureOptions("account");
        string keys = string.Join(", ", Explanations.All.Select(e => e.Key));
        var what = new Argument<string?>("what") { Description = $"One quantity: {keys}. Without it: the accounts of heat, oxygen and iron, and sensitivities.", Arity = ArgumentArity.ZeroOrOne };
        var command = new Command("explain", "Show where a heat's numbers come from: heat in MJ and K, oxygen, iron, sensitivities; or one quantity with formula and source.");
        works.AddTo(command);
        command.Arguments.Add(what);
        ensemble.AddTo(command);
        pictures.AddTo(command);
        output.AddTo(command);
        command.SetAction(parsed =>
        {
            (Works w, Heat heat, string source) = works.Load(parsed);
            Explanation? asked = parsed.GetValue(what) is not { } word ? null
                : Explanations.Find(word) ?? throw new BadInputException($"what: '{word}' is not a quantity that can be explained.", $"write one of {keys}");
            Charge charge = heat.Charge ?? throw new BadInputException(
                $"{parsed.GetValue(works.Heat)}: heat {heat.Id} has no charge.", "add a 'charge:' block, or write one with 'heatwright plan --write FILE'");
            var context = new AnswerContext(w, heat, source, ensemble.Seed(parsed), ensemble.Members(parsed));
            BlowRun run = BlowRun.Of(w, heat, charge, 10, context.Members, context.Seed);
            pictures.Write(parsed, (which, dark) => BlowCommand.PictureOf(which, context, run, dark));
            return output.Write(parsed, asked is null ? ExplainAnswer.Account(context, run) : ExplainAnswer.Quantity(context, run, asked));
        });
        return command;
    }
}
