// SPDX-License-Identifier: Apache-2.0
using Npgsql;

namespace Heatwright.Journal.Store.Postgres;

/// <summary>Listens for the word that each writer's commit sends. A lost connection is made again, and what came meanwhile is signalled.</summary>
internal sealed class PostgresWatch : IDisposable
{
    /// <summary>Channel of the word.</summary>
    public const string Channel = "heatwright_journal";

    private readonly CancellationTokenSource _end = new();
    private readonly NpgsqlDataSource _source;
    private readonly Action _signal;
    private readonly Task _listening;

    /// <summary>Listens; the first connection is made before this returns, so that nothing written after is missed.</summary>
    public PostgresWatch(NpgsqlDataSource source, Action signal)
    {
        _source = source;
        _signal = signal;
        NpgsqlConnection connection = Connect();
        _listening = Task.Run(() => Listen(connection));
    }

    public void Dispose()
    {
        _end.Cancel();
        _listening.Wait();
        _end.Dispose();
    }

    private NpgsqlConnection Connect()
    {
        NpgsqlConnection connection = _source.OpenConnection();
        try
        {
            connection.Notification += (_, _) => _signal();
            using var command = new NpgsqlCommand("LISTEN " + Channel, connection);
            command.ExecuteNonQuery();
            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    private async Task Listen(NpgsqlConnection? connection)
    {
        TimeSpan wait = TimeSpan.FromMilliseconds(50);
        while (!_end.IsCancellationRequested)
        {
            try
            {
                connection ??= Connect();
                wait = TimeSpan.FromMilliseconds(50);
                _signal();
                while (true)
                {
                    await connection.WaitAsync(_end.Token);
                }
            }
            catch (OperationCanceledException)
            {
                break;
            }
            catch (Exception e) when (e is NpgsqlException or InvalidOperationException or IOException)
            {
                connection?.Dispose();
                connection = null;
                await Task.WhenAny(Task.Delay(wait, _end.Token));
                wait = wait * 2 < TimeSpan.FromSeconds(2) ? wait * 2 : TimeSpan.FromSeconds(2);
            }
        }

        connection?.Dispose();
    }
}
