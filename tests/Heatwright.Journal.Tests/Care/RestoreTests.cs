// SPDX-License-Identifier: Apache-2.0
using System.Buffers.Binary;
using Heatwright.Journal.Care;
using Heatwright.Journal.Store;
using Heatwright.Journal.Store.Sqlite;
using Heatwright.Journal.Tests.Store;

namespace Heatwright.Journal.Tests.Care;

/// <summary>What restore says of the backup, what it does on a server, and what becomes of the log of what it replaces.</summary>
public sealed class RestoreTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly string _path;
    private readonly string _backup;

    public RestoreTests() => (_path, _backup) = (_folder.File("works.journal"), _folder.File("backup.journal"));

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_backup_that_is_damaged_where_no_entry_lies_is_restored_and_called_damaged()
    {
        JournalHead head = CareJournal.Make(_backup);
        Assert.True(JournalBackup.Restore(_backup, _folder.File("well.journal")).Source.Whole);
        FlipFreePage(_backup);
        RestoreReport report = JournalBackup.Restore(_backup, _path);
        Assert.Equal(head.ToString(), report.Head.ToString());
        Assert.True(report.Source.Damaged);
        Assert.Contains(report.Source.Findings, f => f.Check == Check.Page);
        Assert.Empty(JournalVerify.Run(_path).Findings);
    }

    [Fact]
    public void A_noted_head_that_is_not_in_the_backup_is_missed()
    {
        JournalHead head = CareJournal.Make(_backup);
        string later = new JournalHead(head.Sequence + 1, head.Hash).ToString();
        var refusal = Assert.Throws<JournalException>(() => JournalBackup.Restore(_backup, _path, expectedHead: later));
        Assert.Equal(JournalProblem.Damaged, refusal.Problem);
        Assert.False(File.Exists(_path));
        Assert.Equal(JournalProblem.Damaged, Assert.Throws<JournalException>(() => JournalMigration.Run(_backup, _path, new VerifyOptions { ExpectedHead = later })).Problem);
        Assert.Equal(head.ToString(), JournalBackup.Restore(_backup, _folder.File("other.journal"), expectedHead: head.ToString()).Head.ToString());
    }

    [Fact]
    public void A_server_takes_a_whole_backup_only_and_replaces_nothing()
    {
        JournalHead head = CareJournal.Make(_backup);
        string server = PostgresServer.Shared.NewDatabase();
        var refusal = Assert.Throws<JournalException>(() => JournalBackup.Restore(_backup, server, replace: true));
        Assert.Equal(JournalProblem.Exists, refusal.Problem);
        Assert.Contains("Mend:", refusal.Message, StringComparison.Ordinal);

        long flipped = FlipFreePage(_backup);
        Assert.Equal(JournalProblem.Damaged, Assert.Throws<JournalException>(() => JournalBackup.Restore(_backup, server)).Problem);
        Assert.Equal(JournalProblem.NotFound, Assert.Throws<JournalException>(() => JournalPlace.Open(server)).Problem);

        SealedFile.Flip(_backup, flipped);
        string later = new JournalHead(head.Sequence + 1, head.Hash).ToString();
        Assert.Equal(JournalProblem.Damaged, Assert.Throws<JournalException>(() => JournalBackup.Restore(_backup, server, expectedHead: later)).Problem);
        Assert.Equal(JournalProblem.NotFound, Assert.Throws<JournalException>(() => JournalPlace.Open(server)).Problem);
        Assert.Equal(head.ToString(), JournalBackup.Restore(_backup, server).Head.ToString());
    }

    [Fact]
    public void The_log_of_what_is_replaced_is_folded_into_it_first()
    {
        CareJournal.Make(_backup, heats: 2);
        JournalHead head = Killed();
        RestoreReport report = JournalBackup.Restore(_backup, _path, replace: true);
        Assert.Equal(head.ToString(), report.ReplacedHead?.ToString());
        Assert.False(File.Exists(report.ReplacedPath + "-wal"));
        VerifyReport kept = JournalVerify.Run(report.ReplacedPath!, new VerifyOptions { ExpectedHead = head.ToString() });
        Assert.Empty(kept.Findings);
    }

    [Fact]
    public void A_log_that_is_damaged_is_kept_beside_its_file_as_it_is()
    {
        CareJournal.Make(_backup, heats: 2);
        Killed();
        SealedFile.Flip(_path + "-wal", 32 + 24 + 100);
        byte[] file = File.ReadAllBytes(_path), log = File.ReadAllBytes(_path + "-wal");
        RestoreReport report = JournalBackup.Restore(_backup, _path, replace: true);
        Assert.Equal(file, File.ReadAllBytes(report.ReplacedPath!));
        Assert.Equal(log, File.ReadAllBytes(report.ReplacedPath + "-wal"));
        Assert.False(File.Exists(_path + "-wal"));
        Assert.Equal(report.Head.ToString(), JournalVerify.Run(_path).Head.ToString());
    }

    [Fact]
    public void A_log_whose_file_is_gone_is_not_taken_for_that_of_the_restored_one()
    {
        JournalHead head = CareJournal.Make(_backup, heats: 2);
        Killed();
        File.Delete(_path);
        RestoreReport report = JournalBackup.Restore(_backup, _path);
        Assert.Equal(head.ToString(), report.Head.ToString());
        VerifyReport restored = JournalVerify.Run(_path, new VerifyOptions { ExpectedHead = head.ToString() });
        Assert.Empty(restored.Findings);
        Assert.Equal(head.ToString(), restored.Head.ToString());
        Assert.Single(Directory.GetFiles(_folder.Path, "*.replaced-*-wal"));
    }

    [Fact]
    public void The_doctor_finds_a_page_that_is_not_what_was_written()
    {
        CareJournal.Make(_path);
        Assert.True(Seals().Well);
        FlipFreePage(_path);
        DoctorAnswer answer = Seals();
        Assert.False(answer.Well);
        Assert.Contains("1 of", answer.Answer, StringComparison.Ordinal);
        Assert.Contains("journal verify", answer.Mend, StringComparison.Ordinal);

        DoctorAnswer Seals() => Assert.Single(JournalDoctor.Ask(_path), a => a.Question.Contains("seals", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(long.MinValue)]
    [InlineData(long.MinValue + 1)]
    [InlineData(long.MaxValue)]
    public void A_row_with_an_impossible_time_is_a_fault_and_not_an_error(long ms)
    {
        foreach ((long source, long arrival) in new[] { (ms, 0L), (0L, ms) })
        {
            var row = new StoredRow(1, new byte[16], "L-1", 1, "note", 1, source, arrival, "person:anna", "", new byte[32], []);
            Assert.False(row.TryEntry(out _, out string? fault));
            Assert.Equal("its times are none", fault);
        }
    }

    [Fact]
    public void A_renamed_file_is_brought_to_the_disk_with_its_folder()
    {
        File.WriteAllText(_path, "x");
        FolderSync.Move(_path, _backup);
        Assert.Equal("x", File.ReadAllText(_backup));
        File.WriteAllText(_path, "y");
        Assert.Throws<IOException>(() => FolderSync.Move(_path, _backup));
        Assert.Equal("x", File.ReadAllText(_backup));
        Assert.SkipWhen(OperatingSystem.IsWindows(), "There is no such call.");
        Assert.Throws<IOException>(() => FolderSync.Sync(_folder.File("none")));
    }

    /// <summary>File and log of a writer that was killed, with entries in both.</summary>
    private JournalHead Killed()
    {
        string made = _folder.File("made.journal");
        JournalHead head;
        using (var store = SqliteJournal.Open(made, new JournalOptions { CreateIfMissing = true }))
        {
            CareJournal.Fill(store, 4);
            using (Microsoft.Data.Sqlite.SqliteConnection other = SealedFile.Open(made))
            {
                SealedFile.Do(other, "PRAGMA wal_checkpoint(TRUNCATE)");
            }

            CareJournal.Fill(store, 2, seed: 9, from: 20);
            head = store.Head();
            CareJournal.Kill(made, _path);
        }

        File.Delete(made);
        return head;
    }

    private static long FlipFreePage(string path)
    {
        long trunk = BinaryPrimitives.ReadUInt32BigEndian(File.ReadAllBytes(path).AsSpan(32));
        Assert.True(trunk > 0);
        long offset = ((trunk - 1) * 4096) + 3000;
        SealedFile.Flip(path, offset);
        return offset;
    }
}
