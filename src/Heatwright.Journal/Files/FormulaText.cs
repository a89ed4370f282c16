// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Journal.Files;

/// <summary>
/// Keeps spreadsheet programs from running a text of a CSV file as a formula: a text that begins with = + - @, tab or line end (also
/// in their wide forms, and after quotes and blanks, which some programs strip) gets an apostrophe in front. A text that begins with an apostrophe
/// gets another, so that taking one away always gives the text back. Numbers are never touched.
/// </summary>
internal static class FormulaText
{
    private const string Openers = "=+-@\t\r\n＝＋－＠";

    public static string Escape(string text)
    {
        ReadOnlySpan<char> bare = text.AsSpan().TrimStart("\"' \u00a0");
        return text.StartsWith('\'') || text.StartsWith('\t') || (bare.Length > 0 && Openers.Contains(bare[0], StringComparison.Ordinal)) ? "'" + text : text;
    }

    public static string Unescape(string text) => text.StartsWith('\'') ? text[1..] : text;
}
