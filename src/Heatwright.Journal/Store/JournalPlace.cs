// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Store.Sqlite;

namespace Heatwright.Journal.Store;

/// <summary>Where a journal is, as people write it: a path is a SQLite file; "postgresql://user@host:port/database" or "Host=…;Database=…" is PostgreSQL.</summary>
public static class JournalPlace
{
    /// <summary>Opens the journal at a place.</summary>
    /// <exception cref="JournalException">There is none, or it cannot be used.</exception>
    public static IJournalStore Open(string place, JournalOptions? options = null)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(place);
        return SqliteJournal.Open(place, options);
    }
}
