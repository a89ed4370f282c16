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
        _journal.AddTo(command, mayMake: true);
        _by.AddTo(command);
        command.Options.Add(_time);
        command.Options.Add(_reason);
        command.Options.Add(_asFact);
        _output.AddTo(command);
    }

    /// <summary>Writes one entry and says what stands in the journal now.</summary>
    public int Write(ParseResult parsed, EntryBody body) => Write(parsed, parsed.GetValue(Heat)!, (_, _) => body);

    /// <summary>Writes one entry that is made from what the journal holds of the heat.</summary>
    public int Write(ParseResult parsed, string heat, Func<IJournalStore, HeatFacts, EntryBody> make)
    {
        if (heat.Length == 0 && parsed.CommandResult.Command.Arguments.Contains(Heat))
        {
            throw new BadInputException("HEAT: it is empty.", "give the number of the heat");
        }

        using IJournalStore store = _journal.Open(parsed, write: true);
        DateTimeOffset time = Times.Parse(parsed.GetValue(_time), "--time");
        Entry written = Append(parsed, store, heat, facts => NewEntry.Of(heat, make(store, facts), time, _by.Actor(parsed), parsed.GetValue(_reason) ?? ""));
        EntryBody body = written.Body;
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

    // What is entered by hand rests on what the record says: if someone else writes to the heat meanwhile, it is made and judged again.
    private Entry Append(ParseResult parsed, IJournalStore store, string heat, Func<HeatFacts, NewEntry> make)
    {
        for (int attempt = 0; attempt < 20; attempt++)
        {
            long version = store.Version(heat);
            HeatFacts facts = HeatFacts.Of(heat, store.ReadHeat(heat, signals: false));
            NewEntry entry = make(facts);
            if (BodyLimits.Impossible(entry.Body) is { } impossible)
            {
                throw new BadInputException(impossible.Text, impossible.Mend);
            }

            if (!parsed.GetValue(_asFact))
            {
                Refuse(heat, LifecycleGuard.Refusal(facts, entry, TimeProvider.System.GetUtcNow()));
                Refuse(heat, BodyLimits.Unusual(entry.Body) ?? KnownNames.Unknown(store, entry.Body));
            }

            AppendOutcome outcome = store.Append([new AppendRequest([entry], new Dictionary<string, long> { [heat] = version })])[0];
            if (outcome.Status is AppendStatus.Written or AppendStatus.AlreadyThere)
            {
                return outcome.Entries[0];
            }
        }

        throw new JournalException(JournalProblem.Conflict, $"{store.Place}: others keep writing to heat {heat}; nothing was written. Mend: enter it once more.");
    }

    private static void Refuse(string heat, string? refusal)
    {
        if (refusal is null)
        {
            return;
        }

        string[] parts = refusal.Split(" Mend: ", 2);
        string mend = parts.Length == 2 ? parts[1].TrimEnd('.') + "; if it was so all the same, add --as-fact" : "if it was so all the same, add --as-fact";
        throw new BadInputException(heat.Length == 0 ? parts[0] : $"heat {heat}: {parts[0]}", mend);
    }
}
