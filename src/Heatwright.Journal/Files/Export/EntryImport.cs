// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;

namespace Heatwright.Journal.Files.Export;

/// <summary>Makes a journal from exported entries: the same one, by every hash.</summary>
public static class EntryImport
{
    private const int Portion = 1_000;

    /// <summary>
    /// Writes the entries of a file (<see cref="EntryExport"/>, JSON, all entries) into an empty journal. The whole file is read and its
    /// chain checked before the first entry is written; should the disk fail in the middle, a second call goes on where the first stopped.
    /// </summary>
    /// <param name="store">An empty journal, or one that holds the first entries of the file already.</param>
    /// <param name="path">The file.</param>
    /// <returns>Number of entries written.</returns>
    /// <exception cref="FileRefusedException">The file is no such export, was changed, or does not hold every entry.</exception>
    /// <exception cref="JournalException">The journal holds something else, or cannot be written.</exception>
    public static int Write(IJournalStore store, string path)
    {
        ArgumentNullException.ThrowIfNull(store);
        if (store is not IVerbatimAppend target)
        {
            throw new JournalException(JournalProblem.Failed, $"{store.Place} takes no entries as they stand elsewhere. Mend: give a journal in SQLite or PostgreSQL.");
        }

        JournalHead head = store.Head();
        if (Whole(path, head).Other is { } other)
        {
            throw new JournalException(
                JournalProblem.Exists, $"{store.Place} holds {head.Sequence} entries that are not those of {Path.GetFileName(path)}: {other}. Mend: name a new journal; entries of two journals are not mixed.");
        }

        int written = 0;
        foreach (Entry[] portion in EntryFile.Read(path).Where(e => e.Sequence > head.Sequence).Chunk(Portion))
        {
            target.AppendVerbatim(portion);
            written += portion.Length;
        }

        return written;
    }

    /// <summary>Reads the whole file and checks that it holds every entry of a journal, each by its hash. Nothing is written.</summary>
    /// <param name="path">The file.</param>
    /// <returns>Number of entries.</returns>
    /// <exception cref="FileRefusedException">The file is no such export, was changed, or does not hold every entry.</exception>
    public static long Check(string path) => Whole(path, null).Entries;

    // Other: null when the file begins as the journal does.
    private static (long Entries, string? Other) Whole(string path, JournalHead? head)
    {
        long entries = 0;
        string end = "";
        string? other = head is null or { Sequence: 0 } ? null : "the file is shorter";
        foreach (Entry e in EntryFile.Read(path))
        {
            if (e.Sequence != ++entries)
            {
                throw Part(path, $"Entry {e.Sequence} stands where {entries} is due");
            }

            end = new JournalHead(e.Sequence, e.Hash).ToString();
            if (e.Sequence == head?.Sequence)
            {
                other = e.Hash.Span.SequenceEqual(head.Hash.Span) ? null : $"entry {e.Sequence} has another hash";
            }
        }

        // What was left out at the end leaves no gap; the first line says where the journal ended.
        string due = EntryFile.Head(path);
        return due == end || (entries == 0 && due.StartsWith("0:", StringComparison.Ordinal))
            ? (entries, other)
            : throw Part(path, $"The file ends with entry {entries}, and the journal that it was exported from with {due.Split(':')[0]}");
    }

    private static FileRefusedException Part(string path, string message) => FileRefusedException.Of(
        TableProblem.NotATable, path, message + ": the file holds a part of a journal (some heats, or no signal blocks), from which no journal can be made.",
        "export every entry: heatwright journal export entries.json, without --no-signals and without a choice of heats");
}
