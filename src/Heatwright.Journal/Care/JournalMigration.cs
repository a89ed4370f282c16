// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;

namespace Heatwright.Journal.Care;

/// <summary>What was moved.</summary>
/// <param name="Head">End of the chain at the new place.</param>
/// <param name="Copied">Entries written by this run; fewer than all after one that was interrupted.</param>
/// <param name="Report">What verification of the new place found.</param>
public sealed record MigrationReport(JournalHead Head, long Copied, VerifyReport Report);

/// <summary>
/// Copies a journal to another place, of either kind: entries as they stand, with sequence, times, bytes and hashes. The chain is
/// recomputed on the way and the new place verified at the end, so that both are equal by hash. The old place is only read.
/// A copy that was interrupted goes on where it stopped when it is asked for again.
/// </summary>
public static class JournalMigration
{
    private const int MostEntries = 2000;
    private const int MostBytes = 8 * 1024 * 1024;

    /// <summary>Copies a journal.</summary>
    /// <param name="from">Place of the journal.</param>
    /// <param name="to">Place where there is none, or the beginning of the same one.</param>
    /// <param name="options">Progress; and when it is stopped, what was copied stays.</param>
    /// <exception cref="JournalException">The old place is damaged, or the new one holds another journal or cannot be written.</exception>
    public static MigrationReport Run(string from, string to, VerifyOptions? options = null)
    {
        JournalPlace.RefuseNone(from, "journal to copy");
        JournalPlace.RefuseNone(to, "place to copy it to");
        options ??= new VerifyOptions();
        using SqlJournal source = JournalPlace.Open(from, new JournalOptions { ReadOnly = true, StatementTimeout = TimeSpan.Zero });
        JournalHead head;
        long copied = 0;
        string place;
        using (SqlJournal target = JournalPlace.Open(to, new JournalOptions { CreateIfMissing = true, StatementTimeout = TimeSpan.Zero }))
        {
            place = target.Place;
            head = target.Head();
            JournalHead goal = source.Head();
            RefuseAnother(source, target, head);
            foreach (List<Entry> portion in Portions(source.Read(head.Sequence + 1)))
            {
                options.Cancel.ThrowIfCancellationRequested();
                Follow(source.Place, head, portion);
                ((IVerbatimAppend)target).AppendVerbatim(portion);
                head = new JournalHead(portion[^1].Sequence, portion[^1].Hash);
                copied += portion.Count;
                options.Progress?.Invoke("copy", Math.Min(1, (double)head.Sequence / Math.Max(1, goal.Sequence)));
            }

            if (goal.Sequence > head.Sequence)
            {
                throw new JournalException(JournalProblem.Damaged, $"{source.Place}: entries after {head.Sequence} are missing; the last is {goal.Sequence}. Mend: verify it.");
            }
        }

        VerifyReport report = JournalVerify.Run(to, options with { ExpectedHead = options.ExpectedHead ?? head.ToString(), Balances = false });
        return report.Whole && report.Head.ToString() == head.ToString()
            ? new MigrationReport(head, copied, report)
            : throw new JournalException(JournalProblem.Damaged, $"{place}: the copy is not what was written ({(report.Findings.Count > 0 ? report.Findings[0] : null)}). Mend: look at the disk, and copy to another place.");
    }

    private static void RefuseAnother(SqlJournal source, SqlJournal target, JournalHead head)
    {
        if (head.Sequence == 0)
        {
            return;
        }

        Entry? same = source.Read(head.Sequence).FirstOrDefault();
        if (same is null || same.Sequence != head.Sequence || !same.Hash.Span.SequenceEqual(head.Hash.Span))
        {
            throw new JournalException(
                JournalProblem.Exists, $"{target.Place} holds a journal that is not the beginning of {source.Place} (its head is {head}). Mend: name a place where there is none.");
        }
    }

    /// <summary>Recomputes the chain before anything is written.</summary>
    private static void Follow(string place, JournalHead head, List<Entry> portion)
    {
        ReadOnlyMemory<byte> previous = head.Hash;
        long sequence = head.Sequence;
        foreach (Entry entry in portion)
        {
            if (entry.Sequence != ++sequence || !EntryHash.Of(previous.Span, entry).AsSpan().SequenceEqual(entry.Hash.Span))
            {
                throw new JournalException(JournalProblem.Damaged, $"{place}: entry {entry.Sequence} is not what was written; entries up to {head.Sequence} were copied. Mend: verify it and restore a backup.");
            }

            previous = entry.Hash;
        }
    }

    /// <summary>Entries in portions that one transaction takes well.</summary>
    internal static IEnumerable<List<Entry>> Portions(IEnumerable<Entry> entries)
    {
        var portion = new List<Entry>();
        long bytes = 0;
        foreach (Entry entry in entries)
        {
            portion.Add(entry);
            bytes += entry.BodyBytes.Length;
            if (portion.Count == MostEntries || bytes > MostBytes)
            {
                yield return portion;
                portion = [];
                bytes = 0;
            }
        }

        if (portion.Count > 0)
        {
            yield return portion;
        }
    }
}
