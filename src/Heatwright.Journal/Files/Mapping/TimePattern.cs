// SPDX-License-Identifier: Apache-2.0
using System.Text;

namespace Heatwright.Journal.Files.Mapping;

/// <summary>
/// Looks at the pattern of a time before a file is read by it. Spreadsheets name the parts by the letters of their own language
/// (TT.MM.JJJJ), and a pattern of those would fit no cell, or the wrong ones.
/// </summary>
internal static class TimePattern
{
    private const string Letters = "dMyHhmsfFtKz";

    /// <summary>What is wrong with a pattern and how it was probably meant; null when nothing is.</summary>
    public static (string Message, string Mend)? Fault(string pattern)
    {
        if (pattern == "iso")
        {
            return null;
        }

        string bare = Bare(pattern);
        string? message = bare.FirstOrDefault(c => char.IsLetter(c) && !Letters.Contains(c, StringComparison.Ordinal)) is var odd and not '\0'
                ? $"'{odd}' stands for no part of a time; the letters are d (day), M (month), y (year), H (hour), m (minute) and s (second)."
            : !bare.Contains('d', StringComparison.Ordinal) || !bare.Contains('M', StringComparison.Ordinal) || !bare.Contains('y', StringComparison.Ordinal)
                ? "The pattern needs day (d), month (capital M) and year (y)."
            : bare.Contains('h', StringComparison.Ordinal) && !bare.Contains('t', StringComparison.Ordinal)
                ? "h counts to twelve and needs tt for am or pm; the hour of the day is H."
            : Months(bare) > 1 ? "The month (capital M) stands twice; a minute is a small m."
            : null;
        if (message is null)
        {
            return null;
        }

        string meant = Meant(pattern);
        return (message, meant != pattern && Fault(meant) is null ? $"write pattern: {meant}" : "write the pattern as in dd.MM.yyyy HH:mm");
    }

    // Without what stands in quotes or after a backslash, and without the T and Z of ISO 8601 in their places.
    private static string Bare(string pattern)
    {
        var bare = new StringBuilder();
        char quote = '\0';
        for (int i = 0; i < pattern.Length; i++)
        {
            char c = pattern[i];
            if (quote != '\0')
            {
                quote = c == quote ? '\0' : quote;
            }
            else if (c is '\'' or '"')
            {
                quote = c;
            }
            else if (c == '\\')
            {
                i++;
            }
            else if (!((c == 'T' && i > 0 && pattern[i - 1] == 'd' && i + 1 < pattern.Length && pattern[i + 1] is 'H' or 'h') || (c == 'Z' && i == pattern.Length - 1)))
            {
                bare.Append(c);
            }
        }

        return bare.ToString();
    }

    private static int Months(string bare) => bare.Where((c, i) => c == 'M' && (i == 0 || bare[i - 1] != 'M')).Count();

    // Day, month, year as in German, French or Spanish sheets or in capitals; after the hour an M is a minute, before it an m a month.
    private static string Meant(string pattern)
    {
        var meant = new StringBuilder();
        bool clock = false;
        foreach (char c in pattern)
        {
            clock |= c is 'h' or 'H';
            meant.Append(c switch
            {
                'T' or 'D' => 'd',
                't' when !clock => 'd',
                'J' or 'j' or 'Y' or 'a' or 'A' => 'y',
                'h' when !pattern.Contains("tt", StringComparison.Ordinal) || !pattern.Contains('d', StringComparison.Ordinal) => 'H',
                'M' when clock => 'm',
                'm' when !clock => 'M',
                'S' => 's',
                _ => c,
            });
        }

        return meant.ToString();
    }
}
