// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Care;
using Heatwright.Journal.Store;
using Heatwright.Journal.Store.Sqlite;
using Heatwright.Journal.Tests.Store;

namespace Heatwright.Journal.Tests.Care;

/// <summary>The write-ahead log of a program that was killed: an unfinished end is not damage, a wrong byte is.</summary>
public sealed class VerifyLogTests : IDisposable
{
    private const int Frame = 24 + 4096;

    private readonly TemporaryFolder _folder = new();
    private readonly string _path;
    private readonly string _killed;

    public VerifyLogTests() => (_path, _killed) = (_folder.File("works.journal"), _folder.File("killed.journal"));

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData(2)]
    [InlineData(60)] // The log has begun anew several times and has old frames behind its end.
    public void A_flipped_byte_in_the_log_is_found(int heats)
    {
        JournalHead head = Killed(heats);
        byte[] log = File.ReadAllBytes(_killed + "-wal");
        VerifyReport whole = JournalVerify.Run(_killed, new VerifyOptions { ExpectedHead = head.ToString() });
        Assert.True(whole.Whole, string.Join('\n', whole.Findings));
        Assert.Equal(head.ToString(), whole.Head.ToString());
        using (FileStream stream = File.OpenRead(_killed + "-wal"))
        {
            LogContent content = LogScan.Read(stream);
            Assert.True(content.Frames > 5);
            log = log[..(32 + (int)(content.Frames * Frame))];
        }

        var random = new Random(21);
        IEnumerable<long> offsets =
        [
            .. Enumerable.Range(0, 32).Select(i => (long)i),
            .. Enumerable.Range(0, 24).Select(i => (long)log.Length - Frame + i),
            .. Enumerable.Range(0, 60).Select(_ => random.NextInt64(log.Length)),
            log.Length - 1,
        ];
        int located = 0;
        foreach (long offset in offsets)
        {
            byte change = (byte)(1 << random.Next(8));
            SealedFile.Flip(_killed + "-wal", offset, change);
            using (FileStream stream = File.OpenRead(_killed + "-wal"))
            {
                BrokenFrame? broken = LogScan.Read(stream).Broken;
                Assert.True(broken is not null, $"byte {offset}");
                Assert.True(broken.Flip is null || broken.Flip == offset, $"byte {offset} taken for {broken.Flip}");
                located += broken.Flip is null ? 0 : 1;
                Assert.InRange(offset, broken.First, broken.Last);
            }

            SealedFile.Flip(_killed + "-wal", offset, change);
        }

        Assert.True(located > 60, $"{located} bytes were named");
        SealedFile.Flip(_killed + "-wal", log.Length - 100);
        byte[] before = File.ReadAllBytes(_killed + "-wal");
        Finding finding = Assert.Single(JournalVerify.Run(_killed).Findings, f => f.Severity == Severity.Damage);
        Assert.Equal(Check.Log, finding.Check);
        Assert.Equal(before, File.ReadAllBytes(_killed + "-wal"));
    }

    [Fact]
    public void An_unfinished_end_is_not_damage()
    {
        JournalHead head = Killed(2);
        byte[] log = File.ReadAllBytes(_killed + "-wal");
        var random = new Random(22);
        for (int i = 0; i < 15; i++)
        {
            File.WriteAllBytes(_killed + "-wal", log[..random.Next(log.Length)]);
            VerifyReport report = JournalVerify.Run(_killed);
            Assert.True(report.Whole, string.Join('\n', report.Findings));
            Assert.True(report.Head.Sequence < head.Sequence);
            Assert.True(JournalVerify.Run(_killed, new VerifyOptions { ExpectedHead = head.ToString() }).Damaged);
        }
    }

    [Fact]
    public void A_journal_in_use_is_whole_and_verify_leaves_it_in_use()
    {
        using var store = SqliteJournal.Open(_path, new JournalOptions { CreateIfMissing = true });
        CareJournal.Fill(store, 10);
        VerifyReport report = JournalVerify.Run(_path, new VerifyOptions { ExpectedHead = store.Head().ToString() });
        Assert.True(report.Whole);
        Assert.Contains("wait in the write-ahead log", Assert.Single(report.Findings).Text, StringComparison.Ordinal);
        store.Append(Sample.Note("L-2"));
        Assert.Equal(store.Head().ToString(), JournalVerify.Run(_path).Head.ToString());
    }

    private JournalHead Killed(int heats)
    {
        using var store = SqliteJournal.Open(_path, new JournalOptions { CreateIfMissing = true });
        CareJournal.Fill(store, heats);
        store.Append(Sample.Note("L-1"), Sample.Note("L-2", CareJournal.Text(new Random(1), 20_000)));
        CareJournal.Kill(_path, _killed);
        return store.Head();
    }
}
