// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;
using Heatwright.Journal.Views;
using Heatwright.Shop;
using Heatwright.Shop.Files;

namespace Heatwright.Journal.Lifecycle;

/// <summary>What became of one stale result.</summary>
/// <param name="Stale">The stale one, which stays as it is.</param>
/// <param name="New">The one put beside it, or null.</param>
/// <param name="Notes">What the new one assumes and says.</param>
/// <param name="Refusal">Why there is no new one, and the mend.</param>
public sealed record Recomputed(ResultView Stale, Entry? New, IReadOnlyList<string> Notes, string? Refusal);

/// <summary>What became of a heat's stale results.</summary>
/// <param name="Results">The stale results that nothing newer stood in for.</param>
/// <param name="StalePlan">In words, when the plan in force is stale and the blow has not begun: plans are made again by planning, not here.</param>
public sealed record RecomputeReport(IReadOnlyList<Recomputed> Results, string? StalePlan);

/// <summary>Answers stale questions again and puts the new results beside the old ones. Decisions and old results stay as they are.</summary>
public static class Recompute
{
    // Others write to the same heat at the same time: after so many tries the heat is left for the next run.
    private const int Tries = 5;

    /// <summary>Actor of what is written here.</summary>
    public static string Actor { get; } = "program:" + HeatQuestions.Model.Replace(' ', '/').ToLowerInvariant();

    /// <summary>Computes the stale results of a heat anew. A second run does nothing, and one that fails leaves the mark.</summary>
    /// <param name="store">The journal.</param>
    /// <param name="works">Works for results that do not name the works entry they were computed with.</param>
    /// <param name="heat">Heat number.</param>
    /// <param name="clock">Where the time of the new results comes from.</param>
    /// <exception cref="JournalException">The journal cannot be written, or others kept writing to the heat.</exception>
    public static RecomputeReport Run(IJournalStore store, Works works, string heat, TimeProvider? clock = null)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(works);
        ArgumentNullException.ThrowIfNull(heat);
        for (int attempt = 0; attempt < Tries; attempt++)
        {
            // The version is taken before the entries: whoever writes between the two, or before the answer is in, makes the append fail.
            long version = store.Version(heat);
            HeatRecord record = HeatRecord.Read(store, heat);
            var asked = record.Results.Where(r => r.IsOpen).Select(r => (Stale: r, Answer: Ask(store, works, record, r))).ToList();
            NewEntry[] entries =
            [
                .. asked.Where(a => a.Answer.Result is not null).Select(a => NewEntry.Of(
                    heat,
                    a.Answer.Result! with { Replaces = a.Stale.Fact.Id },
                    (clock ?? TimeProvider.System).GetUtcNow(),
                    Actor,
                    "computed again: " + string.Join("; ", a.Stale.Stale.Select(s => s.Text).Distinct()))),
            ];
            IReadOnlyList<Entry> written = [];
            if (entries.Length > 0)
            {
                AppendOutcome outcome = store.Append([new AppendRequest(entries, new Dictionary<string, long> { [heat] = version })])[0];
                if (outcome.Status == AppendStatus.VersionConflict)
                {
                    continue;
                }

                written = outcome.Entries;
            }

            Dictionary<Guid, Entry> byStale = written.ToDictionary(e => ((ResultBody)e.Body).Replaces!.Value);
            return new RecomputeReport(
                [.. asked.Select(a => new Recomputed(a.Stale, byStale.GetValueOrDefault(a.Stale.Fact.Id), a.Answer.Notes, a.Answer.Refusal))], StalePlan(record));
        }

        throw new JournalException(JournalProblem.Conflict, $"Others kept writing to heat {heat}; nothing was computed again. Mend: run it once more.");
    }

    private static HeatAnswer Ask(IJournalStore store, Works works, HeatRecord record, ResultView stale)
    {
        Basis basis = stale.Fact.Body.Basis;
        (Works? with, string? refusal) = WorksOf(store, basis.Works, works);
        return with is null
            ? new HeatAnswer(null, [], refusal)
            : HeatQuestions.Ask(record, with, stale.Fact.Body.Question, new QuestionOptions(basis.Seed ?? 1, Math.Max(20, basis.Members ?? 200), basis.Works, basis.Parameters));
    }

    private static (Works? Works, string? Refusal) WorksOf(IJournalStore store, Guid? id, Works works)
    {
        if (id is not { } worksId)
        {
            return (works, null);
        }

        if (store.Find(worksId) is not { Kind: EntryKind.Works } entry)
        {
            return (null, $"The journal does not hold the works {worksId} that the result was computed with. Mend: enter its files under this id, or ask again with the files of today.");
        }

        var body = (WorksBody)entry.Body;
        Loaded<Works> loaded = ShopLoader.LoadWorks(body.Files, $"works of entry {entry.Sequence}");
        return (loaded.Value, loaded.Value is null ? $"The files of works '{body.Name}' (entry {entry.Sequence}) cannot be used: {loaded.Problems[0]}" : null);
    }

    private static string? StalePlan(HeatRecord record) =>
        record is { Stage: < HeatStage.Blowing, Plan: { IsStale: true } plan }
            ? $"The plan is stale: {string.Join("; ", plan.Stale.Select(s => s.Text).Distinct())}. Mend: plan again."
            : null;
}
