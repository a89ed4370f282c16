// SPDX-License-Identifier: Apache-2.0
using System.Data.Common;
using Microsoft.Data.Sqlite;

namespace Heatwright.Journal.Store.Sqlite;

/// <summary>A connection to a file, with its statements kept compiled.</summary>
internal sealed class SqliteSession(SqliteConnection connection) : SqlSession(connection)
{
    private readonly Dictionary<string, SqliteCommand> _commands = new(StringComparer.Ordinal);

    public override object Id(Guid id) => id.ToByteArray(bigEndian: true);

    public override string OneOf(string parameter) => "IN " + parameter;

    public override void Dispose()
    {
        foreach (SqliteCommand command in _commands.Values)
        {
            command.Dispose();
        }

        base.Dispose();
    }

    protected override Guid ReadId(DbDataReader row, int column) => new(row.GetFieldValue<byte[]>(column), bigEndian: true);

    protected override DbCommand Command(string sql, ReadOnlySpan<(string Name, object Value)> values)
    {
        if (!_commands.TryGetValue(sql, out SqliteCommand? command))
        {
            command = ((SqliteConnection)Connection).CreateCommand();
#pragma warning disable CA2100 // Statements are constants of this assembly; values are parameters.
            command.CommandText = sql;
#pragma warning restore CA2100
            _commands[sql] = command;
        }

        if (command.Parameters.Count == values.Length)
        {
            for (int i = 0; i < values.Length; i++)
            {
                command.Parameters[i].Value = values[i].Value;
            }
        }
        else
        {
            foreach ((string name, object value) in values)
            {
                command.Parameters.AddWithValue(name, value);
            }
        }

        return command;
    }

    protected override void Release(DbCommand command)
    {
        // Kept for the next time.
    }
}
