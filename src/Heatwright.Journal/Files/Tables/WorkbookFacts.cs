// SPDX-License-Identifier: Apache-2.0
using System.IO.Compression;
using System.Xml;

namespace Heatwright.Journal.Files.Tables;

/// <summary>What the workbook part says before any sheet is read.</summary>
/// <param name="Sheets">Names of the sheets in order.</param>
/// <param name="From1904">Dates count from 1904, as old Macintosh files do.</param>
internal sealed record WorkbookFacts(IReadOnlyList<string> Sheets, bool From1904)
{
    private const string Part = "xl/workbook.xml";

    /// <summary>
    /// Reads them, after unpacking every part once into nothing: the sizes that a package states may be false, so they are counted.
    /// </summary>
    public static WorkbookFacts Read(string path, TableLimits limits)
    {
        try
        {
            using FileStream stream = File.OpenRead(path);
            using var package = new ZipArchive(stream, ZipArchiveMode.Read);
            CheckSize(path, package, stream.Length, limits);
            ZipArchiveEntry part = package.GetEntry(Part) ?? throw NotAWorkbook(path, null);
            using Stream content = part.Open();
            return Parse(content, path);
        }
        catch (Exception e) when (e is InvalidDataException or XmlException or IOException or NotSupportedException or ArgumentException)
        {
            throw NotAWorkbook(path, e);
        }
    }

    private static WorkbookFacts Parse(Stream content, string path)
    {
        using var reader = XmlReader.Create(content, new XmlReaderSettings { DtdProcessing = DtdProcessing.Prohibit, XmlResolver = null });
        var sheets = new List<string>();
        bool from1904 = false;
        while (reader.Read())
        {
            if (reader.NodeType == XmlNodeType.Element && reader.LocalName == "sheet")
            {
                sheets.Add(reader.GetAttribute("name") ?? "");
            }
            else if (reader.NodeType == XmlNodeType.Element && reader.LocalName == "workbookPr")
            {
                from1904 = reader.GetAttribute("date1904") is "1" or "true";
            }
        }

        return sheets.Count > 0 ? new WorkbookFacts(sheets, from1904) : throw NotAWorkbook(path, null);
    }

    private static void CheckSize(string path, ZipArchive package, long packed, TableLimits limits)
    {
        long most = (long)Math.Min(limits.MostUnpackedBytes, Math.Max(16L << 20, packed * limits.MostPacking));
        long unpacked = 0;
        byte[] portion = new byte[1 << 16];
        foreach (ZipArchiveEntry part in package.Entries)
        {
            using Stream content = part.Open();
            int read;
            while ((read = content.Read(portion)) > 0)
            {
                unpacked += read;
                if (unpacked > most)
                {
                    throw FileRefusedException.Of(
                        TableProblem.PackedTooTightly, path, $"The workbook has {packed} bytes and unpacks to more than {most}.",
                        "save the sheet of heats alone in a new workbook, or as CSV",
                        $"{limits.MostUnpackedBytes} bytes unpacked, and {limits.MostPacking:0} for each packed byte");
                }
            }
        }
    }

    private static FileRefusedException NotAWorkbook(string path, Exception? e) => FileRefusedException.Of(
        TableProblem.NotATable, path, "The file begins as a packed file and holds no workbook that can be read" + (e is null ? "." : ": " + e.Message.TrimEnd('.') + "."),
        "save it again as .xlsx, or as CSV", "CSV, XLSX or Parquet");
}
