// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using Heatwright.Shop;

namespace Heatwright.Cli.Output;

/// <summary>Numbers as people read them: fixed decimals by quantity, a thin gap between thousands.</summary>
internal static class Numbers
{
    private static readonly NumberFormatInfo Grouped = new() { NumberGroupSeparator = " ", NegativeSign = "−" };

    public static string Fixed(double value, int decimals)
    {
        string text = value.ToString("N" + decimals, Grouped);
        // A minus before a rounded zero says nothing.
        return text[0] == '−' && text.AsSpan(1).IndexOfAnyInRange('1', '9') < 0 ? text[1..] : text;
    }

    public static string Percent(double fraction) => Fixed(100 * fraction, 0) + " %";

    public static string Minutes(double seconds)
    {
        int whole = (int)Math.Round(seconds);
        return $"{(whole < 0 ? "−" : "")}{Math.Abs(whole) / 60}:{Math.Abs(whole) % 60:00}";
    }

    /// <summary>Limits as a phrase, e.g. "1 640 to 1 670", "max 0.018"; a dash where there are none.</summary>
    public static string Range(Limits? limits, int decimals, double offset = 0) => limits switch
    {
        { Least: { } least, Most: { } most } => $"{Fixed(least + offset, decimals)} to {Fixed(most + offset, decimals)}",
        { Most: { } most } => "max " + Fixed(most + offset, decimals),
        { Least: { } least } => "min " + Fixed(least + offset, decimals),
        _ => "",
    };
}
