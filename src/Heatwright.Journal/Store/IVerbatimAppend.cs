// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;

namespace Heatwright.Journal.Store;

/// <summary>A store that takes entries as they stand in another: how a journal moves house without becoming another one.</summary>
internal interface IVerbatimAppend
{
    /// <summary>
    /// Writes entries with their sequence, times, body bytes and hashes as given, in one durable transaction. The first must follow
    /// the head here: next sequence, and its hash computed over the head's. Nothing is computed anew.
    /// </summary>
    /// <exception cref="JournalException">They do not follow, or the store cannot be written; nothing was.</exception>
    void AppendVerbatim(IReadOnlyList<Entry> entries);
}
