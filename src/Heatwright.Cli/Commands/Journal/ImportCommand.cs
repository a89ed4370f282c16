// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;
using Heatwright.Cli.Input;
using Heatwright.Cli.Output;
using Heatwright.Journal.Files.Export;
using Heatwright.Journal.Files.Import;
using Heatwright.Journal.Files.Mapping;
using Heatwright.Journal.Files.Tables;
using Heatwright.Journal.Store;

namespace Heatwright.Cli.Commands.Journal;

/// <summary><c>heatwright journal import</c>: past heats out of a spreadsheet, by a mapping.</summary>
internal static class ImportCommand
{
    public static (Command, IReadOnlyList<string>) Create()
    {
        var file = new Argument<string>("FILE") { Description = "Table of heats: CSV, XLSX, or Parquet as exported here. Or JSON of all entries, exported here." };
        var mapping = new Option<string?>("--mapping")
        {
            Description = "Mapping: which column is which quantity in which unit. Default: the file's own layout, when it was exported here.",
            HelpName = "FILE.yaml",
        };
        var preview = new Option<bool>("--preview") { Description = "Say what the file gives and write nothing." };
        var accept = new Option<bool>("--accept-rejects") { Description = "Leave rejected rows out instead of stopping; they are listed in the journal." };
        var doubtful = new Option<bool>("--accept-doubtful") { Description = "Take columns most of whose values no shop has, instead of stopping: usually their unit is wrong." };
        var correct = new Option<bool>("--correct") { Description = "Where the journal holds something else, put it right as the file says (needs --reason)." };
        var reason = new Option<string>("--reason") { Description = "Why the file is right.", HelpName = "WORDS", DefaultValueFactory = _ => "" };
        var by = new Option<string?>("--by")
        {
            Description = "Who imports and corrects; the values stay those of the mapping's actor. Default: HEATWRIGHT_BY, else the mapping's actor.",
            HelpName = "NAME",
            DefaultValueFactory = _ => Environment.GetEnvironmentVariable("HEATWRIGHT_BY") is { Length: > 0 } name ? name : null,
        };
        var journal = new JournalPlaceOption();
        var command = new Command("import", "Take past heats out of a table: all or nothing; a second time nothing is written.") { file, mapping, preview, accept, doubtful, correct, reason, by };
        journal.AddTo(command);
        command.SetAction(parsed =>
        {
            string path = parsed.GetValue(file)!;
            if (Path.GetExtension(path).Equals(".json", StringComparison.OrdinalIgnoreCase))
            {
                if (parsed.GetValue(mapping) is not null || parsed.GetValue(accept) || parsed.GetValue(doubtful) || parsed.GetValue(correct))
                {
                    throw new BadInputException($"{path}: exported entries are taken as they stand, with no mapping, rejects or corrections.", "leave --mapping, --accept-rejects, --accept-doubtful and --correct out");
                }

                return Entries(path, parsed.GetValue(preview), () => journal.Open(parsed, write: true, mayMake: true));
            }

            ImportMapping map = Mapping(path, parsed.GetValue(mapping));
            using var progress = new Progress("reading " + Path.GetFileName(path));
            var options = new ImportOptions
            {
                AcceptRejects = parsed.GetValue(accept),
                AcceptDoubtful = parsed.GetValue(doubtful),
                Correct = parsed.GetValue(correct),
                Reason = parsed.GetValue(reason)!,
                Actor = parsed.GetValue(by) is { } name ? "person:" + name : null,
                Progress = p => progress.Say($"{p.Step} {Path.GetFileName(path)}: {p.Done}{(p.Of is { } of ? $" of {of}" : "")}"),
            };
            if (parsed.GetValue(preview))
            {
                ImportPreview found = HeatImport.Preview(path, map, options);
                progress.Dispose();
                Print(found.Lines());
                Console.WriteLine("Nothing was written (--preview).");
                return found.RejectedRows > 0 || (found.DoubtfulColumns.Any() && !options.AcceptDoubtful) ? ExitCode.BadInput : ExitCode.Done;
            }

            using IJournalStore store = journal.Open(parsed, write: true, mayMake: true);
            ImportOutcome outcome = HeatImport.Write(store, path, map, options);
            progress.Dispose();
            Print(outcome.Preview.Lines());
            return Say(outcome, store.Place);
        });
        return (command,
        [
            "heatwright journal import heats.xlsx --mapping examples/mappings/larkmoor-spreadsheet.yaml --preview",
            "heatwright journal import exported.csv",
            "heatwright journal import entries.json --journal copy.journal",
        ]);
    }

    // The file is checked to its end before a journal is opened or made.
    private static int Entries(string path, bool preview, Func<IJournalStore> open)
    {
        long entries;
        using (new Progress("checking " + Path.GetFileName(path)))
        {
            entries = EntryImport.Check(path);
        }

        if (preview)
        {
            Console.WriteLine($"{path}: {entries} entries, a whole journal, every hash as it was exported.");
            Console.WriteLine("Nothing was written (--preview).");
            return ExitCode.Done;
        }

        using IJournalStore store = open();
        int written;
        using (new Progress("writing " + store.Place))
        {
            written = EntryImport.Write(store, path);
        }

        Console.WriteLine(written == 0
            ? $"{store.Place} holds all {entries} entries of {path} already; nothing was written."
            : $"Written to {store.Place}: {written} entries as they stood in {path}{(written < entries ? $"; the first {entries - written} were there already" : "")}. Head {store.Head()}.");
        return ExitCode.Done;
    }

    private static ImportMapping Mapping(string path, string? mapping) => mapping is not null
        ? MappingFormat.ReadFile(mapping)
        : OwnLayout.For(TableSource.Open(path)) ?? throw new BadInputException(
            $"{path}: this table was not exported here, so that its columns may mean anything.",
            $"draft a mapping with 'heatwright journal draft-mapping {path} > my-mapping.yaml', complete it, and give --mapping my-mapping.yaml");

    private static int Say(ImportOutcome outcome, string place)
    {
        switch (outcome.Status)
        {
            case ImportStatus.Written:
                Console.WriteLine(
                    $"Written to {place}: {outcome.Entries} entries; {outcome.NewHeats} new heats, {outcome.AddedTo} heats with something more, {outcome.Unchanged} unchanged, {outcome.Corrected} corrections.");
                return ExitCode.Done;
            case ImportStatus.NothingNew:
                Console.WriteLine($"{place} holds all of it already; nothing was written.");
                return ExitCode.Done;
            case ImportStatus.Rejected:
                Console.Error.WriteLine($"heatwright: {outcome.Preview.RejectedRows} rows are rejected; nothing was written.");
                Console.Error.WriteLine("Mend: mend the file or the mapping, or add --accept-rejects to leave those rows out.");
                return ExitCode.BadInput;
            case ImportStatus.Doubtful:
                Console.Error.WriteLine($"heatwright: most values of {string.Join(", ", outcome.Preview.DoubtfulColumns.Select(c => c.Column))} lie outside what a shop can have; nothing was written.");
                Console.Error.WriteLine("Mend: correct unit or scale of the column in the mapping, state zero: missing where a 0 stands for nothing, or add --accept-doubtful if the values are right.");
                return ExitCode.BadInput;
            case ImportStatus.Differs:
                Print(outcome.Differences.Select(d => d.ToString()).Take(40));
                Console.Error.WriteLine($"heatwright: the journal holds other values for {outcome.Differences.Count} of them; nothing was written.");
                Console.Error.WriteLine("Mend: mend the file, or add --correct --reason \"…\" to have the journal put right; the old values stay in it.");
                return ExitCode.BadInput;
            default:
                Console.Error.WriteLine("heatwright: someone wrote to one of these heats meanwhile; nothing was written.");
                Console.Error.WriteLine("Mend: import once more.");
                return ExitCode.BadInput;
        }
    }

    private static void Print(IEnumerable<string> lines)
    {
        foreach (string line in lines)
        {
            Console.WriteLine(line);
        }
    }
}
