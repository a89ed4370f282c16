// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Journal.Files.Tables;

/// <summary>
/// Collects from the texts of one column what shows its decimal sign. "0.45", "12.5", "1234.567", "1.234,5" and "1.234.567" show
/// it; "1.234" does not: it may be 1.234 or 1 234.
/// </summary>
internal sealed class DecimalEvidence
{
    private string? _point;
    private string? _comma;
    private string? _unclear;

    /// <summary>What the column shows; null when nothing does.</summary>
    public DecimalSign? Shown => (_point, _comma) switch
    {
        (not null, null) => DecimalSign.Point,
        (null, not null) => DecimalSign.Comma,
        _ => null,
    };

    /// <summary>A text that could be read in two ways, when nothing shows which is meant.</summary>
    public string? Unclear => Shown is null ? _unclear : null;

    /// <summary>Two texts that show different signs, or null.</summary>
    public (string Point, string Comma)? Both => _point is not null && _comma is not null ? (_point, _comma) : null;

    /// <summary>A text that shows another sign than this one, or null.</summary>
    public string? Against(DecimalSign sign) => sign == DecimalSign.Point ? _comma : _point;

    /// <summary>Looks at a text.</summary>
    public void Add(string text)
    {
        ReadOnlySpan<char> s = Numeral(text);
        int points = s.Count('.');
        int commas = s.Count(',');
        if (points + commas == 0)
        {
            return;
        }

        if (points > 0 && commas > 0)
        {
            // Whichever comes last stands before the decimals.
            Note(s.LastIndexOf('.') > s.LastIndexOf(',') ? DecimalSign.Point : DecimalSign.Comma, text);
            return;
        }

        char sign = points > 0 ? '.' : ',';
        DecimalSign itself = points > 0 ? DecimalSign.Point : DecimalSign.Comma;
        DecimalSign other = points > 0 ? DecimalSign.Comma : DecimalSign.Point;
        if (points + commas > 1)
        {
            Note(other, text);
            return;
        }

        int at = s.IndexOf(sign);
        bool couldPartGroups = s.Length - at - 1 == 3 && at is >= 1 and <= 3 && s[0] != '0' && s.IndexOfAnyExceptInRange('0', '9') == at;
        if (couldPartGroups)
        {
            _unclear ??= text;
        }
        else
        {
            Note(itself, text);
        }
    }

    private void Note(DecimalSign sign, string text)
    {
        if (sign == DecimalSign.Point)
        {
            _point ??= text;
        }
        else
        {
            _comma ??= text;
        }
    }

    // The digits with their signs, without "<", sign of the number, exponent and unit.
    private static ReadOnlySpan<char> Numeral(string text)
    {
        ReadOnlySpan<char> s = text.AsSpan().Trim().TrimStart("<+-− ");
        int end = 0;
        while (end < s.Length && (char.IsAsciiDigit(s[end]) || s[end] is '.' or ',' || (NumberText.PartsGroups(s[end]) && end + 1 < s.Length && char.IsAsciiDigit(s[end + 1]))))
        {
            end++;
        }

        return s[..end].TrimEnd(".,");
    }
}
