// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Store.Migrations;
using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace Heatwright.Journal.Store.Sqlite;

/// <summary>A journal's file: how it is recognised, made, brought up to date and connected to.</summary>
internal static class SqliteFile
{
    /// <summary>Marks the file as a journal ("HwJ1" in the header, where file(1) and others look).</summary>
    public const int ApplicationId = 0x48774a31;

    /// <summary>Opens the file, or makes it where the options allow, and leaves it at the newest layout.</summary>
    /// <param name="path">Full path.</param>
    /// <param name="options">How.</param>
    /// <param name="version">Version of its layout.</param>
    /// <exception cref="JournalException">It cannot be used; nothing was changed.</exception>
    public static SqliteConnection Open(string path, JournalOptions options, out int version)
    {
        RefuseNoFile(path, options);
        RefuseNoSeals(path);
        SqliteConnection connection = Connect(path, options, create: options.CreateIfMissing && !options.ReadOnly);
        try
        {
            version = Recognise(path, connection);
            if (options.ReadOnly)
            {
                return version > 0 ? connection : throw SqliteErrors.NotAJournal(path, "it is empty");
            }

            if (raw.sqlite3_db_readonly(connection.Handle, "main") == 1)
            {
                throw SqliteErrors.Of(JournalProblem.ReadOnly, path, "it may not be written", "give this user the right to write the file and its folder, or open it only to read");
            }

            if (version == 0 && !options.CreateIfMissing)
            {
                throw SqliteErrors.NotAJournal(path, "it is empty");
            }

            if (version == 0)
            {
                PrepareNew(connection);
            }
            else if (version < Migration.Newest)
            {
                SqliteBackup.BeforeMigration(path, connection, Migration.Newest);
            }

            UseWriteAheadLog(path, connection);
            if (version < Migration.Newest)
            {
                Migrate(connection);
                version = Migration.Newest;
            }

            return connection;
        }
        catch (SqliteException e)
        {
            connection.Dispose();
            throw SqliteErrors.Map(path, e);
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    /// <summary>A further connection to a file that has been opened.</summary>
    public static SqliteConnection Connect(string path, JournalOptions options, bool create = false)
    {
        try
        {
            return Connect(path, options.LockTimeout, options.ReadOnly ? SqliteOpenMode.ReadOnly : create ? SqliteOpenMode.ReadWriteCreate : SqliteOpenMode.ReadWrite);
        }
        catch (SqliteException e) when (options.ReadOnly && e.SqliteErrorCode is raw.SQLITE_CANTOPEN or raw.SQLITE_READONLY && NoLogCanBeKept(path))
        {
            // SQLite may then take the file as it stands.
            try
            {
                return Connect("file:" + Uri.EscapeDataString(path) + "?immutable=1", options.LockTimeout, SqliteOpenMode.ReadOnly);
            }
            catch (SqliteException inner)
            {
                throw SqliteErrors.Map(path, inner);
            }
        }
        catch (SqliteException e)
        {
            throw SqliteErrors.Map(path, e);
        }
    }

    private static SqliteConnection Connect(string source, TimeSpan lockTimeout, SqliteOpenMode mode)
    {
        PageSealVfs.Register();
        var text = new SqliteConnectionStringBuilder
        {
            DataSource = source,
            Mode = mode,
            Pooling = false,
            Vfs = PageSealVfs.Name,

            // Waiting for locks is SQLite's (busy_timeout below); the client's own loop would sleep 150 ms at a time.
            DefaultTimeout = 1,
        };
        var connection = new SqliteConnection(text.ToString());
        try
        {
            connection.Open();
            Execute(connection, $"PRAGMA busy_timeout = {(long)lockTimeout.TotalMilliseconds}");

            // FULL: the log is on the disk before a commit returns. fullfsync asks the same of macOS. No memory map: a page is
            // checked when it is read.
            Execute(connection, "PRAGMA synchronous = FULL; PRAGMA fullfsync = ON; PRAGMA checkpoint_fullfsync = ON; PRAGMA mmap_size = 0; PRAGMA trusted_schema = OFF");

            // The file is only looked at now, and its log with it.
            Number(connection, "PRAGMA user_version");
            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    /// <summary>A number that a statement gives.</summary>
    public static long Number(SqliteConnection connection, string sql)
    {
        using SqliteCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // Statements are constants of this assembly.
        command.CommandText = sql;
#pragma warning restore CA2100
        return Convert.ToInt64(command.ExecuteScalar());
    }

    /// <summary>Runs statements.</summary>
    public static void Execute(SqliteConnection connection, string sql)
    {
        using SqliteCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // Statements are constants of this assembly.
        command.CommandText = sql;
#pragma warning restore CA2100
        command.ExecuteNonQuery();
    }

    private static void RefuseNoFile(string path, JournalOptions options)
    {
        string folder = Path.GetDirectoryName(path) ?? path;
        if (Directory.Exists(path))
        {
            throw SqliteErrors.NotAJournal(path, "it is a folder");
        }

        if (!File.Exists(path) && (!options.CreateIfMissing || options.ReadOnly))
        {
            throw SqliteErrors.Of(JournalProblem.NotFound, path, "there is none", "look at the path, or make a new journal there");
        }

        if (!Directory.Exists(folder))
        {
            throw SqliteErrors.Of(JournalProblem.NotFound, path, $"there is no folder {folder}", "make the folder first");
        }
    }

    /// <summary>A journal whose header leaves no room for seals would be written without them, among pages that have some.</summary>
    private static void RefuseNoSeals(string path)
    {
        try
        {
            using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, 1);
            Span<byte> header = stackalloc byte[100];
            if (file.ReadAtLeast(header, 100, throwOnEndOfStream: false) == 100 && PageSeal.Marked(header) && header[20] != PageSeal.Length)
            {
                throw SqliteErrors.Of(
                    JournalProblem.Damaged, path, $"the byte at 20 of its header says that pages have {header[20]} bytes for a seal; a journal has {PageSeal.Length}",
                    "copy the file elsewhere as it is, run 'heatwright journal verify' to see what it holds, and restore the last backup; a backup of this file is sealed anew");
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // There is none yet, or it cannot be read: the database says it in its own words.
        }
    }

    /// <summary>Version of the layout; 0 for a file with nothing in it yet.</summary>
    private static int Recognise(string path, SqliteConnection connection)
    {
        long application = Number(connection, "PRAGMA application_id");
        int version = (int)Number(connection, "PRAGMA user_version");
        if (application == 0 && version == 0 && Number(connection, "SELECT count(*) FROM sqlite_schema") == 0)
        {
            return 0;
        }

        if (application != ApplicationId || version < 1)
        {
            throw SqliteErrors.NotAJournal(path, "it is a SQLite file of another program");
        }

        return version <= Migration.Newest
            ? version
            : throw SqliteErrors.Of(
                JournalProblem.TooNew, path, $"it has layout version {version}; this program knows versions up to {Migration.Newest}",
                "open it with the program that wrote it, or a later one");
    }

    /// <summary>What can only be set while the file is empty.</summary>
    private static void PrepareNew(SqliteConnection connection)
    {
        Execute(connection, "PRAGMA page_size = 4096");
        PageSeal.Prepare(connection);
    }

    private static void UseWriteAheadLog(string path, SqliteConnection connection)
    {
        using SqliteCommand command = connection.CreateCommand();
        command.CommandText = "PRAGMA journal_mode = WAL";
        if (command.ExecuteScalar() is not "wal")
        {
            throw SqliteErrors.Of(JournalProblem.Failed, path, "a write-ahead log cannot be kept beside it", "put it on a local disk; network drives do not lock files as this needs");
        }

        Execute(connection, "PRAGMA journal_size_limit = 67108864");
    }

    private static void Migrate(SqliteConnection connection)
    {
        Execute(connection, "BEGIN IMMEDIATE");
        try
        {
            // Another program may have done it while this one waited.
            int version = (int)Number(connection, "PRAGMA user_version");
            foreach (Migration step in Migration.Sqlite.Where(m => m.Version > version))
            {
                Execute(connection, step.Sql);
                Execute(connection, $"PRAGMA user_version = {step.Version}");
            }

            Execute(connection, $"PRAGMA application_id = {ApplicationId}");
            Execute(connection, "COMMIT");
        }
        catch
        {
            if (raw.sqlite3_get_autocommit(connection.Handle) == 0)
            {
                Execute(connection, "ROLLBACK");
            }

            throw;
        }
    }

    /// <summary>True when the file stands where nothing can be written and has no log: nobody can be changing it. Asked only when opening it failed.</summary>
    internal static bool NoLogCanBeKept(string path)
    {
        if (File.Exists(path + "-wal") && new FileInfo(path + "-wal").Length > 0)
        {
            return false;
        }

        string probe = Path.Combine(Path.GetDirectoryName(path)!, "." + Path.GetRandomFileName());
        try
        {
            using var file = new FileStream(probe, FileMode.CreateNew, FileAccess.Write, FileShare.None, 1, FileOptions.DeleteOnClose);
            return false;
        }
        catch (Exception e) when (e is UnauthorizedAccessException or IOException)
        {
            return true;
        }
    }
}
