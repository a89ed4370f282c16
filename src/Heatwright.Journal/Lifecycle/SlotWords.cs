// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;

namespace Heatwright.Journal.Lifecycle;

/// <summary>A place in the record (<see cref="Slot"/>) as people say it: "analysis/hot-metal/metal/1" is "hot-metal analysis".</summary>
public static class SlotWords
{
    /// <summary>The words; the slot itself where it is none that is known.</summary>
    public static string Of(string slot)
    {
        ArgumentNullException.ThrowIfNull(slot);
        return slot.Split('/') switch
        {
            ["charge", "hot-metal"] => "hot-metal weight",
            ["charge", "retained-slag"] => "weight of retained slag",
            ["charge", "scrap", .. { Length: > 0 } material] => $"scrap weight of {string.Join('/', material)}",
            ["charge", "scrap"] => "scrap weight",
            ["addition", "ladle", .. var material] => $"addition of {string.Join('/', material)} into the ladle",
            ["addition", _, .. var material] => $"addition of {string.Join('/', material)}",
            ["measurement", var point, var index] => Point(point) + " measurement" + Repeat(index),
            ["analysis", var point, "slag", var index] => Point(point) + " slag analysis" + Repeat(index),
            ["analysis", var point, _, var index] => Point(point) + " analysis" + Repeat(index),
            ["operation", var operation, var index] => $"begin or end of {operation.Replace('-', ' ')}" + Repeat(index),
            ["end"] => "closing",
            [""] => "an input",
            _ => slot,
        };
    }

    private static string Point(string point) => point == "end-of-blow" ? "end" : point;

    private static string Repeat(string index) => index == "1" ? "" : " " + index;
}
