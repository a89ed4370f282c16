// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using Heatwright.Shop.Units;

namespace Heatwright.Journal.Files.Tables;

/// <summary>Sign before the decimals.</summary>
public enum DecimalSign
{
    /// <summary>1234.5.</summary>
    Point,
    /// <summary>1234,5.</summary>
    Comma,
}

/// <summary>A number as it stood in a cell.</summary>
/// <param name="Value">The number.</param>
/// <param name="Below">It stood after a "&lt;".</param>
/// <param name="Unit">Unit that stood behind it, or empty.</param>
public readonly record struct WrittenNumber(double Value, bool Below, string Unit);

/// <summary>
/// Reads numbers as spreadsheets and laboratories write them: decimal point or comma as the column has it; spaces (also the
/// unbroken and narrow ones), apostrophes or the other of the two signs between groups of three digits; "&lt;" before a limit of
/// detection; a unit behind. Nothing else is forgiven.
/// </summary>
public static class NumberText
{
    private const int MostSigns = 80;

    /// <summary>Reads a cell.</summary>
    /// <param name="text">Its text.</param>
    /// <param name="sign">Decimal sign of its column.</param>
    /// <param name="number">The number.</param>
    /// <returns>Null, or what is wrong with it, as half a sentence.</returns>
    public static string? Read(ReadOnlySpan<char> text, DecimalSign sign, out WrittenNumber number)
    {
        number = default;
        ReadOnlySpan<char> s = text.Trim();
        bool below = false;
        if (s.Length > 0 && s[0] == '<')
        {
            below = true;
            s = s[1..].TrimStart();
        }

        if (s.Length == 0 || s.Length > MostSigns)
        {
            return "is not a number";
        }

        if (s[0] is '>' or '≥' or '≤' or '=' or '~')
        {
            return $"begins with '{s[0]}', which has no place in a record (only '<' has)";
        }

        Span<char> plain = stackalloc char[s.Length + 2];
        int length = 0;
        int at = 0;
        if (s[0] is '-' or '+' or '−')
        {
            plain[length++] = s[0] == '+' ? '+' : '-';
            at = 1;
        }

        if (Whole(s, ref at, sign, plain, ref length) is { } fault)
        {
            return fault;
        }

        char point = sign == DecimalSign.Point ? '.' : ',';
        int digits = length;
        if (at < s.Length && s[at] == point)
        {
            plain[length++] = '.';
            for (at++; at < s.Length && char.IsAsciiDigit(s[at]); at++)
            {
                plain[length++] = s[at];
            }
        }

        if (!HasDigit(plain[..length]))
        {
            return "is not a number";
        }

        if (at < s.Length && s[at] is '.' or ',' && at + 1 < s.Length && char.IsAsciiDigit(s[at + 1]))
        {
            return $"has a '{s[at]}' where none can be when the decimal sign is a {(sign == DecimalSign.Point ? "point" : "comma")}";
        }

        Exponent(s, ref at, plain, ref length);
        if (!double.TryParse(plain[..length], NumberStyles.Float, CultureInfo.InvariantCulture, out double value) || !double.IsFinite(value))
        {
            return digits == 0 ? "is not a number" : "is larger than any number";
        }

        string unit = UnitText.Normalise(s[at..].ToString());
        number = new WrittenNumber(value, below, unit);
        return unit.Length > 0 && char.IsAsciiDigit(unit[0]) ? "has digits after a blank that are no group of three" : null;
    }

    /// <summary>True for the blanks and apostrophes that part groups of three digits.</summary>
    internal static bool PartsGroups(char c) => c is ' ' or '\u00a0' or '\u202f' or '\u2009' or '\'' or '’';

    // The digits before the decimal sign, in groups of three or not. The groups must be whole: "12 34" is no number.
    private static string? Whole(ReadOnlySpan<char> s, ref int at, DecimalSign sign, Span<char> plain, ref int length)
    {
        char other = sign == DecimalSign.Point ? ',' : '.';
        int group = 0;
        char parted = '\0';
        while (at < s.Length)
        {
            if (char.IsAsciiDigit(s[at]))
            {
                plain[length++] = s[at++];
                group++;
                if (parted != '\0' && group > 3)
                {
                    return "has groups of digits that are not of three";
                }

                continue;
            }

            bool parts = PartsGroups(s[at]) || s[at] == other;
            bool digitsFollow = at + 1 < s.Length && char.IsAsciiDigit(s[at + 1]);
            if (!parts || !digitsFollow || group == 0)
            {
                break;
            }

            bool three = at + 3 < s.Length && char.IsAsciiDigit(s[at + 2]) && char.IsAsciiDigit(s[at + 3]);
            if (parted == '\0' && s[at] == other && s[at - 1] == '0' && group == 1)
            {
                // 0.450 is 0.45 and never four hundred and fifty.
                return $"has a '{other}' after a leading 0, where none can be when the decimal sign is a {(sign == DecimalSign.Point ? "point" : "comma")}";
            }

            if (!three || (parted == '\0' ? group > 3 : s[at] != parted || group != 3))
            {
                return "has groups of digits that are not of three";
            }

            parted = s[at++];
            group = 0;
        }

        return parted != '\0' && group != 3 ? "has groups of digits that are not of three" : null;
    }

    private static void Exponent(ReadOnlySpan<char> s, ref int at, Span<char> plain, ref int length)
    {
        if (at >= s.Length || s[at] is not ('e' or 'E'))
        {
            return;
        }

        int i = at + 1;
        bool minus = i < s.Length && s[i] is '-' or '−';
        i += i < s.Length && s[i] is '-' or '+' or '−' ? 1 : 0;
        int start = i;
        while (i < s.Length && char.IsAsciiDigit(s[i]))
        {
            i++;
        }

        if (i == start)
        {
            return;
        }

        plain[length++] = 'e';
        if (minus)
        {
            plain[length++] = '-';
        }

        s[start..i].CopyTo(plain[length..]);
        length += i - start;
        at = i;
    }

    private static bool HasDigit(ReadOnlySpan<char> s) => s.IndexOfAnyInRange('0', '9') >= 0;
}
