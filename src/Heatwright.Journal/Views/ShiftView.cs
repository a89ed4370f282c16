// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Lifecycle;
using Heatwright.Journal.Store;

namespace Heatwright.Journal.Views;

/// <summary>A heat in a shift.</summary>
/// <param name="Row">Its row in the list.</param>
/// <param name="Summary">Its figures.</param>
public sealed record ShiftHeat(HeatRow Row, HeatSummary Summary);

/// <summary>Something that the next shift must know of.</summary>
/// <param name="Heat">Heat number.</param>
/// <param name="Text">What is open, in words.</param>
public sealed record OpenThing(string Heat, string Text);

/// <summary>A heat that the order did not get.</summary>
/// <param name="Heat">Heat number.</param>
/// <param name="Outcome">What became of it, where someone said so.</param>
/// <param name="Reason">Why, as written at the closing; may be empty.</param>
/// <param name="Lines">What lay outside the order at the last end, with the limits.</param>
public sealed record ShiftMiss(string Heat, string? Outcome, string Reason, IReadOnlyList<PlannedLine> Lines);

/// <summary>A delay of the shift.</summary>
/// <param name="Heat">Heat number.</param>
/// <param name="Unit">The unit that waited, else the heat's converter; null when neither is known.</param>
/// <param name="Body">Code, times, words.</param>
public sealed record ShiftDelay(string Heat, string? Unit, DelayBody Body);

/// <summary>A note or decision of the shift.</summary>
/// <param name="Heat">Heat number.</param>
/// <param name="Entry">The entry: who, when, and the reason of a decision.</param>
/// <param name="Text">Its words.</param>
public sealed record ShiftRemark(string Heat, Entry Entry, string Text);

/// <summary>
/// One shift: heats that were first blown in it (or opened, before they are blown), sums, delays by code, and what is open when it is
/// handed over.
/// </summary>
/// <param name="Shift">Which shift, from when until when.</param>
/// <param name="Heats">Heats in order of opening.</param>
/// <param name="SteelKg">Steel in the ladles, kg, of the heats that say it.</param>
/// <param name="HeatsWithoutSteel">Heats tapped whose steel no one has entered.</param>
/// <param name="OxygenNm3">Oxygen, Nm³.</param>
/// <param name="Reblows">Repeats of the blow.</param>
/// <param name="Hits">Heats whose first end lay inside the order (<see cref="HeatSummary.FirstHit"/>).</param>
/// <param name="Judged">Heats of which that is known.</param>
/// <param name="DelayMinutes">Finished delays of its heats by reason code, min.</param>
/// <param name="Open">What to hand over.</param>
/// <param name="Remarks">Notes and decisions on its heats.</param>
/// <param name="Misses">Heats whose last end lay outside the order, and those of which something other than "cast" became.</param>
/// <param name="Delays">Delays of its heats in order of their begin.</param>
public sealed record ShiftView(
    WorkedShift Shift,
    IReadOnlyList<ShiftHeat> Heats,
    double SteelKg,
    int HeatsWithoutSteel,
    double OxygenNm3,
    int Reblows,
    int Hits,
    int Judged,
    IReadOnlyDictionary<string, double> DelayMinutes,
    IReadOnlyList<OpenThing> Open,
    IReadOnlyList<ShiftRemark> Remarks,
    IReadOnlyList<ShiftMiss> Misses,
    IReadOnlyList<ShiftDelay> Delays)
{
    /// <summary>The shift of a date by name.</summary>
    public static ShiftView Of(HeatList list, DateOnly date, string shift)
    {
        ArgumentNullException.ThrowIfNull(list);
        return Of(list, list.Shifts.Of(date, shift));
    }

    /// <summary>The shift in which a moment lies.</summary>
    public static ShiftView At(HeatList list, DateTimeOffset time)
    {
        ArgumentNullException.ThrowIfNull(list);
        return Of(list, list.Shifts.At(time));
    }

    private static ShiftView Of(HeatList list, WorkedShift shift)
    {
        ShiftHeat[] heats =
        [
            .. list.All(new HeatFilter(FromShiftDate: shift.DateText, ToShiftDate: shift.DateText, Shift: shift.Name, Order: HeatOrder.Oldest))
                .Select(r => new ShiftHeat(r, HeatSummary.Of(r))),
        ];
        HeatRecord[] records = [.. heats.Select(h => HeatRecord.Read(list.Store, h.Row.Heat))];
        var delays = new SortedDictionary<string, double>(StringComparer.Ordinal);
        foreach ((string code, double minutes) in heats.SelectMany(h => h.Summary.DelayMinutes))
        {
            delays[code] = delays.GetValueOrDefault(code) + minutes;
        }

        return new ShiftView(
            shift,
            heats,
            heats.Sum(h => h.Summary.SteelKg ?? 0),
            records.Count(r => r.Stage >= HeatStage.Tapped && r.End?.Body.SteelKg is null),
            heats.Sum(h => h.Summary.OxygenNm3 ?? 0),
            heats.Sum(h => h.Summary.Reblows),
            heats.Count(h => h.Summary.FirstHit == true),
            heats.Count(h => h.Summary.FirstHit is not null),
            delays,
            [.. records.SelectMany(OpenThings)],
            [.. records.SelectMany(Said).OrderBy(r => r.Entry, SourceOrder.Instance)],
            [.. records.Select(Miss).Where(m => m.Lines.Count > 0 || HeatSummary.IsUnwanted(m.Outcome))],
            [.. records.SelectMany(r => r.Delays.Select(d => new ShiftDelay(r.Heat, d.Body.Unit ?? r.Unit, d.Body))).OrderBy(d => d.Body.From)]);
    }

    private static ShiftMiss Miss(HeatRecord record) =>
        new(record.Heat, record.End?.Body.Outcome, record.End?.Entry.Reason ?? "", [.. record.PlannedAndActual.Where(l => l.Outside)]);

    private static IEnumerable<OpenThing> OpenThings(HeatRecord record)
    {
        if (record.Stage < HeatStage.Closed)
        {
            yield return new OpenThing(record.Heat, record.Stage == HeatStage.Tapped ? "tapped, not closed" : record.Stage.Name());
        }

        foreach (DelayBody delay in record.Delays.Select(d => d.Body).Where(d => d.Until is null))
        {
            yield return new OpenThing(record.Heat, $"delay {delay.Code} lasts{(delay.Unit is null ? "" : " at " + delay.Unit)}{(delay.Text is null ? "" : ": " + delay.Text)}");
        }

        foreach (ResultView result in record.Results.Where(r => r.IsOpen))
        {
            yield return new OpenThing(record.Heat, $"{EntryWords.Plain(result.Fact.Body.Question)} is stale: {result.Stale[^1].Text}");
        }

        if (record.Stage >= HeatStage.Ended && !record.Analyses.Any(a => a.Body is { Matter: SampledMatter.Metal, Point: HeatPoint.EndOfBlow or HeatPoint.Ladle or HeatPoint.Caster }))
        {
            yield return new OpenThing(record.Heat, "no steel analysis yet");
        }

        foreach (Irregularity irregular in record.Irregularities)
        {
            yield return new OpenThing(record.Heat, irregular.Text);
        }
    }

    private static IEnumerable<ShiftRemark> Said(HeatRecord record) =>
        record.Facts.All.Where(f => f.Body is NoteBody or DecisionBody).Select(f => new ShiftRemark(record.Heat, f.Entry, EntryWords.Of(f.Body)));
}
