// SPDX-License-Identifier: Apache-2.0
using System.Buffers.Binary;
using System.Text;
using Heatwright.Journal.Care;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;
using Heatwright.Journal.Store.Sqlite;
using Heatwright.Journal.Tests.Store;

namespace Heatwright.Journal.Tests.Care;

/// <summary>Whatever happens to the bytes of a closed journal, verify finds it and names the place.</summary>
public sealed class VerifyFileTests : IDisposable
{
    private static readonly bool Long = Environment.GetEnvironmentVariable("HEATWRIGHT_LONG") == "1";

    private readonly TemporaryFolder _folder = new();
    private readonly string _path;

    public VerifyFileTests() => _path = _folder.File("works.journal");

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_whole_journal_has_no_findings_and_stays_as_it_is()
    {
        JournalHead head = CareJournal.Make(_path);
        byte[] before = File.ReadAllBytes(_path);
        VerifyReport report = JournalVerify.Run(_path, new VerifyOptions { ExpectedHead = head.ToString() });
        Assert.Empty(report.Findings);
        Assert.True(report.Whole);
        Assert.Equal((12 * 11, 12, head.ToString()), (report.Entries, report.Heats, report.Head.ToString()));
        Assert.Equal(before, File.ReadAllBytes(_path));
        Assert.Equal([_path], Directory.GetFiles(_folder.Path));
    }

    [Fact]
    public void A_flipped_byte_anywhere_is_found_and_named()
    {
        CareJournal.Make(_path);
        long length = new FileInfo(_path).Length;
        var random = new Random(11);
        IEnumerable<long> offsets =
        [
            .. Enumerable.Range(0, 100).Select(i => (long)i),
            .. Enumerable.Range(1, (int)(length / 4096)).Select(p => (p * 4096L) - 1 - random.Next(16)),
            .. Enumerable.Range(0, Long ? 3000 : 120).Select(_ => random.NextInt64(length)),
        ];
        foreach (long offset in offsets)
        {
            byte change = (byte)(1 << random.Next(8));
            SealedFile.Flip(_path, offset, change);
            VerifyReport report = JournalVerify.Run(_path);
            SealedFile.Flip(_path, offset, change);
            Assert.True(report.Damaged, $"byte {offset}");
            Finding finding = Assert.Single(report.Findings, f => f.Check == Check.Page);
            Assert.Equal(((offset / 4096) + 1, offset, offset), (finding.Page, finding.FirstByte, finding.LastByte));
            Assert.Contains($"the byte at {offset} is", finding.Text, StringComparison.Ordinal);
            Assert.DoesNotContain("cannot be told", finding.Text, StringComparison.Ordinal);
        }

        Assert.True(JournalVerify.Run(_path).Whole);
    }

    [Fact]
    public void A_flip_in_an_entry_names_the_entry_and_no_other()
    {
        CareJournal.Make(_path);
        byte[] bytes = File.ReadAllBytes(_path);
        List<Entry> entries = Read();
        var random = new Random(12);
        int inOverflow = 0;
        foreach (Entry entry in random.GetItems(entries.ToArray(), Long ? 400 : 40).Concat(entries.Where(e => e.BodyBytes.Length > 8000).Take(3)))
        {
            // The id is in the row and in an index; the hash only in the row; the body there or in pages of its own.
            byte[] piece = entry.BodyBytes.Length > 8000 ? entry.BodyBytes.Slice(7000, 300).ToArray() : random.Next(2) == 0 ? entry.Hash.ToArray() : entry.BodyBytes.ToArray();
            int at = bytes.AsSpan().IndexOf(piece);
            if (at < 0 || bytes.AsSpan(at + 1).IndexOf(piece) >= 0)
            {
                continue;
            }

            inOverflow += entry.BodyBytes.Length > 8000 ? 1 : 0;
            int offset = at + random.Next(piece.Length);
            SealedFile.Flip(_path, offset);
            VerifyReport report = JournalVerify.Run(_path);
            SealedFile.Flip(_path, offset);
            Finding page = Assert.Single(report.Findings, f => f.Check == Check.Page);
            Assert.Contains($"it lies in entry {entry.Sequence}", page.Text, StringComparison.Ordinal);
            Assert.Equal((entry.Sequence, entry.Heat), (page.Sequence, page.Heat));
            Finding chain = Assert.Single(report.Findings, f => f.Check == Check.Chain);
            Assert.Equal((entry.Sequence, entry.Heat), (chain.Sequence, chain.Heat));
        }

        Assert.True(inOverflow > 0);
    }

    [Fact]
    public void Any_byte_of_a_row_names_that_row()
    {
        // Not only the values: length, number and types of a row are bytes of it too, and there the database itself loses its way.
        CareJournal.Make(_path);
        using (Microsoft.Data.Sqlite.SqliteConnection connection = SealedFile.Open(_path))
        {
            SealedFile.Do(connection, "VACUUM"); // Remains of rows are left in the root page only, which comes first.
        }

        byte[] bytes = File.ReadAllBytes(_path);
        Entry entry = Read().First(e => e.Kind == EntryKind.Measurement);
        int id = bytes.AsSpan().LastIndexOf([.. entry.Id.ToByteArray(bigEndian: true), .. Encoding.UTF8.GetBytes(entry.Heat)]);
        for (int back = 1; back <= 14; back++)
        {
            SealedFile.Flip(_path, id - back, 0x41);
            VerifyReport report = JournalVerify.Run(_path);
            SealedFile.Flip(_path, id - back, 0x41);
            Finding finding = Assert.Single(report.Findings, f => f.Check == Check.Page);
            Assert.True(entry.Sequence == finding.Sequence, $"{back} bytes before the id: {finding}");
        }
    }

    [Fact]
    public void A_flip_in_a_free_page_is_found_and_said_to_touch_nothing()
    {
        CareJournal.Make(_path);
        byte[] bytes = File.ReadAllBytes(_path);
        long trunk = BinaryPrimitives.ReadUInt32BigEndian(bytes.AsSpan(32));
        Assert.True(trunk > 0);
        long leaf = BinaryPrimitives.ReadUInt32BigEndian(bytes.AsSpan((int)((trunk - 1) * 4096) + 8));
        foreach (long page in new[] { trunk, leaf })
        {
            long offset = ((page - 1) * 4096) + 3000;
            SealedFile.Flip(_path, offset);
            VerifyReport report = JournalVerify.Run(_path);
            SealedFile.Flip(_path, offset);
            Finding finding = Assert.Single(report.Findings);
            Assert.Equal((Severity.Damage, page), (finding.Severity, finding.Page));
            Assert.Contains("a page that is free; nothing of the record is touched", finding.Text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void A_file_cut_off_anywhere_is_found()
    {
        JournalHead head = CareJournal.Make(_path);
        byte[] bytes = File.ReadAllBytes(_path);
        var random = new Random(13);
        int[] lengths = [1, 15, 16, 99, 100, 4095, 4096, 8192, bytes.Length - 4096, bytes.Length - 1, .. Enumerable.Range(0, Long ? 300 : 20).Select(_ => random.Next(1, bytes.Length))];
        foreach (int length in lengths)
        {
            File.WriteAllBytes(_path, bytes[..length]);
            VerifyReport report = JournalVerify.Run(_path, new VerifyOptions { ExpectedHead = head.ToString() });
            Assert.Contains(report.Findings, f => f is { Check: Check.File, Severity: Severity.Damage } && f.Text.Contains("cut off", StringComparison.Ordinal));
        }
    }

    [Fact]
    public void Pages_in_each_others_place_and_pages_of_zeros_are_found()
    {
        CareJournal.Make(_path);
        byte[] bytes = File.ReadAllBytes(_path);
        byte[] swapped = [.. bytes];
        bytes.AsSpan(5 * 4096, 4096).CopyTo(swapped.AsSpan(8 * 4096));
        bytes.AsSpan(8 * 4096, 4096).CopyTo(swapped.AsSpan(5 * 4096));
        File.WriteAllBytes(_path, swapped);
        Assert.Equal([6L, 9L], JournalVerify.Run(_path).Findings.Where(f => f.Check == Check.Page).Select(f => f.Page!.Value));

        // The root of the entries, written by nobody.
        bytes.AsSpan(1 * 4096, 4096).Clear();
        File.WriteAllBytes(_path, bytes);
        Assert.True(JournalVerify.Run(_path).Damaged);
    }

    [Fact]
    public void Many_wrong_bytes_name_the_range_of_entries()
    {
        CareJournal.Make(_path);
        byte[] bytes = File.ReadAllBytes(_path);
        Entry entry = Read()[20];
        int at = bytes.AsSpan().IndexOf(entry.Hash.Span);
        new Random(3).NextBytes(bytes.AsSpan(at & ~4095, 4096));
        File.WriteAllBytes(_path, bytes);
        VerifyReport report = JournalVerify.Run(_path);
        Finding page = Assert.Single(report.Findings, f => f.Check == Check.Page);
        Assert.Equal((at / 4096) + 1, page.Page);
        Assert.Matches(@"more than one byte differs.*it holds entries \d+ to \d+", page.Text);
        Assert.Contains(report.Findings, f => f.Check == Check.Chain && f.Text.Contains("missing", StringComparison.Ordinal));
    }

    [Fact]
    public void A_file_that_is_no_journal_is_refused()
    {
        File.WriteAllText(_path, new string('x', 10_000));
        Assert.Equal(JournalProblem.NotAJournal, Assert.Throws<JournalException>(() => JournalVerify.Run(_path)).Problem);
        Assert.Equal(JournalProblem.NotFound, Assert.Throws<JournalException>(() => JournalVerify.Run(_folder.File("none"))).Problem);
        Assert.Throws<ArgumentException>(() => JournalVerify.Run(_path, new VerifyOptions { ExpectedHead = "12" }));
    }

    private List<Entry> Read()
    {
        using var store = SqliteJournal.Open(_path, new JournalOptions { ReadOnly = true });
        return [.. store.Read()];
    }
}
