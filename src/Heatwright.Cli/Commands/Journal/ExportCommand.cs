// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;
using Heatwright.Cli.Input;
using Heatwright.Cli.Output;
using Heatwright.Journal.Files.Export;
using Heatwright.Journal.Store;

namespace Heatwright.Cli.Commands.Journal;

/// <summary><c>heatwright journal export</c>: heats as a table, or the entries as they stand.</summary>
internal static class ExportCommand
{
    public static (Command, IReadOnlyList<string>) Create()
    {
        var file = new Argument<string>("FILE") { Description = "File to write: .csv, .xlsx, .parquet or .json (entries)." };
        var entries = new Option<bool>("--entries") { Description = "Entries as they stand, one a row, instead of one row for each heat. Always so for .json." };
        var noSignals = new Option<bool>("--no-signals") { Description = "Entries: leave signal blocks out." };
        var replace = new Option<bool>("--replace") { Description = "Replace a file that is there." };
        var filter = new FilterOptions();
        var list = new ListOptions();
        var command = new Command("export", "Heats as a table with units, or the entries exactly as they stand.") { file, entries, noSignals, replace };
        filter.AddTo(command);
        list.AddTo(command);
        command.SetAction(parsed => list.With(parsed, heats =>
        {
            string path = parsed.GetValue(file)!;
            ExportFormat format = Format(path);
            HeatFilter wanted = filter.Filter(parsed);
            string[]? chosen = wanted == new HeatFilter() ? null : [.. heats.All(wanted with { Order = HeatOrder.Oldest }).Select(r => r.Heat)];
            if (chosen is [])
            {
                Console.WriteLine($"No heat of {heats.Store.Place} is so ({Words(wanted)}): {path} was not written.");
                return ExitCode.Done;
            }

            var options = new ExportOptions
            {
                Heats = chosen,
                Filter = chosen is null ? "all heats" : Words(wanted),
                LeaveSignalsOut = parsed.GetValue(noSignals),
                Replace = parsed.GetValue(replace),
            };
            bool asEntries = format == ExportFormat.Json || parsed.GetValue(entries);
            ExportOutcome outcome;
            using (new Progress("writing " + Path.GetFileName(path)))
            {
                outcome = asEntries ? EntryExport.Write(heats.Store, path, format, options) : HeatExport.WriteHeats(heats.Store, path, format, options);
            }

            Console.WriteLine($"{path}: {outcome.Rows} {(asEntries ? "entries" : "heats")}{(asEntries ? "" : $" in {outcome.Columns} columns")}{(outcome.LeftOut > 0 ? $"; {outcome.LeftOut} left out" : "")}. Journal at {outcome.Head}.");
            return ExitCode.Done;
        }));
        return (command, ["heatwright journal export heats.csv", "heatwright journal export heats.xlsx --grade S235JR --replace", "heatwright journal export entries.json"]);
    }

    private static ExportFormat Format(string path) => Path.GetExtension(path).ToLowerInvariant() switch
    {
        ".csv" => ExportFormat.Csv,
        ".xlsx" => ExportFormat.Xlsx,
        ".parquet" => ExportFormat.Parquet,
        ".json" => ExportFormat.Json,
        var other => throw new BadInputException($"FILE: '{other}' is not a kind of file that is written.", "end the name in .csv, .xlsx, .parquet or .json"),
    };

    private static string Words(HeatFilter f) => string.Join(", ", new[]
    {
        f.Stage is { } s ? "stage " + s : null,
        f.Grade is { } g ? "grade " + g : null,
        f.Unit is { } u ? "converter " + u : null,
        f.FromShiftDate is { } from ? "from " + from : null,
        f.ToShiftDate is { } to ? "to " + to : null,
        f.HeatContains is { } c ? $"number contains {c}" : null,
        f.StaleOnly ? "stale" : null,
    }.OfType<string>());
}
