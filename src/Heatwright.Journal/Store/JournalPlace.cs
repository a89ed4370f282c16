// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Store.Postgres;
using Heatwright.Journal.Store.Sqlite;

namespace Heatwright.Journal.Store;

/// <summary>Where a journal is, as people write it: a path is a SQLite file; "postgresql://user@host:port/database" or "Host=…;Database=…" is PostgreSQL.</summary>
public static class JournalPlace
{
    /// <summary>True when a text means a PostgreSQL database and not a file.</summary>
    public static bool IsServer(string place) => PostgresPlace.Is(place);

    /// <summary>Opens the journal at a place. An older layout is brought up to date first.</summary>
    /// <exception cref="JournalException">There is none, or it cannot be used.</exception>
    public static SqlJournal Open(string place, JournalOptions? options = null)
    {
        RefuseNone(place, "journal");
        return IsServer(place) ? PostgresJournal.Open(place, options) : SqliteJournal.Open(place, options);
    }

    /// <summary>Refuses a place that names nothing.</summary>
    internal static void RefuseNone(string place, string what)
    {
        ArgumentNullException.ThrowIfNull(place);
        if (string.IsNullOrWhiteSpace(place) || place.Contains('\0', StringComparison.Ordinal))
        {
            throw new JournalException(
                JournalProblem.NotFound, $"The {what} is '{place.Replace('\0', '?')}', which names no place. Mend: give the path of a file, or postgresql://user@host:port/database.");
        }
    }

    /// <summary>Makes a journal where there is none yet.</summary>
    /// <exception cref="JournalException">There is one already, or something else, or it cannot be made.</exception>
    public static SqlJournal Create(string place, JournalOptions? options = null)
    {
        RefuseNone(place, "journal");
        options = (options ?? new JournalOptions()) with { ReadOnly = false, CreateIfMissing = false };
        if (IsServer(place))
        {
            try
            {
                PostgresJournal.Open(place, options with { ReadOnly = true }).Dispose();
            }
            catch (JournalException e) when (e.Problem == JournalProblem.NotFound)
            {
                return Open(place, options with { CreateIfMissing = true });
            }
        }
        else if (!File.Exists(place) && !Directory.Exists(place))
        {
            return Open(place, options with { CreateIfMissing = true });
        }

        throw new JournalException(
            JournalProblem.Exists, $"There is something at {(IsServer(place) ? PostgresPlace.Parse(place).ToString() : Path.GetFullPath(place))} already. Mend: name another place, or open it.");
    }
}
