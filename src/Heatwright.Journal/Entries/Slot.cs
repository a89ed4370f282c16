// SPDX-License-Identifier: Apache-2.0
using System.Globalization;

namespace Heatwright.Journal.Entries;

/// <summary>
/// The place in a heat's record that a fact fills: "charge/scrap/heavy", "analysis/hot-metal/metal/1". A result names the slots it
/// read; a later fact in one of them, or a correction of one, makes the result stale. Facts that share a slot follow each other
/// (several additions of lime); they do not replace each other: only a correction does that.
/// </summary>
public static class Slot
{
    /// <summary>The slot of a body, or null when it fills none (notes, decisions, results and the like).</summary>
    public static string? Of(EntryBody body) => body switch
    {
        OrderBody => "order",
        PlanBody => "plan",
        ChargeBody c => "charge/" + StoredName.Of(c.What) + (c.Material is null ? "" : "/" + c.Material),
        AdditionBody a => "addition/" + StoredName.Of(a.Place) + "/" + a.Material,
        MeasurementBody m => "measurement/" + StoredName.Of(m.Point) + "/" + Number(m.Index),
        AnalysisBody a => "analysis/" + StoredName.Of(a.Point) + "/" + StoredName.Of(a.Matter) + "/" + Number(a.Index),
        OperationBody o => "operation/" + StoredName.Of(o.Operation) + "/" + Number(o.Index),
        EndBody => "end",
        SignalBlockBody => "signals",
        _ => null,
    };

    /// <summary>True when the pattern is the slot, or ends with * and the slot begins with what stands before it.</summary>
    public static bool Matches(string pattern, string slot)
    {
        ArgumentNullException.ThrowIfNull(pattern);
        return pattern.EndsWith('*') ? slot.AsSpan().StartsWith(pattern.AsSpan(0, pattern.Length - 1), StringComparison.Ordinal) : pattern == slot;
    }

    private static string Number(int index) => index.ToString(CultureInfo.InvariantCulture);
}
