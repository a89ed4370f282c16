// SPDX-License-Identifier: Apache-2.0
using System.Data.Common;
using Heatwright.Journal.Entries;

namespace Heatwright.Journal.Store;

/// <summary>A connection and the few things in which the two databases differ. Used by one thread at a time.</summary>
internal abstract class SqlSession(DbConnection connection) : IDisposable
{
    /// <summary>The columns of an entry, in the order that <see cref="ReadEntry"/> expects.</summary>
    public const string EntryColumns =
        "sequence, id, heat, heat_version, kind, schema_version, source_time, arrival_time, actor, reason, hash, body";

    /// <summary>The connection, for Dapper.</summary>
    public DbConnection Connection { get; } = connection;

    /// <summary>An id as the database keeps it.</summary>
    public abstract object Id(Guid id);

    /// <summary>The condition that a value is one of a list, as Dapper hands the list to this database.</summary>
    public abstract string OneOf(string parameter);

    /// <summary>Rows of a query.</summary>
    public List<T> Query<T>(string sql, Func<DbDataReader, T> row, params ReadOnlySpan<(string Name, object Value)> values)
    {
        var rows = new List<T>();
        Each(sql, r => rows.Add(row(r)), values);
        return rows;
    }

    /// <summary>Calls back for each row of a query.</summary>
    public void Each(string sql, Action<DbDataReader> row, params ReadOnlySpan<(string Name, object Value)> values)
    {
        DbCommand command = Command(sql, values);
        try
        {
            using DbDataReader reader = command.ExecuteReader();
            while (reader.Read())
            {
                row(reader);
            }
        }
        finally
        {
            Release(command);
        }
    }

    /// <summary>Runs a statement.</summary>
    public int Execute(string sql, params ReadOnlySpan<(string Name, object Value)> values)
    {
        DbCommand command = Command(sql, values);
        try
        {
            return command.ExecuteNonQuery();
        }
        finally
        {
            Release(command);
        }
    }

    /// <summary>The entry in the row that the reader stands on.</summary>
    /// <exception cref="JournalException">The row holds no entry.</exception>
    public Entry ReadEntry(DbDataReader row)
    {
        long sequence = row.GetInt64(0);
        string kindName = row.GetString(4);
        if (!EntryKinds.TryParse(kindName, out EntryKind kind))
        {
            throw Damaged(sequence, $"its kind '{kindName}' is unknown");
        }

        return new Entry(
            sequence, ReadId(row, 1), row.GetString(2), row.GetInt64(3), kind, row.GetInt32(5),
            Time(sequence, "source time", row.GetInt64(6)), Time(sequence, "arrival time", row.GetInt64(7)),
            row.GetString(8), row.GetString(9), row.GetFieldValue<byte[]>(11), row.GetFieldValue<byte[]>(10));
    }

    /// <inheritdoc/>
    public virtual void Dispose()
    {
        Connection.Dispose();
        GC.SuppressFinalize(this);
    }

    /// <summary>A command with its values, ready to run.</summary>
    protected abstract DbCommand Command(string sql, ReadOnlySpan<(string Name, object Value)> values);

    /// <summary>The command is done with.</summary>
    protected abstract void Release(DbCommand command);

    /// <summary>An id from a row.</summary>
    protected abstract Guid ReadId(DbDataReader row, int column);

    private static DateTimeOffset Time(long sequence, string what, long milliseconds)
    {
        try
        {
            return DateTimeOffset.FromUnixTimeMilliseconds(milliseconds);
        }
        catch (ArgumentOutOfRangeException)
        {
            throw Damaged(sequence, $"its {what} {milliseconds} ms is no time");
        }
    }

    private static JournalException Damaged(long sequence, string what) => new(
        JournalProblem.Damaged,
        $"Entry {sequence} cannot be read: {what}. Mend: verify the journal, and restore a backup if it is damaged.");
}
