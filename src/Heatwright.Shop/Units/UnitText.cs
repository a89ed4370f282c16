// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using System.Text;

namespace Heatwright.Shop.Units;

/// <summary>Numbers and units as text. Decimal point; a space between number and unit is usual and not required.</summary>
public static class UnitText
{
    /// <summary>Longest scalar that is looked at as a number.</summary>
    internal const int MaxLength = 80;

    /// <summary>One spelling for what reads the same: superscripts, dots and repeated blanks.</summary>
    public static string Normalise(string unit)
    {
        ArgumentNullException.ThrowIfNull(unit);
        var text = new StringBuilder(unit.Length);
        foreach (char c in unit.Trim())
        {
            char next = c switch
            {
                '³' => '3',
                '²' => '2',
                '·' or '*' or '\u00a0' or '\t' => ' ',
                'º' or '˚' => '°',
                _ => c,
            };
            if (next != ' ' || (text.Length > 0 && text[^1] != ' '))
            {
                text.Append(next);
            }
        }

        return text.ToString();
    }

    /// <summary>Splits "132 t" into 132 and "t". False when the text does not begin with a decimal number.</summary>
    public static bool TrySplit(string text, out double number, out string unit)
    {
        ArgumentNullException.ThrowIfNull(text);
        number = double.NaN;
        unit = "";
        string s = text.Trim();
        if (s.Length is 0 or > MaxLength)
        {
            return false;
        }

        int end = NumberLength(s);
        if (end == 0 || !double.TryParse(s.AsSpan(0, end), NumberStyles.Float, CultureInfo.InvariantCulture, out number))
        {
            return false;
        }

        unit = Normalise(s[end..]);
        return true;
    }

    /// <summary>Writes a base value in the unit, with the fewest digits that read back to the same value within 1e-12 relative.</summary>
    public static string Write(double value, Unit unit)
    {
        ArgumentNullException.ThrowIfNull(unit);
        return Number(unit.FromBase(value)) + " " + unit.Symbol;
    }

    /// <summary>A number as messages and files show it: at most 13 significant digits, so that 0.1 + 0.2 is 0.3.</summary>
    public static string Number(double number)
    {
        double magnitude = Math.Abs(number);
        string format = magnitude is not 0 and (< 1e-6 or >= 1e13) ? "0.############e0" : "G13";
        string text = number.ToString(format, CultureInfo.InvariantCulture);
        if (format == "G13" && text.Contains('E', StringComparison.Ordinal))
        {
            text = number.ToString("0.##################", CultureInfo.InvariantCulture);
        }

        return text == "-0" ? "0" : text;
    }

    private static int NumberLength(string s)
    {
        int i = s[0] is '+' or '-' ? 1 : 0;
        int digits = 0;
        while (i < s.Length && char.IsAsciiDigit(s[i]))
        {
            i++;
            digits++;
        }

        if (i < s.Length && s[i] == '.')
        {
            i++;
            while (i < s.Length && char.IsAsciiDigit(s[i]))
            {
                i++;
                digits++;
            }
        }

        if (digits == 0)
        {
            return 0;
        }

        if (i + 1 < s.Length && s[i] is 'e' or 'E')
        {
            int j = i + (s[i + 1] is '+' or '-' ? 2 : 1);
            int start = j;
            while (j < s.Length && char.IsAsciiDigit(s[j]))
            {
                j++;
            }

            i = j > start ? j : i;
        }

        return i;
    }
}
