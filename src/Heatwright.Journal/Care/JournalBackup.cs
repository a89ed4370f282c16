// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Store;
using Heatwright.Journal.Store.Sqlite;
using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace Heatwright.Journal.Care;

/// <summary>A backup that was made.</summary>
/// <param name="Path">File.</param>
/// <param name="Bytes">Its length.</param>
/// <param name="Head">End of the chain in it. Note it elsewhere: it proves that the end is there.</param>
/// <param name="Report">What verification of it found.</param>
public sealed record BackupReport(string Path, long Bytes, JournalHead Head, VerifyReport Report);

/// <summary>A journal that was put in place.</summary>
/// <param name="Head">End of the chain in it.</param>
/// <param name="ReplacedPath">Where the journal that stood there is now; null when none did.</param>
/// <param name="ReplacedHead">End of that one's chain, as far as it could be read.</param>
public sealed record RestoreReport(JournalHead Head, string? ReplacedPath, JournalHead? ReplacedHead);

/// <summary>Backup and restore. A backup is a journal in a file like any other: sealed, verified, and readable without its original.</summary>
public static class JournalBackup
{
    /// <summary>Copies a journal, which may be in use, into a file, and verifies the copy.</summary>
    /// <param name="place">Journal in a file or on a server.</param>
    /// <param name="path">File to be made; nothing may stand there.</param>
    /// <param name="options">Progress and the like.</param>
    /// <exception cref="JournalException">Something stands there, the journal is damaged, or the file cannot be written. Nothing is left behind.</exception>
    public static BackupReport Make(string place, string path, VerifyOptions? options = null)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(place);
        ArgumentException.ThrowIfNullOrWhiteSpace(path);
        options ??= new VerifyOptions();
        path = Path.GetFullPath(path);
        SealedCopy.RefuseWhatExists(path);
        VerifyReport report;
        if (JournalPlace.IsServer(place))
        {
            report = FromServer(place, path, options);
        }
        else
        {
            place = Path.GetFullPath(place);
            JournalVerify.RefuseWhatIsNoJournal(place);

            // What was the head before must be in the copy, whatever is written meanwhile.
            string? before = HeadOf(place)?.ToString();
            report = SealedCopy.Make(place, path, options with { ExpectedHead = options.ExpectedHead ?? before });
        }

        return new BackupReport(path, new FileInfo(path).Length, report.Head, report);
    }

    /// <summary>Puts a backup in the place of a journal. It is verified first.</summary>
    /// <param name="backup">File of the backup; it stays.</param>
    /// <param name="place">File, or an empty database on a server.</param>
    /// <param name="replace">A journal that stands there is renamed and kept beside it; without this it is refused.</param>
    /// <param name="clock">For the name of the replaced one.</param>
    /// <exception cref="JournalException">The backup is damaged, something stands at the place, or a program has it open.</exception>
    public static RestoreReport Restore(string backup, string place, bool replace = false, TimeProvider? clock = null)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(backup);
        ArgumentException.ThrowIfNullOrWhiteSpace(place);
        if (JournalPlace.IsServer(place))
        {
            return new RestoreReport(JournalMigration.Run(backup, place).Head, null, null);
        }

        backup = Path.GetFullPath(backup);
        place = Path.GetFullPath(place);
        JournalVerify.RefuseWhatIsNoJournal(backup);
        bool stands = Path.Exists(place);
        if (stands && !replace)
        {
            throw new JournalException(JournalProblem.Exists, $"There is something at {place} already; it was left as it is. Mend: name another place, or say that it is to be replaced (it is kept beside).");
        }

        string ready = place + $".{Guid.NewGuid():N}.restored";
        try
        {
            VerifyReport report = SealedCopy.Make(backup, ready, new VerifyOptions());
            if (!stands)
            {
                File.Move(ready, place, overwrite: false);
                return new RestoreReport(report.Head, null, null);
            }

            RefuseInUse(place);
            JournalHead? old = HeadOf(place);
            string kept = Keep(place, (clock ?? TimeProvider.System).GetUtcNow());
            try
            {
                File.Move(ready, place, overwrite: false);
            }
            catch
            {
                Move(kept, place);
                throw;
            }

            return new RestoreReport(report.Head, kept, old);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new JournalException(JournalProblem.Failed, $"{place}: the backup cannot be put there ({e.Message}). Mend: allow writing in its folder.", e);
        }
        finally
        {
            File.Delete(ready);
        }
    }

    /// <summary>End of the chain in a file, read past the seals; null when it cannot be read.</summary>
    internal static JournalHead? HeadOf(string path)
    {
        try
        {
            using var rows = new FileRows(path);
            long last = rows.Last();
            return last == 0 ? null : rows.From(last).Select(r => new JournalHead(r.Sequence, r.Hash)).LastOrDefault();
        }
        catch (Exception e) when (e is StoredRowException or IOException)
        {
            return null;
        }
    }

    private static VerifyReport FromServer(string place, string path, VerifyOptions options)
    {
        string part = path + $".{Guid.NewGuid():N}.part";
        try
        {
            MigrationReport migrated = JournalMigration.Run(place, part, options);
            File.Move(part, path, overwrite: false);
            return migrated.Report with { Place = path };
        }
        finally
        {
            SealedCopy.Remove(part);
        }
    }

    /// <summary>Moves file and log aside together: the log belongs to that file and to no other.</summary>
    private static string Keep(string place, DateTimeOffset now)
    {
        string stem = Path.Combine(Path.GetDirectoryName(place)!, Path.GetFileNameWithoutExtension(place)) + $".replaced-{now.UtcDateTime:yyyyMMdd'T'HHmmss'Z'}";
        string kept = stem + ".journal";
        for (int i = 2; Path.Exists(kept) || Path.Exists(kept + "-wal"); i++)
        {
            kept = $"{stem}-{i}.journal";
        }

        Move(place, kept);
        return kept;
    }

    private static void Move(string from, string to)
    {
        foreach (string end in (string[])["-wal", "-shm", ""])
        {
            if (File.Exists(from + end))
            {
                File.Move(from + end, to + end, overwrite: false);
            }
        }
    }

    /// <summary>A program that goes on writing into a file that was moved aside would write into the wrong journal.</summary>
    private static void RefuseInUse(string place)
    {
        try
        {
            using var connection = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = place, Mode = SqliteOpenMode.ReadWrite, Pooling = false, DefaultTimeout = 1 }.ToString());
            bool log = File.Exists(place + "-wal") && new FileInfo(place + "-wal").Length > 0;
            connection.Open();
            raw.sqlite3_db_config(connection.Handle, raw.SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, log ? 1 : 0, out _); // File and log are left as they are.
            SqliteFile.Execute(connection, "PRAGMA busy_timeout = 0; PRAGMA locking_mode = EXCLUSIVE");
            SqliteFile.Execute(connection, "BEGIN EXCLUSIVE; ROLLBACK");
        }
        catch (SqliteException e) when (e.SqliteErrorCode is raw.SQLITE_BUSY or raw.SQLITE_LOCKED)
        {
            throw new JournalException(JournalProblem.Busy, $"{place}: a program has it open; nothing was replaced. Mend: end that program first.", e);
        }
        catch (SqliteException)
        {
            // So damaged that nobody can have it open.
        }
    }
}
