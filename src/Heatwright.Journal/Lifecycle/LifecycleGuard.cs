// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;

namespace Heatwright.Journal.Lifecycle;

/// <summary>
/// What a person may enter by hand, by where the heat stood at the time the entry speaks of. Refused is what is most likely a slip: the
/// words say what is missing and how to mend it. Facts from signals and imports are not asked: they are taken and, where they do not
/// fit, shown as irregular (<see cref="HeatLife"/>).
/// </summary>
public static class LifecycleGuard
{
    /// <summary>How far a source time may lie ahead of the clock: clocks differ.</summary>
    public static readonly TimeSpan ClockTolerance = TimeSpan.FromMinutes(1);

    /// <summary>Why a person may not enter this now, or null when it may be entered.</summary>
    /// <param name="facts">What the heat's record holds.</param>
    /// <param name="entry">What is to be entered.</param>
    /// <param name="now">The time now.</param>
    public static string? Refusal(HeatFacts facts, NewEntry entry, DateTimeOffset now)
    {
        ArgumentNullException.ThrowIfNull(facts);
        ArgumentNullException.ThrowIfNull(entry);
        if (entry.SourceTime > now + ClockTolerance)
        {
            return $"The time given, {Clock(entry.SourceTime)}, lies in the future. Mend: give the time at which it was so.";
        }

        // Notes, results and corrections speak of a heat at any time.
        return entry.Body switch
        {
            CorrectionBody correction => Correction(facts, correction),

            // A decision without a reason is refused by the journal itself, whoever enters it: no matter of where the heat stands.
            DecisionBody when string.IsNullOrWhiteSpace(entry.Reason) => null,
            NoteBody { Text.Length: 0 } => "The note is empty. Mend: write it, or leave it.",
            NoteBody or ResultBody or SignalBlockBody or EquipmentBody or WorksBody or ImportBody => null,
            _ => AtStage(facts, entry),
        };
    }

    private static string? AtStage(HeatFacts facts, NewEntry entry)
    {
        HeatLife then = HeatLife.Until(facts, entry.SourceTime);
        HeatStage stage = then.Stage;
        if (stage == HeatStage.Closed)
        {
            return $"Heat {facts.Heat} was closed before {Clock(entry.SourceTime)}. Mend: give the earlier time if this happened before the closing; otherwise enter a note, or a correction of what is wrong.";
        }

        return entry.Body switch
        {
            PlanBody when stage >= HeatStage.Tapped => $"Heat {facts.Heat} was tapped before {Clock(entry.SourceTime)}: there is nothing left to plan.",
            ChargeBody charge when stage >= HeatStage.Blowing =>
                $"At {Clock(entry.SourceTime)} heat {facts.Heat} was {stage.Name()}: {Name(charge.What)} {(charge.What == ChargeKind.RetainedSlag ? "is in the vessel" : "is charged")} before the blow. Mend: give the time {(charge.What == ChargeKind.RetainedSlag ? "at which it was kept" : "of charging")}.",
            ChargeBody charge => SecondLadle(facts, charge),
            AdditionBody { Place: AdditionPlace.Converter } when stage >= HeatStage.Tapped =>
                $"At {Clock(entry.SourceTime)} heat {facts.Heat} was tapped. Mend: say that it went into the ladle, or give the time it fell.",
            MeasurementBody { Point: HeatPoint.InBlow } or AnalysisBody { Point: HeatPoint.InBlow } when stage is not (HeatStage.Blowing or HeatStage.Measured) =>
                $"At {Clock(entry.SourceTime)} heat {facts.Heat} was {stage.Name()}: no blow ran. Mend: give the time of the measurement, or enter the begin of the blow first.",
            MeasurementBody { Point: HeatPoint.EndOfBlow } or AnalysisBody { Point: HeatPoint.EndOfBlow } when stage < HeatStage.Ended =>
                $"At {Clock(entry.SourceTime)} heat {facts.Heat} was {stage.Name()}. Mend: enter the end of the blow first, or give the time of the sample.",
            OperationBody operation => Operation(facts, entry, operation, then),
            EndBody when stage < HeatStage.Tapped => $"Heat {facts.Heat} is {stage.Name()}: it is closed after the tap. Mend: enter the end of the tap first.",
            DelayBody { Until: { } until } delay when until < delay.From => $"The delay ends at {Clock(until)}, before it begins at {Clock(delay.From)}. Mend: change the two.",
            _ => null,
        };
    }

    private static string? Operation(HeatFacts facts, NewEntry entry, OperationBody body, HeatLife then)
    {
        string name = OperationRun.NameOf(body.Operation, body.Index);
        string at = $"At {Clock(entry.SourceTime)} heat {facts.Heat}";
        OperationRun? run = then.Operations.FirstOrDefault(o => o.Operation == body.Operation && o.Index == body.Index);
        if (body.Index < 1)
        {
            return $"Repeats of an operation are counted from 1; {body.Index} is none.";
        }

        if (body.State is OperationState.Running && run?.State is OperationState.Running or OperationState.Complete or OperationState.Aborted)
        {
            return $"{at}: {name} {(run.State == OperationState.Running ? "runs already" : "has ended already")}. Mend: give the next index for a repeat, or correct the earlier entry.";
        }

        if (body.State is not OperationState.Running && run?.State is OperationState.Complete or OperationState.Aborted)
        {
            return $"{at}: {name} has ended already. Mend: correct the earlier entry.";
        }

        bool oxygen = body.Operation is HeatOperation.Blow or HeatOperation.Reblow;
        return body.Operation switch
        {
            HeatOperation.ChargeScrap or HeatOperation.ChargeHotMetal when then.Stage >= HeatStage.Blowing =>
                $"{at} was {then.Stage.Name()}: it is charged before the blow. Mend: give the time of charging.",
            HeatOperation.Blow or HeatOperation.Reblow when then.Stage == HeatStage.Tapped => $"{at} was tapped: no oxygen is blown any more.",
            HeatOperation.Blow when body.State == OperationState.Running && then.Stage < HeatStage.Charged =>
                $"{at} was {then.Stage.Name()}. Mend: enter the hot metal first.",
            HeatOperation.Reblow when body.State == OperationState.Running && then.Stage < HeatStage.Ended =>
                $"{at} was {then.Stage.Name()}: a reblow follows an end of blow. Mend: enter the end of the blow first.",
            _ when oxygen && body.State != OperationState.Running && run is null => $"{at}: {name} has not begun. Mend: enter its begin first.",
            HeatOperation.Tap when then.Stage < HeatStage.Ended && body.State != OperationState.Aborted =>
                $"{at} was {then.Stage.Name()}: no end of blow is entered. Mend: enter the end of the blow first.",
            _ => null,
        };
    }

    // That the reason is missing, the journal says itself.
    private static string? Correction(HeatFacts facts, CorrectionBody body) =>
        facts.Entries.Any(e => e.Id == body.Corrects)
            ? null
            : $"Heat {facts.Heat} has no entry {body.Corrects}. Mend: name an entry of this heat.";

    // A heat has one ladle of hot metal as a rule (common practice, no source): a second weighing without a ladle of its own is mostly the first one again.
    private static string? SecondLadle(HeatFacts facts, ChargeBody charge) =>
        charge is { What: ChargeKind.HotMetal } && string.IsNullOrWhiteSpace(charge.Lot)
        && facts.Of<ChargeBody>().LastOrDefault(c => c.Body.What == ChargeKind.HotMetal) is { } first
            ? string.Create(System.Globalization.CultureInfo.InvariantCulture, $"Heat {facts.Heat}: hot metal is already weighed at {Clock(first.Time)}, {first.Body.MassKg / 1000:0.###} t. Mend: a second ladle is named (--lot); a wrong weight is put right by a correction of entry {first.Entry.Sequence}.")
            : null;

    private static string Name(ChargeKind what) => what switch { ChargeKind.Scrap => "scrap", ChargeKind.RetainedSlag => "retained slag", _ => "hot metal" };

    private static string Clock(DateTimeOffset time) => time.UtcDateTime.ToString("yyyy-MM-dd HH:mm", System.Globalization.CultureInfo.InvariantCulture) + " UTC";
}
