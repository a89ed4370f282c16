// SPDX-License-Identifier: Apache-2.0
using System.IO.Compression;
using System.Text;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Files;
using Heatwright.Journal.Files.Export;
using Heatwright.Journal.Files.Tables;
using Heatwright.Journal.Store;
using Heatwright.Shop.Files;

namespace Heatwright.Journal.Tests.Files;

public sealed class TableSourceTests : IDisposable
{
    private readonly Desk _desk = new();

    public void Dispose() => _desk.Dispose();

    [Theory]
    [InlineData("utf-8", "UTF-8")]
    [InlineData("utf-16", "UTF-16, little-endian")]
    [InlineData("utf-16BE", "UTF-16, big-endian")]
    [InlineData("windows-1252", "Windows-1252")]
    public void Encodings_are_found_and_said(string name, string fact)
    {
        Encoding encoding = CodePagesEncodingProvider.Instance.GetEncoding(name) ?? Encoding.GetEncoding(name);
        TableSource table = TableSource.Open(_desk.Put("a.csv", "Schmelze;Güte;T °C\n1;Müller;1650\n", encoding));
        Assert.Equal(["Schmelze", "Güte", "T °C"], table.Header);
        Assert.Equal("Müller", table.Rows().Single()[1].Text);
        Assert.Contains(fact, table.Facts[0], StringComparison.Ordinal);
    }

    [Fact]
    public void A_byte_that_is_not_utf8_far_down_is_found()
    {
        string text = "heat,note\n" + string.Concat(Enumerable.Range(1, 20_000).Select(i => $"{i},ordinary\n")) + "x,\u00b0\n";
        TableSource table = TableSource.Open(_desk.Put("a.csv", text, Encoding.Latin1));
        Assert.Contains("Windows-1252 (byte B0", table.Facts[0], StringComparison.Ordinal);
        Assert.Equal("°", table.Rows().Last()[1].Text);
    }

    [Theory]
    [InlineData(',')]
    [InlineData(';')]
    [InlineData('\t')]
    [InlineData('|')]
    public void Delimiters_are_found(char d)
    {
        TableSource table = TableSource.Open(_desk.Put("a.csv", $"heat{d}x{d}y\n1{d}\"1,5;2|3\t\"{d}a\n2{d}{d}b\n"));
        Assert.Equal(3, table.Header.Count);
        Assert.Equal(["1,5;2|3\t", ""], table.Rows().Select(r => r[1].AsText()));
    }

    [Fact]
    public void Decimal_commas_do_not_pass_for_a_delimiter() =>
        Assert.Equal(["heat", "a", "b"], TableSource.Open(_desk.Put("a.csv", "heat;a;b\n1;1,5;2,5\n2;1,7;2,8\n")).Header);

    [Fact]
    public void Quotes_line_breaks_remarks_and_blank_lines()
    {
        TableSource table = TableSource.Open(_desk.Put("a.csv", "# a \"remark, with one quote\n\nheat,note\r\n1,\"two\r\n# lines, \"\"quoted\"\"\"\r\n# another\r\n\r\n2,plain\r\n"));
        TableRow[] rows = [.. table.Rows()];
        Assert.Equal("two\r\n# lines, \"quoted\"", rows[0][1].Text);
        Assert.Equal(((4, 5), (8, 8)), ((rows[0].Line, rows[0].LastLine), (rows[1].Line, rows[1].LastLine)));
    }

    [Fact]
    public void Header_and_first_row_are_where_the_layout_says_and_names_are_made_single()
    {
        string path = _desk.Put("a.csv", "Larkmoor,heats,of\nheat,T,T\n,°C,\n1,2,3\n");
        TableSource table = TableSource.Open(path, new TableLayout(HeaderRow: 2, FirstRow: 4));
        Assert.Equal(["heat", "T", "T (2)"], table.Header);
        Assert.Equal(4, table.Rows().Single().Line);
    }

    [Theory]
    [InlineData(false, 2021, 12, 31)]
    [InlineData(true, 2026, 1, 1)]
    public void Dates_count_from_the_year_that_the_workbook_says(bool from1904, int year, int month, int day)
    {
        TableSource table = TableSource.Open(_desk.Put("a.xlsx", HandMadeWorkbook.With(
            "<row r=\"2\"><c r=\"A2\" t=\"inlineStr\"><is><t>heat</t></is></c><c r=\"B2\" t=\"inlineStr\"><is><t>date</t></is></c></row>"
            + "<row r=\"5\"><c r=\"A5\"><v>510008</v></c><c r=\"B5\" s=\"1\"><v>44561.5</v></c></row>", from1904)));
        TableRow row = table.Rows().Single();
        Assert.Equal((5, "510008", new DateTime(year, month, day, 12, 0, 0)), (row.Line, row[0].AsText(), row[1].Time));
        Assert.Contains(from1904 ? "1904" : "1900", table.Facts[0], StringComparison.Ordinal);
    }

    [Fact]
    public void A_sheet_that_is_not_there_is_refused_with_the_ones_that_are()
    {
        string path = _desk.Put("a.xlsx", HandMadeWorkbook.With("<row r=\"1\"><c r=\"A1\"><v>1</v></c></row>"));
        Problem problem = Assert.Throws<FileRefusedException>(() => TableSource.Open(path, new TableLayout(Sheet: "Haets"))).Problems[0];
        Assert.Equal((TableProblem.NoSuchSheet, "Heats", "write sheet: Heats"), (problem.Code, problem.Limit, problem.Mend));
        Assert.Equal(["Heats"], TableSource.SheetsOf(path));
    }

    [Fact]
    public void A_workbook_that_would_fill_the_memory_is_refused_before_it_is_read()
    {
        byte[] bomb = HandMadeWorkbook.With("<row r=\"1\"><c r=\"A1\" t=\"inlineStr\"><is><t>" + new string(' ', 40 << 20) + "</t></is></c></row>");
        Assert.True(bomb.Length < 1 << 20);
        Assert.Equal(TableProblem.PackedTooTightly, Refusal("bomb.xlsx", bomb).Code);
    }

    [Fact]
    public void A_sheet_with_a_cell_in_the_last_corner_is_refused() => Assert.Equal(
        TableProblem.TooLarge, Refusal("wide.xlsx", HandMadeWorkbook.With("<row r=\"1\"><c r=\"A1\"><v>1</v></c></row><row r=\"1048576\"><c r=\"XFD1048576\"><v>1</v></c></row>")).Code);

    [Theory]
    [InlineData("", ProblemCode.EmptyFile)]
    [InlineData("\n\n \n", TableProblem.NotATable)]
    [InlineData("# only a remark\n", TableProblem.NotATable)]
    public void Files_without_a_header_are_refused(string text, string code) => Assert.Equal(code, Refusal("a.csv", Encoding.UTF8.GetBytes(text)).Code);

    [Fact]
    public void Limits_are_named()
    {
        string path = _desk.Put("a.csv", "heat,a,b\n1,2,3\n2,3,4\n");
        Assert.Equal("at most 5 bytes", Refusal(path, new TableLimits(MostBytes: 5)).Limit);
        Assert.Equal("at most 2 columns", Refusal(path, new TableLimits(MostColumns: 2)).Limit);
        Assert.Equal("at most 1 rows", Assert.Throws<FileRefusedException>(() => TableSource.Open(path, null, new TableLimits(MostRows: 1)).Rows().ToList()).Problems[0].Limit);
    }

    [Fact]
    public void Old_workbooks_and_missing_files_are_refused()
    {
        Assert.Contains(".xlsx", Refusal("a.xls", [0xD0, 0xCF, 0x11, 0xE0, 0, 0, 0, 0]).Mend, StringComparison.Ordinal);
        Assert.Equal(ProblemCode.FileMissing, Assert.Throws<FileRefusedException>(() => TableSource.Open(_desk.Path("none.csv"))).Problems[0].Code);
    }

    [Fact]
    public void A_parquet_footer_that_lacks_a_byte_is_refused_and_not_read_for_ever()
    {
        IJournalStore store = _desk.Journal();
        store.Append(NewEntry.Of("7", new EndBody(151_000), _desk.Clock.Now, "person:anna"));
        HeatExport.WriteHeats(store, _desk.Path("good.parquet"), ExportFormat.Parquet);
        byte[] good = File.ReadAllBytes(_desk.Path("good.parquet"));
        int footer = BitConverter.ToInt32(good, good.Length - 8);
        for (int at = good.Length - 8 - footer; at < good.Length - 8; at += 7)
        {
            Problem problem = Assert.Throws<FileRefusedException>(() => TableSource.Open(_desk.Put("cut.parquet", [.. good[..at], .. good[(at + 1)..]]))).Problems[0];
            Assert.Equal(TableProblem.NotATable, problem.Code);
        }
    }

    private static Problem Refusal(string path, TableLimits limits) => Assert.Throws<FileRefusedException>(() => TableSource.Open(path, null, limits)).Problems[0];

    private Problem Refusal(string name, byte[] bytes) => Assert.Throws<FileRefusedException>(() => TableSource.Open(_desk.Put(name, bytes)).Rows().Count()).Problems[0];
}

/// <summary>A workbook written part by part, with what no writer would write.</summary>
internal static class HandMadeWorkbook
{
    private const string Main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
    private const string Office = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    private const string Package = "http://schemas.openxmlformats.org/package/2006/relationships";

    public static byte[] With(string rows, bool from1904 = false, string after = "")
    {
        using var bytes = new MemoryStream();
        using (var zip = new ZipArchive(bytes, ZipArchiveMode.Create, leaveOpen: true))
        {
            void Part(string name, string xml)
            {
                using var writer = new StreamWriter(zip.CreateEntry(name, CompressionLevel.Optimal).Open());
                writer.Write("<?xml version=\"1.0\"?>" + xml);
            }

            Part("[Content_Types].xml", "<Types xmlns=\"http://schemas.openxmlformats.org/package/2006/content-types\"><Default Extension=\"rels\" ContentType=\"application/vnd.openxmlformats-package.relationships+xml\"/><Default Extension=\"xml\" ContentType=\"application/xml\"/></Types>");
            Part("_rels/.rels", $"<Relationships xmlns=\"{Package}\"><Relationship Id=\"r1\" Type=\"{Office}/officeDocument\" Target=\"xl/workbook.xml\"/></Relationships>");
            Part("xl/workbook.xml", $"<workbook xmlns=\"{Main}\" xmlns:r=\"{Office}\"><workbookPr{(from1904 ? " date1904=\"1\"" : "")}/><sheets><sheet name=\"Heats\" sheetId=\"1\" r:id=\"r1\"/></sheets></workbook>");
            Part("xl/_rels/workbook.xml.rels", $"<Relationships xmlns=\"{Package}\"><Relationship Id=\"r1\" Type=\"{Office}/worksheet\" Target=\"worksheets/sheet1.xml\"/><Relationship Id=\"r2\" Type=\"{Office}/styles\" Target=\"styles.xml\"/></Relationships>");
            Part("xl/styles.xml", $"<styleSheet xmlns=\"{Main}\"><cellXfs count=\"2\"><xf numFmtId=\"0\"/><xf numFmtId=\"22\" applyNumberFormat=\"1\"/></cellXfs></styleSheet>");
            Part("xl/worksheets/sheet1.xml", $"<worksheet xmlns=\"{Main}\"><sheetData>{rows}</sheetData>{after}</worksheet>");
        }

        return bytes.ToArray();
    }
}
