// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;
using Heatwright.Cli.Input;
using Heatwright.Cli.Output;
using Heatwright.Journal.Views;

namespace Heatwright.Cli.Commands.Journal;

/// <summary><c>heatwright journal campaign</c> and <c>materials</c>: what was worn and what was used.</summary>
internal static class UseCommands
{
    public static (Command, IReadOnlyList<string>) Campaign()
    {
        var unit = new Argument<string?>("UNIT") { Description = "Converter; default: all.", Arity = ArgumentArity.ZeroOrOne };
        var list = new ListOptions();
        var output = new OutputOptions();
        var command = new Command("campaign", "Age in heats of lining, lance, taphole and bottom elements, now and in earlier campaigns.") { unit };
        list.AddTo(command);
        output.AddTo(command);
        command.SetAction(parsed => list.With(parsed, heats =>
        {
            CampaignView view = CampaignView.Of(heats, parsed.GetValue(unit));
            return output.Write(parsed, CampaignAnswer(view, heats.Shifts));
        }));
        return (command, ["heatwright journal campaign", "heatwright journal campaign North --csv"]);
    }

    public static (Command, IReadOnlyList<string>) Materials()
    {
        var from = new Option<string>("--from") { HelpName = "DATE", Description = "First shift date, 2026-11-01.", Required = true };
        var to = new Option<string>("--to") { HelpName = "DATE", Description = "Last shift date.", Required = true };
        var list = new ListOptions();
        var output = new OutputOptions();
        var command = new Command("materials", "Hot metal, scrap and additions planned and used over a range of shift dates.") { from, to };
        list.AddTo(command);
        output.AddTo(command);
        command.SetAction(parsed => list.With(parsed, heats =>
        {
            DateOnly first = ListOptions.Date(parsed.GetValue(from)!, "--from");
            DateOnly last = ListOptions.Date(parsed.GetValue(to)!, "--to");
            return last < first
                ? throw new BadInputException("--to lies before --from.", "check both dates")
                : output.Write(parsed, MaterialsAnswer(MaterialUse.Of(heats, first, last)));
        }));
        return (command, ["heatwright journal materials --from 2026-11-01 --to 2026-11-30"]);
    }

    private static Answer CampaignAnswer(CampaignView view, ShiftPlan shifts)
    {
        string Day(DateTimeOffset? time) => time is { } t ? shifts.Local(t).ToString("yyyy-MM-dd HH:mm") : "";
        var sheet = new Sheet();
        sheet.Title("Campaigns");
        sheet.Words($"Heats blown since the part came in, or since the journal begins. Times in {shifts.TimeZone}.");
        sheet.Table(
            [new("on", Number: false), new("part", Number: false), new("came in", Number: false), new("went out", Number: false), new("heats"), new("age", "heats"), new("by the works", "heats"), new("mended"), new("name", Number: false)],
            [
                .. view.Campaigns.Select(c => (IReadOnlyList<string>)
                [
                    c.Unit, EntryWords.Plain(c.Part), Day(c.Began), Day(c.Ended), c.Heats.ToString(), c.AgeHeats is { } a ? Numbers.Fixed(a, 0) : "unknown",
                    c.CountedByWorks is { } w ? Numbers.Fixed(w, 0) : "", c.Mended.Count > 0 ? c.Mended.Count.ToString() : "", c.Serial ?? "",
                ]),
            ]);
        return new Answer(
            ExitCode.Done,
            sheet,
            json =>
            {
                json.Value("format", "heatwright.journal-campaign/1").Value("version", AnswerContext.Version);
                json.Array("campaigns", view.Campaigns, c =>
                {
                    json.Value("unit", c.Unit).Value("part", Choice.Word(c.Part)).Value("serial", c.Serial);
                    json.Value("began", c.Began is { } b ? Times.Utc(b) : null).Value("ended", c.Ended is { } e ? Times.Utc(e) : null);
                    json.WriteNumber("heats", c.Heats);
                    json.Value("ageHeats", c.AgeHeats ?? double.NaN).Value("countedByWorks", c.CountedByWorks ?? double.NaN);
                });
            },
            new CsvTable(
                ["unit", "part", "began", "ended", "heats", "ageHeats"],
                [.. view.Campaigns.Select(c => (IReadOnlyList<object>)[c.Unit, Choice.Word(c.Part), Day(c.Began), Day(c.Ended), c.Heats, c.AgeHeats is { } a ? a : ""])]));
    }

    private static Answer MaterialsAnswer(MaterialUse use)
    {
        var sheet = new Sheet();
        sheet.Title($"Materials {use.From:yyyy-MM-dd} to {use.To:yyyy-MM-dd}: {use.Heats} heats, {Numbers.Fixed(use.SteelKg / 1000, 0)} t of steel");
        sheet.Table(
            [new("material", Number: false), new("planned", "t"), new("heats"), new("used", "t"), new("heats"), new("difference", "t"), new("used", "kg/t steel")],
            [
                .. use.Lines.Select(l => (IReadOnlyList<string>)
                [
                    l.Material, Numbers.Fixed(l.PlannedKg / 1000, 1), l.PlannedHeats.ToString(), Numbers.Fixed(l.ActualKg / 1000, 1), l.ActualHeats.ToString(),
                    Numbers.Fixed(l.DifferenceKg / 1000, 1), use.SteelKg > 0 ? Numbers.Fixed(1000 * l.ActualKg / use.SteelKg, 1) : "",
                ]),
            ]);
        return new Answer(
            ExitCode.Done,
            sheet,
            json =>
            {
                json.Value("format", "heatwright.journal-materials/1").Value("version", AnswerContext.Version);
                json.Value("from", use.From.ToString("yyyy-MM-dd")).Value("to", use.To.ToString("yyyy-MM-dd")).Value("steelKg", use.SteelKg);
                json.WriteNumber("heats", use.Heats);
                json.Array("materials", use.Lines, l => json.Value("material", l.Material).Value("plannedKg", l.PlannedKg).Value("usedKg", l.ActualKg));
            },
            new CsvTable(["material", "plannedKg", "usedKg", "plannedHeats", "usedHeats"], [.. use.Lines.Select(l => (IReadOnlyList<object>)[l.Material, l.PlannedKg, l.ActualKg, l.PlannedHeats, l.ActualHeats])]));
    }
}
