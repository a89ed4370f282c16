// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;
using Heatwright.Cli.Input;
using Heatwright.Cli.Output;
using Heatwright.Journal.Demo;
using Heatwright.Journal.Store;

namespace Heatwright.Cli.Commands;

/// <summary><c>heatwright demo</c>: a journal with a year of an invented works' heats.</summary>
internal static class DemoCommand
{
    public static readonly string[] Examples =
    [
        "heatwright demo --heats 40",
        "heatwright demo --heats 60 --seed 2 --journal other-year.journal",
    ];

    public static Command Create()
    {
        var heats = new Option<int>("--heats") { Description = $"Heats, 1 to {DemoOptions.MostHeats}; default 2000, about half a minute on two cores.", HelpName = "N", DefaultValueFactory = _ => 2000 };
        heats.Validators.Add(result =>
        {
            if (result.GetValueOrDefault<int>() is < 1 or > DemoOptions.MostHeats)
            {
                result.AddError($"--heats: it lies outside 1 to {DemoOptions.MostHeats}. Mend: write 60 for a short look, 2000 for a year.");
            }
        });
        var signals = new Option<int>("--with-signals") { Description = "The last heats that also carry their signals second by second; default 60.", HelpName = "N", DefaultValueFactory = _ => 60 };
        var seed = new Option<int>("--seed") { Description = "Seed. Same seed and version: the same journal to the last hash.", HelpName = "N", DefaultValueFactory = _ => 1 };
        var journal = new JournalPlaceOption();
        var command = new Command("demo", "Fill a journal with the heats of an invented works: drift, mistakes, missed measurements, a reline.") { heats, signals, seed };
        journal.AddTo(command);
        command.SetAction(parsed =>
        {
            string place = journal.Place(parsed);
            var options = new DemoOptions { Heats = parsed.GetValue(heats), Seed = parsed.GetValue(seed), HeatsWithSignals = Math.Clamp(parsed.GetValue(signals), 0, parsed.GetValue(heats)) };
            var clock = new DemoClock();
            using IJournalStore store = JournalPlace.Open(place, new JournalOptions { CreateIfMissing = true, Clock = clock });
            long entries;
            using (var progress = new Progress("making heats"))
            {
                entries = DemoYear.Fill(store, options, clock, new Told(progress));
            }

            Console.WriteLine($"{store.Place}: {options.Heats} heats, {entries} entries of Larkmoor Works, which is invented. Head {store.Head()}.");
            Console.WriteLine("Next: 'heatwright journal heats', 'heatwright journal show HEAT', 'heatwright journal campaign', 'heatwright journal verify'.");
            return ExitCode.Done;
        });
        return command;
    }

    private sealed class Told(Progress progress) : IProgress<DemoProgress>
    {
        public void Report(DemoProgress value) => progress.Say($"making heats: {value.Heats} of {value.Of}, {value.Entries} entries");
    }
}
