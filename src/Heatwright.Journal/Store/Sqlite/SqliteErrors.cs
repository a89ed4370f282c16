// SPDX-License-Identifier: Apache-2.0
using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace Heatwright.Journal.Store.Sqlite;

/// <summary>What SQLite reports, as a problem with a mend.</summary>
internal static class SqliteErrors
{
    /// <summary>SQLITE_IOERR_CORRUPTFS: the file system found a damaged block.</summary>
    private const int FileSystemDamaged = raw.SQLITE_IOERR | (33 << 8);

    /// <summary>SQLITE_IOERR_SHMSIZE: no room for the index of the log.</summary>
    private const int NoRoomForIndex = raw.SQLITE_IOERR | (19 << 8);

    /// <summary>The exception to throw for what happened at a place.</summary>
    public static JournalException Map(string path, SqliteException e) => (e.SqliteErrorCode, e.SqliteExtendedErrorCode) switch
    {
        (raw.SQLITE_FULL, _) or (_, NoRoomForIndex) => Of(JournalProblem.DiskFull, path, $"the disk is full ({Free(path)}); nothing of this was written", "make room and try again", e),
        (raw.SQLITE_READONLY or raw.SQLITE_PERM or raw.SQLITE_AUTH, _) =>
            Of(JournalProblem.ReadOnly, path, "it may not be written", "give this user the right to write the file and its folder, or open it only to read", e),
        (raw.SQLITE_BUSY or raw.SQLITE_LOCKED, _) =>
            Of(JournalProblem.Busy, path, "another program holds it", "wait for that program or end it, and try again", e),
        (raw.SQLITE_NOTADB, _) => NotAJournal(path, "it is no SQLite file, or its first page is damaged", e),
        (_, PageSeal.DamagedPageCode) => PageSeal.Damaged(path, e),
        (raw.SQLITE_CORRUPT, _) or (_, FileSystemDamaged) =>
            Of(JournalProblem.Damaged, path, "what is read is not what was written", "verify it, and restore a backup", e),
        (raw.SQLITE_CANTOPEN, _) when File.Exists(path) && SqliteFile.NoLogCanBeKept(path) =>
            Of(JournalProblem.ReadOnly, path, "its folder may not be written, and a write-ahead log is kept there", "give this user the right to write the folder, or open it only to read", e),
        (raw.SQLITE_CANTOPEN, _) =>
            Of(JournalProblem.Failed, path, "it cannot be opened", "look at the rights of the file and of its folder (files ending in -wal and -shm are kept beside it)", e),
        (raw.SQLITE_IOERR, _) =>
            Of(JournalProblem.Failed, path, $"the disk reports an error ({e.SqliteExtendedErrorCode}, {Free(path)}); nothing of this was written", "look at the disk, then verify the journal", e),
        _ => Of(JournalProblem.Failed, path, "SQLite refuses: " + e.Message, "verify the journal", e),
    };

    /// <summary>The file is something else.</summary>
    public static JournalException NotAJournal(string path, string what, Exception? inner = null) =>
        Of(JournalProblem.NotAJournal, path, "is no journal: " + what, "look at the path; a new journal is made at a path where there is nothing yet", inner);

    /// <summary>A problem at a place.</summary>
    public static JournalException Of(JournalProblem problem, string path, string what, string mend, Exception? inner = null) =>
        new(problem, $"Journal {path}: {what}. Mend: {mend}.", inner);

    private static string Free(string path)
    {
        try
        {
            return $"{new DriveInfo(Path.GetDirectoryName(path)!).AvailableFreeSpace / 1e6:F1} MB free";
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            return "free space unknown";
        }
    }
}
