// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;
using Heatwright.Journal.Store.Sqlite;
using Microsoft.Data.Sqlite;

namespace Heatwright.Journal.Care;

/// <summary>
/// A copy of a journal's file. A file whose pages are all right is copied by the database's online backup: a picture of one moment,
/// while others go on writing. Where a page is refused, or pages have no seals, the entries are copied instead, one by one past the
/// seals and along the chain, into a new file: nothing that no hash covers (cached rows, indexes, the texts of tables and triggers) is
/// carried over.
/// </summary>
internal static class SealedCopy
{
    /// <summary>Copies and verifies, and only then gives the copy its name.</summary>
    /// <param name="from">File of a journal.</param>
    /// <param name="to">Where nothing may stand yet.</param>
    /// <param name="options">What to tell on the way; an expected head must be in the copy.</param>
    /// <exception cref="JournalException">There is something at the new place, the journal is damaged, or the disk is full. Nothing is left behind.</exception>
    public static VerifyReport Make(string from, string to, VerifyOptions options)
    {
        RefuseWhatExists(to);
        string part = to + $".{Guid.NewGuid():N}.part";
        try
        {
            Copy(from, part);
            VerifyReport report = JournalVerify.Run(part, options);
            if (report.Damaged)
            {
                Finding first = report.Findings.First(f => f.Severity == Severity.Damage);
                throw new JournalException(
                    JournalProblem.Damaged, $"{from}: no copy was made, for what is in it is damaged. {first.Text} Mend: verify {from}, and restore an earlier backup.");
            }

            using (var file = new FileStream(part, FileMode.Open, FileAccess.ReadWrite))
            {
                file.Flush(flushToDisk: true);
            }

            FolderSync.Move(part, to);
            return report with { Place = to };
        }
        catch (SqliteException e)
        {
            throw SqliteErrors.Map(to, e);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new JournalException(JournalProblem.Failed, $"{to}: no copy can be put there ({e.Message}). Mend: make room and allow writing in its folder.", e);
        }
        finally
        {
            Remove(part);
        }
    }

    /// <summary>Refuses a place where something stands.</summary>
    public static void RefuseWhatExists(string to)
    {
        if (Path.Exists(to))
        {
            throw new JournalException(JournalProblem.Exists, $"There is something at {to} already; it was left as it is. Mend: name another place.");
        }
    }

    private static void Copy(string from, string to)
    {
        if (HasSeals(from))
        {
            try
            {
                using var held = new HeldFile(from);
                using SqliteConnection source = Open(held.Source, SqliteOpenMode.ReadOnly);
                using SqliteConnection target = Open(to, SqliteOpenMode.ReadWriteCreate);
                source.BackupDatabase(target);
                using SqliteCommand settle = target.CreateCommand();
                settle.CommandText = "PRAGMA wal_checkpoint(TRUNCATE)";
                settle.ExecuteNonQuery();
                return;
            }
            catch (SqliteException e) when (e.SqliteExtendedErrorCode == PageSeal.DamagedPageCode)
            {
                PageSeal.TakeDamagedPage();
                Remove(to);
            }
        }

        using var rows = new FileRows(from);
        using var copy = SqliteJournal.Open(to, new JournalOptions { CreateIfMissing = true });
        try
        {
            foreach (List<Entry> portion in JournalMigration.Portions(rows.From(1).Select(Entry)))
            {
                ((IVerbatimAppend)copy).AppendVerbatim(portion);
            }
        }
        catch (StoredRowException e)
        {
            throw new JournalException(JournalProblem.Damaged, $"{from}: no copy was made: {e.Message}. Mend: verify it, and restore an earlier backup.", e);
        }

        Entry Entry(StoredRow row) => row.TryEntry(out Entry? entry, out string? fault)
            ? entry
            : throw new JournalException(JournalProblem.Damaged, $"{from}: no copy was made: entry {row.Sequence} is not what was written: {fault}. Mend: verify it, and restore an earlier backup.");
    }

    internal static void Remove(string path)
    {
        foreach (string end in (string[])["", "-wal", "-shm", "-journal"])
        {
            File.Delete(path + end);
        }
    }

    private static SqliteConnection Open(string path, SqliteOpenMode mode)
    {
        var connection = new SqliteConnection(
            new SqliteConnectionStringBuilder { DataSource = path, Mode = mode, Pooling = false, Vfs = PageSealVfs.Name }.ToString());
        connection.Open();
        return connection;
    }

    private static bool HasSeals(string path)
    {
        using FileStream file = FileCheck.Open(path);
        var header = new byte[100];
        return file.ReadAtLeast(header, 100, throwOnEndOfStream: false) == 100 && PageSeal.SealedPageSize(header) > 0;
    }
}
