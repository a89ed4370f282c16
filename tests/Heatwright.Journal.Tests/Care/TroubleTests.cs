// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Care;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;
using Heatwright.Journal.Store.Sqlite;
using Heatwright.Journal.Tests.Store;

namespace Heatwright.Journal.Tests.Care;

/// <summary>A full disk and one that may not be written: a clear error, nothing written in part, and all well when it is mended.</summary>
public sealed class TroubleTests
{
    [Theory]
    [InlineData(60, 41)]
    [InlineData(3_000, 42)]
    [InlineData(60_000, 43)]
    [InlineData(400_000, 44)]
    public void A_full_disk_refuses_clearly_and_goes_on_when_there_is_room(int noteLength, int seed)
    {
        using var drive = new SmallDrive(4);
        string path = drive.File("works.journal"), ballast = drive.File("ballast");
        File.WriteAllBytes(ballast, new byte[1 << 20]);
        var random = new Random(seed);
        var written = new List<Guid>();
        using (var store = SqliteJournal.Open(path, new JournalOptions { CreateIfMissing = true }))
        {
            for (int refusals = 0; refusals < 3;)
            {
                string heat = $"L-{written.Count}";
                NewEntry[] request = [.. Enumerable.Range(0, 3).Select(_ => Sample.Note(heat, CareJournal.Text(random, noteLength)))];
                try
                {
                    written.AddRange(store.Append(request).Select(e => e.Id));
                    refusals = 0;
                }
                catch (JournalException e)
                {
                    Assert.True(e.Problem == JournalProblem.DiskFull, e.ToString());
                    Assert.Contains("Mend: make room", e.Message, StringComparison.Ordinal);
                    Assert.Equal(0, store.Version(heat));
                    refusals++;
                }
            }

            Assert.NotEmpty(written);
            Assert.Equal(written, Sample.AssertChain(store).Select(e => e.Id));
            string[] files = drive.Files;
            Assert.Throws<JournalException>(() => JournalBackup.Make(path, drive.File("copy.journal")));
            Assert.Equal(files, drive.Files);

            File.Delete(ballast);
            written.Add(store.Append(Sample.Note("after"))[0].Id);
        }

        // The log may be too long for the room that there is to fold it into the file; then it stays.
        VerifyReport report = JournalVerify.Run(path);
        Assert.True(report.Whole, string.Join('\n', report.Findings));
        using (var store = SqliteJournal.Open(path))
        {
            Assert.Equal(written, Sample.AssertChain(store).Select(e => e.Id));
        }
    }

    [Fact]
    public void A_disk_without_room_for_a_new_journal_refuses_and_takes_it_later()
    {
        using var drive = new SmallDrive(1);
        string path = drive.File("works.journal"), ballast = drive.File("ballast");
        File.WriteAllBytes(ballast, new byte[(1 << 20) - 8192]);
        var refusal = Assert.Throws<JournalException>(() => SqliteJournal.Open(path, new JournalOptions { CreateIfMissing = true }));
        Assert.True(refusal.Problem == JournalProblem.DiskFull, refusal.ToString());
        File.Delete(ballast);
        using var store = SqliteJournal.Open(path, new JournalOptions { CreateIfMissing = true });
        store.Append(Sample.Note("first"));
        Sample.AssertChain(store);
    }

    [Fact]
    public void On_a_drive_that_may_not_be_written_a_journal_is_read_verified_and_refuses_entries()
    {
        using var drive = new SmallDrive(8);
        using var folder = new TemporaryFolder();
        string path = drive.File("works.journal");
        JournalHead head = CareJournal.Make(path);
        drive.ReadOnly(true);
        var refusal = Assert.Throws<JournalException>(() => SqliteJournal.Open(path));
        Assert.True(refusal.Problem == JournalProblem.ReadOnly, refusal.ToString());
        Assert.Contains("Mend:", refusal.Message, StringComparison.Ordinal);
        using (var store = SqliteJournal.Open(path, new JournalOptions { ReadOnly = true }))
        {
            Assert.Equal(head.Sequence, Sample.AssertChain(store).Count);
            Assert.Equal(JournalProblem.ReadOnly, Assert.Throws<JournalException>(() => store.Append(Sample.Note("L-1"))).Problem);
        }

        Assert.Empty(JournalVerify.Run(path, new VerifyOptions { ExpectedHead = head.ToString() }).Findings);
        Assert.NotEmpty(JournalDoctor.Ask(path));
        Assert.Equal(head.ToString(), JournalBackup.Make(path, folder.File("copy.journal")).Head.ToString());
        Assert.Equal([path], drive.Files);
        drive.ReadOnly(false);
        using (var store = SqliteJournal.Open(path))
        {
            store.Append(Sample.Note("L-1"));
        }
    }
}
