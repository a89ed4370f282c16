// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Lifecycle;
using Heatwright.Journal.Store;

namespace Heatwright.Journal.Views;

/// <summary>A decision with what it was based on. What was decided stays, whatever became of its grounds.</summary>
/// <param name="Fact">The decision: who, when, why.</param>
/// <param name="BasedOn">The entries in view when it was taken, as far as the heat has them.</param>
/// <param name="Missing">Ids it names that the heat does not have.</param>
/// <param name="GroundsChanged">Some of its grounds were corrected or have become stale since.</param>
public sealed record DecisionView(Fact<DecisionBody> Fact, IReadOnlyList<Entry> BasedOn, IReadOnlyList<Guid> Missing, bool GroundsChanged);

/// <summary>A result with its marks.</summary>
/// <param name="Fact">The result.</param>
/// <param name="Stale">Why it no longer stands on what is known; empty while it does.</param>
/// <param name="ReplacedBy">The later result that says it takes its place, if any.</param>
/// <param name="Latest">The last to answer its question.</param>
public sealed record ResultView(Fact<ResultBody> Fact, IReadOnlyList<StaleCause> Stale, Guid? ReplacedBy, bool Latest)
{
    /// <summary>It is stale.</summary>
    public bool IsStale => Stale.Count > 0;

    /// <summary>Stale, and nothing newer stands in its place: to be computed again.</summary>
    public bool IsOpen => IsStale && Latest && ReplacedBy is null;
}

/// <summary>A plan with its marks.</summary>
/// <param name="Fact">The plan.</param>
/// <param name="Stale">Why it no longer stands on what is known; empty for a fresh one and for one made by hand.</param>
public sealed record PlanView(Fact<PlanBody> Fact, IReadOnlyList<StaleCause> Stale)
{
    /// <summary>It is stale.</summary>
    public bool IsStale => Stale.Count > 0;
}

/// <summary>
/// Everything about one heat, planned beside actual, made from its entries: as it stands, or as it was at an entry or a moment
/// ("what did we know when we decided"). Each value knows its entry (who, when, why), what it was before a correction, and whether it
/// came late.
/// </summary>
public sealed class HeatRecord
{
    private HeatRecord(HeatFacts facts, AsOf asOf)
    {
        Facts = facts;
        AsOf = asOf;
        Life = HeatLife.Of(facts);
        IReadOnlyDictionary<Guid, IReadOnlyList<StaleCause>> stale = Staleness.Of(facts);
        Orders = [.. facts.Of<OrderBody>()];
        Plans = [.. facts.Of<PlanBody>().Select(p => new PlanView(p, stale.GetValueOrDefault(p.Id, [])))];
        Results = ResultsOf([.. facts.Of<ResultBody>()], stale);
        Decisions = [.. facts.Of<DecisionBody>().Select(d => Decision(d, stale))];
    }

    /// <summary>Heat number.</summary>
    public string Heat => Facts.Heat;

    /// <summary>How far back was looked.</summary>
    public AsOf AsOf { get; }

    /// <summary>Number of entries that were looked at: the version of the heat then.</summary>
    public int Version => Facts.Entries.Count;

    /// <summary>Facts with corrections applied.</summary>
    public HeatFacts Facts { get; }

    /// <summary>Stage, operations and what does not fit.</summary>
    public HeatLife Life { get; }

    /// <summary>Where the heat stands.</summary>
    public HeatStage Stage => Life.Stage;

    /// <summary>The order that holds: the last one.</summary>
    public Fact<OrderBody>? Order => Orders.Count > 0 ? Orders[^1] : null;

    /// <summary>Orders, the first to the last.</summary>
    public IReadOnlyList<Fact<OrderBody>> Orders { get; }

    /// <summary>The plan that holds: the last one.</summary>
    public PlanView? Plan => Plans.Count > 0 ? Plans[^1] : null;

    /// <summary>Plans, the first to the last.</summary>
    public IReadOnlyList<PlanView> Plans { get; }

    /// <summary>What was weighed in.</summary>
    public IEnumerable<Fact<ChargeBody>> Charges => Facts.Of<ChargeBody>();

    /// <summary>Additions in the order in which they fell.</summary>
    public IEnumerable<Fact<AdditionBody>> Additions => Facts.Of<AdditionBody>();

    /// <summary>Readings of probes, failed ones too.</summary>
    public IEnumerable<Fact<MeasurementBody>> Measurements => Facts.Of<MeasurementBody>();

    /// <summary>Answers of the laboratory.</summary>
    public IEnumerable<Fact<AnalysisBody>> Analyses => Facts.Of<AnalysisBody>();

    /// <summary>Operations in the order in which they began, with durations.</summary>
    public IReadOnlyList<OperationRun> Operations => Life.Operations;

    /// <summary>Delays.</summary>
    public IEnumerable<Fact<DelayBody>> Delays => Facts.Of<DelayBody>();

    /// <summary>Decisions.</summary>
    public IReadOnlyList<DecisionView> Decisions { get; }

    /// <summary>Results, the first to the last.</summary>
    public IReadOnlyList<ResultView> Results { get; }

    /// <summary>Notes.</summary>
    public IEnumerable<Fact<NoteBody>> Notes => Facts.Of<NoteBody>();

    /// <summary>Blocks of signals, still packed.</summary>
    public IEnumerable<Fact<SignalBlockBody>> Signals => Facts.Of<SignalBlockBody>();

    /// <summary>What came out, when the heat is closed.</summary>
    public Fact<EndBody>? End => Facts.Of<EndBody>().LastOrDefault();

    /// <summary>Corrections in order, with what they met.</summary>
    public IReadOnlyList<AppliedCorrection> Corrections => Facts.Corrections;

    /// <summary>What does not fit, in order of time.</summary>
    public IReadOnlyList<Irregularity> Irregularities => [.. Facts.Irregularities.Concat(Life.Irregularities).OrderBy(i => i.Time)];

    /// <summary>Facts that arrived long after they were so.</summary>
    public IEnumerable<Fact<EntryBody>> Late => Facts.All.Where(f => f.Late);

    /// <summary>The plan beside what was done.</summary>
    public IReadOnlyList<PlannedLine> PlannedAndActual => PlannedLines.Of(this);

    /// <summary>The converter: where the heat was blown, else where it was charged, else where it was ordered.</summary>
    public string? Unit =>
        Life.Blows.Select(b => b.Unit).FirstOrDefault(u => u is not null)
        ?? Operations.Select(o => o.Unit).FirstOrDefault(u => u is not null)
        ?? Order?.Body.Converter;

    /// <summary>Stale results that nothing newer stands in for, and the plan in force while it is stale and the blow has not begun.</summary>
    public int OpenStale => Results.Count(r => r.IsOpen) + (Stage < HeatStage.Blowing && Plan is { IsStale: true } ? 1 : 0);

    /// <summary>The record made from entries.</summary>
    /// <param name="heat">Heat number.</param>
    /// <param name="entries">Its entries in any order; those of other heats are left out.</param>
    /// <param name="asOf">How far back to look.</param>
    /// <param name="lateAfter">When a fact is late; null: <see cref="HeatFacts.UsualLateAfter"/>.</param>
    public static HeatRecord Of(string heat, IEnumerable<Entry> entries, AsOf asOf = default, TimeSpan? lateAfter = null) =>
        new(HeatFacts.Of(heat, entries, asOf, lateAfter), asOf);

    /// <summary>The record read from a journal.</summary>
    /// <param name="store">The journal.</param>
    /// <param name="heat">Heat number.</param>
    /// <param name="asOf">How far back to look.</param>
    /// <param name="signals">False: leave signal blocks out, which are most of the bytes.</param>
    public static HeatRecord Read(IJournalStore store, string heat, AsOf asOf = default, bool signals = false)
    {
        ArgumentNullException.ThrowIfNull(store);
        return Of(heat, store.ReadHeat(heat, signals), asOf);
    }

    private static List<ResultView> ResultsOf(List<Fact<ResultBody>> results, IReadOnlyDictionary<Guid, IReadOnlyList<StaleCause>> stale)
    {
        var replaced = new Dictionary<Guid, Guid>();
        foreach (Fact<ResultBody> result in results.Where(r => r.Body.Replaces is not null))
        {
            replaced[result.Body.Replaces!.Value] = result.Id;
        }

        var latest = results.GroupBy(r => r.Body.Question).ToDictionary(g => g.Key, g => g.MaxBy(r => r.Entry.Sequence)!.Id);
        return
        [
            .. results.Select(r => new ResultView(
                r, stale.GetValueOrDefault(r.Id, []), replaced.TryGetValue(r.Id, out Guid by) ? by : null, latest[r.Body.Question] == r.Id)),
        ];
    }

    private DecisionView Decision(Fact<DecisionBody> decision, IReadOnlyDictionary<Guid, IReadOnlyList<StaleCause>> stale)
    {
        IReadOnlyList<Guid> ids = decision.Body.BasedOn ?? [];
        Entry[] grounds = [.. Facts.Entries.Where(e => ids.Contains(e.Id))];
        bool changed = grounds.Any(g => stale.ContainsKey(g.Id) || Facts.Corrections.Any(c => c.Target?.Id == g.Id && c.Entry.Sequence > decision.Entry.Sequence));
        return new DecisionView(decision, grounds, [.. ids.Except(grounds.Select(g => g.Id))], changed);
    }
}
