// SPDX-License-Identifier: Apache-2.0
using System.Data.Common;
using Npgsql;

namespace Heatwright.Journal.Store.Postgres;

/// <summary>A connection to a server. Npgsql prepares statements that come again by itself.</summary>
internal sealed class PostgresSession(NpgsqlConnection connection) : SqlSession(connection)
{
    public override object Id(Guid id) => id;

    public override string OneOf(string parameter) => $"= ANY({parameter})";

    protected override Guid ReadId(DbDataReader row, int column) => row.GetGuid(column);

    protected override DbCommand Command(string sql, ReadOnlySpan<(string Name, object Value)> values)
    {
#pragma warning disable CA2100 // Statements are constants of this assembly; values are parameters.
        var command = new NpgsqlCommand(sql, (NpgsqlConnection)Connection);
#pragma warning restore CA2100
        foreach ((string name, object value) in values)
        {
            command.Parameters.AddWithValue(name[1..], value);
        }

        return command;
    }

    protected override void Release(DbCommand command) => command.Dispose();
}
