// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Store.Migrations;
using Heatwright.Journal.Store.Sqlite;
using Microsoft.Data.Sqlite;

namespace Heatwright.Journal.Store;

/// <summary>
/// The list of heats of a journal that is only read: begun with the rows stored beside the entries, kept up in memory, gone
/// when the journal is closed. So an older file, a copy on a read-only disk and a standby server can be listed too.
/// </summary>
internal sealed class PrivateHeatTable(Func<IHeatTable?> stored) : IHeatTable, ISqlWork, IDisposable
{
    private readonly Lock _gate = new();
    private SqliteSession? _session;
    private SqlHeatTable? _table;
    private bool _closed;

    public long UpTo() => Table().UpTo();

    public void Save(IReadOnlyList<HeatRow> rows, long upTo) => Table().Save(rows, upTo);

    public IReadOnlyDictionary<string, HeatRow> Get(IReadOnlyCollection<string> heats) => Table().Get(heats);

    public IReadOnlyList<HeatRow> Query(HeatFilter filter) => Table().Query(filter);

    public IReadOnlyList<string> Numbers(HeatFilter filter) => Table().Numbers(filter);

    public long Count(HeatFilter filter) => Table().Count(filter);

    public void Clear() => Table().Clear();

    public T Reading<T>(Func<SqlSession, T> read)
    {
        lock (_gate)
        {
            ObjectDisposedException.ThrowIf(_closed, this);
            return read(_session!);
        }
    }

    public T Writing<T>(Func<SqlSession, T> write)
    {
        lock (_gate)
        {
            ObjectDisposedException.ThrowIf(_closed, this);
            _session!.Execute("BEGIN");
            try
            {
                T answer = write(_session);
                _session.Execute("COMMIT");
                return answer;
            }
            catch
            {
                _session.Execute("ROLLBACK");
                throw;
            }
        }
    }

    public void Dispose()
    {
        lock (_gate)
        {
            _closed = true;
            _session?.Dispose();
        }
    }

    private SqlHeatTable Table()
    {
        lock (_gate)
        {
            return _table ??= Begin();
        }
    }

    private SqlHeatTable Begin()
    {
        ObjectDisposedException.ThrowIf(_closed, this);
        var connection = new SqliteConnection("Data Source=:memory:;Pooling=False");
        connection.Open();
        SqliteFile.Execute(connection, Migration.Sqlite[SqlHeatTable.SinceLayout - 1].Sql);
        _session = new SqliteSession(connection);
        var table = new SqlHeatTable(this);
        if (stored() is { } there)
        {
            // The mark first: rows that are saved meanwhile are newer than it, and will be made again.
            long upTo = there.UpTo();
            table.Save(there.Query(new HeatFilter(Order: HeatOrder.Number, Take: int.MaxValue)), upTo);
        }

        return table;
    }
}
