// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;
using Heatwright.Cli.Input;
using Heatwright.Cli.Output;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Lifecycle;
using Heatwright.Journal.Store;
using Heatwright.Journal.Views;

namespace Heatwright.Cli.Commands.Record;

/// <summary><c>heatwright record</c>: what was done, measured or decided goes into the journal, one fact at a time.</summary>
internal static class RecordCommand
{
    public static readonly string[] Examples =
    [
        "heatwright record weigh L-1001 hot-metal \"142.7 t\" --temperature \"1350 °C\" --by anna",
        "heatwright record weigh L-1001 scrap \"6.7 t\" --material heavy --by anna",
        "heatwright record mark L-1001 blow running --unit North --by anna",
        "heatwright record measure L-1001 in-blow --temperature \"1550 °C\" --carbon 0.48 --by anna",
        "heatwright record decide L-1001 \"tap or blow on\" tap --reason \"inside the window\" --by anna",
    ];

    public static GroupCommand Create()
    {
        var group = new GroupCommand("record", "Put a fact, a decision or a correction into the journal. Nothing in it is ever changed or removed.");
        group.Add(Facts.Weigh());
        group.Add(Facts.Add());
        group.Add(Facts.Measure());
        group.Add(Facts.Analyse());
        group.Add(Happenings.Mark());
        group.Add(Happenings.Delay());
        group.Add(Happenings.Renew());
        group.Add(Happenings.Close());
        group.Add(Words.Decide());
        group.Add(Words.Note());
        group.Add(Words.Correct());
        return group;
    }
}

/// <summary>What every fact has: a heat, a time, a person, a reason.</summary>
internal sealed class RecordOptions
{
    private readonly JournalPlaceOption _journal = new();
    private readonly OutputOptions _output = new();
    private readonly PersonOption _by = new();

    private readonly Option<string?> _time = new("--time")
    {
        Description = "When it was so: 2026-11-25 08:12 by this machine's clock, or with an offset (…T08:12:00+01:00). Default: now.",
        HelpName = "TIME",
    };

    private readonly Option<string?> _reason = new("--reason") { Description = "Why. Decisions and corrections need one.", HelpName = "WORDS" };

    private readonly Option<bool> _asFact = new("--as-fact")
    {
        Description = "Take it although it does not fit where the heat stands; it will be shown as something that does not fit.",
    };

    public Argument<string> Heat { get; } = new("HEAT") { Description = "Heat number." };

    public void AddTo(Command command)
    {
        _journal.AddTo(command);
        _by.AddTo(command);
        command.Options.Add(_time);
        command.Options.Add(_reason);
        command.Options.Add(_asFact);
        _output.AddTo(command);
    }

    /// <summary>Writes one entry and says what stands in the journal now.</summary>
    public int Write(ParseResult parsed, EntryBody body) => Write(parsed, parsed.GetValue(Heat)!, _ => body);

    /// <summary>Writes one entry that is made from what the journal holds.</summary>
    public int Write(ParseResult parsed, string heat, Func<IJournalStore, EntryBody> make)
    {
        using IJournalStore store = _journal.Open(parsed, write: true);
        EntryBody body = make(store);
        var entry = NewEntry.Of(heat, body, Times.Parse(parsed.GetValue(_time), "--time"), _by.Actor(parsed), parsed.GetValue(_reason) ?? "");
        if (!parsed.GetValue(_asFact) && LifecycleGuard.Refusal(HeatFacts.Of(heat, store.ReadHeat(heat, signals: false)), entry, TimeProvider.System.GetUtcNow()) is { } refusal)
        {
            throw new BadInputException($"heat {heat}: {refusal.Split(" Mend: ")[0]}", refusal.Contains(" Mend: ", StringComparison.Ordinal)
                ? refusal.Split(" Mend: ")[1].TrimEnd('.') + "; if it was so all the same, add --as-fact"
                : "if it was so all the same, add --as-fact");
        }

        Entry written = store.Append(entry)[0];
        var sheet = new Sheet();
        sheet.Words($"Entry {written.Sequence}{(heat.Length == 0 ? "" : $", heat {heat}")}: {written.Kind.Name()}: {EntryWords.Of(body)}.");
        return _output.Write(parsed, new Answer(
            ExitCode.Done,
            sheet,
            json =>
            {
                json.Value("format", "heatwright.record/1").Value("version", AnswerContext.Version);
                json.Object("entry", () => EntryJsonText.Write(json, written));
            },
            new CsvTable(["sequence", "id", "heat", "kind"], [[written.Sequence, written.Id.ToString(), heat, written.Kind.Name()]])));
    }
}
