// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;
using Heatwright.Cli.Input;
using Heatwright.Cli.Output;
using Heatwright.Journal.Views;

namespace Heatwright.Cli.Commands.Journal;

/// <summary><c>heatwright journal shift</c>: what a shift made, lost and hands over.</summary>
internal static class ShiftCommand
{
    public static (Command, IReadOnlyList<string>) Create()
    {
        var date = new Argument<string?>("DATE") { Description = "Date on which the shift began; default: the shift now.", Arity = ArgumentArity.ZeroOrOne };
        var name = new Argument<string?>("SHIFT") { Description = "early, late or night.", Arity = ArgumentArity.ZeroOrOne };
        var list = new ListOptions();
        var output = new OutputOptions();
        var command = new Command("shift", "A shift: heats, steel, delays, and what is open for the next crew.") { date, name };
        list.AddTo(command);
        output.AddTo(command);
        command.SetAction(parsed => list.With(parsed, heats =>
        {
            ShiftView shift = parsed.GetValue(date) is { } text
                ? ShiftView.Of(heats, ListOptions.Date(text, "DATE"), Name(parsed.GetValue(name), heats.Shifts))
                : ShiftView.At(heats, Times.Parse(null, ""));
            return output.Write(parsed, Answer(shift, heats.Shifts));
        }));
        return (command, ["heatwright journal shift", "heatwright journal shift 2026-11-25 night"]);
    }

    private static string Name(string? name, ShiftPlan shifts) =>
        name is not null && shifts.Shifts.Any(s => s.Name == name)
            ? name
            : throw new BadInputException($"SHIFT: '{name}' is not a shift.", "write one of " + string.Join(", ", shifts.Shifts.Select(s => s.Name)));

    private static Answer Answer(ShiftView shift, ShiftPlan shifts)
    {
        var sheet = new Sheet();
        sheet.Title($"Shift {shift.Shift.DateText} {shift.Shift.Name}: {shift.Heats.Count} heats");
        sheet.Words($"{shifts.Local(shift.Shift.From):yyyy-MM-dd HH:mm} to {shifts.Local(shift.Shift.Until):yyyy-MM-dd HH:mm}, {shifts.TimeZone}.");
        sheet.Words(
            $"Steel {Numbers.Fixed(shift.SteelKg / 1000, 1)} t{(shift.HeatsWithoutSteel > 0 ? $" ({shift.HeatsWithoutSteel} heats tapped without a steel mass)" : "")}; oxygen {Numbers.Fixed(shift.OxygenNm3, 0)} Nm3; "
            + $"reblows {shift.Reblows}; first end inside the order {shift.Hits} of {shift.Judged}.");
        if (shift.Heats.Count > 0)
        {
            sheet.Heading("Heats");
            sheet.Table(
                [new("heat", Number: false), new("opened", Number: false), new("stage", Number: false), new("grade", Number: false), new("on", Number: false), new("steel", "t"), new("T", "°C"), new("C", "%"), new("blow", "min"), new("re"), new("first end", Number: false), new("outcome", Number: false)],
                [
                    .. shift.Heats.Select(h => (IReadOnlyList<string>)
                    [
                        h.Row.Heat, shifts.Local(h.Row.Opened).ToString("HH:mm"), h.Row.Stage, h.Row.Grade, h.Row.Unit, Text(h.Summary.SteelKg / 1000, 1),
                        Text(h.Summary.EndTemperatureK - 273.15, 0), Text(h.Summary.EndCarbonPercent, 3), Text(h.Summary.BlowMinutes, 1), h.Summary.Reblows > 0 ? h.Summary.Reblows.ToString() : "",
                        h.Summary.FirstHit switch { true => "inside", false => "outside", null => "" }, h.Summary.Outcome ?? "",
                    ]),
                ]);
        }

        if (shift.Misses.Count > 0)
        {
            sheet.Heading("Outside the order");
            foreach (ShiftMiss miss in shift.Misses)
            {
                string[] parts = [.. miss.Lines.Select(Missed), .. HeatSummary.IsUnwanted(miss.Outcome) ? [miss.Outcome + (miss.Reason.Length > 0 ? $" ({miss.Reason})" : "")] : Array.Empty<string>()];
                sheet.Item($"{miss.Heat}: {string.Join("; ", parts)}");
            }
        }

        if (shift.Delays.Count > 0)
        {
            sheet.Heading("Delays");
            sheet.Table(
                [new("from", Number: false), new("min"), new("code", Number: false), new("heat", Number: false), new("on", Number: false), new("", Number: false)],
                [
                    .. shift.Delays.Select(d => (IReadOnlyList<string>)
                        [shifts.Local(d.Body.From).ToString("HH:mm"), d.Body.Until is { } until ? Numbers.Fixed((until - d.Body.From).TotalMinutes, 0) : "lasts", d.Body.Code, d.Heat, d.Unit ?? "", d.Body.Text ?? ""]),
                ]);
            if (shift.DelayMinutes.Count > 0)
            {
                sheet.Words("By code: " + string.Join(", ", shift.DelayMinutes.OrderByDescending(d => d.Value).Select(d => $"{d.Key} {Numbers.Fixed(d.Value, 0)} min")) + ".");
            }
        }

        sheet.Heading("For the next crew");
        foreach (OpenThing open in shift.Open)
        {
            sheet.Item($"{open.Heat}: {open.Text}");
        }

        if (shift.Open.Count == 0)
        {
            sheet.Words("  Nothing in the record is open. What is not in it, this page cannot know.");
        }

        if (shift.Remarks.Count > 0)
        {
            sheet.Heading("Notes and decisions");

            // The same words at heat after heat are routine: one line for all of them keeps the others readable.
            foreach (ShiftRemark[] same in shift.Remarks.GroupBy(r => (r.Text, r.Entry.Reason)).Select(g => g.ToArray()))
            {
                string[] heats = [.. same.Select(r => r.Heat).Distinct()];
                string[] actors = [.. same.Select(r => r.Entry.Actor).Distinct()];
                sheet.Item(
                    $"{(heats.Length > 3 ? $"{heats.Length} heats" : string.Join(", ", heats))}: {same[0].Text}{(same[0].Entry.Reason.Length > 0 ? ", because: " + same[0].Entry.Reason : "")}"
                    + (actors.Length == 1 ? $" ({actors[0]})" : ""));
            }
        }

        return new Answer(
            ExitCode.Done,
            sheet,
            json =>
            {
                json.Value("format", "heatwright.journal-shift/1").Value("version", AnswerContext.Version);
                json.Value("date", shift.Shift.DateText).Value("shift", shift.Shift.Name).Value("from", Times.Utc(shift.Shift.From)).Value("until", Times.Utc(shift.Shift.Until));
                json.Value("steelKg", shift.SteelKg).Value("oxygenNm3", shift.OxygenNm3);
                json.WriteNumber("reblows", shift.Reblows);
                json.WriteNumber("hits", shift.Hits);
                json.WriteNumber("judged", shift.Judged);
                json.Object("delayMinutes", () =>
                {
                    foreach ((string code, double minutes) in shift.DelayMinutes)
                    {
                        json.Value(code, minutes);
                    }
                });
                json.Array("heats", shift.Heats, h => json.Value("heat", h.Row.Heat).Value("stage", h.Row.Stage).Value("outcome", h.Summary.Outcome));
                json.Array("misses", shift.Misses, m =>
                {
                    json.Value("heat", m.Heat).Value("outcome", m.Outcome).Value("reason", m.Reason);
                    json.Array("outside", m.Lines, l => json.Value("name", l.Name).Value("unit", l.Unit).Value("actual", l.Actual ?? double.NaN).Value("least", l.Least ?? double.NaN).Value("most", l.Most ?? double.NaN));
                });
                json.Array("delays", shift.Delays, d => json.Value("heat", d.Heat).Value("unit", d.Unit).Value("code", d.Body.Code)
                    .Value("from", Times.Utc(d.Body.From)).Value("until", d.Body.Until is { } until ? Times.Utc(until) : null).Value("text", d.Body.Text));
                json.Array("open", shift.Open, o => json.Value("heat", o.Heat).Value("text", o.Text));
                json.Array("remarks", shift.Remarks, r => json.Value("heat", r.Heat).Value("text", r.Text).Value("actor", r.Entry.Actor).Value("reason", r.Entry.Reason));
            },
            new CsvTable(
                ["heat", "stage", "grade", "unit", "steelKg", "outcome", "missed"],
                [.. shift.Heats.Select(h => (IReadOnlyList<object>)[h.Row.Heat, h.Row.Stage, h.Row.Grade, h.Row.Unit, h.Summary.SteelKg is { } s ? s : "", h.Summary.Outcome ?? "", string.Join(' ', h.Summary.Missed)])]));
    }

    private static string Missed(PlannedLine line)
    {
        ShownQuantity q = ShownQuantity.Of(line.Unit, line.Name);
        string ordered = (line.Least, line.Most) switch
        {
            ({ } least, { } most) => $"{q.Text(least)} to {q.Text(most)}",
            ({ } least, null) => $"at least {q.Text(least)}",
            _ => $"at most {q.Text(line.Most)}",
        };
        return $"{q.Name} {(line.Below ? "<" : "")}{q.Text(line.Actual)} {q.Unit}, ordered {ordered}";
    }

    private static string Text(double? value, int decimals) => value is { } v ? Numbers.Fixed(v, decimals) : "";
}
