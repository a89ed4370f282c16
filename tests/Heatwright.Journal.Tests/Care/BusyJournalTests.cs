// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Care;
using Heatwright.Journal.Store;
using Heatwright.Journal.Store.Sqlite;
using Heatwright.Journal.Tests.Store;
using Microsoft.Data.Sqlite;

namespace Heatwright.Journal.Tests.Care;

/// <summary>A journal whose writer folds its log into the file again and again is copied whole, and verify finds nothing that is not there.</summary>
public sealed class BusyJournalTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly string _path;

    public BusyJournalTests() => _path = _folder.File("works.journal");

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_writer_that_checkpoints_meanwhile_disturbs_neither_verify_nor_backup(bool backup)
    {
        using var store = SqliteJournal.Open(_path, new JournalOptions { CreateIfMissing = true });
        CareJournal.Fill(store, 60);
        using SqliteConnection other = SealedFile.Open(_path);
        SealedFile.Do(other, "PRAGMA wal_checkpoint(TRUNCATE)");
        Assert.Equal(0, new FileInfo(_path + "-wal").Length);
        int written = 0;

        // The writer's turn comes in between the steps, at each word of progress: the log has just been folded each time.
        void Write(string what, double part)
        {
            var random = new Random(written);
            store.Append([new AppendRequest(CareJournal.Heat($"N-{written++}", CareJournal.Start.AddDays(written), random))]);
            SealedFile.Do(other, "PRAGMA wal_checkpoint(TRUNCATE)");
        }

        var options = new VerifyOptions { Progress = Write };
        VerifyReport report = backup ? JournalBackup.Make(_path, _folder.File("copy.journal"), options).Report : JournalVerify.Run(_path, options);
        Assert.True(written > 1);
        Assert.True(report.Whole, string.Join('\n', report.Findings));
        Assert.InRange(report.Entries, 60 * 11, (60 + written) * 11);
    }

    [Fact]
    public async Task A_writer_at_full_speed_disturbs_neither_verify_nor_backup()
    {
        using var store = SqliteJournal.Open(_path, new JournalOptions { CreateIfMissing = true });
        CareJournal.Fill(store, 60);
        using var end = new CancellationTokenSource();
        using SqliteConnection other = SealedFile.Open(_path);
        SealedFile.Do(other, "PRAGMA wal_checkpoint(TRUNCATE)");
        var started = new TaskCompletionSource();
        Task writer = Task.Run(() =>
        {
            for (int i = 0; !end.IsCancellationRequested; i++)
            {
                store.Append([new AppendRequest(CareJournal.Heat($"N-{i}", CareJournal.Start.AddDays(i), new Random(i)))]);
                SealedFile.Do(other, i % 3 == 0 ? "PRAGMA wal_checkpoint(PASSIVE)" : "PRAGMA wal_checkpoint(TRUNCATE)");
                started.TrySetResult();
            }
        }, TestContext.Current.CancellationToken);
        try
        {
            await started.Task;
            for (int i = 0; i < 4; i++)
            {
                VerifyReport report = JournalVerify.Run(_path);
                Assert.True(report.Whole, string.Join('\n', report.Findings));
                BackupReport copy = JournalBackup.Make(_path, _folder.File($"copy-{i}.journal"));
                Assert.Empty(copy.Report.Findings);
                Assert.True(JournalVerify.Run(copy.Path, new VerifyOptions { ExpectedHead = report.Head.ToString() }).Whole);
            }
        }
        finally
        {
            await end.CancelAsync();
            await writer;
        }
    }

    [Fact]
    public void Nothing_is_left_beside_a_journal_that_nobody_has_open()
    {
        JournalHead head = CareJournal.Make(_path);
        byte[] before = File.ReadAllBytes(_path);
        Assert.Equal(head.ToString(), JournalVerify.Run(_path).Head.ToString());
        Assert.Equal(head.ToString(), JournalBackup.HeadOf(_path)?.ToString());
        Assert.Equal([_path], Directory.GetFiles(_folder.Path));
        Assert.Equal(before, File.ReadAllBytes(_path));
    }
}
