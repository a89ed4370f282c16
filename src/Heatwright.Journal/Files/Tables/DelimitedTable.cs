// SPDX-License-Identifier: Apache-2.0
using System.Text;
using nietras.SeparatedValues;

namespace Heatwright.Journal.Files.Tables;

/// <summary>A text file of separated cells, quoted as RFC 4180 says; a quote anywhere in a cell opens or closes quotes.</summary>
internal sealed class DelimitedTable : TableSource
{
    private const char DefaultRemark = '#';
    private const int SniffedLines = 40;

    // In the order in which they win when all fit equally well.
    private static readonly char[] Delimiters = [',', ';', '\t', '|'];

    private readonly Encoding _encoding;
    private readonly int _markLength;
    private readonly char _delimiter;
    private readonly int _headerLine;

    public DelimitedTable(string path, TableLayout layout, TableLimits limits)
        : base(path, layout, limits)
    {
        using (FileStream stream = OpenFile(path))
        {
            (_encoding, _markLength, string fact) = TextEncodingFinder.Find(stream);
            Found.Add("text, " + fact);
        }

        _delimiter = layout.Delimiter ?? Sniff();
        (int line, string[] names)? header = null;
        foreach (TableRow row in Guarded())
        {
            if (layout.HeaderRow is { } wanted ? row.Line >= wanted : !row.IsBlank)
            {
                header = (row.Line, [.. row.Cells.Select(c => c.AsText())]);
                break;
            }
        }

        if (header is null)
        {
            throw FileRefusedException.Of(
                TableProblem.NotATable, path, "The file has no row of column names.", "put the names of the columns above the data, or state table.headerRow in the mapping");
        }

        _headerLine = header.Value.line;
        SetHeader(header.Value.names);
    }

    public override bool Typed => false;

    public override IEnumerable<TableRow> Rows()
    {
        int count = 0;
        int first = Layout.FirstRow ?? 0;
        foreach (TableRow row in Guarded())
        {
            if (row.Line > _headerLine && row.Line >= first && !row.IsBlank)
            {
                CheckRows(++count);
                yield return row;
            }
        }
    }

    // Sep reports a row beyond its buffer, and a broken file shows up in the decoder: both are the file's fault, not ours.
    private IEnumerable<TableRow> Guarded() => Guarded(Read(), (e, last) =>
        e is InvalidDataException or NotSupportedException or IOException or ArgumentException or FormatException or OverflowException
            ? FileRefusedException.Of(
                TableProblem.NotATable, FilePath, "The text after here cannot be read as a row: " + e.Message.TrimEnd('.') + ".",
                "look for a quote that is not closed", "rows of at most 16 million signs", last + 1)
            : null);

    private IEnumerable<TableRow> Read()
    {
        using SepReader reader = Sep.New(_delimiter)
            .Reader(o => o with { HasHeader = false, Unescape = true, DisableColCountCheck = true, CultureInfo = null })
            .From(Text());
        foreach (TableRow row in Rows(reader))
        {
            yield return row;
        }
    }

    private IEnumerable<TableRow> Rows(SepReader reader)
    {
        // Sep numbers its first row 2 when told that there is no header; the rows after it are right.
        bool first = true;
        while (reader.MoveNext())
        {
            yield return Copy(reader.Current, first);
            first = false;
        }
    }

    private TableRow Copy(SepReader.Row row, bool first)
    {
        CheckColumns(row.ColCount);
        var cells = new Cell[row.ColCount];
        for (int i = 0; i < cells.Length; i++)
        {
            cells[i] = Cell.Of(row[i].ToString());
        }

        int line = first ? 1 : row.LineNumberFrom;
        return new TableRow(line, Math.Max(line, row.LineNumberToExcl - 1), cells);
    }

    private RemarkFilter Text()
    {
        FileStream stream = OpenFile(FilePath);
        stream.Position = _markLength;
        return new RemarkFilter(new StreamReader(stream, _encoding, detectEncodingFromByteOrderMarks: false, 1 << 16), Layout.Comment ?? DefaultRemark);
    }

    /// <summary>The sign that parts every one of the first lines into the same number of cells, more than one; the most cells win.</summary>
    private char Sniff()
    {
        List<int[]> lines = CountedLines();
        if (lines.Count == 0)
        {
            return Delimiters[0];
        }

        // Titles above the header may hold no sign at all; they are not asked where the header row is stated.
        (char Sign, int Cells, double Share)[] fits =
        [
            .. Delimiters.Select((d, i) =>
            {
                int usual = lines.Select(l => l[i]).GroupBy(n => n).OrderByDescending(g => g.Count()).ThenByDescending(g => g.Key).First().Key;
                return (d, usual, lines.Count(l => l[i] == usual) / (double)lines.Count);
            }),
        ];
        (char Sign, int Cells, double Share)[] able = [.. fits.Where(f => f.Cells > 0).OrderByDescending(f => f.Share).ThenByDescending(f => f.Cells)];
        if (able.Length == 0)
        {
            Found.Add("one column: none of , ; tab | is in it");
            return Delimiters[0];
        }

        string others = string.Join(", ", able.Skip(1).Where(f => f.Share == able[0].Share).Select(f => Say(f.Sign)));
        Found.Add($"cells parted by {Say(able[0].Sign)}{(others.Length > 0 ? $" ({others} would fit too; state table.delimiter if that is meant)" : "")}");
        return able[0].Sign;
    }

    private List<int[]> CountedLines()
    {
        var lines = new List<int[]>();
        using RemarkFilter text = Text();
        int[] counts = new int[Delimiters.Length];
        bool quoted = false;
        bool any = false;
        int line = 1;
        int signs = 0;
        int c;
        do
        {
            c = text.Read();
            quoted ^= c == '"';
            if (c < 0 || (c == '\n' && !quoted))
            {
                if (any && line >= (Layout.HeaderRow ?? 0))
                {
                    lines.Add(counts);
                }

                counts = new int[Delimiters.Length];
                any = false;
            }
            else if (!quoted && Array.IndexOf(Delimiters, (char)c) is >= 0 and var d)
            {
                counts[d]++;
                any = true;
            }
            else
            {
                any |= !char.IsWhiteSpace((char)c);
            }

            line += c == '\n' ? 1 : 0;
        }
        while (c >= 0 && lines.Count < SniffedLines && ++signs < 1 << 22);
        return lines;
    }

    private static string Say(char delimiter) => delimiter == '\t' ? "tab" : delimiter.ToString();
}
