// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;
using Heatwright.Cli.Output;
using Heatwright.Journal.Files.Import;
using Heatwright.Journal.Files.Mapping;

namespace Heatwright.Cli.Commands.Journal;

/// <summary><c>heatwright journal draft-mapping</c> and <c>quantities</c>: what a mapping needs.</summary>
internal static class MappingCommands
{
    public static (Command, IReadOnlyList<string>) Draft()
    {
        var file = new Argument<string>("FILE") { Description = "Table of heats: CSV, XLSX or Parquet." };
        var command = new Command("draft-mapping", "Propose a mapping from the headers of a table and the way its cells are written. What cannot be told is left to you, and said.") { file };
        command.SetAction(parsed =>
        {
            MappingDraft draft;
            using (new Progress("reading " + Path.GetFileName(parsed.GetValue(file))))
            {
                draft = MappingDraft.Of(parsed.GetValue(file)!);
            }

            Console.Out.Write(draft.ToYaml());
            DraftColumn[] open = [.. draft.Undecided];
            Console.Error.WriteLine($"heatwright: {draft.Columns.Count - open.Length} of {draft.Columns.Count} columns decided{(draft.Heat is null ? "; no column was found for the heat number" : "")}.");
            foreach (DraftColumn column in open)
            {
                Console.Error.WriteLine($"  {column.Column}: {column.Why}");
            }

            if (draft.TimeUndecided is { } time)
            {
                Console.Error.WriteLine($"  {string.Join(", ", draft.Time)}: how the time is written is open: {time}");
            }

            Console.Error.WriteLine("Next: look at every line, complete what is open, and try it with 'heatwright journal import FILE --mapping … --preview'.");
            return ExitCode.Done;
        });
        return (command, ["heatwright journal draft-mapping heats.csv > my-mapping.yaml"]);
    }

    public static (Command, IReadOnlyList<string>) Quantities()
    {
        var command = new Command("quantities", "The quantities that a mapping may name, with their units.");
        command.SetAction(_ =>
        {
            var sheet = new Sheet();
            sheet.Table(
                [new("quantity", Number: false), new("units", Number: false), new("meaning", Number: false)],
                [.. ImportQuantity.Describe().Select(q => (IReadOnlyList<string>)[q.Name, q.Units, q.Meaning])]);
            SheetPrinter.Print(sheet, noColour: false, ascii: false);
            return ExitCode.Done;
        });
        return (command, ["heatwright journal quantities"]);
    }
}
