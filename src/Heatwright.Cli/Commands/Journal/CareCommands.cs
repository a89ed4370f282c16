// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;
using System.Text.RegularExpressions;
using Heatwright.Cli.Input;
using Heatwright.Cli.Output;
using Heatwright.Journal.Care;

namespace Heatwright.Cli.Commands.Journal;

/// <summary><c>heatwright journal verify, backup, restore, migrate, doctor</c>.</summary>
internal static partial class CareCommands
{
    [GeneratedRegex("^[0-9]+:[0-9a-fA-F]{64}$", RegexOptions.None, 1000)]
    private static partial Regex Head { get; }

    public static (Command, IReadOnlyList<string>) Verify()
    {
        var journal = new JournalPlaceOption();
        var head = new Option<string?>("--head") { Description = "A head that was noted earlier: it must be in the chain. Finds a tail that was cut off.", HelpName = "ENTRY:HASH" };
        var output = new OutputOptions();
        var command = new Command("verify", "Check bytes, chain, bodies and bookkeeping of a journal; every finding names its place.") { head };
        journal.AddTo(command);
        output.AddTo(command);
        command.SetAction(parsed =>
        {
            if (parsed.GetValue(head) is { } noted && !Head.IsMatch(noted))
            {
                throw new BadInputException($"--head: '{noted}' is not the number of an entry, ':' and a hash of 64 hexadecimal digits.", "give it as 'journal verify' or 'journal backup' printed it");
            }

            using var progress = new Progress("verifying");
            VerifyReport report = JournalVerify.Run(journal.Place(parsed), new VerifyOptions { ExpectedHead = parsed.GetValue(head), Progress = Told(progress) });
            progress.Dispose();
            return output.Write(parsed, Answer(report));
        });
        return (command, ["heatwright journal verify", "heatwright journal verify --journal backup.journal --json"]);
    }

    public static (Command, IReadOnlyList<string>) Backup()
    {
        var to = new Argument<string>("TO") { Description = "File that is not there yet." };
        var journal = new JournalPlaceOption();
        var command = new Command("backup", "Copy a journal, in use or not, into a file and verify the copy.") { to };
        journal.AddTo(command);
        command.SetAction(parsed =>
        {
            BackupReport report;
            using (var progress = new Progress("backing up"))
            {
                report = JournalBackup.Make(journal.Place(parsed), parsed.GetValue(to)!, new VerifyOptions { Progress = Told(progress) });
            }

            Console.WriteLine($"{parsed.GetValue(to)}: {Numbers.Fixed(report.Bytes / 1048576.0, 1)} MB, {report.Report.Entries} entries, {(report.Report.Whole ? "verified" : "DAMAGED: run 'journal verify' on both")}.");
            Console.WriteLine($"Head {report.Head}: note it; 'journal verify --head' finds a cut-off tail with it.");
            return report.Report.Whole ? ExitCode.Done : ExitCode.Outside;
        });
        return (command, ["heatwright journal backup \"$(date +%F).journal\""]);
    }

    public static (Command, IReadOnlyList<string>) Restore()
    {
        var from = new Argument<string>("FROM") { Description = "Backup." };
        var journal = new JournalPlaceOption();
        var replace = new Option<bool>("--replace") { Description = "Put it in the place of a journal that is there; that one is kept beside." };
        var command = new Command("restore", "Verify a backup and put it in place.") { from, replace };
        journal.AddTo(command);
        command.SetAction(parsed =>
        {
            RestoreReport report;
            using (new Progress("restoring"))
            {
                report = JournalBackup.Restore(parsed.GetValue(from)!, journal.Place(parsed), parsed.GetValue(replace));
            }

            Console.WriteLine($"{journal.Place(parsed)}: restored to entry {report.Head.Sequence}, head {report.Head}.");
            if (report.Source.Damaged)
            {
                Console.WriteLine($"{parsed.GetValue(from)} itself is damaged where nothing that was restored stands ('journal verify' names it): make another backup.");
            }

            if (report.ReplacedPath is { } kept)
            {
                Console.WriteLine($"What was there is kept as {kept} (entry {report.ReplacedHead?.Sequence.ToString() ?? "unknown"}).");
            }

            return ExitCode.Done;
        });
        return (command, ["heatwright journal restore 2026-11-25.journal --journal restored.journal"]);
    }

    public static (Command, IReadOnlyList<string>) Migrate()
    {
        var from = new Argument<string>("FROM") { Description = "Journal to copy: a file or postgresql://…" };
        var to = new Argument<string>("TO") { Description = "Empty place: a file that is not there, or a database without a journal." };
        var command = new Command("migrate", "Copy a journal from one kind of store to the other, equal by hash. A copy that was interrupted goes on.") { from, to };
        command.SetAction(parsed =>
        {
            MigrationReport report;
            using (var progress = new Progress("copying"))
            {
                report = JournalMigration.Run(parsed.GetValue(from)!, parsed.GetValue(to)!, new VerifyOptions { Progress = Told(progress) });
            }

            Console.WriteLine($"{report.Copied} entries copied; head of both {report.Head}.");
            return report.Report.Whole ? ExitCode.Done : ExitCode.Outside;
        });
        return (command, ["heatwright journal migrate heatwright.journal moved.journal"]);
    }

    public static (Command, IReadOnlyList<string>) Doctor()
    {
        var journal = new JournalPlaceOption();
        var output = new OutputOptions();
        var command = new Command("doctor", "Is this journal well: version, durability, room, cache, clock, backups; each with its mend.");
        journal.AddTo(command);
        output.AddTo(command);
        command.SetAction(parsed => output.Write(parsed, Answer(JournalDoctor.Ask(journal.Place(parsed)))));
        return (command, ["heatwright journal doctor"]);
    }

    private static Answer Answer(VerifyReport report)
    {
        var sheet = new Sheet();
        sheet.Title($"{report.Place}: {(report.Whole ? "whole" : "DAMAGED")}");
        sheet.Words($"{report.Entries} entries of {report.Heats} heats read. Head {report.Head}");
        if (report.Head.Sequence > 0)
        {
            sheet.Words("Note the head elsewhere: a tail that is cut off later is only found with it (--head).");
        }

        foreach (Finding finding in report.Findings)
        {
            sheet.Caution(finding.Text, Word(finding.Severity));
        }

        if (report.Unlisted > 0)
        {
            sheet.Words($"and {report.Unlisted} findings more");
        }

        return new Answer(
            report.Whole ? ExitCode.Done : ExitCode.Outside,
            sheet,
            json =>
            {
                json.Value("format", "heatwright.journal-verify/1").Value("version", AnswerContext.Version).Value("place", report.Place);
                json.WriteBoolean("whole", report.Whole);
                json.WriteNumber("entries", report.Entries);
                json.WriteNumber("heats", report.Heats);
                json.Value("head", report.Head.ToString());
                json.Array("findings", report.Findings, f =>
                {
                    json.Value("check", Choice.Word(f.Check)).Value("severity", Choice.Word(f.Severity)).Value("text", f.Text).Value("heat", f.Heat);
                    foreach ((string name, long? value) in new[] { ("sequence", f.Sequence), ("page", f.Page), ("firstByte", f.FirstByte), ("lastByte", f.LastByte) })
                    {
                        if (value is { } v)
                        {
                            json.WriteNumber(name, v);
                        }
                    }
                });
                json.WriteNumber("unlisted", report.Unlisted);
            },
            new CsvTable(
                ["severity", "check", "sequence", "heat", "page", "firstByte", "lastByte", "text"],
                [.. report.Findings.Select(f => (IReadOnlyList<object>)[Choice.Word(f.Severity), Choice.Word(f.Check), Cell(f.Sequence), f.Heat ?? "", Cell(f.Page), Cell(f.FirstByte), Cell(f.LastByte), f.Text])]));
    }

    private static Answer Answer(IReadOnlyList<DoctorAnswer> answers)
    {
        var sheet = new Sheet();
        foreach (DoctorAnswer a in answers)
        {
            sheet.Words($"{(a.Well ? "well " : "LOOK ")} {a.Question}: {a.Answer}");
            if (a.Mend is { } mend)
            {
                sheet.Words("      Mend: " + mend);
            }
        }

        return new Answer(
            answers.All(a => a.Well) ? ExitCode.Done : ExitCode.Outside,
            sheet,
            json =>
            {
                json.Value("format", "heatwright.journal-doctor/1").Value("version", AnswerContext.Version);
                json.Array("answers", answers, a =>
                {
                    json.Value("question", a.Question).Value("answer", a.Answer);
                    json.WriteBoolean("well", a.Well);
                    json.Value("mend", a.Mend);
                });
            },
            new CsvTable(["question", "answer", "well", "mend"], [.. answers.Select(a => (IReadOnlyList<object>)[a.Question, a.Answer, a.Well ? "true" : "false", a.Mend ?? ""])]));
    }

    private static object Cell(long? value) => value is { } v ? v : "";

    private static string Word(Severity severity) => severity switch
    {
        Severity.Damage => "Damage",
        Severity.Doubt => "Doubt",
        _ => "Note",
    };

    private static Action<string, double> Told(Progress progress) => (what, part) => progress.Say($"{what}, {Numbers.Percent(part)}");
}
