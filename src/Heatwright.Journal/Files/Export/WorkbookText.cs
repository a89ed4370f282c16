// SPDX-License-Identifier: Apache-2.0
using System.Buffers;
using System.Globalization;
using System.Text;

namespace Heatwright.Journal.Files.Export;

/// <summary>
/// Texts of workbook cells. Characters that XML cannot hold are written as _xHHHH_, and a text that looks so already gets its underscore
/// written so (ECMA-376 part 1, 22.9.2.19, ST_Xstring); readers turn them back.
/// </summary>
internal static class WorkbookText
{
    /// <summary>Longest text of a cell in a workbook, signs.</summary>
    public const int Longest = 32_767;

    private static readonly SearchValues<char> HexDigits = SearchValues.Create("0123456789abcdefABCDEF");

    /// <summary>The text to write, or null when it is too long for a cell.</summary>
    public static string? Escape(string text)
    {
        StringBuilder? escaped = null;
        for (int i = 0; i < text.Length; i++)
        {
            char c = text[i];
            // A cell of blanks alone is read as empty: its first sign is written so that it is not.
            bool special = (c < ' ' && c is not ('\t' or '\n')) || c is '\uFFFE' or '\uFFFF' || (c == '_' && LooksEscaped(text, i)) || (i == 0 && char.IsWhiteSpace(c));
            if (special)
            {
                escaped ??= new StringBuilder(text, 0, i, text.Length + 16);
                escaped.Append(CultureInfo.InvariantCulture, $"_x{(int)c:X4}_");
            }
            else
            {
                escaped?.Append(c);
            }
        }

        string result = escaped?.ToString() ?? text;
        return result.Length <= Longest ? result : null;
    }

    private static bool LooksEscaped(string text, int at) =>
        at + 6 < text.Length && text[at + 1] is 'x' or 'X' && text[at + 6] == '_' && !text.AsSpan(at + 2, 4).ContainsAnyExcept(HexDigits);
}
