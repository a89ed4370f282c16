// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;
using Heatwright.Cli.Input;
using Heatwright.Converter.Charge;
using Heatwright.Reports.Pictures;
using Heatwright.Shop;

namespace Heatwright.Cli.Commands;

/// <summary><c>heatwright blow</c>: what will happen with this charge and this practice.</summary>
internal static class BlowCommand
{
    public static readonly string[] Examples =
    [
        "heatwright blow examples/heats/ordinary.yaml",
        "heatwright blow examples/heats/much-scrap.yaml --every 5 --members 1000",
        "heatwright blow examples/heats/ordinary.yaml --svg ordinary.svg",
        "heatwright blow examples/heats/ordinary.yaml --csv > ordinary.csv",
    ];

    public static Command Create()
    {
        var works = new WorksOptions();
        var ensemble = new EnsembleOptions(200);
        var output = new OutputOptions();
        var pictures = new PictureOptions("spine");
        var every = new Option<double>("--every") { Description = "Rows of the table: one each so many % of the oxygen, 1 to 50.", DefaultValueFactory = _ => 10, HelpName = "%" };
        every.Validators.Add(result =>
        {
            if (result.GetValueOrDefault<double>() is not (>= 1 and <= 50))
            {
                result.AddError("--every: the step lies outside 1 to 50 %. Mend: write 5 or 10.");
            }
        });
        var command = new Command("blow", "Simulate the charge and practice of a heat: its course, its end with 80 % bands, balances and cautions.");
        works.AddTo(command);
        command.Options.Add(every);
        ensemble.AddTo(command);
        pictures.AddTo(command);
        output.AddTo(command);
        command.SetAction(parsed =>
        {
            (Works w, Heat heat, string source) = works.Load(parsed);
            Charge charge = heat.Charge ?? throw new BadInputException(
                $"{parsed.GetValue(works.Heat)}: heat {heat.Id} has no charge.", "add a 'charge:' block, or let 'heatwright plan' choose one");
            var context = new AnswerContext(w, heat, source, ensemble.Seed(parsed), ensemble.Members(parsed));
            BlowRun run = BlowRun.Of(w, heat, charge, parsed.GetValue(every), context.Members, context.Seed);
            pictures.Write(parsed, (which, dark) => PictureOf(which, context, run, dark));
            return output.Write(parsed, BlowAnswer.Of(context, run));
        });
        return command;
    }

    internal static Picture PictureOf(string which, AnswerContext context, BlowRun run, bool dark) => which switch
    {
        "window" => WindowSheet.Draw(new WindowContent(context.Heat, run.Ends, run.Outlook.Window, []), dark),
        "account" => AccountSheet.Draw(context.Heat, HeatAccount.Of(run.Input, run.Single), dark),
        _ => SpineSheet.Draw(new SpineContent(context.Heat, run.Input, run.Single, run.Band(p => p.TemperatureC), run.Band(p => p.C)), dark),
    };
}
