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
/// <param name="Source">
/// What verification of the backup itself found. A backup that is damaged only where no entry lies (free pages, cached rows) is
/// restored without that damage; <see cref="VerifyReport.Damaged"/> is then true here, and the backup is to be made anew.
/// </param>
public sealed record RestoreReport(JournalHead Head, string? ReplacedPath, JournalHead? ReplacedHead, VerifyReport Source);

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
        JournalPlace.RefuseNone(place, "journal");
        JournalPlace.RefuseNone(path, "file to be made");
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
    /// <param name="expectedHead">A head that was noted ("sequence:hash"): it must be in the backup.</param>
    /// <exception cref="JournalException">The backup is damaged, something stands at the place, or a program has it open.</exception>
    public static RestoreReport Restore(string backup, string place, bool replace = false, TimeProvider? clock = null, string? expectedHead = null)
    {
        JournalPlace.RefuseNone(backup, "backup");
        JournalPlace.RefuseNone(place, "place to restore to");
        var options = new VerifyOptions { ExpectedHead = expectedHead };
        if (JournalPlace.IsServer(place))
        {
            return ToServer(backup, place, replace, options);
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
            VerifyReport source = JournalVerify.Run(backup, options with { Balances = false });
            VerifyReport report = SealedCopy.Make(backup, ready, options);
            if (!stands)
            {
                KeepStrayLog(place, (clock ?? TimeProvider.System).GetUtcNow());
                FolderSync.Move(ready, place);
                return new RestoreReport(report.Head, null, null, source);
            }

            RefuseInUse(place);
            Fold(place);
            JournalHead? old = HeadOf(place);
            string kept = Keep(place, (clock ?? TimeProvider.System).GetUtcNow());
            try
            {
                FolderSync.Move(ready, place);
            }
            catch
            {
                Move(kept, place);
                throw;
            }

            return new RestoreReport(report.Head, kept, old, source);
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
            FolderSync.Move(part, path);
            return migrated.Report with { Place = path };
        }
        finally
        {
            SealedCopy.Remove(part);
        }
    }

    private static RestoreReport ToServer(string backup, string place, bool replace, VerifyOptions options)
    {
        if (replace)
        {
            throw new JournalException(
                JournalProblem.Exists,
                "A journal on a server is not replaced: it cannot be kept beside. Nothing was changed. Mend: restore into a new, empty database (createdb) without replacing, and let the programs use that one.");
        }

        VerifyReport source = JournalVerify.Run(backup, options);
        if (source.Damaged)
        {
            Finding first = source.Findings.First(f => f.Severity == Severity.Damage);
            throw new JournalException(
                JournalProblem.Damaged,
                $"{source.Place}: nothing was restored, for this backup is damaged. {first.Text} Mend: restore an earlier one; or restore this one into a file, which leaves out what holds no entry, and move that to the server ('journal migrate').");
        }

        return new RestoreReport(JournalMigration.Run(backup, place, options).Head, null, null, source);
    }

    /// <summary>Brings what waits in the log into the file, so that one name holds all. A file that is too damaged for that keeps its log.</summary>
    private static void Fold(string place)
    {
        if (!HeldFile.HasLog(place) || JournalVerify.Run(place, new VerifyOptions { Balances = false }).Damaged)
        {
            return;
        }

        try
        {
            PageSealVfs.Register();
            using var connection = new SqliteConnection(
                new SqliteConnectionStringBuilder { DataSource = place, Mode = SqliteOpenMode.ReadWrite, Pooling = false, Vfs = PageSealVfs.Name }.ToString());
            connection.Open();
            SqliteFile.Execute(connection, "PRAGMA synchronous = FULL; PRAGMA wal_checkpoint(TRUNCATE)");
        }
        catch (SqliteException)
        {
            PageSeal.TakeDamagedPage(); // File and log go aside as they are.
        }
    }

    private static string Keep(string place, DateTimeOffset now)
    {
        string kept = NameForReplaced(place, now);
        Move(place, kept);
        return kept;
    }

    /// <summary>A log without its file belongs to none, least of all to the one that is put there now.</summary>
    private static void KeepStrayLog(string place, DateTimeOffset now)
    {
        if (File.Exists(place + "-wal"))
        {
            FolderSync.Move(place + "-wal", NameForReplaced(place, now) + "-wal");
        }

        File.Delete(place + "-shm");
    }

    private static string NameForReplaced(string place, DateTimeOffset now)
    {
        string stem = Path.Combine(Path.GetDirectoryName(place)!, Path.GetFileNameWithoutExtension(place)) + $".replaced-{now.UtcDateTime:yyyyMMdd'T'HHmmss'Z'}";
        string kept = stem + ".journal";
        for (int i = 2; Path.Exists(kept) || Path.Exists(kept + "-wal"); i++)
        {
            kept = $"{stem}-{i}.journal";
        }

        return kept;
    }

    /// <summary>
    /// Moves file and log together: the log belongs to that file and to no other. It is copied before and deleted after, so that whatever
    /// stops this on the way, the file has its log beside it.
    /// </summary>
    private static void Move(string from, string to)
    {
        string log = from + "-wal";
        if (HeldFile.HasLog(from))
        {
            File.Copy(log, to + "-wal", overwrite: false);
            using var copy = new FileStream(to + "-wal", FileMode.Open, FileAccess.ReadWrite);
            copy.Flush(flushToDisk: true);
        }

        FolderSync.Move(from, to);
        File.Delete(log);
        File.Delete(from + "-shm");
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
