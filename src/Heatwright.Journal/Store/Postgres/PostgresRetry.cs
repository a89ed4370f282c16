// SPDX-License-Identifier: Apache-2.0
using Npgsql;

namespace Heatwright.Journal.Store.Postgres;

/// <summary>
/// Tries a call again when the connection is lost: a server that restarts is waited for. Every call that goes through here may run
/// twice: reads change nothing, entries carry their ids, and rows of the heat list are written over.
/// </summary>
internal sealed class PostgresRetry(string place, int most) : IDisposable
{
    private static readonly TimeSpan FirstWait = TimeSpan.FromMilliseconds(50);
    private static readonly TimeSpan LongestWait = TimeSpan.FromSeconds(2);

    private readonly ManualResetEventSlim _closed = new();

    /// <summary>The call's answer.</summary>
    /// <exception cref="JournalException">It failed, or the server was not there at any try.</exception>
    public T Run<T>(Func<T> call)
    {
        TimeSpan wait = FirstWait;
        for (int lost = 0; ;)
        {
            try
            {
                return call();
            }
            catch (Exception e) when (PostgresErrors.IsConnectionLost(e) && lost < most)
            {
                lost++;
                if (_closed.Wait(wait))
                {
                    throw PostgresErrors.Map(place, e);
                }

                wait = wait * 2 < LongestWait ? wait * 2 : LongestWait;
            }
            catch (Exception e) when (e is NpgsqlException or TimeoutException)
            {
                throw PostgresErrors.Map(place, e);
            }
        }
    }

    /// <summary>Waits end at once.</summary>
    public void Dispose() => _closed.Set();
}
