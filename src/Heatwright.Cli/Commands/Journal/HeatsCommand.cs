// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;
using Heatwright.Cli.Input;
using Heatwright.Cli.Output;
using Heatwright.Journal.Lifecycle;
using Heatwright.Journal.Store;
using Heatwright.Journal.Views;

namespace Heatwright.Cli.Commands.Journal;

/// <summary><c>heatwright journal heats</c>: the list of heats.</summary>
internal static class HeatsCommand
{
    public static (Command, IReadOnlyList<string>) Create()
    {
        var filter = new FilterOptions();
        var order = new Option<HeatOrder>("--order") { HelpName = "WORD", Description = "newest, oldest, number, grade or stage; default newest.", DefaultValueFactory = _ => HeatOrder.Newest };
        order.AcceptOnlyFromAmong("newest", "oldest", "number", "grade", "stage");
        var take = new Option<int>("--take") { HelpName = "N", Description = "Most rows; default 40.", DefaultValueFactory = _ => 40 };
        var skip = new Option<int>("--skip") { HelpName = "N", Description = "Rows to leave out first." };
        var outside = new Option<bool>("--outside") { Description = "Only heats whose last end lay outside the order, or that were not cast as ordered." };
        var list = new ListOptions();
        var output = new OutputOptions();
        var command = new Command("heats", "The list of heats with their figures.");
        filter.AddTo(command);
        command.Options.Add(order);
        command.Options.Add(take);
        command.Options.Add(skip);
        command.Options.Add(outside);
        list.AddTo(command);
        output.AddTo(command);
        command.SetAction(parsed => list.With(parsed, heats =>
        {
            HeatFilter wanted = filter.Filter(parsed) with
            {
                Order = parsed.GetValue(order),
                Take = AtLeast(1, parsed.GetValue(take), "--take"),
                Skip = AtLeast(0, parsed.GetValue(skip), "--skip"),
            };
            using (new Progress("catching up the list of heats"))
            {
                heats.CatchUp();
            }

            if (parsed.GetValue(outside))
            {
                // What lay outside stands in the figures, which the table cannot filter by: all rows are gone through.
                HeatRow[] missed = [.. heats.All(wanted).Where(IsOutside)];
                return output.Write(parsed, Answer([.. missed.Skip(wanted.Skip).Take(wanted.Take)], missed.Length, heats.Shifts));
            }

            return output.Write(parsed, Answer(heats.Query(wanted), heats.Count(wanted), heats.Shifts));
        }));
        return (command, ["heatwright journal heats", "heatwright journal heats --grade S235JR --stage closed --take 10", "heatwright journal heats --outside --from 2026-11-01", "heatwright journal heats --stale --csv"]);
    }

    private static int AtLeast(int least, int value, string option) =>
        value >= least ? value : throw new BadInputException($"{option}: {value} is not a number of rows.", $"write {least} or more");

    private static bool IsOutside(HeatRow row) => HeatSummary.Of(row) is var sum && (sum.Missed.Count > 0 || HeatSummary.IsUnwanted(sum.Outcome));

    private static Answer Answer(IReadOnlyList<HeatRow> rows, long count, ShiftPlan shifts)
    {
        (HeatRow Row, HeatSummary Sum)[] heats = [.. rows.Select(r => (r, HeatSummary.Of(r)))];
        var sheet = new Sheet();
        sheet.Title($"{rows.Count} of {count} heats");
        sheet.Words($"Times and dates in {shifts.TimeZone}; a night shift belongs to the date it began.");
        sheet.Table(
            [
                new("heat", Number: false), new("opened", Number: false), new("shift", Number: false), new("stage", Number: false), new("grade", Number: false),
                new("on", Number: false), new("steel", "t"), new("oxygen", "Nm3"), new("T", "°C"), new("C", "%"), new("P", "%"), new("re"), new("", Number: false),
            ],
            [
                .. heats.Select(h => (IReadOnlyList<string>)
                [
                    h.Row.Heat, shifts.Local(h.Row.Opened).ToString("MM-dd HH:mm"), h.Row.Shift, h.Row.Stage, h.Row.Grade, h.Row.Unit,
                    Text(h.Sum.SteelKg / 1000, 1), Text(h.Sum.OxygenNm3, 0), Text(h.Sum.EndTemperatureK - 273.15, 0), Text(h.Sum.EndCarbonPercent, 3), Text(h.Sum.EndPhosphorusPercent, 4),
                    h.Sum.Reblows > 0 ? h.Sum.Reblows.ToString() : "", Marks(h.Row, h.Sum),
                ]),
            ]);
        sheet.Words("re: reblows. stale: a result no longer stands on what is known; odd: something does not fit; out: the last end lay outside the order; other words: what became of it. 'journal show HEAT' says what.");
        return new Answer(
            ExitCode.Done,
            sheet,
            json =>
            {
                json.Value("format", "heatwright.journal-heats/1").Value("version", AnswerContext.Version);
                json.WriteNumber("count", count);
                json.Array("heats", heats, h =>
                {
                    json.Value("heat", h.Row.Heat).Value("opened", Times.Utc(h.Row.Opened)).Value("stage", h.Row.Stage).Value("grade", h.Row.Grade);
                    json.Value("unit", h.Row.Unit).Value("shiftDate", h.Row.ShiftDate).Value("shift", h.Row.Shift);
                    json.WriteNumber("stale", h.Row.Stale);
                    json.WritePropertyName("summary");
                    json.WriteRawValue(h.Row.Summary);
                });
            },
            new CsvTable(
                ["heat", "opened", "shiftDate", "shift", "stage", "grade", "unit", "hotMetalKg", "scrapKg", "steelKg", "oxygenNm3", "endTemperatureC", "endCarbonPercent", "endPhosphorusPercent", "blowMinutes", "reblows", "stale", "missed", "outcome"],
                [
                    .. heats.Select(h => (IReadOnlyList<object>)
                    [
                        h.Row.Heat, Times.Utc(h.Row.Opened), h.Row.ShiftDate, h.Row.Shift, h.Row.Stage, h.Row.Grade, h.Row.Unit, Cell(h.Sum.HotMetalKg), Cell(h.Sum.ScrapKg),
                        Cell(h.Sum.SteelKg), Cell(h.Sum.OxygenNm3), Cell(h.Sum.EndTemperatureK - 273.15), Cell(h.Sum.EndCarbonPercent), Cell(h.Sum.EndPhosphorusPercent),
                        Cell(h.Sum.BlowMinutes), h.Sum.Reblows, h.Row.Stale, string.Join(' ', h.Sum.Missed), h.Sum.Outcome ?? "",
                    ]),
                ]));
    }

    private static string Marks(HeatRow row, HeatSummary sum) =>
        string.Join(" ", new[] { row.Stale > 0 ? "stale" : null, sum.Irregularities > 0 ? "odd" : null, sum.Missed.Count > 0 ? "out" : null, HeatSummary.IsUnwanted(sum.Outcome) ? sum.Outcome : null }.OfType<string>());

    private static string Text(double? value, int decimals) => value is { } v ? Numbers.Fixed(v, decimals) : "";

    private static object Cell(double? value) => value is { } v ? v : "";
}

/// <summary>Which heats.</summary>
internal sealed class FilterOptions
{
    private readonly Option<string?> _stage = new("--stage") { HelpName = "WORD", Description = $"Stage: {string.Join(", ", HeatStages.All.Select(HeatStages.Name))}." };
    private readonly Option<string?> _grade = new("--grade") { HelpName = "NAME", Description = "Grade." };
    private readonly Option<string?> _unit = new("--unit") { HelpName = "NAME", Description = "Converter." };
    private readonly Option<string?> _from = new("--from") { HelpName = "DATE", Description = "First shift date, 2026-11-25." };
    private readonly Option<string?> _to = new("--to") { HelpName = "DATE", Description = "Last shift date." };
    private readonly Option<string?> _contains = new("--contains") { HelpName = "TEXT", Description = "Part of the heat number." };
    private readonly Option<bool> _stale = new("--stale") { Description = "Only heats with a stale result that nothing newer stands in for." };

    public FilterOptions() => _stage.AcceptOnlyFromAmong([.. HeatStages.All.Select(HeatStages.Name)]);

    public void AddTo(Command command)
    {
        foreach (Option option in new Option[] { _stage, _grade, _unit, _from, _to, _contains, _stale })
        {
            command.Options.Add(option);
        }
    }

    public HeatFilter Filter(ParseResult parsed) => new(
        parsed.GetValue(_stage),
        parsed.GetValue(_grade),
        parsed.GetValue(_unit),
        Date(parsed.GetValue(_from), "--from"),
        Date(parsed.GetValue(_to), "--to"),
        HeatContains: parsed.GetValue(_contains),
        StaleOnly: parsed.GetValue(_stale));

    private static string? Date(string? text, string field) => text is null ? null : ListOptions.Date(text, field).ToString("yyyy-MM-dd");
}
