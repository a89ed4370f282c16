// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Journal.Files.Tables;

/// <summary>
/// Empties the lines that begin with the remark sign, so that line numbers stay. A line inside a quoted cell is no remark; what
/// stands in a remark opens no quotes.
/// </summary>
internal sealed class RemarkFilter(TextReader inner, char? sign) : TextReader
{
    private bool _lineStart = true;
    private bool _quoted;
    private bool _remark;

    public override int Read()
    {
        Span<char> one = stackalloc char[1];
        return Read(one) == 1 ? one[0] : -1;
    }

    public override int Peek() => throw new NotSupportedException("The table reader does not look ahead.");

    public override int Read(char[] buffer, int index, int count) => Read(buffer.AsSpan(index, count));

    public override int Read(Span<char> buffer)
    {
        while (true)
        {
            int read = inner.Read(buffer);
            if (read == 0)
            {
                return 0;
            }

            int kept = Keep(buffer[..read]);
            if (kept > 0)
            {
                return kept;
            }
        }
    }

    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            inner.Dispose();
        }

        base.Dispose(disposing);
    }

    private int Keep(Span<char> part)
    {
        int kept = 0;
        foreach (char c in part)
        {
            bool end = c is '\n' or '\r';
            if (_lineStart && !_quoted && c == sign)
            {
                _remark = true;
            }

            if (end)
            {
                _remark = false;
            }

            if (!_remark)
            {
                _quoted ^= c == '"';
                part[kept++] = c;
            }

            _lineStart = end;
        }

        return kept;
    }
}
