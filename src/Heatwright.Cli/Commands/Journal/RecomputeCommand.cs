// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;
using Heatwright.Cli.Input;
using Heatwright.Cli.Output;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Lifecycle;
using Heatwright.Journal.Store;
using Heatwright.Journal.Views;
using Heatwright.Shop;

namespace Heatwright.Cli.Commands.Journal;

/// <summary><c>heatwright journal ask</c> and <c>recompute</c>: the model asked from the record, and asked again when the record changed.</summary>
internal static class RecomputeCommand
{
    public static (Command, IReadOnlyList<string>) Ask()
    {
        var heat = new Argument<string>("HEAT") { Description = "Heat number." };
        Argument<ResultQuestion> question = Choice.Argument<ResultQuestion>("QUESTION", "forecast: end from what was charged; correction: also from the in-blow measurement.");
        var ensemble = new EnsembleOptions(200);
        var journal = new JournalPlaceOption();
        var by = new PersonOption();
        var output = new OutputOptions();
        var command = new Command("ask", "Ask the model from what the record of a heat holds; the answer goes into the record.") { heat, question };
        ensemble.AddTo(command);
        journal.AddTo(command);
        by.AddTo(command);
        output.AddTo(command);
        command.SetAction(parsed =>
        {
            using IJournalStore store = journal.Open(parsed, write: true);
            string number = parsed.GetValue(heat)!;
            HeatRecord record = HeatRecord.Read(store, number);
            (Works works, Guid? entry) = WorksOf(store, record);
            HeatAnswer answer;
            using (new Progress($"heat {number}: blowing {ensemble.Members(parsed)} members"))
            {
                answer = HeatQuestions.Ask(record, works, parsed.GetValue(question), new QuestionOptions(ensemble.Seed(parsed), ensemble.Members(parsed), entry));
            }

            if (answer.Result is null)
            {
                throw new BadInputException($"heat {number}: {answer.Refusal}", $"'heatwright journal show {number}' shows what is recorded");
            }

            Entry written = store.Append(NewEntry.Of(number, answer.Result, Times.Parse(null, ""), Recompute.Actor, "asked by " + by.Actor(parsed)))[0];
            return output.Write(parsed, Answer("heatwright.journal-ask/1", $"Heat {number}: {EntryWords.Plain(answer.Result.Question)}, entry {written.Sequence}", [(written, answer.Notes, null)]));
        });
        return (command, ["heatwright journal ask L-1001 forecast"]);
    }

    public static (Command, IReadOnlyList<string>) Again()
    {
        var heat = new Argument<string?>("HEAT") { Description = "Heat number; default: every heat with a stale result.", Arity = ArgumentArity.ZeroOrOne };
        var journal = new JournalPlaceOption();
        var output = new OutputOptions();
        var command = new Command("recompute", "Compute stale results anew and put them beside the old ones. Decisions and old results stay.") { heat };
        journal.AddTo(command);
        output.AddTo(command);
        command.SetAction(parsed =>
        {
            using IJournalStore store = journal.Open(parsed, write: true);
            string[] heats = parsed.GetValue(heat) is { } one ? [one] : [.. new HeatList(store).All(new HeatFilter(StaleOnly: true, Order: HeatOrder.Oldest)).Select(r => r.Heat)];
            var done = new List<(Entry? Entry, IReadOnlyList<string> Notes, string? Refusal)>();
            using var progress = new Progress("computing stale results anew");
            foreach (string number in heats)
            {
                progress.Say($"heat {number}: computing stale results anew");
                RecomputeReport report = Recompute.Run(store, ShopLoader.DemonstrationWorks, number);
                done.AddRange(report.Results.Select(r => (r.New, r.Notes, r.Refusal is null ? null : $"{number}: {r.Refusal}")));
                if (report.StalePlan is { } plan)
                {
                    done.Add((null, [], $"{number}: {plan}"));
                }
            }

            return output.Write(parsed, Answer("heatwright.journal-recompute/1", $"{done.Count(d => d.Entry is not null)} results computed anew, {done.Count(d => d.Entry is null)} left", done));
        });
        return (command, ["heatwright journal recompute", "heatwright journal recompute L-1001"]);
    }

    // The works that the last plan was made with, else the demonstration.
    private static (Works Works, Guid? Entry) WorksOf(IJournalStore store, HeatRecord record) =>
        record.Plan?.Fact.Body.Basis?.Works is { } id && store.Find(id)?.Body is WorksBody body
            ? (ShopLoader.LoadWorks(body.Files, $"works entry {id}").ValueOrThrow(), id)
            : (ShopLoader.DemonstrationWorks, null);

    private static Answer Answer(string format, string title, IReadOnlyList<(Entry? Entry, IReadOnlyList<string> Notes, string? Refusal)> done)
    {
        var sheet = new Sheet();
        sheet.Title(title);
        foreach ((Entry? entry, IReadOnlyList<string> notes, string? refusal) in done)
        {
            if (entry is null)
            {
                sheet.Item(refusal ?? "");
                continue;
            }

            var result = (ResultBody)entry.Body;
            sheet.Heading($"Heat {entry.Heat}, entry {entry.Sequence}: {EntryWords.Plain(result.Question)}");

            // What to do now stands before the figures: a blower reads the first line.
            int advice = result.Question == ResultQuestion.Correction ? 1 : 0;
            foreach (string note in notes.Take(advice))
            {
                sheet.Words(note);
            }

            sheet.Table(
                [new("", Number: false), new("unit", Number: false), new("middle"), new("80 % band")],
                [
                    .. result.Values.Select(v =>
                    {
                        ShownQuantity q = ShownQuantity.Of(ResultQuantity.UnitOf(v.Key), v.Key);
                        return (IReadOnlyList<string>)[q.Name, q.Unit, q.Text(v.Value.Value), v.Value.Low is null ? "" : $"{q.Text(v.Value.Low)} to {q.Text(v.Value.High)}"];
                    }),
                ]);
            foreach (string note in notes.Skip(advice))
            {
                sheet.Item(note);
            }
        }

        return new Answer(
            done.Any(d => d.Entry is null) ? ExitCode.Outside : ExitCode.Done,
            sheet,
            json =>
            {
                json.Value("format", format).Value("version", AnswerContext.Version);
                json.Array("results", done.Where(d => d.Entry is not null), d => EntryJsonText.Write(json, d.Entry!));
                json.Array("notes", done.SelectMany(d => d.Notes), n => json.Value("text", n));
                json.Array("left", done.Where(d => d.Entry is null), d => json.Value("text", d.Refusal));
            },
            new CsvTable(
                ["heat", "entry", "quantity", "value", "low", "high"],
                [
                    .. done.Where(d => d.Entry is not null).SelectMany(d => ((ResultBody)d.Entry!.Body).Values.Select(v => (IReadOnlyList<object>)
                        [d.Entry.Heat, d.Entry.Sequence, v.Key, v.Value.Value, v.Value.Low is { } l ? l : "", v.Value.High is { } h ? h : ""])),
                ]));
    }
}
