// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store.Append;
using Npgsql;
using NpgsqlTypes;

namespace Heatwright.Journal.Store.Postgres;

/// <summary>
/// A journal in a PostgreSQL database, shared by many writers. One lock of the database orders them; calls that lose their
/// connection are made again with the same ids. An append that was in doubt when the connection broke is then answered as
/// written or, when it had arrived, as already there.
/// </summary>
public sealed class PostgresJournal : SqlJournal
{
    // Each statement of a transaction sees what was committed before the statement: what follows the lock sees the true head.
    private const string LockSql = """
        SELECT set_config('synchronous_commit', 'on', true) WHERE current_setting('synchronous_commit') = 'off';
        SELECT pg_advisory_xact_lock(@lock)
        """;

    // Three answers in one round trip: all other writers wait while this goes on.
    private const string LoadSql = $"""
        SELECT sequence, hash FROM entry ORDER BY sequence DESC LIMIT 1;
        SELECT h, (SELECT max(heat_version) FROM entry WHERE heat = h) FROM unnest(@heats) AS h;
        SELECT {SqlSession.EntryColumns} FROM entry WHERE id = ANY(@ids)
        """;

    private const string InsertSql = $"""
        INSERT INTO entry ({SqlSession.EntryColumns})
        SELECT * FROM unnest(@sequence, @id, @heat, @heat_version, @kind, @schema_version, @source_time, @arrival_time, @actor, @reason, @hash, @body)
        """;

    /// <summary>Bodies in one statement, bytes: far below what one message may hold.</summary>
    private const int InsertBytes = 16 * 1024 * 1024;

    private readonly NpgsqlDataSource _source;
    private readonly PostgresRetry _retry;

    private PostgresJournal(PostgresPlace place, JournalOptions options)
        : base(place.ToString(), options)
    {
        var settings = new NpgsqlConnectionStringBuilder(place.Settings.ConnectionString)
        {
            SearchPath = "heatwright",
            ApplicationName = place.Settings.ApplicationName ?? "heatwright",
            MaxAutoPrepare = 30,
            AutoPrepareMinUsages = 2,
            KeepAlive = 30,
            Options = place.Settings.Options + $" -c lock_timeout={(long)options.LockTimeout.TotalMilliseconds}" + (options.ReadOnly ? " -c default_transaction_read_only=on" : ""),
        };
        if (options.StatementTimeout is { } most)
        {
            settings.CommandTimeout = (int)Math.Ceiling(most.TotalSeconds);
        }

        _source = NpgsqlDataSource.Create(settings);
        _retry = new PostgresRetry(Place, options.Reconnects);
        try
        {
            using NpgsqlConnection connection = _source.OpenConnection();
            LayoutVersion = PostgresLayout.Open(Place, connection, options);
            DurabilityNote = PostgresLayout.DurabilityNote(connection);
        }
        catch (Exception e)
        {
            _source.Dispose();
            if (e is NpgsqlException or TimeoutException or System.Net.Sockets.SocketException)
            {
                throw PostgresErrors.Map(Place, e);
            }

            throw;
        }
    }

    /// <inheritdoc/>
    public override string? DurabilityNote { get; }

    /// <summary>Opens the journal in a database, or makes it there where the options allow that. An older layout is brought up to date in one transaction.</summary>
    /// <exception cref="JournalException">It cannot be used.</exception>
    public static PostgresJournal Open(string place, JournalOptions? options = null) => new(PostgresPlace.Parse(place), options ?? new JournalOptions());

    internal override T Reading<T>(Func<SqlSession, T> read) => _retry.Run(() =>
    {
        ThrowIfDisposed();
        using NpgsqlConnection connection = _source.OpenConnection();
        using var session = new PostgresSession(connection);
        return Timely(connection, () => read(session));
    });

    internal override T Writing<T>(Func<SqlSession, T> write) => _retry.Run(() =>
    {
        ThrowIfDisposed();
        using NpgsqlConnection connection = _source.OpenConnection();
        using var session = new PostgresSession(connection);
        return Timely(connection, () =>
        {
            using NpgsqlTransaction transaction = connection.BeginTransaction();
            session.Execute(LockSql, ("@lock", PostgresLayout.AppendLock));
            T answer = write(session);
            transaction.Commit();
            return answer;
        });
    });

    /// <summary>A statement that took too long on a connection that still stands would take as long again: it is not tried again.</summary>
    private T Timely<T>(NpgsqlConnection connection, Func<T> call)
    {
        try
        {
            return call();
        }
        catch (NpgsqlException e) when (PostgresErrors.IsTimeout(e) && connection.FullState.HasFlag(System.Data.ConnectionState.Open))
        {
            throw PostgresErrors.Of(
                JournalProblem.Busy, Place, $"a statement took longer than the {connection.CommandTimeout} s that it may and was ended; of an append it is in doubt whether it was written",
                "look what the server is busy with, and ask again with the same ids; 'Command Timeout' in a place that begins with Host= sets another limit, in seconds", e);
        }
    }

    private protected override AppendState Load(SqlSession session, AppendBatch batch)
    {
        using var command = new NpgsqlCommand(LoadSql, (NpgsqlConnection)session.Connection);
        command.Parameters.AddWithValue("heats", batch.Heats.ToArray());
        command.Parameters.AddWithValue("ids", batch.Ids.ToArray());
        using NpgsqlDataReader reader = command.ExecuteReader();
        JournalHead head = reader.Read() ? new JournalHead(reader.GetInt64(0), reader.GetFieldValue<byte[]>(1)) : new JournalHead(0, EntryHash.Origin);
        var versions = new Dictionary<string, long>(StringComparer.Ordinal);
        for (reader.NextResult(); reader.Read();)
        {
            versions[reader.GetString(0)] = reader.IsDBNull(1) ? 0 : reader.GetInt64(1);
        }

        var known = new Dictionary<Guid, Entry>();
        for (reader.NextResult(); reader.Read();)
        {
            Entry entry = session.ReadEntry(reader);
            known[entry.Id] = entry;
        }

        return new AppendState(head, known, versions);
    }

    private protected override void Insert(SqlSession session, List<Entry> entries)
    {
        for (int from = 0; from < entries.Count;)
        {
            int to = from;
            for (int bytes = 0; to < entries.Count && to - from < 2000 && (to == from || bytes < InsertBytes); to++)
            {
                bytes += entries[to].BodyBytes.Length;
            }

            Insert((NpgsqlConnection)session.Connection, entries[from..to], tell: to == entries.Count);
            from = to;
        }
    }

    private protected override IDisposable Listen(Action signal) => _retry.Run(() => new PostgresWatch(_source, signal));

    private protected override void Close()
    {
        _retry.Dispose();
        _source.Dispose();
    }

    private static void Insert(NpgsqlConnection connection, List<Entry> entries, bool tell)
    {
        using var command = new NpgsqlCommand(tell ? $"{InsertSql}; NOTIFY {PostgresWatch.Channel}" : InsertSql, connection);
        Column("sequence", NpgsqlDbType.Bigint, e => e.Sequence);
        Column("id", NpgsqlDbType.Uuid, e => e.Id);
        Column("heat", NpgsqlDbType.Text, e => e.Heat);
        Column("heat_version", NpgsqlDbType.Bigint, e => e.HeatVersion);
        Column("kind", NpgsqlDbType.Text, e => e.Kind.Name());
        Column("schema_version", NpgsqlDbType.Integer, e => e.SchemaVersion);
        Column("source_time", NpgsqlDbType.Bigint, e => e.SourceTime.ToUnixTimeMilliseconds());
        Column("arrival_time", NpgsqlDbType.Bigint, e => e.ArrivalTime.ToUnixTimeMilliseconds());
        Column("actor", NpgsqlDbType.Text, e => e.Actor);
        Column("reason", NpgsqlDbType.Text, e => e.Reason);
        Column("hash", NpgsqlDbType.Bytea, e => e.Hash.ToArray());
        Column("body", NpgsqlDbType.Bytea, e => e.BodyBytes.ToArray());
        command.ExecuteNonQuery();

        void Column<T>(string name, NpgsqlDbType type, Func<Entry, T> value) =>
            command.Parameters.Add(new NpgsqlParameter(name, NpgsqlDbType.Array | type) { Value = entries.Select(value).ToArray() });
    }
}
