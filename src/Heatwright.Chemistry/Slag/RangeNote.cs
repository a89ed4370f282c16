// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry.Slag;

/// <summary>Says that a value lies outside the range in which a correlation was fitted, though it can still be evaluated.</summary>
/// <param name="Field">What.</param>
/// <param name="Value">Its value.</param>
/// <param name="Least">Least value of the fit.</param>
/// <param name="Most">Most value of the fit.</param>
/// <param name="Unit">Unit of the three.</param>
public sealed record RangeNote(string Field, double Value, double Least, double Most, string Unit)
{
    /// <summary>Null when the value lies in the range.</summary>
    public static RangeNote? Of(string field, double value, double least, double most, string unit) =>
        value >= least && value <= most ? null : new RangeNote(field, value, least, most, unit);

    /// <summary>The notes that are none.</summary>
    internal static IReadOnlyList<RangeNote> Collect(params ReadOnlySpan<RangeNote?> notes)
    {
        List<RangeNote>? list = null;
        foreach (RangeNote? note in notes)
        {
            if (note is not null)
            {
                (list ??= []).Add(note);
            }
        }

        return list ?? (IReadOnlyList<RangeNote>)[];
    }

    /// <inheritdoc/>
    public override string ToString() => $"{Field} {Value:G5} {Unit} is outside {Least:G5}–{Most:G5} {Unit}";
}
