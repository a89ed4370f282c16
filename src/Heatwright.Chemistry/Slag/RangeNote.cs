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

    /// <summary>For people: temperatures in °C, and no unit where there is none.</summary>
    public override string ToString() => Unit switch
    {
        "K" => FormattableString.Invariant($"{Field} {Value - 273.15:F0} °C is outside {Least - 273.15:F0} to {Most - 273.15:F0} °C"),
        "-" => FormattableString.Invariant($"{Field} {Value:G3} is outside {Least:G3} to {Most:G3}"),
        _ => FormattableString.Invariant($"{Field} {Value:G3} {Unit} is outside {Least:G3} to {Most:G3} {Unit}"),
    };
}
