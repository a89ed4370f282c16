// SPDX-License-Identifier: Apache-2.0
using System.Text.Json;
using Heatwright.Cli.Output;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Lifecycle;
using Heatwright.Journal.Views;

namespace Heatwright.Cli.Commands.Journal;

/// <summary>The record of a heat as tables, JSON and CSV.</summary>
internal static class ShowAnswer
{
    public static Answer Of(HeatRecord record)
    {
        var sheet = new Sheet();
        Head(sheet, record);
        Planned(sheet, record.PlannedAndActual);
        Operations(sheet, record);
        Results(sheet, record);
        Decisions(sheet, record);
        Oddities(sheet, record);
        Entries(sheet, record);
        return new Answer(ExitCode.Done, sheet, json => Json(json, record), Csv(record.PlannedAndActual));
    }

    private static void Head(Sheet sheet, HeatRecord record)
    {
        OrderBody? order = record.Order?.Body;
        sheet.Title($"Heat {record.Heat}: {record.Stage.Name()}");
        string[] parts = [.. new[] { order?.Grade, record.Unit is { } unit ? "converter " + unit : null, order?.Practice is { } practice ? "practice " + practice : null }.OfType<string>()];
        if (parts.Length > 0)
        {
            sheet.Words(string.Join(", ", parts) + ".");
        }

        string asOf = record.AsOf switch
        {
            { Sequence: { } sequence } => $" As it was known at entry {sequence}.",
            { Arrival: { } time } => $" As it was known on {Times.Shown(time)}.",
            _ => "",
        };
        sheet.Words($"Version {record.Version} (entries).{asOf} Times are by the clock of {Times.Zone.Id}.");
    }

    private static void Planned(Sheet sheet, IReadOnlyList<PlannedLine> lines)
    {
        if (lines.Count == 0)
        {
            return;
        }

        sheet.Heading("Planned beside actual");
        sheet.Table(
            [new("", Number: false), new("", Number: false), new("unit", Number: false), new("planned"), new("80 % band"), new("ordered"), new("actual"), new("difference")],
            [
                .. lines.Select((l, i) =>
                {
                    ShownQuantity q = ShownQuantity.Of(l.Unit, l.Name);
                    return (IReadOnlyList<string>)
                    [
                        i > 0 && lines[i - 1].Group == l.Group ? "" : l.Group, q.Name, q.Unit, q.Text(l.Planned),
                        l.Low is null ? "" : $"{q.Text(l.Low)} to {q.Text(l.High)}", Ordered(q, l), (l.Outside ? "! " : "") + (l.Below ? "<" : "") + q.Text(l.Actual), q.Change(l.Difference),
                    ];
                }),
            ]);
        if (lines.Any(l => l.Outside))
        {
            sheet.Words("! outside what was ordered.");
        }
    }

    private static string Ordered(ShownQuantity q, PlannedLine line) => line switch
    {
        { Least: { } least, Most: { } most } => $"{q.Text(least)} to {q.Text(most)}",
        { Most: { } most } => "max " + q.Text(most),
        { Least: { } least } => "min " + q.Text(least),
        _ => "",
    };

    private static void Operations(Sheet sheet, HeatRecord record)
    {
        Fact<DelayBody>[] delays = [.. record.Delays];
        if (record.Operations.Count > 0)
        {
            sheet.Heading("Operations");
            sheet.Table(
                [new("", Number: false), new("state", Number: false), new("began", Number: false), new("ended", Number: false), new("min"), new("oxygen", "Nm3"), new("unit", Number: false)],
                [
                    .. record.Operations.Select(o => (IReadOnlyList<string>)
                    [
                        o.Name, EntryWords.Plain(o.State), Clock(o.Began), Clock(o.Ended), o.Duration is { } d ? Numbers.Minutes(d.TotalSeconds) : "",
                        o.OxygenNm3 is { } x ? Numbers.Fixed(x, 0) : "", o.Unit ?? "",
                    ]),
                ]);
        }

        if (delays.Length > 0)
        {
            sheet.Heading("Delays");
            foreach (Fact<DelayBody> delay in delays)
            {
                sheet.Item($"{Clock(delay.Body.From)} {EntryWords.Of(delay.Body)}");
            }
        }
    }

    private static void Results(Sheet sheet, HeatRecord record)
    {
        if (record.Plan is { IsStale: true } plan)
        {
            sheet.Caution($"the plan (entry {plan.Fact.Entry.Sequence}) no longer stands on what is known: {Causes(plan.Stale)}.", "Stale");
        }

        if (record.Results.Count == 0)
        {
            return;
        }

        sheet.Heading("Computed from the record");
        foreach (ResultView result in record.Results)
        {
            string mark = result.IsStale ? $" STALE: {Causes(result.Stale)}{(result.ReplacedBy is null ? "" : "; computed again below")}" : "";
            sheet.Item($"entry {result.Fact.Entry.Sequence}: {EntryWords.Of(result.Fact.Body)}.{mark}");
        }
    }

    private static void Decisions(Sheet sheet, HeatRecord record)
    {
        if (record.Decisions.Count == 0)
        {
            return;
        }

        sheet.Heading("Decisions");
        foreach (DecisionView decision in record.Decisions)
        {
            DecisionBody body = decision.Fact.Body;
            sheet.Item(
                $"{Clock(decision.Fact.Time)} {body.Question}: {body.Chosen} ({decision.Fact.Entry.Actor}: {decision.Fact.Entry.Reason})"
                + (body.Options is { Count: > 0 } options ? $"; other choices: {string.Join("; ", options)}" : "")
                + (decision.BasedOn.Count > 0 ? $"; in view: entries {string.Join(", ", decision.BasedOn.Select(e => e.Sequence))}" : "")
                + (decision.GroundsChanged ? "; what it was based on has changed since" : "") + ".");
        }
    }

    private static void Oddities(Sheet sheet, HeatRecord record)
    {
        if (record.Corrections.Count > 0)
        {
            sheet.Heading("Corrections");
            foreach (AppliedCorrection c in record.Corrections)
            {
                sheet.Item(
                    $"entry {c.Entry.Sequence} puts right entry {c.Target?.Sequence.ToString() ?? "?"}: {(c.Target is null ? "" : $"was {EntryWords.Of(c.Target.Body)}; ")}"
                    + $"{(c.Body.Replacement is null ? "withdrawn" : "now " + EntryWords.Of(c.Body.Replacement))} ({c.Entry.Actor}: {c.Entry.Reason}).");
            }
        }

        if (record.Irregularities.Count > 0)
        {
            sheet.Heading("What does not fit");
            foreach (Irregularity odd in record.Irregularities)
            {
                sheet.Item($"{Clock(odd.Time)} {odd.Text}");
            }
        }
    }

    private static void Entries(Sheet sheet, HeatRecord record)
    {
        Dictionary<Guid, string> righted = record.Corrections.Where(c => c.Target is not null).GroupBy(c => c.Target!.Id)
            .ToDictionary(g => g.Key, g => g.Last() is var last && last.Body.Replacement is null ? $" [withdrawn by entry {last.Entry.Sequence}]" : $" [put right by entry {last.Entry.Sequence}]");
        HashSet<Guid> late = [.. record.Late.Select(f => f.Id)];
        sheet.Heading("Entries");

        // A heat taken from a spreadsheet arrived as a whole: to say so once is enough.
        if (late.Count > 0 && record.Facts.Entries.Select(e => e.ArrivalTime).Distinct().Count() == 1)
        {
            sheet.Words($"All arrived on {Clock(record.Facts.Entries[0].ArrivalTime)}.");
            late.Clear();
        }

        sheet.Table(
            [new("entry"), new("time", Number: false), new("kind", Number: false), new("what", Number: false), new("who", Number: false)],
            [
                .. record.Facts.Entries.Order(SourceOrder.Instance).Select(e => (IReadOnlyList<string>)
                [
                    e.Sequence.ToString(), Clock(e.SourceTime), e.Kind.Name(),
                    Shortened(What(record, e)) + (e.Reason.Length > 0 ? $" ({Shortened(e.Reason)})" : "") + righted.GetValueOrDefault(e.Id, "") + (late.Contains(e.Id) ? $" (arrived {Clock(e.ArrivalTime)})" : ""), e.Actor[(e.Actor.IndexOf(':', StringComparison.Ordinal) + 1)..],
                ]),
            ]);
    }

    private static string What(HeatRecord record, Entry entry) => entry.Body is CorrectionBody correction
        ? $"entry {record.Facts.Entries.FirstOrDefault(t => t.Id == correction.Corrects)?.Sequence.ToString() ?? "?"} "
            + (correction.Replacement is null ? "is withdrawn" : "put right: " + EntryWords.Of(correction.Replacement))
        : EntryWords.Of(entry.Body);

    private static void Json(Utf8JsonWriter json, HeatRecord record)
    {
        json.Value("format", "heatwright.journal-show/1").Value("version", AnswerContext.Version);
        json.Value("heat", record.Heat).Value("stage", record.Stage.Name());
        json.WriteNumber("heatVersion", record.Version);
        json.Array("planned", record.PlannedAndActual, l =>
        {
            json.Value("group", l.Group).Value("name", l.Name).Value("unit", l.Unit);
            json.Value("planned", l.Planned ?? double.NaN).Value("low", l.Low ?? double.NaN).Value("high", l.High ?? double.NaN);
            json.Value("least", l.Least ?? double.NaN).Value("most", l.Most ?? double.NaN);
            json.WriteBoolean("below", l.Below);
            json.WriteBoolean("outside", l.Outside);
            json.Value("actual", l.Actual ?? double.NaN).Value("difference", l.Difference ?? double.NaN);
        });
        json.Array("stale", record.Results.Where(r => r.IsStale), r =>
        {
            json.Value("id", r.Fact.Id.ToString()).Value("because", Causes(r.Stale)).Value("replacedBy", r.ReplacedBy?.ToString());
        });
        json.Array("irregularities", record.Irregularities, i => json.Value("time", Times.Utc(i.Time)).Value("text", i.Text));
        json.Array("entries", record.Facts.Entries, e => EntryJsonText.Write(json, e));
    }

    private static CsvTable Csv(IReadOnlyList<PlannedLine> lines) => new(
        ["group", "name", "unit", "planned", "low", "high", "least", "most", "actual", "below", "difference"],
        [.. lines.Select(l => (IReadOnlyList<object>)[l.Group, l.Name, l.Unit, Cell(l.Planned), Cell(l.Low), Cell(l.High), Cell(l.Least), Cell(l.Most), Cell(l.Actual), l.Below ? "true" : "false", Cell(l.Difference)])]);

    private static object Cell(double? value) => value is { } v ? v : "";

    private static string Causes(IReadOnlyList<StaleCause> causes) => string.Join("; ", causes.Select(c => $"{c.Text} ({Clock(c.Entry.ArrivalTime)})").Distinct(StringComparer.Ordinal));

    private static string Shortened(string text) => text.Length <= 160 ? text : text[..157] + "…";

    private static string Clock(DateTimeOffset? time) => time is { } t ? Times.Shown(t) : "";
}
