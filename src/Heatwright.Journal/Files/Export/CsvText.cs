// SPDX-License-Identifier: Apache-2.0
using System.Buffers;
using System.Globalization;
using System.Text;

namespace Heatwright.Journal.Files.Export;

/// <summary>Writes rows as RFC 4180 says: commas, CR LF, quotes doubled. With a byte order mark, without which spreadsheet programs misread UTF-8.</summary>
internal sealed class CsvText(Stream stream) : IDisposable
{
    // Beyond what the standard asks, the other delimiters are quoted too, so that the delimiter is found without doubt.
    private static readonly SearchValues<char> Quoted = SearchValues.Create(",\"\r\n;\t|");

    private readonly StreamWriter _writer = new(stream, new UTF8Encoding(encoderShouldEmitUTF8Identifier: true, throwOnInvalidBytes: true), 1 << 16, leaveOpen: true) { NewLine = "\r\n" };
    private bool _first = true;

    /// <summary>A text; formula-looking ones are escaped.</summary>
    public void Text(string text) => Cell(FormulaText.Escape(text));

    /// <summary>A number in the fewest digits that read back to the same bits; never quoted or escaped.</summary>
    public void Number(double number, bool below = false) => Raw((below ? "<" : "") + number.ToString("R", CultureInfo.InvariantCulture));

    /// <summary>Nothing.</summary>
    public void Blank() => Raw("");

    /// <summary>Plain text of our own that needs neither.</summary>
    public void Raw(string text)
    {
        if (!_first)
        {
            _writer.Write(',');
        }

        _first = false;
        _writer.Write(text);
    }

    /// <summary>Text as it is, in quotes where it needs them.</summary>
    public void Cell(string text)
    {
        // A leading # would make the line a remark; blanks at the ends get lost in some programs.
        bool quote = text.AsSpan().ContainsAny(Quoted) || (text.Length > 0 && (text[0] == '#' || char.IsWhiteSpace(text[0]) || char.IsWhiteSpace(text[^1])));
        Raw(quote ? "\"" + text.Replace("\"", "\"\"", StringComparison.Ordinal) + "\"" : text);
    }

    public void EndRow()
    {
        _writer.WriteLine();
        _first = true;
    }

    public void Dispose() => _writer.Dispose();
}
