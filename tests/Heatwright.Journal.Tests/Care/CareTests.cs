// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Care;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;
using Heatwright.Journal.Store.Sqlite;
using Heatwright.Journal.Tests.Store;
using Microsoft.Data.Sqlite;

namespace Heatwright.Journal.Tests.Care;

/// <summary>Backup, restore, moving house, and the questions of the doctor.</summary>
public sealed class CareTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly string _path;
    private readonly string _copy;

    public CareTests() => (_path, _copy) = (_folder.File("works.journal"), _folder.File("copy.journal"));

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_journal_in_use_is_backed_up_whole_and_sealed()
    {
        using var store = SqliteJournal.Open(_path, new JournalOptions { CreateIfMissing = true });
        CareJournal.Fill(store, 10);
        BackupReport backup = JournalBackup.Make(_path, _copy);
        Assert.Equal(store.Head().ToString(), backup.Head.ToString());
        Assert.Empty(backup.Report.Findings);
        Assert.Empty(SealedFile.Broken(_copy));
        store.Append(Sample.Note("L-1"));
        AssertSame(store, _copy, backup.Head.Sequence);
        var refusal = Assert.Throws<JournalException>(() => JournalBackup.Make(_path, _copy));
        Assert.Equal(JournalProblem.Exists, refusal.Problem);
    }

    [Fact]
    public void A_damaged_entry_is_not_carried_into_a_backup_and_nothing_is_left_behind()
    {
        CareJournal.Make(_path);
        Entry entry = Entries(_path)[17];
        SealedFile.Flip(_path, File.ReadAllBytes(_path).AsSpan().LastIndexOf(entry.Hash.Span));
        var refusal = Assert.Throws<JournalException>(() => JournalBackup.Make(_path, _copy));
        Assert.Equal(JournalProblem.Damaged, refusal.Problem);
        Assert.Contains("entry 18", refusal.Message, StringComparison.OrdinalIgnoreCase);
        Assert.Equal([_path], Directory.GetFiles(_folder.Path));
    }

    [Fact]
    public void Damage_outside_the_record_is_left_out_of_a_backup()
    {
        JournalHead head = CareJournal.Make(_path);
        byte[] bytes = File.ReadAllBytes(_path);
        // In the cached rows, which no hash covers; and in the text of a trigger, which would no longer do what it is for.
        SealedFile.Flip(_path, bytes.AsSpan().IndexOf("closedS235K1"u8));
        SealedFile.Flip(_path, bytes.AsSpan().IndexOf("entries are never changed"u8) + 2);
        Assert.True(JournalVerify.Run(_path).Damaged);
        BackupReport backup = JournalBackup.Make(_path, _copy);
        Assert.Equal(head.ToString(), backup.Head.ToString());
        using var store = SqliteJournal.Open(_copy);
        Assert.Equal(0, store.Heats.UpTo());
        using SqliteConnection connection = SealedFile.Open(_copy);
        Assert.Throws<SqliteException>(() => SealedFile.Do(connection, "UPDATE entry SET actor = 'x'"));
        AssertSame(store, _copy, head.Sequence);
    }

    [Fact]
    public void What_another_program_did_to_the_seals_is_healed_by_backup_and_restore()
    {
        JournalHead head;
        using (var store = SqliteJournal.Open(_path, new JournalOptions { CreateIfMissing = true }))
        {
            CareJournal.Fill(store, 4);
            head = store.Head();
            CareJournal.Kill(_path, _copy);
        }

        using (SqliteConnection other = SealedFile.Open(_copy, seals: false))
        {
            SealedFile.Do(other, "SELECT count(*) FROM entry");
        }

        Assert.Equal([_copy, _path], Directory.GetFiles(_folder.Path).Order(StringComparer.Ordinal));
        VerifyReport report = JournalVerify.Run(_copy);
        Assert.Contains(report.Findings, f => f.Text.Contains("another program", StringComparison.Ordinal));
        Assert.All(report.Findings, f => Assert.True(f.Check is Check.Page or Check.File, f.ToString()));
        var refusal = Assert.Throws<JournalException>(() => Entries(_copy));
        Assert.Equal(JournalProblem.Damaged, refusal.Problem);

        string backup = _folder.File("backup.journal");
        JournalBackup.Make(_copy, backup);
        RestoreReport restored = JournalBackup.Restore(backup, _copy, replace: true);
        Assert.Equal((head.ToString(), head.ToString()), (restored.Head.ToString(), restored.ReplacedHead?.ToString()));
        Assert.Empty(JournalVerify.Run(_copy).Findings);
    }

    [Fact]
    public void Restore_verifies_first_refuses_to_overwrite_and_keeps_what_it_replaces()
    {
        JournalHead head = CareJournal.Make(_path);
        JournalBackup.Make(_path, _copy);
        using (var store = SqliteJournal.Open(_path))
        {
            store.Append(Sample.Note("L-9"));
            Assert.Equal(JournalProblem.Exists, Assert.Throws<JournalException>(() => JournalBackup.Restore(_copy, _path)).Problem);
            Assert.Equal(JournalProblem.Busy, Assert.Throws<JournalException>(() => JournalBackup.Restore(_copy, _path, replace: true)).Problem);
        }

        RestoreReport restored = JournalBackup.Restore(_copy, _path, replace: true, At(CareJournal.Start));
        Assert.Equal((head.ToString(), head.Sequence + 1), (restored.Head.ToString(), restored.ReplacedHead!.Sequence));
        Assert.Equal("works.replaced-20310304T040000Z.journal", Path.GetFileName(restored.ReplacedPath));
        string[] files = Directory.GetFiles(_folder.Path);
        Assert.Equal(3, files.Length);

        SealedFile.Flip(_copy, File.ReadAllBytes(_copy).AsSpan().LastIndexOf(head.Hash.Span));
        Assert.Equal(JournalProblem.Damaged, Assert.Throws<JournalException>(() => JournalBackup.Restore(_copy, _path, replace: true)).Problem);
        Assert.Equal(files, Directory.GetFiles(_folder.Path));
        Assert.Equal(head.Sequence + 1, Entries(restored.ReplacedPath!).Count);
        Assert.Equal(head.Sequence, Entries(_path).Count);
    }

    [Fact]
    public void Moving_to_a_server_and_back_gives_the_same_journal_by_hash()
    {
        JournalHead head = CareJournal.Make(_path, heats: 30);
        string server = PostgresServer.Shared.NewDatabase();
        MigrationReport there = JournalMigration.Run(_path, server);
        Assert.Equal((head.ToString(), head.Sequence), (there.Head.ToString(), there.Copied));
        Assert.Empty(JournalVerify.Run(server, new VerifyOptions { ExpectedHead = head.ToString() }).Findings);
        MigrationReport back = JournalMigration.Run(server, _copy);
        Assert.Equal(head.ToString(), back.Head.ToString());
        BackupReport backup = JournalBackup.Make(server, _folder.File("backup.journal"));
        Assert.Equal(head.ToString(), backup.Head.ToString());
        using var store = SqliteJournal.Open(_path);
        AssertSame(store, _copy, head.Sequence);
        AssertSame(store, backup.Path, head.Sequence);
    }

    [Fact]
    public void Verify_finds_what_was_changed_on_a_server()
    {
        JournalHead head = CareJournal.Make(_path);
        string server = PostgresServer.Shared.NewDatabase();
        JournalMigration.Run(_path, server);
        PostgresServer.Execute(server, "ALTER TABLE entry DISABLE TRIGGER USER; UPDATE entry SET actor = 'person:ben' WHERE sequence = 24; DELETE FROM entry WHERE sequence = " + head.Sequence);
        VerifyReport report = JournalVerify.Run(server, new VerifyOptions { ExpectedHead = head.ToString() });
        Assert.Equal([24L, head.Sequence], report.Findings.Select(f => f.Sequence!.Value));
        Assert.True(report.Damaged);
    }

    [Fact]
    public void An_interrupted_move_goes_on_and_another_journal_is_refused()
    {
        JournalHead head = CareJournal.Make(_path, heats: 400);
        using var cancel = new CancellationTokenSource();
        Assert.Throws<OperationCanceledException>(() => JournalMigration.Run(_path, _copy, new VerifyOptions { Progress = (_, _) => cancel.Cancel(), Cancel = cancel.Token }));
        int already = Entries(_copy).Count;
        Assert.InRange(already, 1, head.Sequence - 1);
        MigrationReport rest = JournalMigration.Run(_path, _copy);
        Assert.Equal((head.ToString(), head.Sequence - already), (rest.Head.ToString(), rest.Copied));
        Assert.Equal(0, JournalMigration.Run(_path, _copy).Copied);

        string other = _folder.File("other.journal");
        CareJournal.Make(other, seed: 6);
        var refusal = Assert.Throws<JournalException>(() => JournalMigration.Run(_path, other));
        Assert.Equal(JournalProblem.Exists, refusal.Problem);
    }

    [Fact]
    public void The_doctor_finds_a_well_kept_journal_well_and_says_what_is_to_be_mended()
    {
        JournalHead head = CareJournal.Make(_path);
        JournalBackup.Make(_path, _copy);
        IReadOnlyList<DoctorAnswer> answers = JournalDoctor.Ask(_path);
        Assert.All(answers.Where(a => a.Question is not ("Is there room?" or "On what kind of drive is it?")), a => Assert.True(a.Well, a.ToString()));
        Assert.Contains(answers, a => a.Answer.Contains(head.ToString(), StringComparison.Ordinal));
        Assert.Contains(answers, a => a.Answer.StartsWith("copy.journal, 0 entries behind", StringComparison.Ordinal));

        File.Delete(_copy);
        answers = JournalDoctor.Ask(_path, At(new DateTimeOffset(2001, 1, 1, 0, 0, 0, TimeSpan.Zero)));
        Assert.Contains(answers, a => a.Mend?.StartsWith("Set the clock", StringComparison.Ordinal) == true);
        Assert.Contains(answers, a => a.Mend?.StartsWith("Back it up", StringComparison.Ordinal) == true);
    }

    private static SetClock At(DateTimeOffset time)
    {
        var clock = new SetClock();
        clock.Advance(time - clock.Now);
        return clock;
    }

    private static List<Entry> Entries(string path)
    {
        using var store = SqliteJournal.Open(path, new JournalOptions { ReadOnly = true });
        return [.. store.Read()];
    }

    private static void AssertSame(SqliteJournal store, string copy, long upTo)
    {
        List<Entry> entries = Entries(copy);
        Assert.Equal(upTo, entries.Count);
        foreach ((Entry expected, Entry actual) in store.Read().Zip(entries))
        {
            Sample.AssertSame(expected, actual);
        }
    }
}
