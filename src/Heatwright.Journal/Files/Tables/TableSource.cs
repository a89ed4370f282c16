// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using System.Security;
using System.Security.Cryptography;
using Heatwright.Shop.Files;

namespace Heatwright.Journal.Files.Tables;

/// <summary>Where in a file the table stands. What is null is found out and said.</summary>
/// <param name="Sheet">Sheet of a workbook; null: the first.</param>
/// <param name="HeaderRow">Row (line) of the column names; null: the first that is neither blank nor a remark.</param>
/// <param name="FirstRow">Row of the first data; null: the one after the names.</param>
/// <param name="Comment">Sign with which remark lines of a text file begin; null: #.</param>
/// <param name="Delimiter">Sign between cells of a text file.</param>
/// <param name="RepeatMerged">A merged area holds its value in each of its cells; false: only in the first.</param>
public sealed record TableLayout(
    string? Sheet = null, int? HeaderRow = null, int? FirstRow = null, char? Comment = null, char? Delimiter = null, bool RepeatMerged = false)
{
    /// <summary>Nothing is said.</summary>
    public static TableLayout Unknown { get; } = new();
}

/// <summary>Most that is read of a file. A record of past heats is far smaller; a file beyond these is a mistake or an attack.</summary>
/// <param name="MostBytes">Bytes of the file.</param>
/// <param name="MostUnpackedBytes">Bytes of a workbook when unpacked.</param>
/// <param name="MostPacking">Unpacked bytes for each packed byte, beyond the first 16 MB. Sheets of numbers reach about 30.</param>
/// <param name="MostRows">Rows.</param>
/// <param name="MostColumns">Columns.</param>
public sealed record TableLimits(
    long MostBytes = 1L << 30, long MostUnpackedBytes = 2L << 30, double MostPacking = 250, int MostRows = 1_048_576, int MostColumns = 2_000)
{
    /// <summary>The usual ones.</summary>
    public static TableLimits Usual { get; } = new();
}

/// <summary>A table in a file: a header and rows, read one after the other so that memory stays flat.</summary>
public abstract class TableSource
{
    /// <summary>With what is common to all.</summary>
    private protected TableSource(string path, TableLayout layout, TableLimits limits)
    {
        FilePath = path;
        Name = Path.GetFileName(path);
        Layout = layout;
        Limits = limits;
    }

    /// <summary>File name without folder.</summary>
    public string Name { get; }

    /// <summary>Where it lies.</summary>
    public string FilePath { get; }

    /// <summary>Column names, each once; a second column of a name gets " (2)", a nameless one "column C".</summary>
    public IReadOnlyList<string> Header { get; private protected set; } = [];

    /// <summary>What was found out about the file: encoding, delimiter, sheet, date system.</summary>
    public IReadOnlyList<string> Facts => Found;

    /// <summary>True when cells carry their own types.</summary>
    public abstract bool Typed { get; }

    private protected List<string> Found { get; } = [];

    private protected TableLayout Layout { get; }

    private protected TableLimits Limits { get; }

    /// <summary>Opens a file; its content says of which kind it is.</summary>
    /// <exception cref="FileRefusedException">It is not there, not a table, or too large.</exception>
    public static TableSource Open(string path, TableLayout? layout = null, TableLimits? limits = null)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        layout ??= TableLayout.Unknown;
        limits ??= TableLimits.Usual;
        byte[] start = Start(path, limits);
        if (start.AsSpan().StartsWith("PK\x03\x04"u8))
        {
            return new WorkbookTable(path, layout, limits);
        }

        if (start.AsSpan().StartsWith("PAR1"u8))
        {
            return new ParquetTable(path, layout, limits);
        }

        if (start.AsSpan().StartsWith((ReadOnlySpan<byte>)[0xD0, 0xCF, 0x11, 0xE0]))
        {
            throw FileRefusedException.Of(
                TableProblem.NotATable, path, "This is a workbook of the old kind (.xls), or one with a password.", "save it as .xlsx without a password, or as CSV", "CSV, XLSX or Parquet");
        }

        return new DelimitedTable(path, layout, limits);
    }

    /// <summary>Names of the sheets of a workbook, or empty for another kind of file.</summary>
    /// <exception cref="FileRefusedException">The file cannot be read.</exception>
    public static IReadOnlyList<string> SheetsOf(string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        return Start(path, TableLimits.Usual).AsSpan().StartsWith("PK\x03\x04"u8) ? WorkbookFacts.Read(path, TableLimits.Usual).Sheets : [];
    }

    /// <summary>The rows below the header that are not blank, from the start of the file at each call.</summary>
    /// <exception cref="FileRefusedException">Something in the file cannot be read.</exception>
    public abstract IEnumerable<TableRow> Rows();

    /// <summary>SHA-256 of the file's bytes, lower-case hex.</summary>
    public string Sha256()
    {
        using FileStream stream = OpenFile(FilePath);
        return Convert.ToHexStringLower(SHA256.HashData(stream));
    }

    /// <summary>Rows read one by one; what the library throws at a broken file becomes the refusal of it.</summary>
    /// <param name="source">Rows as the library gives them.</param>
    /// <param name="refusal">The refusal for an exception after the last line that was read, or null to let it pass.</param>
    private protected static IEnumerable<TableRow> Guarded(IEnumerable<TableRow> source, Func<Exception, int, FileRefusedException?> refusal)
    {
        using IEnumerator<TableRow> rows = source.GetEnumerator();
        int last = 0;
        while (true)
        {
            TableRow row;
            try
            {
                if (!rows.MoveNext())
                {
                    yield break;
                }

                row = rows.Current;
                last = row.LastLine;
            }
            catch (Exception e)
            {
                FileRefusedException? refused = refusal(e, last);
                if (refused is null)
                {
                    throw;
                }

                throw refused;
            }

            yield return row;
        }
    }

    private protected static FileStream OpenFile(string path)
    {
        try
        {
            return new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, 1 << 16, FileOptions.SequentialScan);
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            throw FileRefusedException.Of(ProblemCode.FileMissing, path, "The file is not there.", "check the name and the folder");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or SecurityException or ArgumentException or NotSupportedException)
        {
            throw FileRefusedException.Of(
                ProblemCode.FileUnreadable, path, "The file cannot be read: " + e.Message.TrimEnd('.') + ".", "check that it is a file and may be read");
        }
    }

    /// <summary>Sets <see cref="Header"/> from the row of names.</summary>
    private protected void SetHeader(IReadOnlyList<string> names)
    {
        int count = names.Count;
        while (count > 0 && string.IsNullOrWhiteSpace(names[count - 1]))
        {
            count--;
        }

        if (count == 0)
        {
            throw FileRefusedException.Of(TableProblem.NotATable, FilePath, "The file has no row of column names.", "put the names of the columns above the data, or state table.headerRow in the mapping");
        }

        CheckColumns(count);
        var seen = new Dictionary<string, int>(StringComparer.Ordinal);
        string[] header = new string[count];
        for (int i = 0; i < count; i++)
        {
            string name = string.IsNullOrWhiteSpace(names[i]) ? "column " + ColumnLetters(i) : names[i];
            int nth = seen[name] = seen.GetValueOrDefault(name) + 1;
            header[i] = nth == 1 ? name : $"{name} ({nth.ToString(CultureInfo.InvariantCulture)})";
            if (nth > 1)
            {
                Found.Add($"two columns are named '{name}'; the later one is called '{header[i]}' here");
            }
        }

        Header = header;
    }

    private protected void CheckColumns(int count)
    {
        if (count > Limits.MostColumns)
        {
            throw FileRefusedException.Of(
                TableProblem.TooLarge, FilePath, $"The table has {count} columns.", "take out the columns that do not belong to the heats", $"at most {Limits.MostColumns} columns");
        }
    }

    private protected void CheckRows(int count)
    {
        if (count > Limits.MostRows)
        {
            throw FileRefusedException.Of(TableProblem.TooLarge, FilePath, $"The table has more than {Limits.MostRows} rows.", "split it", $"at most {Limits.MostRows} rows");
        }
    }

    /// <summary>A, B, …, Z, AA, … as spreadsheets count columns.</summary>
    internal static string ColumnLetters(int index)
    {
        string letters = "";
        for (int n = index + 1; n > 0; n = (n - 1) / 26)
        {
            letters = (char)('A' + ((n - 1) % 26)) + letters;
        }

        return letters;
    }

    private static byte[] Start(string path, TableLimits limits)
    {
        using FileStream stream = OpenFile(path);
        if (stream.Length > limits.MostBytes)
        {
            throw FileRefusedException.Of(
                TableProblem.TooLarge, path, $"The file has {stream.Length} bytes.", "split it, or take out what does not belong", $"at most {limits.MostBytes} bytes");
        }

        byte[] start = new byte[8];
        int length = stream.ReadAtLeast(start, start.Length, throwOnEndOfStream: false);
        return length > 0 ? start[..length] : throw FileRefusedException.Of(ProblemCode.EmptyFile, path, "The file is empty.", "give a file with a row of column names and rows of heats");
    }
}
