// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Care;
using Heatwright.Journal.Store;
using Heatwright.Journal.Store.Sqlite;
using Heatwright.Journal.Tests.Store;

namespace Heatwright.Journal.Tests.Care;

/// <summary>The first 100 bytes say how all the others are read: a wrong one must never make a journal go on without its seals.</summary>
public sealed class HeaderTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly string _path;

    public HeaderTests() => _path = _folder.File("works.journal");

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData(0x10, false)]
    [InlineData(0x01, false)]
    [InlineData(0xff, false)]
    [InlineData(0x10, true)]
    public void A_flipped_byte_of_the_header_is_refused_or_harmless_to_a_writer(byte change, bool log)
    {
        string made = _folder.File("made.journal");
        using (var store = SqliteJournal.Open(made, new JournalOptions { CreateIfMissing = true }))
        {
            CareJournal.Fill(store, 4);
            if (log)
            {
                CareJournal.Kill(made, _path);
            }
        }

        byte[] file = File.ReadAllBytes(log ? _path : made), wal = log ? File.ReadAllBytes(_path + "-wal") : [];
        int refused = 0;
        for (int offset = 0; offset < 100; offset++)
        {
            File.WriteAllBytes(_path, file);
            File.WriteAllBytes(_path + "-wal", wal);
            File.Delete(_path + "-shm");
            SealedFile.Flip(_path, offset, change);
            byte[] before = File.ReadAllBytes(_path);
            try
            {
                using var store = SqliteJournal.Open(_path);
                CareJournal.Fill(store, 3, seed: 7, from: 50);
            }
            catch (JournalException e)
            {
                Assert.True(e.Problem is JournalProblem.Damaged or JournalProblem.NotAJournal, $"byte {offset}: {e}");
                Assert.True(log || before.AsSpan().SequenceEqual(File.ReadAllBytes(_path)), $"byte {offset}: the refused file was written");
                refused++;
                continue;
            }

            VerifyReport report = JournalVerify.Run(_path);
            Assert.True(report.Whole, $"byte {offset}: {string.Join('\n', report.Findings)}");
            Assert.Equal(7 * 11, report.Entries);
        }

        Assert.True(log || refused == 100, $"{refused} of 100 were refused");
    }

    [Fact]
    public void A_journal_whose_header_leaves_no_room_for_seals_is_damaged_and_its_entries_are_healed_by_a_backup()
    {
        JournalHead head = CareJournal.Make(_path);
        SealedFile.Flip(_path, 20);
        SealedFile.Flip(_path, 4095); // More than one byte: nothing tells any more that page 1 was sealed once.
        byte[] before = File.ReadAllBytes(_path);
        foreach (bool read in new[] { true, false })
        {
            var refusal = Assert.Throws<JournalException>(() => SqliteJournal.Open(_path, new JournalOptions { ReadOnly = read }));
            Assert.Equal(JournalProblem.Damaged, refusal.Problem);
            Assert.Contains("byte at 20", refusal.Message, StringComparison.Ordinal);
        }

        VerifyReport report = JournalVerify.Run(_path);
        Assert.True(report.Damaged);
        Assert.Contains(report.Findings, f => f is { Check: Check.File, Severity: Severity.Damage } && f.Text.Contains("no room for seals", StringComparison.Ordinal));
        Assert.Equal(before, File.ReadAllBytes(_path));
        Assert.DoesNotContain("-wal", string.Join(' ', Directory.GetFiles(_folder.Path)), StringComparison.Ordinal);
        string copy = _folder.File("copy.journal");
        try
        {
            Assert.Equal(head.ToString(), JournalBackup.Make(_path, copy).Head.ToString());
            Assert.True(JournalVerify.Run(copy).Whole);
        }
        catch (JournalException e)
        {
            // Rows that run over a page are looked for at another place when page ends are.
            Assert.Equal(JournalProblem.Damaged, e.Problem);
        }
    }
}
