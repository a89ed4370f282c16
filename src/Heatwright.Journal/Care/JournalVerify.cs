// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;
using Heatwright.Journal.Store.Sqlite;

namespace Heatwright.Journal.Care;

/// <summary>
/// Whether a journal still is what was written. Looks at the file as bytes (length, header, seal of every page, write-ahead log), then
/// at the structure of the database, then at every entry (chain, bodies) and every heat (versions, corrections, bookkeeping).
/// Changes nothing: a file is opened only to be read, and what is damaged becomes a finding, not an exception.
/// </summary>
public static class JournalVerify
{
    /// <summary>Verifies the journal at a place.</summary>
    /// <exception cref="JournalException">There is none, it is something else, a later program made it, or it cannot be reached.</exception>
    /// <exception cref="ArgumentException">The expected head is none.</exception>
    public static VerifyReport Run(string place, VerifyOptions? options = null)
    {
        JournalPlace.RefuseNone(place, "journal");
        options ??= new VerifyOptions();
        if (options.ExpectedHead is { Length: > 0 } text && ChainCheck.ParseHead(text) is null)
        {
            throw new ArgumentException($"expectedHead: '{text}' is not 'sequence:hash'. Mend: give it as 'heatwright journal verify' printed it.", nameof(options));
        }

        var findings = new FindingList(options);
        return JournalPlace.IsServer(place) ? Server(place, findings) : File(Path.GetFullPath(place), findings);
    }

    private static VerifyReport Server(string place, FindingList findings)
    {
        SqlJournal journal = JournalPlace.Open(place, new JournalOptions { ReadOnly = true, StatementTimeout = TimeSpan.Zero });
        using var rows = new ServerRows(journal);
        return Rows(journal.Place, rows, findings);
    }

    private static VerifyReport File(string path, FindingList findings)
    {
        RefuseWhatIsNoJournal(path);
        bool waits = HeldFile.HasLog(path);
        LogContent log = FileCheck.Log(path, findings);
        if (waits)
        {
            findings.Add(new Finding(
                Check.Log,
                Severity.Note,
                $"{log.Frames} pages wait in the write-ahead log. They were read from there; file and log were left as they are (the index {Path.GetFileName(path)}-shm, which holds nothing of the record, may have been made)."));
        }

        using var rows = new FileRows(path);
        FileCheck.Pages(path, log, findings, sequence => HeatOf(rows, sequence));
        findings.Progress("structure", 0);
        foreach (string line in rows.Integrity(100))
        {
            findings.Add(new Finding(Check.Structure, Severity.Damage, $"Structure of the database: {line}."));
        }

        findings.Progress("structure", 1);
        if (rows.Empty())
        {
            if (!findings.Damaged)
            {
                findings.Add(new Finding(Check.File, Severity.Note, "Nothing was written yet: the program that made this file was stopped while it made it. The next one will begin it anew."));
            }

            ChainCheck.Nothing(findings);
            return new VerifyReport(path, 0, 0, new JournalHead(0, EntryHash.Origin), findings.Listed, findings.Unlisted, findings.Damaged);
        }

        return Rows(path, rows, findings);
    }

    private static VerifyReport Rows(string place, StoredRows rows, FindingList findings)
    {
        (long entries, JournalHead head) = ChainCheck.Run(rows, findings);
        long heats = HeatCheck.Run(rows, entries, findings);
        findings.Progress("done", 1);
        return new VerifyReport(place, entries, heats, head, findings.Listed, findings.Unlisted, findings.Damaged);
    }

    private static string? HeatOf(FileRows rows, long sequence)
    {
        try
        {
            return rows.From(sequence).FirstOrDefault() is { } row && row.Sequence == sequence ? row.Heat : null;
        }
        catch (StoredRowException)
        {
            return null;
        }
    }

    /// <summary>A damaged journal is told from another file by its seals: one page with a right one is enough.</summary>
    internal static void RefuseWhatIsNoJournal(string path)
    {
        if (!System.IO.File.Exists(path))
        {
            throw new JournalException(JournalProblem.NotFound, $"Journal {path}: there is none. Mend: look at the path.");
        }

        try
        {
            using FileStream file = FileCheck.Open(path);
            var page = new byte[4096];
            if (file.Length is > 0 and < 4096)
            {
                int got = file.ReadAtLeast(page, 16, throwOnEndOfStream: false);
                if ("SQLite format 3\0"u8.StartsWith(page.AsSpan(0, Math.Min(16, got))))
                {
                    return; // The beginning of one.
                }
            }

            file.Position = 0;
            for (long number = 1; file.ReadAtLeast(page, page.Length, throwOnEndOfStream: false) == page.Length; number++)
            {
                bool marked = number == 1 && page.AsSpan(68).StartsWith("HwJ1"u8);
                if (marked || (PageSeal.Holds(page, number) && !PageSeal.Blank(page)))
                {
                    return;
                }
            }
        }
        catch (Exception e) when (e is UnauthorizedAccessException or IOException)
        {
            throw new JournalException(JournalProblem.Failed, $"Journal {path}: it cannot be read ({e.Message}). Mend: give this user the right to read it.", e);
        }

        if (!Path.Exists(path + "-wal") || new FileInfo(path + "-wal").Length == 0)
        {
            throw new JournalException(JournalProblem.NotAJournal, $"Journal {path}: it is no journal: none of its pages was written by this program. Mend: look at the path.");
        }
    }
}
