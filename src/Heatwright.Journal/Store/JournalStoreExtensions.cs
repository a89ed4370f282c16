// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;

namespace Heatwright.Journal.Store;

/// <summary>The everyday calls.</summary>
public static class JournalStoreExtensions
{
    /// <summary>Writes entries together.</summary>
    /// <returns>The entries as they stand.</returns>
    /// <exception cref="JournalException">Conflict, or the store cannot be written; nothing was.</exception>
    public static IReadOnlyList<Entry> Append(this IJournalStore store, params IReadOnlyList<NewEntry> entries)
    {
        ArgumentNullException.ThrowIfNull(store);
        AppendOutcome outcome = store.Append([new AppendRequest(entries)])[0];
        return outcome.Status is AppendStatus.Written or AppendStatus.AlreadyThere
            ? outcome.Entries
            : throw new JournalException(JournalProblem.Conflict, outcome.Conflict ?? "The journal holds something else under this id.");
    }
}
