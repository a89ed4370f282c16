// SPDX-License-Identifier: Apache-2.0
using System.Net.Sockets;
using Npgsql;

namespace Heatwright.Journal.Store.Postgres;

/// <summary>What the server or the way to it reports, as a problem with a mend.</summary>
internal static class PostgresErrors
{
    /// <summary>True when the connection broke or the server is going down or coming up: the same call may succeed in a moment.</summary>
    public static bool IsConnectionLost(Exception e) => e switch
    {
        // Classes of SQLSTATE: 08 connection, 57P01 to 57P03 shutting down, crashed, not yet up; 53300 no connection free.
        PostgresException p => p.SqlState.StartsWith("08", StringComparison.Ordinal)
            || p.SqlState is PostgresErrorCodes.AdminShutdown or PostgresErrorCodes.CrashShutdown or PostgresErrorCodes.CannotConnectNow
                or PostgresErrorCodes.TooManyConnections,
        NpgsqlException n => n.InnerException is SocketException or IOException or TimeoutException,
        _ => false,
    };

    /// <summary>True when the client's own time for a statement, or for making a connection, ran out.</summary>
    public static bool IsTimeout(Exception e) => e is NpgsqlException and not PostgresException && e.InnerException is TimeoutException;

    /// <summary>The exception to throw for what happened at a place.</summary>
    public static JournalException Map(string place, Exception e) => e switch
    {
        PostgresException p => Server(place, p),
        NpgsqlException { InnerException: SocketException or IOException or TimeoutException } or SocketException or TimeoutException =>
            Of(JournalProblem.Unreachable, place, $"the server does not answer ({Innermost(e)})", "look whether it runs and the way to it is open, then try again", e),
        _ => Of(JournalProblem.Failed, place, Innermost(e), "look at the connection's settings", e),
    };

    /// <summary>A problem at a place.</summary>
    public static JournalException Of(JournalProblem problem, string place, string what, string mend, Exception? inner = null) =>
        new(problem, $"Journal {place}: {what}. Mend: {mend}.", inner);

    private static JournalException Server(string place, PostgresException p) => p.SqlState switch
    {
        PostgresErrorCodes.DiskFull or PostgresErrorCodes.OutOfMemory or PostgresErrorCodes.InsufficientResources =>
            Of(JournalProblem.DiskFull, place, $"the server has no room ({p.MessageText}); nothing of this was written", "make room on the server and try again", p),
        PostgresErrorCodes.ReadOnlySqlTransaction =>
            Of(JournalProblem.ReadOnly, place, "the server takes nothing to write now; it may be a standby", "write to the primary server, or open the journal only to read", p),
        PostgresErrorCodes.InsufficientPrivilege =>
            Of(JournalProblem.ReadOnly, place, $"this user may not do that ({p.MessageText})", "grant the rights on schema heatwright, or open the journal only to read", p),
        PostgresErrorCodes.InvalidCatalogName =>
            Of(JournalProblem.NotFound, place, "there is no such database", "make it (createdb), then the journal in it", p),
        PostgresErrorCodes.InvalidPassword or PostgresErrorCodes.InvalidAuthorizationSpecification =>
            Of(JournalProblem.Unreachable, place, $"the server lets this user not in ({p.MessageText})", "give user and password (environment variable PGPASSWORD, or the file .pgpass in the home folder)", p),
        PostgresErrorCodes.LockNotAvailable or PostgresErrorCodes.QueryCanceled or PostgresErrorCodes.DeadlockDetected =>
            Of(JournalProblem.Busy, place, "another program holds it", "wait for that program or end it, and try again", p),
        PostgresErrorCodes.DataCorrupted or PostgresErrorCodes.IndexCorrupted =>
            Of(JournalProblem.Damaged, place, $"the server finds its data damaged ({p.MessageText})", "verify the journal, and restore a backup", p),
        PostgresErrorCodes.UndefinedTable or PostgresErrorCodes.InvalidSchemaName =>
            Of(JournalProblem.NotAJournal, place, $"its tables are not there ({p.MessageText})", "restore a backup", p),
        _ when IsConnectionLost(p) =>
            Of(JournalProblem.Unreachable, place, $"the server does not answer ({p.MessageText})", "look whether it runs and has connections free, then try again", p),
        _ => Of(JournalProblem.Failed, place, $"the server refuses: {p.MessageText} ({p.SqlState})", "look into the server's log", p),
    };

    private static string Innermost(Exception e)
    {
        while (e.InnerException is not null)
        {
            e = e.InnerException;
        }

        return e.Message;
    }
}
