// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;
using System.Globalization;
using Heatwright.Cli.Input;
using Heatwright.Journal.Lifecycle;
using Heatwright.Journal.Store;
using Heatwright.Journal.Views;

namespace Heatwright.Cli.Commands.Journal;

/// <summary><c>heatwright journal show</c>: everything about one heat, planned beside actual, now or as it was known then.</summary>
internal static class ShowCommand
{
    public static (Command, IReadOnlyList<string>) Create()
    {
        var heat = new Argument<string>("HEAT") { Description = "Heat number." };
        var asOf = new Option<string?>("--as-of")
        {
            Description = "What was known then: an entry's sequence, or a time as --time of 'record' takes it.",
            HelpName = "ENTRY|TIME",
        };
        var journal = new JournalPlaceOption();
        var output = new OutputOptions();
        var command = new Command("show", "One heat: planned beside actual, operations, decisions, results with stale marks, corrections, and every entry.") { heat, asOf };
        journal.AddTo(command);
        output.AddTo(command);
        command.SetAction(parsed =>
        {
            using IJournalStore store = journal.Open(parsed, write: false);
            string number = parsed.GetValue(heat)!;
            HeatRecord record = HeatRecord.Read(store, number, AsOfWhen(parsed.GetValue(asOf)), signals: true);
            return record.Version == 0
                ? throw new BadInputException($"{store.Place}: no entry of heat '{number}'{(parsed.GetValue(asOf) is { } t ? $" as of {t}" : "")}.", "'heatwright journal heats' lists the heats")
                : output.Write(parsed, ShowAnswer.Of(record));
        });
        return (command, ["heatwright journal show L-1001", "heatwright journal show L-1001 --as-of 40"]);
    }

    private static AsOf AsOfWhen(string? text) => text switch
    {
        null => AsOf.Now,
        _ when long.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out long sequence) => new AsOf(Sequence: sequence),
        // To the minute means: that minute is over.
        _ => new AsOf(Arrival: Times.Parse(text, "--as-of").AddMilliseconds(text.Length <= 16 ? 59_999 : 999)),
    };
}
