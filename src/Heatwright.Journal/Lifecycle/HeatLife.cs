// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;

namespace Heatwright.Journal.Lifecycle;

/// <summary>
/// The life of a heat, folded from its facts in the order in which they happened. Facts are always taken, also those that cannot be
/// right (a tap without an end of blow): the stage goes where the strongest fact says, and what does not fit is listed.
/// </summary>
public sealed class HeatLife
{
    private readonly Dictionary<(HeatOperation Operation, int Index), List<Fact<OperationBody>>> _runs = [];
    private readonly List<Irregularity> _irregularities = [];
    private readonly HashSet<(HeatOperation Operation, int Index)> _open = [];
    private (HeatOperation Operation, int Index)? _tapWithoutEnd;

    private HeatLife()
    {
    }

    /// <summary>Where the heat stands.</summary>
    public HeatStage Stage { get; private set; }

    /// <summary>Operations in the order in which they began.</summary>
    public IReadOnlyList<OperationRun> Operations { get; private set; } = [];

    /// <summary>What does not fit the usual course.</summary>
    public IReadOnlyList<Irregularity> Irregularities => _irregularities;

    /// <summary>Blows and reblows in order.</summary>
    public IEnumerable<OperationRun> Blows => Operations.Where(o => o.IsBlow);

    /// <summary>Number of repeats of the blow.</summary>
    public int Reblows => Math.Max(Operations.Count(o => o.Operation == HeatOperation.Reblow), Blows.Count() - 1);

    /// <summary>The life as the facts tell it.</summary>
    public static HeatLife Of(HeatFacts facts)
    {
        ArgumentNullException.ThrowIfNull(facts);
        return Of(facts.All);
    }

    /// <summary>The life up to a moment, by what is known now: facts of a later source time are left out.</summary>
    public static HeatLife Until(HeatFacts facts, DateTimeOffset sourceTime)
    {
        ArgumentNullException.ThrowIfNull(facts);
        return Of(facts.All.Where(f => f.Time <= sourceTime));
    }

    private static HeatLife Of(IEnumerable<Fact<EntryBody>> facts)
    {
        var life = new HeatLife();
        foreach (Fact<EntryBody> fact in facts)
        {
            life.Take(fact);
        }

        life.Operations = [.. life._runs.Values.Select(OperationRun.Of).OrderBy(r => r.Facts[0].Entry, SourceOrder.Instance)];
        return life;
    }

    private void Take(Fact<EntryBody> fact)
    {
        switch (fact.Body)
        {
            case OrderBody:
                AfterClosing(fact, "order");
                break;
            case PlanBody:
                AfterClosing(fact, "plan");
                Raise(HeatStage.Planned);
                break;
            case ChargeBody charge:
                Charge(fact, charge);
                break;
            case AdditionBody addition:
                AfterClosing(fact, "addition of " + addition.Material);
                break;
            case MeasurementBody { Status: not ReadingStatus.Bad } measurement:
                Measured(fact, measurement.Point, "measurement");
                break;
            case AnalysisBody analysis:
                Measured(fact, analysis.Point, "analysis");
                break;
            case OperationBody operation:
                Operation(fact, operation);
                break;
            case EndBody:
                Close(fact);
                break;
            default:
                break;
        }
    }

    private void Charge(Fact<EntryBody> fact, ChargeBody charge)
    {
        string what = charge.What switch { ChargeKind.HotMetal => "hot metal", ChargeKind.Scrap => "scrap " + charge.Material, _ => "retained slag" };
        if (!AfterClosing(fact, what) && Stage >= HeatStage.Blowing)
        {
            Mark(fact, $"{what} weighed at {At(fact)} after the blow began");
        }

        if (charge.What == ChargeKind.HotMetal)
        {
            Raise(HeatStage.Charged);
        }
    }

    private void Measured(Fact<EntryBody> fact, HeatPoint point, string what)
    {
        switch (point)
        {
            case HeatPoint.InBlow:
                if (!AfterClosing(fact, "in-blow " + what) && Stage is not (HeatStage.Blowing or HeatStage.Measured))
                {
                    Mark(fact, $"in-blow {what} at {At(fact)} while no blow ran");
                }

                Raise(HeatStage.Measured);
                break;
            case HeatPoint.EndOfBlow:
                if (!AfterClosing(fact, "end " + what) && Stage < HeatStage.Ended)
                {
                    Mark(fact, $"end {what} at {At(fact)} without an end of blow");
                }

                Raise(HeatStage.Ended);
                break;
            case HeatPoint.Ladle when Stage < HeatStage.Ended:
                Mark(fact, $"ladle {what} at {At(fact)} without an end of blow");
                break;
            default:
                break;
        }
    }

    private void Operation(Fact<EntryBody> fact, OperationBody body)
    {
        (HeatOperation Operation, int Index) key = (body.Operation, body.Index);
        string name = OperationRun.NameOf(body.Operation, body.Index);
        if (!_runs.TryGetValue(key, out List<Fact<OperationBody>>? run))
        {
            _runs[key] = run = [];
        }

        switch (body.Operation)
        {
            case HeatOperation.Blow or HeatOperation.Reblow:
                Blow(fact, body, name, run);
                break;
            case HeatOperation.Tap:
                Tap(fact, body, name, key);
                break;
            case HeatOperation.ChargeScrap or HeatOperation.ChargeHotMetal:
                if (!AfterClosing(fact, name) && Stage >= HeatStage.Blowing && body.State == OperationState.Running)
                {
                    Mark(fact, $"{name} began at {At(fact)} after the blow began");
                }

                if (body is { Operation: HeatOperation.ChargeHotMetal, State: OperationState.Complete })
                {
                    Raise(HeatStage.Charged);
                }

                break;
            default:
                break;
        }

        run.Add(new Fact<OperationBody>(fact.Entry, body, fact.Original, fact.Changes, fact.Late));
    }

    private void Blow(Fact<EntryBody> fact, OperationBody body, string name, List<Fact<OperationBody>> run)
    {
        (HeatOperation, int) key = (body.Operation, body.Index);
        if (body.State == OperationState.Held)
        {
            if (!_open.Contains(key))
            {
                Mark(fact, $"{name} held at {At(fact)} while it did not run");
            }

            return;
        }

        bool begins = body.State == OperationState.Running;
        string did = begins ? "began" : body.State == OperationState.Complete ? "complete" : "aborted";
        if (Stage >= HeatStage.Tapped)
        {
            Mark(fact, $"{name} {did} at {At(fact)} after the {(Stage == HeatStage.Closed ? "heat was closed" : "tap")}");
        }

        if (begins)
        {
            BlowBegins(fact, body, name, run, key);
            return;
        }

        if (!_open.Remove(key))
        {
            Mark(fact, $"{name} {did} at {At(fact)} {(run.Any(f => f.Body.State is OperationState.Complete or OperationState.Aborted) ? "for the second time" : "without a begin")}");
        }

        // Another blow may still run, if the record has two at once: then oxygen is on.
        if (Stage < HeatStage.Tapped && _open.Count == 0)
        {
            Stage = HeatStage.Ended;
        }
    }

    private void BlowBegins(Fact<EntryBody> fact, OperationBody body, string name, List<Fact<OperationBody>> run, (HeatOperation Operation, int Index) key)
    {
        if (Stage < HeatStage.Charged)
        {
            Mark(fact, $"{name} began at {At(fact)} before hot metal was charged");
        }

        if (_open.FirstOrDefault(o => o != key) is { Index: not 0 } other)
        {
            Mark(fact, $"{name} began at {At(fact)} while {OperationRun.NameOf(other.Operation, other.Index)} ran");
        }
        else if (body.Operation == HeatOperation.Reblow && Stage < HeatStage.Ended)
        {
            Mark(fact, $"{name} began at {At(fact)} without an end of blow");
        }
        else if (!_open.Contains(key) && run.Any(f => f.Body.State is OperationState.Complete or OperationState.Aborted))
        {
            Mark(fact, $"{name} began again at {At(fact)} after it had ended; a repeat has an index of its own");
        }

        _open.Add(key);
        bool resumes = Stage == HeatStage.Measured && run.Count > 0 && run[^1].Body.State is OperationState.Held or OperationState.Running;
        if (Stage < HeatStage.Tapped && !resumes)
        {
            Stage = HeatStage.Blowing;
        }
    }

    private void Tap(Fact<EntryBody> fact, OperationBody body, string name, (HeatOperation, int) key)
    {
        if (!AfterClosing(fact, name) && Stage < HeatStage.Ended && _tapWithoutEnd != key && body.State is OperationState.Running or OperationState.Complete)
        {
            // Said once for a tap, not again when it completes.
            _tapWithoutEnd = key;
            Mark(fact, $"{name} {(body.State == OperationState.Running ? "began" : "complete")} at {At(fact)} without an end of blow");
        }

        if (body.State == OperationState.Complete)
        {
            Raise(HeatStage.Tapped);
        }
    }

    private void Close(Fact<EntryBody> fact)
    {
        if (Stage == HeatStage.Closed)
        {
            Mark(fact, $"closed again at {At(fact)}");
        }
        else if (Stage < HeatStage.Tapped)
        {
            Mark(fact, $"closed at {At(fact)} without a tap");
        }

        Raise(HeatStage.Closed);
    }

    private bool AfterClosing(Fact<EntryBody> fact, string what)
    {
        if (Stage != HeatStage.Closed)
        {
            return false;
        }

        Mark(fact, $"{what} at {At(fact)} after the heat was closed");
        return true;
    }

    private void Raise(HeatStage stage) => Stage = stage > Stage ? stage : Stage;

    private void Mark(Fact<EntryBody> fact, string text) => _irregularities.Add(new Irregularity(fact.Id, fact.Time, text));

    private static string At(Fact<EntryBody> fact) => fact.Time.UtcDateTime.ToString("HH:mm", System.Globalization.CultureInfo.InvariantCulture) + " UTC";
}
