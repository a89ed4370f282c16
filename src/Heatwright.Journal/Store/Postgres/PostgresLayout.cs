// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Store.Migrations;
using Npgsql;

namespace Heatwright.Journal.Store.Postgres;

/// <summary>A journal's schema in a database: how it is recognised, made and brought up to date.</summary>
internal static class PostgresLayout
{
    /// <summary>Locks of all journals' writers: "HwJ1" in the upper half, so that other programs' locks are not met by chance.</summary>
    public const long AppendLock = 0x48774a31_00000001;

    private const long LayoutLock = 0x48774a31_00000002;

    private static readonly string[] DurabilitySettings = ["fsync", "full_page_writes"];

    /// <summary>Recognises the journal, or makes it where the options allow, and leaves it at the newest layout.</summary>
    /// <returns>Version of the layout.</returns>
    /// <exception cref="JournalException">It cannot be used; nothing was changed.</exception>
    public static int Open(string place, NpgsqlConnection connection, JournalOptions options)
    {
        int version = Recognise(place, connection);
        if (version == 0 && (options.ReadOnly || !options.CreateIfMissing))
        {
            throw PostgresErrors.Of(JournalProblem.NotFound, place, "there is no journal in this database", "look at its name, or make a new journal in it");
        }

        if (options.ReadOnly || version == Migration.Newest)
        {
            return version;
        }

        using NpgsqlTransaction transaction = connection.BeginTransaction();
        Execute(connection, $"SELECT pg_advisory_xact_lock({LayoutLock})");

        // Another program may have done it while this one waited.
        version = Recognise(place, connection);
        if (version == 0)
        {
            Execute(connection, "CREATE SCHEMA heatwright");
            Execute(connection, "CREATE TABLE heatwright.schema_version (version integer PRIMARY KEY, name text NOT NULL, since timestamptz NOT NULL DEFAULT now())");
        }

        foreach (Migration step in Migration.Postgres.Where(m => m.Version > version))
        {
            Execute(connection, step.Sql);
            using var note = new NpgsqlCommand("INSERT INTO heatwright.schema_version (version, name) VALUES (@version, @name)", connection);
            note.Parameters.AddWithValue("version", step.Version);
            note.Parameters.AddWithValue("name", step.Name);
            note.ExecuteNonQuery();
        }

        transaction.Commit();
        return Migration.Newest;
    }

    /// <summary>Why the server's settings do not keep what is written through a loss of power; null when they do.</summary>
    public static string? DurabilityNote(NpgsqlConnection connection)
    {
        string[] off = [.. DurabilitySettings.Where(s => Text(connection, $"SELECT current_setting('{s}')") == "off")];
        return off.Length == 0
            ? null
            : $"The server runs with {string.Join(" and ", off.Select(s => s + " = off"))}: what it reports as written may be lost or torn when it loses power. Mend: set to on in postgresql.conf.";
    }

    /// <summary>Version of the layout; 0 when there is no journal in the database.</summary>
    private static int Recognise(string place, NpgsqlConnection connection)
    {
        // The catalogue's tables are asked, not to_regclass and the like: those may answer from memory what was so before a lock was waited for.
        if (Text(connection, "SELECT nspname::text FROM pg_namespace WHERE nspname = 'heatwright'") is null)
        {
            return 0;
        }

        if (Text(connection, "SELECT tablename::text FROM pg_tables WHERE schemaname = 'heatwright' AND tablename = 'schema_version'") is null)
        {
            throw PostgresErrors.Of(JournalProblem.NotAJournal, place, "its schema 'heatwright' is something else", "name another database");
        }

        int version = int.Parse(Text(connection, "SELECT coalesce(max(version), 0)::text FROM heatwright.schema_version")!);
        return version <= Migration.Newest
            ? version
            : throw PostgresErrors.Of(
                JournalProblem.TooNew, place, $"it has layout version {version}; this program knows versions up to {Migration.Newest}",
                "open it with the program that wrote it, or a later one");
    }

    private static string? Text(NpgsqlConnection connection, string sql)
    {
#pragma warning disable CA2100 // Statements are constants of this assembly.
        using var command = new NpgsqlCommand(sql, connection);
#pragma warning restore CA2100
        return command.ExecuteScalar() as string;
    }

    private static void Execute(NpgsqlConnection connection, string sql)
    {
#pragma warning disable CA2100 // Statements are constants of this assembly.
        using var command = new NpgsqlCommand(sql, connection);
#pragma warning restore CA2100
        command.ExecuteNonQuery();
    }
}
