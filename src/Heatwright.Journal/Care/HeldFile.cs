// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Store.Sqlite;
using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace Heatwright.Journal.Care;

/// <summary>
/// How a file is read that others may be writing. With ordinary locks: a program that folds its log into the file meanwhile must
/// not be met half way. Only where nothing may be written, so that no locks can be kept, or where the file is so damaged that nobody
/// can open it, it is taken as a picture that does not change.
/// </summary>
/// <remarks>
/// Readers leave the files of the locks (-wal, -shm) lying. Where no log waits, a connection is therefore held that leaves the
/// folder as it was, as every program that closes a journal last does. Where one waits, file and log stay as they are.
/// </remarks>
internal sealed class HeldFile : IDisposable
{
    private readonly SqliteConnection? _hold;

    public HeldFile(string path)
    {
        PageSealVfs.Register();
        Source = path;
        if (HasLog(path) || File.Exists(path + "-journal"))
        {
            // What is there stays; only whether it can be opened is to be known.
            if (Refusal(path) is { } refusal && MayBePicture(path, refusal))
            {
                Source = Picture(path);
            }

            return;
        }

        var hold = new SqliteConnection(
            new SqliteConnectionStringBuilder { DataSource = path, Mode = SqliteOpenMode.ReadWrite, Pooling = false, Vfs = PageSealVfs.Name }.ToString());
        try
        {
            hold.Open();
            SqliteFile.Execute(hold, "PRAGMA query_only = ON");
            SqliteFile.Number(hold, "PRAGMA user_version"); // Only now the file is looked at.
            _hold = hold;
        }
        catch (SqliteException e)
        {
            hold.Dispose();
            PageSeal.TakeDamagedPage();
            if (MayBePicture(path, e) && (IsDamage(e) || Refusal(path) is not null))
            {
                Source = Picture(path);
            }
        }
    }

    /// <summary>What to connect to, only to read.</summary>
    public string Source { get; }

    public void Dispose() => _hold?.Dispose();

    /// <summary>True when pages wait in a log beside the file.</summary>
    public static bool HasLog(string path) => new FileInfo(path + "-wal") is { Exists: true, Length: > 0 };

    private static string Picture(string path) => "file:" + Uri.EscapeDataString(path) + "?immutable=1";

    /// <summary>A program that has the file open keeps a log beside it, if only an empty one; a damaged file without one is nobody's.</summary>
    private static bool MayBePicture(string path, SqliteException e) =>
        IsDamage(e) ? !File.Exists(path + "-wal") : e.SqliteErrorCode is raw.SQLITE_CANTOPEN or raw.SQLITE_READONLY or raw.SQLITE_PERM && SqliteFile.NoLogCanBeKept(path);

    private static bool IsDamage(SqliteException e) =>
        e.SqliteErrorCode is raw.SQLITE_NOTADB or raw.SQLITE_CORRUPT || e.SqliteExtendedErrorCode == PageSeal.DamagedPageCode;

    private static SqliteException? Refusal(string path)
    {
        try
        {
            using var connection = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = path, Mode = SqliteOpenMode.ReadOnly, Pooling = false }.ToString());
            connection.Open();
            SqliteFile.Number(connection, "PRAGMA user_version");
            return null;
        }
        catch (SqliteException e)
        {
            return e;
        }
    }
}
