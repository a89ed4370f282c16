// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Store;
using Heatwright.Journal.Store.Migrations;

namespace Heatwright.Journal.Care;

/// <summary>A plain question about a journal and its answer.</summary>
/// <param name="Question">The question.</param>
/// <param name="Answer">The answer.</param>
/// <param name="Mend">What to do about it; null when it is well.</param>
public sealed record DoctorAnswer(string Question, string Answer, string? Mend = null)
{
    /// <summary>Nothing is to be done.</summary>
    public bool Well => Mend is null;
}

/// <summary>How a journal is kept, in questions and answers. Quick: of the record itself it looks at the seals of pages only; <see cref="JournalVerify"/> reads it.</summary>
public static class JournalDoctor
{
    private const long LeastFree = 1L << 30;       // A year of a large shop's facts; common practice, no source.
    private const long MostLog = 256L << 20;       // Four times what the log is cut back to.
    private const long MostScanned = 1_000_000_000; // Bytes; read in a few seconds.
    private static readonly TimeSpan ClockSlack = TimeSpan.FromMinutes(2);

    private static readonly string[] NetworkDrives = ["nfs", "nfs4", "cifs", "smb", "smb2", "smb3", "smbfs", "9p", "sshfs", "fuse.sshfs", "afs"];

    /// <summary>Asks all questions of the journal at a place.</summary>
    /// <exception cref="JournalException">It cannot be opened at all; the message says why and the mend.</exception>
    public static IReadOnlyList<DoctorAnswer> Ask(string place, TimeProvider? clock = null)
    {
        JournalPlace.RefuseNone(place, "journal");
        using SqlJournal journal = JournalPlace.Open(place, new JournalOptions { ReadOnly = true });
        JournalHead head = journal.Head();
        var answers = new List<DoctorAnswer>
        {
            Version(journal),
            Durable(journal, JournalPlace.IsServer(place)),
        };
        if (!JournalPlace.IsServer(place))
        {
            answers.AddRange([Drive(journal.Place), Room(journal.Place), Log(journal.Place), Seals(journal.Place), Backups(journal, head)]);
        }

        answers.Add(Views(journal, head));
        answers.Add(Clock(journal, head, clock ?? TimeProvider.System));
        answers.Add(new DoctorAnswer("Where does it end?", head.Sequence == 0 ? "It is empty." : $"Head {head}. Noted elsewhere, it proves later that no end was cut off."));
        return answers;
    }

    private static DoctorAnswer Version(SqlJournal journal) => new(
        "Which layout has it?",
        $"Version {journal.LayoutVersion}; this program writes version {Migration.Newest}.",
        journal.LayoutVersion < Migration.Newest ? "Open it to write once; it is brought up to date, with a copy beside it first." : null);

    private static DoctorAnswer Durable(SqlJournal journal, bool server)
    {
        const string question = "Does what was written outlive a loss of power?";
        if (server)
        {
            return journal.DurabilityNote is { } note
                ? new DoctorAnswer(question, note, "Set fsync, full_page_writes and synchronous_commit to on in the server's settings.")
                : new DoctorAnswer(question, "Yes, as far as its disk keeps its word.");
        }

        // Bytes 18 and 19 of the file header: 2 where a write-ahead log is kept. How it is written each connection says itself.
        using FileStream file = FileCheck.Open(journal.Place);
        var header = new byte[100];
        bool log = file.ReadAtLeast(header, 100, throwOnEndOfStream: false) == 100 && header[18] == 2 && header[19] == 2;
        return log
            ? new DoctorAnswer(question, "Yes, as far as its disk keeps its word: write-ahead log, brought to the disk before each answer.")
            : new DoctorAnswer(question, "No write-ahead log is kept.", "Open it to write once with this program; it keeps one from then on.");
    }

    private static DoctorAnswer Drive(string path)
    {
        string format = Ask(() => new DriveInfo(path).DriveFormat, "unknown");
        return new DoctorAnswer(
            "On what kind of drive is it?",
            format,
            NetworkDrives.Contains(format, StringComparer.OrdinalIgnoreCase) ? "Put it on a local disk, or use a server: locks on network drives do not hold what a file shared by programs needs." : null);
    }

    private static DoctorAnswer Room(string path)
    {
        long free = Ask(() => new DriveInfo(Path.GetDirectoryName(path)!).AvailableFreeSpace, -1L);
        long length = new FileInfo(path).Length;
        long wanted = Math.Max(LeastFree, length);
        return free < 0
            ? new DoctorAnswer("Is there room?", "It cannot be told.")
            : new DoctorAnswer(
                "Is there room?",
                $"{free / 1e9:F1} GB free; the journal has {length / 1e9:F3} GB.",
                free < wanted ? $"Make room: {wanted / 1e9:F1} GB let it grow and be backed up." : null);
    }

    private static DoctorAnswer Log(string path)
    {
        long length = File.Exists(path + "-wal") ? new FileInfo(path + "-wal").Length : 0;
        return new DoctorAnswer(
            "How long is its write-ahead log?",
            length == 0 ? "It has none now." : $"{length / 1e6:F1} MB.",
            length > MostLog ? "A program has read from the journal for long without an end, so that the log cannot be folded into the file. End it." : null);
    }

    private static DoctorAnswer Seals(string path)
    {
        // A journal without room for seals is not even opened.
        const string question = "Do its pages carry right seals?";
        long length = new FileInfo(path).Length;
        if (length > MostScanned)
        {
            return new DoctorAnswer(question, $"Pages carry seals; with {length / 1e9:F1} GB they were not checked here. 'journal verify' checks them and all else.");
        }

        List<long> broken = FileCheck.BrokenPages(path);
        return broken.Count == 0
            ? new DoctorAnswer(question, "Pages carry seals, and each is right now. 'journal verify' checks them and all else.")
            : new DoctorAnswer(
                question,
                $"No: {broken.Count} of {length / 4096} pages are not what was written, the first is page {broken[0]}.",
                "Copy the file elsewhere as it is, run 'journal verify' to see what is damaged, and restore the last backup.");
    }

    private static DoctorAnswer Views(SqlJournal journal, JournalHead head)
    {
        long behind = head.Sequence - journal.Reading(s => s.Query("SELECT up_to FROM heat_row_mark", r => r.GetInt64(0))).FirstOrDefault();
        return new DoctorAnswer(
            "Is the list of heats up to date?",
            behind == 0 ? "Yes." : behind > 0 ? $"It is {behind} entries behind; the next look at it brings it up to date." : $"It was made from {-behind} entries that are not there.",
            behind < 0 ? "Verify the journal: its end may have been cut off." : null);
    }

    private static DoctorAnswer Clock(SqlJournal journal, JournalHead head, TimeProvider clock)
    {
        const string question = "Does the clock agree with the record?";
        if (head.Sequence == 0)
        {
            return new DoctorAnswer(question, "Nothing was recorded yet.");
        }

        DateTimeOffset last = journal.Read(head.Sequence).First().ArrivalTime;
        TimeSpan ahead = last - clock.GetUtcNow();
        return new DoctorAnswer(
            question,
            ahead > ClockSlack ? $"The last entry arrived at {last:u}, {ahead:c} ahead of this clock." : $"Yes; the last entry arrived at {last:u}.",
            ahead > ClockSlack ? "Set the clock of this computer, and look at that of the one that wrote last." : null);
    }

    private static DoctorAnswer Backups(SqlJournal journal, JournalHead head)
    {
        const string question = "Is there a backup beside it?";
        (string Name, long Sequence)? best = null;
        foreach (string file in Directory.EnumerateFiles(Path.GetDirectoryName(journal.Place)!).Where(f => f != journal.Place && IsJournal(f)).Take(100))
        {
            if (JournalBackup.HeadOf(file) is { } other && other.Sequence <= head.Sequence && (best is null || other.Sequence > best.Value.Sequence)
                && journal.Read(other.Sequence).FirstOrDefault() is { } same && same.Hash.Span.SequenceEqual(other.Hash.Span))
            {
                best = (Path.GetFileName(file), other.Sequence);
            }
        }

        return best is { } found
            ? new DoctorAnswer(question, $"{found.Name}, {head.Sequence - found.Sequence} entries behind. It is on the same disk: one elsewhere outlives the disk.")
            : new DoctorAnswer(question, "None beside it.", head.Sequence == 0 ? null : "Back it up now and then, to another disk: 'heatwright journal backup'.");
    }

    private static bool IsJournal(string path) => Ask(
        () =>
        {
            using FileStream file = FileCheck.Open(path);
            var header = new byte[100];
            return file.ReadAtLeast(header, 100, throwOnEndOfStream: false) == 100 && header.AsSpan(68).StartsWith("HwJ1"u8);
        },
        false);

    private static T Ask<T>(Func<T> question, T otherwise)
    {
        try
        {
            return question();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            return otherwise;
        }
    }
}
