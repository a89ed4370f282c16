// SPDX-License-Identifier: Apache-2.0
using System.Collections.Concurrent;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store.Append;
using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace Heatwright.Journal.Store.Sqlite;

/// <summary>
/// A journal in one SQLite file. One connection writes, one call at a time; reads have connections of their own and never wait for
/// it. Several programs may have the file open.
/// </summary>
public sealed class SqliteJournal : SqlJournal
{
    private const string InsertSql = $"""
        INSERT INTO entry ({SqlSession.EntryColumns})
        VALUES (@sequence, @id, @heat, @heat_version, @kind, @schema_version, @source_time, @arrival_time, @actor, @reason, @hash, @body)
        """;

    private readonly Lock _writeGate = new();
    private readonly ConcurrentBag<SqliteSession> _readers = [];
    private SqliteSession? _writer;

    private SqliteJournal(string path, JournalOptions options)
        : base(path, options)
    {
        var session = new SqliteSession(SqliteFile.Open(path, options, out int version));
        LayoutVersion = version;
        if (options.ReadOnly)
        {
            _readers.Add(session);
        }
        else
        {
            _writer = session;
        }
    }

    /// <summary>Opens the journal at a path, or makes it where the options allow that. An older layout is brought up to date, with a copy beside it first.</summary>
    /// <exception cref="JournalException">It cannot be used.</exception>
    public static SqliteJournal Open(string path, JournalOptions? options = null) => new(Path.GetFullPath(path), options ?? new JournalOptions());

    internal override T Reading<T>(Func<SqlSession, T> read)
    {
        ThrowIfDisposed();
        if (!_readers.TryTake(out SqliteSession? session))
        {
            session = new SqliteSession(SqliteFile.Connect(Place, Options));
        }

        try
        {
            T answer = read(session);
            if (!IsDisposed)
            {
                _readers.Add(session);
                session = null;
            }

            return answer;
        }
        catch (SqliteException e)
        {
            throw SqliteErrors.Map(Place, e);
        }
        finally
        {
            session?.Dispose();
        }
    }

    internal override T Writing<T>(Func<SqlSession, T> write)
    {
        lock (_writeGate)
        {
            ThrowIfDisposed();
            _writer ??= new SqliteSession(SqliteFile.Connect(Place, Options));
            try
            {
                // IMMEDIATE: the lock is taken before anything is read, so what was read still holds when it is written.
                _writer.Execute("BEGIN IMMEDIATE");
                T answer = write(_writer);
                _writer.Execute("COMMIT");
                return answer;
            }
            catch (SqliteException e)
            {
                Undo();
                throw SqliteErrors.Map(Place, e);
            }
            catch
            {
                Undo();
                throw;
            }
        }
    }

    private protected override AppendState Load(SqlSession session, AppendBatch batch)
    {
        var known = new Dictionary<Guid, Entry>();
        foreach (Guid id in batch.Ids)
        {
            if (FindIn(session, id) is { } entry)
            {
                known[id] = entry;
            }
        }

        return new AppendState(ReadHead(session), known, batch.Heats.ToDictionary(h => h, h => VersionIn(session, h), StringComparer.Ordinal));
    }

    private protected override void Insert(SqlSession session, List<Entry> entries)
    {
        foreach (Entry e in entries)
        {
            session.Execute(
                InsertSql,
                ("@sequence", e.Sequence), ("@id", session.Id(e.Id)), ("@heat", e.Heat), ("@heat_version", e.HeatVersion),
                ("@kind", e.Kind.Name()), ("@schema_version", e.SchemaVersion), ("@source_time", e.SourceTime.ToUnixTimeMilliseconds()),
                ("@arrival_time", e.ArrivalTime.ToUnixTimeMilliseconds()), ("@actor", e.Actor), ("@reason", e.Reason),
                ("@hash", e.Hash.ToArray()), ("@body", e.BodyBytes.ToArray()));
        }
    }

    private protected override IDisposable Listen(Action signal) => new SqliteWatch(SqliteFile.Connect(Place, Options), signal, Options.WatchInterval);

    private protected override void Close()
    {
        lock (_writeGate)
        {
            while (_readers.TryTake(out SqliteSession? session))
            {
                session.Dispose();
            }

            // Last: closing the last connection folds the log into the file.
            _writer?.Dispose();
            _writer = null;
        }
    }

    /// <summary>Takes back a broken transaction; a connection that cannot even do that is given up for a new one.</summary>
    private void Undo()
    {
        try
        {
            if (raw.sqlite3_get_autocommit(((SqliteConnection)_writer!.Connection).Handle) == 0)
            {
                _writer.Execute("ROLLBACK");
            }
        }
        catch (SqliteException)
        {
            _writer!.Dispose();
            _writer = null;
        }
    }
}
