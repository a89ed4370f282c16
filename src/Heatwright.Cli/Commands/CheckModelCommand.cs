// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;
using Heatwright.Cli.Input;
using Heatwright.Cli.Output;
using Heatwright.Learning.Validation;
using Heatwright.Reports.Validation;

namespace Heatwright.Cli.Commands;

/// <summary><c>heatwright check-model</c>: the model against measured heats and published figures.</summary>
internal static class CheckModelCommand
{
    public static readonly string[] Examples =
    [
        "heatwright check-model --data my-heats",
        "heatwright check-model --data my-heats --write docs/handbook",
    ];

    public static Command Create()
    {
        var data = new Option<string>("--data") { Description = "Folder with the plant record.", HelpName = "FOLDER", Required = true };
        var write = new Option<string?>("--write") { Description = "Write the handbook's validation chapter with its pictures into this folder.", HelpName = "FOLDER" };
        var output = new OutputOptions();
        var command = new Command("check-model", "Compare the model with measured heats and published figures, and say which claims hold.") { data, write };
        output.AddTo(command);
        command.SetAction(parsed =>
        {
            ValidationReport report = Run(parsed.GetValue(data)!);
            IReadOnlyList<string> written = parsed.GetValue(write) is { } folder ? ValidationChapter.Write(report, folder) : [];
            return output.Write(parsed, Answer(report, written));
        });
        return command;
    }

    private static ValidationReport Run(string folder)
    {
        try
        {
            using var progress = new Progress("checking the model");
            return ModelValidation.Run(folder, new Told(progress));
        }
        catch (ValidationDataException e)
        {
            throw new BadInputException("--data: " + e.Message, "point --data at a folder with the files named in the handbook, chapter 90");
        }
    }

    private static Answer Answer(ValidationReport report, IReadOnlyList<string> written)
    {
        IReadOnlyList<Verdict> verdicts = report.Verdicts;
        var sheet = new Sheet();
        sheet.Title("The model against measured heats and published figures");
        foreach (Verdict v in verdicts)
        {
            sheet.Words("").Words($"{(v.Holds ? "Holds: " : "Does not hold: ")}{v.What}.").Words("  " + v.Found);
        }

        sheet.Words("");
        foreach (string file in written)
        {
            sheet.Words("written: " + file);
        }

        return new Answer(
            verdicts.All(v => v.Holds) ? ExitCode.Done : ExitCode.Outside,
            sheet,
            json =>
            {
                json.Value("format", "heatwright.check-model/1").Value("version", AnswerContext.Version);
                json.Array("verdicts", verdicts, v =>
                {
                    json.Value("claim", v.What);
                    json.WriteBoolean("holds", v.Holds);
                    json.Value("found", v.Found);
                });
            },
            new CsvTable(["claim", "holds", "found"], [.. verdicts.Select(v => (IReadOnlyList<object>)[v.What, v.Holds ? "true" : "false", v.Found])]));
    }

    // Said at once, in the thread that works: the posting kind would speak after the end.
    private sealed class Told(Progress progress) : IProgress<string>
    {
        public void Report(string value) => progress.Say("checking the model: " + value);
    }
}
