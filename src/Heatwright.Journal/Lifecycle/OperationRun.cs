// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;

namespace Heatwright.Journal.Lifecycle;

/// <summary>One run of an operation, from the changes of its state.</summary>
/// <param name="Operation">Which.</param>
/// <param name="Index">Which repeat, from 1.</param>
/// <param name="Unit">Unit on which it ran.</param>
/// <param name="State">State it is in.</param>
/// <param name="Began">When it began; null when no one said.</param>
/// <param name="Ended">When it completed or was aborted; null while it runs.</param>
/// <param name="Held">How long it was held.</param>
/// <param name="OxygenNm3">Oxygen blown in it, Nm³.</param>
/// <param name="Facts">The changes of state.</param>
public sealed record OperationRun(
    HeatOperation Operation,
    int Index,
    string? Unit,
    OperationState State,
    DateTimeOffset? Began,
    DateTimeOffset? Ended,
    TimeSpan Held,
    double? OxygenNm3,
    IReadOnlyList<Fact<OperationBody>> Facts)
{
    /// <summary>Oxygen is blown in it.</summary>
    public bool IsBlow => Operation is HeatOperation.Blow or HeatOperation.Reblow;

    /// <summary>From begin to end without the time it was held; null while one of them is missing.</summary>
    public TimeSpan? Duration => Ended - Began - Held;

    /// <summary>Name for people: "reblow 2".</summary>
    public string Name => NameOf(Operation, Index);

    /// <summary>Name for people: "tap", "reblow 2".</summary>
    internal static string NameOf(HeatOperation operation, int index)
    {
        string word = operation switch
        {
            HeatOperation.ChargeScrap => "scrap charging",
            HeatOperation.ChargeHotMetal => "hot-metal charging",
            HeatOperation.Blow => "blow",
            HeatOperation.Reblow => "reblow",
            HeatOperation.Tap => "tap",
            HeatOperation.Splash => "slag splashing",
            HeatOperation.SlagOff => "slag off",
            _ => "fettling",
        };
        return index == 1 && operation != HeatOperation.Reblow ? word : FormattableString.Invariant($"{word} {index}");
    }

    internal static OperationRun Of(IReadOnlyList<Fact<OperationBody>> facts)
    {
        OperationBody last = facts[^1].Body;
        DateTimeOffset? began = null, ended = null, heldSince = null;
        TimeSpan held = TimeSpan.Zero;
        foreach (Fact<OperationBody> fact in facts)
        {
            switch (fact.Body.State)
            {
                case OperationState.Held:
                    heldSince ??= fact.Time;
                    continue;
                case OperationState.Running:
                    began ??= fact.Time;
                    ended = null;
                    break;
                default:
                    ended = fact.Time;
                    break;
            }

            held += fact.Time - heldSince ?? TimeSpan.Zero;
            heldSince = null;
        }

        return new OperationRun(
            last.Operation,
            last.Index,
            facts.Select(f => f.Body.Unit).LastOrDefault(u => u is not null),
            last.State,
            began,
            ended,
            held,
            facts.Select(f => f.Body.OxygenNm3).LastOrDefault(o => o is not null),
            facts);
    }
}
