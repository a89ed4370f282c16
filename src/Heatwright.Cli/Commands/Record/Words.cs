// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;
using System.Globalization;
using Heatwright.Cli.Input;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Lifecycle;
using Heatwright.Journal.Store;

namespace Heatwright.Cli.Commands.Record;

/// <summary>Decisions, notes and corrections.</summary>
internal static class Words
{
    public static (Command, IReadOnlyList<string>) Decide()
    {
        var record = new RecordOptions();
        var question = new Argument<string>("QUESTION") { Description = "What was to be decided, for example \"tap or blow on\"." };
        var chosen = new Argument<string>("CHOSEN") { Description = "What was chosen." };
        var options = new Option<string[]>("--option") { Description = "What else there was, with its odds; may be repeated.", HelpName = "WORDS", AllowMultipleArgumentsPerToken = false };
        var on = new Option<string[]>("--based-on") { Description = "Entry in view at the time (sequence or id); may be repeated.", HelpName = "ENTRY", AllowMultipleArgumentsPerToken = false };
        var command = new Command("decide", "What someone decided, and why (--reason).") { record.Heat, question, chosen, options, on };
        record.AddTo(command);
        command.SetAction(parsed => record.Write(parsed, parsed.GetValue(record.Heat)!, (store, facts) => new DecisionBody(
            parsed.GetValue(question)!,
            parsed.GetValue(chosen)!,
            parsed.GetValue(options) is { Length: > 0 } o ? o : null,
            parsed.GetValue(on) is { Length: > 0 } e ? [.. e.Select(text => Find(store, facts, text, "--based-on").Id)] : null)));
        return (command, ["heatwright record decide L-1001 \"tap or blow on\" tap --option \"blow on 40 s: 97 %\" --reason \"inside the window\""]);
    }

    public static (Command, IReadOnlyList<string>) Note()
    {
        var record = new RecordOptions();
        var text = new Argument<string>("WORDS") { Description = "The note." };
        var command = new Command("note", "Words about a heat.") { record.Heat, text };
        record.AddTo(command);
        command.SetAction(parsed => record.Write(parsed, new NoteBody(parsed.GetValue(text)!)));
        return (command, ["heatwright record note L-1001 \"slopped a little at 35 %\""]);
    }

    public static (Command, IReadOnlyList<string>) Correct()
    {
        var record = new RecordOptions();
        var entry = new Argument<string>("ENTRY") { Description = "Entry that is put right: its sequence or id, as 'heatwright journal show' gives it." };
        var fields = new Argument<string[]>("FIELD=VALUE") { Description = "What holds instead, with its unit: mass=\"8.6 t\", temperature=\"1652 °C\", percent.Si=0.46.", Arity = ArgumentArity.ZeroOrMore };
        var withdraw = new Option<bool>("--withdraw") { Description = "The entry was wrong altogether and nothing holds instead." };
        var command = new Command("correct", "Put an earlier entry right. It stays in the record; what was computed from it is marked stale.") { record.Heat, entry, fields, withdraw };
        record.AddTo(command);
        command.SetAction(parsed =>
        {
            string[] changes = parsed.GetValue(fields) ?? [];
            if (parsed.GetValue(withdraw) == changes.Length > 0)
            {
                throw new BadInputException("correct: either fields or --withdraw.", "write what holds, for example mass=\"8.6 t\", or --withdraw alone");
            }

            return record.Write(parsed, parsed.GetValue(record.Heat)!, (store, facts) =>
            {
                Entry target = Find(store, facts, parsed.GetValue(entry)!, "ENTRY");
                return new CorrectionBody(target.Id, changes.Length == 0 ? null : BodyEdit.With(Standing(facts, target), changes));
            });
        });
        return (command, ["heatwright record correct L-1001 4 mass=\"8.6 t\" --reason \"scale read again\""]);
    }

    /// <summary>The entry with this sequence or id among those of a heat.</summary>
    private static Entry Find(IJournalStore store, HeatFacts facts, string text, string field)
    {
        Entry? found = Guid.TryParse(text, out Guid id) ? store.Find(id)
            : long.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out long sequence) ? facts.Entries.FirstOrDefault(e => e.Sequence == sequence)
            : null;
        return found is not null && found.Heat == facts.Heat
            ? found
            : throw new BadInputException($"{field}: heat {facts.Heat} has no entry '{text}'.", $"'heatwright journal show {facts.Heat}' lists its entries with their numbers");
    }

    // What holds of the entry now, by the same rules as everywhere: corrections, corrections of corrections and withdrawals applied.
    private static EntryBody Standing(HeatFacts facts, Entry target) => target.Kind switch
    {
        EntryKind.Correction => throw new BadInputException(
            $"ENTRY: {target.Sequence} is itself a correction.", "correct the entry that it puts right, or --withdraw the correction"),
        EntryKind.SignalBlock => throw new BadInputException($"ENTRY: {target.Sequence} is a block of signals.", "its samples are not changed by hand; --withdraw it when it is wrong"),
        _ => facts.All.FirstOrDefault(f => f.Id == target.Id)?.Body ?? target.Body,
    };
}
