// SPDX-License-Identifier: Apache-2.0
using System.Buffers.Binary;
using System.IO.Hashing;
using Microsoft.Data.Sqlite;

namespace Heatwright.Journal.Store.Sqlite;

/// <summary>
/// A seal on every page of a journal file: the last 16 bytes of a page are XXH128 over the rest, seeded with the page number, so
/// that a flipped byte anywhere, a page at a wrong place and a page half written are found. The library keeps those bytes free for
/// whoever asks ("reserved bytes", byte 20 of the file header; file format at https://sqlite.org/fileformat2.html) and other
/// programs read the file as before. A page gets its seal when it goes to the file and is held against it when it comes back; a
/// page that does not match is answered with the library's error 8202 (SQLITE_IOERR_DATA) instead of with its content.
/// The write-ahead log has checksums of its own and is left alone. The seal finds accidents; against intent stands the chain.
/// </summary>
/// <remarks>
/// How to use it: connect with <c>Vfs = <see cref="PageSealVfs.Name"/></c> after <see cref="PageSealVfs.Register"/>, and call
/// <see cref="Prepare"/> on a new, still empty database before anything else is written.
/// </remarks>
internal static class PageSeal
{
    /// <summary>Bytes of a seal; what byte 20 of the file header must say.</summary>
    public const int Length = 16;

    /// <summary>Extended result code of a page that is not what was written: SQLITE_IOERR | 32 &lt;&lt; 8.</summary>
    public const int DamagedPageCode = 10 | (32 << 8);

    /// <summary>The page that holds this byte is where locks are taken and is never written (SQLite file format, section 1.4).</summary>
    public const long LockByte = 0x40000000;

    private const int ReserveBytes = 38; // SQLITE_FCNTL_RESERVE_BYTES

    [ThreadStatic]
    private static long _lastDamagedPage;

    /// <summary>Asks the library to leave room for seals in a database that is still empty.</summary>
    /// <exception cref="JournalException">The library refuses, or the database is not empty.</exception>
    public static unsafe void Prepare(SqliteConnection empty)
    {
        ArgumentNullException.ThrowIfNull(empty);
        int reserve = Length;
        int answer = PageSealVfs.FileControl(empty.Handle!.DangerousGetHandle(), "main", ReserveBytes, &reserve);
        if (answer != 0)
        {
            throw new JournalException(JournalProblem.Failed, $"{empty.DataSource}: the database library left no room for page seals (code {answer}).");
        }
    }

    /// <summary>Page size by the first 100 bytes of a file when its pages are sealed; 0 when they are not or it is no database.</summary>
    public static int SealedPageSize(ReadOnlySpan<byte> header) =>
        header.Length >= 100 && header.StartsWith("SQLite format 3\0"u8) && header[20] == Length ? PageSize(header) : 0;

    /// <summary>True when the first 100 bytes are those of a journal, by its mark. A journal has seals whatever the rest of its header says.</summary>
    public static bool Marked(ReadOnlySpan<byte> header) => header.Length >= 100 && header[68..].StartsWith("HwJ1"u8);

    /// <summary>Page size by the first 100 bytes of a file; 0 when it is none.</summary>
    public static int PageSize(ReadOnlySpan<byte> header)
    {
        int size = BinaryPrimitives.ReadUInt16BigEndian(header[16..]);
        size = size == 1 ? 65536 : size;
        return size >= 512 && int.IsPow2(size) ? size : 0;
    }

    /// <summary>Writes the seal into the last bytes of a page.</summary>
    /// <param name="page">The whole page.</param>
    /// <param name="number">Its number, from 1.</param>
    public static void Put(Span<byte> page, long number) => XxHash128.Hash(page[..^Length], page[^Length..], number);

    /// <summary>True when the page is what was sealed under this number. A page of zeros has never been written: true.</summary>
    public static bool Holds(ReadOnlySpan<byte> page, long number)
    {
        Span<byte> seal = stackalloc byte[Length];
        XxHash128.Hash(page[..^Length], seal, number);
        return seal.SequenceEqual(page[^Length..]) || Blank(page);
    }

    /// <summary>True when all bytes are zero: a page that the library has counted and never written.</summary>
    public static bool Blank(ReadOnlySpan<byte> page) => !page.ContainsAnyExcept((byte)0);

    /// <summary>
    /// The page that this thread was refused last, or 0; asked once, right after the library's error <see cref="DamagedPageCode"/>.
    /// </summary>
    public static long TakeDamagedPage()
    {
        long page = _lastDamagedPage;
        _lastDamagedPage = 0;
        return page;
    }

    /// <summary>The error to raise for the library's <see cref="DamagedPageCode"/>.</summary>
    public static JournalException Damaged(string place, SqliteException inner)
    {
        long page = TakeDamagedPage();
        string where = page > 0 ? $"page {page}" : "a page";
        return new JournalException(
            JournalProblem.Damaged,
            $"{place}: {where} is not what was written. Mend: copy the file elsewhere as it is, run 'heatwright journal verify' to see what it holds, and restore the last backup.",
            inner);
    }

    internal static void NoteDamage(long page) => _lastDamagedPage = page;
}
