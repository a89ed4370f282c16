// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Store.Sqlite;
using Microsoft.Data.Sqlite;

namespace Heatwright.Journal.Tests.Care;

/// <summary>A folder that goes when the test ends, and small databases in it.</summary>
internal sealed class SealedFile : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("heatwright-seal");

    public string Path => In("sealed.db");

    public string In(string name) => System.IO.Path.Combine(_folder.FullName, name);

    public void Dispose() => _folder.Delete(recursive: true);

    /// <summary>A connection through the seals, or without.</summary>
    public static SqliteConnection Open(string path, bool seals = true, SqliteOpenMode mode = SqliteOpenMode.ReadWriteCreate)
    {
        PageSealVfs.Register();
        var text = new SqliteConnectionStringBuilder { DataSource = path, Pooling = false, Mode = mode };
        if (seals)
        {
            text.Vfs = PageSealVfs.Name;
        }

        var connection = new SqliteConnection(text.ToString());
        connection.Open();
        return connection;
    }

    public static long Do(SqliteConnection connection, string sql)
    {
        using SqliteCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // The text is the test's own.
        command.CommandText = sql;
#pragma warning restore CA2100
        return command.ExecuteScalar() is long number ? number : 0;
    }

    /// <summary>Rows of random bytes of many lengths: some fit a page, some need several.</summary>
    public static void Fill(SqliteConnection connection, int rows) => Do(
        connection,
        $"WITH RECURSIVE n(i) AS (VALUES(1) UNION ALL SELECT i + 1 FROM n WHERE i < {rows}) INSERT INTO t(x) SELECT randomblob(10 + (i * 997) % 12000) FROM n");

    /// <summary>A new file with a table and an index.</summary>
    public static SqliteConnection Create(string path, string journal = "wal", int rows = 200)
    {
        SqliteConnection connection = Open(path);
        PageSeal.Prepare(connection);
        Do(connection, $"PRAGMA journal_mode={journal}");
        Do(connection, "CREATE TABLE t(id INTEGER PRIMARY KEY, x BLOB); CREATE INDEX tx ON t(x) WHERE length(x) < 300");
        Fill(connection, rows);
        return connection;
    }

    public static List<BrokenPage> Broken(string path, int search = 16)
    {
        using FileStream file = new(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        var header = new byte[100];
        file.ReadExactly(header);
        int size = PageSeal.SealedPageSize(header);
        Assert.Equal(4096, size);
        Assert.Equal(0, file.Length % size);
        return [.. PageSealScan.Broken(file, size, search)];
    }

    public static void Flip(string path, long offset, byte change = 0x10)
    {
        using FileStream file = new(path, FileMode.Open, FileAccess.ReadWrite, FileShare.ReadWrite);
        file.Position = offset;
        int found = file.ReadByte();
        file.Position = offset;
        file.WriteByte((byte)(found ^ change));
    }
}
