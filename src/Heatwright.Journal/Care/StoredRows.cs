// SPDX-License-Identifier: Apache-2.0
using System.Data.Common;
using Heatwright.Journal.Store;
using Microsoft.Data.Sqlite;

namespace Heatwright.Journal.Care;

/// <summary>Rows of the entry table in portions, so that neither memory nor a transaction grows with the journal.</summary>
internal abstract class StoredRows : IStoredRows
{
    private const string Columns = "sequence, id, heat, heat_version, kind, schema_version, source_time, arrival_time, actor, reason, hash, ";
    private const int Portion = 500;

    private const string Following = $"SELECT {Columns} body FROM entry WHERE sequence >= @a ORDER BY sequence LIMIT @most";

    private const string CachedRow = "SELECT heat, opened, stage, grade, unit, shift_date, shift, stale, summary FROM heat_row WHERE heat = @a";

    private const string FollowingByHeat = $"""
        SELECT {Columns} CASE WHEN kind = 'signal-block' THEN @empty ELSE body END AS body
        FROM entry WHERE (heat, heat_version) > (@a, @b) ORDER BY heat, heat_version LIMIT @most
        """;

    /// <inheritdoc/>
    public long Last() => Read("SELECT max(sequence) FROM entry", r => r.IsDBNull(0) ? 0 : r.GetInt64(0)).FirstOrDefault();

    /// <inheritdoc/>
    public IEnumerable<StoredRow> From(long sequence) =>
        Portions(from => Read(Following, Row, ("@a", (object)from)), sequence, last => last.Sequence + 1);

    /// <inheritdoc/>
    public IEnumerable<StoredRow> ByHeat() =>
        Portions(
            ((string Heat, long Version) after) => Read(FollowingByHeat, Row, ("@a", after.Heat), ("@b", after.Version), ("@empty", Array.Empty<byte>())),
            ("", -1L),
            last => (last.Heat, last.HeatVersion));

    /// <inheritdoc/>
    public IEnumerable<byte[]> DoubledIds() =>
        Read("SELECT id FROM entry GROUP BY id HAVING count(*) > 1 LIMIT @most", r => Bytes(r.GetValue(0)));

    /// <inheritdoc/>
    public long CachedTo() => Read("SELECT up_to FROM heat_row_mark", r => Number(r, 0)).FirstOrDefault();

    /// <inheritdoc/>
    public HeatRow? Cached(string heat) => Read(CachedRow, Heat, ("@a", (object)heat)).FirstOrDefault();

    /// <inheritdoc/>
    public abstract void Dispose();

    /// <summary>Runs a query on the database.</summary>
    /// <exception cref="StoredRowException">It fails.</exception>
    protected abstract List<T> Query<T>(Func<DbConnection, List<T>> query);

    private static IEnumerable<StoredRow> Portions<T>(Func<T, List<StoredRow>> read, T start, Func<StoredRow, T> next)
    {
        while (true)
        {
            List<StoredRow> rows = read(start);
            foreach (StoredRow row in rows)
            {
                yield return row;
            }

            if (rows.Count < Portion)
            {
                yield break;
            }

            start = next(rows[^1]);
        }
    }

    private List<T> Read<T>(string sql, Func<DbDataReader, T> row, params (string Name, object Value)[] values) => Query(connection =>
    {
        using DbCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // Statements are constants of this class; values are parameters.
        command.CommandText = sql;
#pragma warning restore CA2100
        foreach ((string name, object value) in values.Append(("@most", Portion)))
        {
            if (sql.Contains(name, StringComparison.Ordinal))
            {
                DbParameter parameter = command.CreateParameter();
                parameter.ParameterName = name;
                parameter.Value = value;
                command.Parameters.Add(parameter);
            }
        }

        var rows = new List<T>();
        using DbDataReader reader = command.ExecuteReader();
        while (reader.Read())
        {
            rows.Add(row(reader));
        }

        return rows;
    });

    private static StoredRow Row(DbDataReader r) => new(
        Number(r, 0), Bytes(r.GetValue(1)), Text(r, 2), Number(r, 3), Text(r, 4), Number(r, 5), Number(r, 6), Number(r, 7), Text(r, 8), Text(r, 9), Bytes(r.GetValue(10)), Bytes(r.GetValue(11)));

    private static HeatRow Heat(DbDataReader r) => new(
        Text(r, 0), DateTimeOffset.FromUnixTimeMilliseconds(Number(r, 1)), Text(r, 2), Text(r, 3), Text(r, 4), Text(r, 5), Text(r, 6), (int)Number(r, 7), Text(r, 8));

    // What a damaged row gives need not be of the column's type; then it is something that no hash follows from.
    private static byte[] Bytes(object value) => value switch { byte[] b => b, Guid g => g.ToByteArray(bigEndian: true), _ => [] };

    private static long Number(DbDataReader r, int column) => r.GetValue(column) switch { long l => l, int i => i, _ => long.MinValue + 1 };

    private static string Text(DbDataReader r, int column) => r.GetValue(column) as string ?? "?";
}

/// <summary>Rows of a file, read past its seals and without changing it.</summary>
internal sealed class FileRows : StoredRows
{
    private readonly string _path;
    private readonly HeldFile _held;
    private readonly SqliteConnection _connection;

    /// <param name="path">The file; others may be writing it.</param>
    public FileRows(string path)
    {
        _path = path;
        _held = new HeldFile(path);
        var text = new SqliteConnectionStringBuilder
        {
            DataSource = _held.Source,
            Mode = SqliteOpenMode.ReadOnly,
            Pooling = false,
        };
        _connection = new SqliteConnection(text.ToString());
    }

    /// <summary>The file is a database without a table.</summary>
    public bool Empty()
    {
        try
        {
            return Query(c =>
            {
                using DbCommand command = c.CreateCommand();
                command.CommandText = "SELECT count(*) FROM sqlite_schema";
                return new List<bool> { command.ExecuteScalar() is 0L };
            })[0];
        }
        catch (StoredRowException)
        {
            return false;
        }
    }

    /// <summary>What the database itself finds wrong with its structure; empty when nothing.</summary>
    public IReadOnlyList<string> Integrity(int most)
    {
        try
        {
            return Query(c =>
            {
                using DbCommand command = c.CreateCommand();
#pragma warning disable CA2100 // A number.
                command.CommandText = $"PRAGMA integrity_check({most})";
#pragma warning restore CA2100
                var lines = new List<string>();
                using DbDataReader reader = command.ExecuteReader();
                while (reader.Read())
                {
                    lines.Add(reader.GetString(0));
                }

                return lines is ["ok"] ? [] : lines;
            });
        }
        catch (StoredRowException e)
        {
            return [e.Message];
        }
    }

    public override void Dispose()
    {
        _connection.Dispose();
        _held.Dispose();
    }

    protected override List<T> Query<T>(Func<DbConnection, List<T>> query)
    {
        try
        {
            if (_connection.State != System.Data.ConnectionState.Open)
            {
                _connection.Open();
            }

            return query(_connection);
        }
        catch (Exception e) when (e is SqliteException or InvalidCastException or FormatException or ArgumentException or OverflowException)
        {
            throw new StoredRowException($"the database says '{e.Message}' of {Path.GetFileName(_path)}", e);
        }
    }
}

/// <summary>Rows of a journal on a server.</summary>
internal sealed class ServerRows(SqlJournal journal) : StoredRows
{
    public override void Dispose() => journal.Dispose();

    protected override List<T> Query<T>(Func<DbConnection, List<T>> query)
    {
        try
        {
            return journal.Reading(session => query(session.Connection));
        }
        catch (JournalException e) when (e.Problem is JournalProblem.Damaged or JournalProblem.Failed)
        {
            throw new StoredRowException(e.Message.TrimEnd('.'), e);
        }
    }
}
