// SPDX-License-Identifier: Apache-2.0
using Microsoft.Data.Sqlite;

namespace Heatwright.Journal.Store.Sqlite;

/// <summary>Notices what other programs write: SQLite counts changes by others per connection (PRAGMA data_version), and that count is looked at now and then.</summary>
internal sealed class SqliteWatch : IDisposable
{
    private readonly Lock _gate = new();
    private readonly SqliteConnection _connection;
    private readonly Action _signal;
    private readonly Timer _timer;
    private long _version;
    private bool _closed;

    public SqliteWatch(SqliteConnection connection, Action signal, TimeSpan interval)
    {
        _connection = connection;
        _signal = signal;
        _version = SqliteFile.Number(connection, "PRAGMA data_version");
        _timer = new Timer(_ => Look(), null, interval, interval);
    }

    public void Dispose()
    {
        lock (_gate)
        {
            _closed = true;
            _timer.Dispose();
            _connection.Dispose();
        }
    }

    private void Look()
    {
        if (!_gate.TryEnter())
        {
            return;
        }

        try
        {
            if (_closed)
            {
                return;
            }

            long version = SqliteFile.Number(_connection, "PRAGMA data_version");
            if (version != _version)
            {
                _version = version;
                _signal();
            }
        }
        catch (SqliteException)
        {
            // Whoever reads next meets the same fault and reports it.
            _signal();
        }
        finally
        {
            _gate.Exit();
        }
    }
}
