// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Store;
using Heatwright.Journal.Store.Sqlite;
using Microsoft.Data.Sqlite;

namespace Heatwright.Journal.Tests.Care;

public sealed class PageSealTests : IDisposable
{
    private readonly SealedFile _file = new();

    public void Dispose() => _file.Dispose();

    [Theory]
    [InlineData("wal")]
    [InlineData("delete")]
    [InlineData("truncate")]
    [InlineData("persist")]
    public void Every_page_is_sealed_whatever_the_journal_mode(string mode)
    {
        using (SqliteConnection connection = SealedFile.Create(_file.Path, mode))
        {
            SealedFile.Do(connection, "PRAGMA wal_checkpoint(TRUNCATE)");
            Assert.Empty(SealedFile.Broken(_file.Path));
            SealedFile.Do(connection, "DELETE FROM t WHERE id % 3 = 0; UPDATE t SET x = randomblob(200) WHERE id % 5 = 0");
            SealedFile.Do(connection, "BEGIN; UPDATE t SET x = randomblob(7000); ROLLBACK");
        }

        Assert.True(new FileInfo(_file.Path).Length > 100 * 4096);
        Assert.Empty(SealedFile.Broken(_file.Path));
    }

    [Fact]
    public void Seals_outlive_vacuum_and_change_of_journal_mode()
    {
        using (SqliteConnection connection = SealedFile.Create(_file.Path))
        {
            SealedFile.Do(connection, "DELETE FROM t WHERE id % 2 = 0; VACUUM");
            SealedFile.Do(connection, "PRAGMA journal_mode=delete");
            SealedFile.Do(connection, "DELETE FROM t WHERE id % 7 = 0; VACUUM");
            SealedFile.Do(connection, "PRAGMA journal_mode=wal");
            SealedFile.Fill(connection, 50);
            SealedFile.Do(connection, $"VACUUM INTO '{_file.In("into.db")}'");
        }

        Assert.Empty(SealedFile.Broken(_file.Path));
        Assert.Empty(SealedFile.Broken(_file.In("into.db")));
    }

    [Fact]
    public void A_copy_by_online_backup_is_sealed()
    {
        using (SqliteConnection from = SealedFile.Create(_file.Path))
        using (SqliteConnection to = SealedFile.Open(_file.In("copy.db")))
        {
            from.BackupDatabase(to);
        }

        Assert.Empty(SealedFile.Broken(_file.In("copy.db")));
        using SqliteConnection copy = SealedFile.Open(_file.In("copy.db"), mode: SqliteOpenMode.ReadOnly);
        Assert.Equal(200, SealedFile.Do(copy, "SELECT count(length(x)) FROM t"));
    }

    [Fact]
    public void A_rolled_back_hot_journal_leaves_sealed_pages()
    {
        using (SqliteConnection connection = SealedFile.Create(_file.Path, "delete"))
        {
            SealedFile.Do(connection, "PRAGMA cache_size=5; PRAGMA cache_spill=5; BEGIN; UPDATE t SET x = randomblob(9000)");
            // What a killed process leaves: a half changed file with a journal of what it held before.
            File.Copy(_file.Path, _file.In("hot.db"));
            File.Copy(_file.Path + "-journal", _file.In("hot.db-journal"));
        }

        using (SqliteConnection again = SealedFile.Open(_file.In("hot.db")))
        {
            Assert.Equal(200, SealedFile.Do(again, "SELECT count(length(x)) FROM t"));
        }

        Assert.Empty(SealedFile.Broken(_file.In("hot.db")));
    }

    [Fact]
    public void Other_programs_read_the_file_as_ever_and_what_they_write_is_found()
    {
        SealedFile.Create(_file.Path).Dispose();
        using (SqliteConnection other = SealedFile.Open(_file.Path, seals: false))
        {
            Assert.Equal(200, SealedFile.Do(other, "SELECT count(length(x)) FROM t"));
            SealedFile.Do(other, "CREATE TABLE new(a); INSERT INTO new VALUES (1)");
        }

        List<BrokenPage> broken = SealedFile.Broken(_file.Path, search: 1);
        Assert.Contains(broken, p => p is { Number: 1, Unsealed: false, Flip: null });
        Assert.Contains(broken, p => p.Unsealed);
    }

    [Fact]
    public void Two_processes_worth_of_connections_share_a_sealed_file_from_its_first_page()
    {
        using SqliteConnection early = SealedFile.Open(_file.Path);
        SealedFile.Do(early, "PRAGMA user_version"); // Has seen an empty file.
        using (SqliteConnection connection = SealedFile.Create(_file.Path, rows: 20))
        {
            SealedFile.Fill(early, 50);
            SealedFile.Do(early, "PRAGMA wal_checkpoint(TRUNCATE)");
            Assert.Empty(SealedFile.Broken(_file.Path));
            SealedFile.Fill(connection, 50);
        }

        SealedFile.Do(early, "PRAGMA wal_checkpoint(TRUNCATE)");
        Assert.Empty(SealedFile.Broken(_file.Path));
        Assert.Equal(120, SealedFile.Do(early, "SELECT count(length(x)) FROM t"));
    }

    [Theory]
    [InlineData("")]
    [InlineData("PRAGMA mmap_size=100000000")]
    public void A_flipped_byte_is_named_by_the_scan_and_refused_when_read(string setting)
    {
        SealedFile.Create(_file.Path).Dispose();
        long pages = new FileInfo(_file.Path).Length / 4096;
        for (long page = 1; page <= pages; page += 7)
        {
            long offset = ((page - 1) * 4096) + ((page * 613) % 4096);
            SealedFile.Flip(_file.Path, offset);
            BrokenPage broken = Assert.Single(SealedFile.Broken(_file.Path));
            Assert.Equal(page, broken.Number);
            Assert.Equal(offset, broken.Flip!.Offset);
            Assert.Equal(0x10, broken.Flip.Is ^ broken.Flip.Was);

            using (SqliteConnection connection = SealedFile.Open(_file.Path, mode: SqliteOpenMode.ReadOnly))
            {
                var refusal = Assert.Throws<SqliteException>(() =>
                {
                    SealedFile.Do(connection, setting);
                    SealedFile.Do(connection, "SELECT sum(length(hex(x))) FROM t NOT INDEXED");
                    SealedFile.Do(connection, "SELECT count(x) FROM t INDEXED BY tx WHERE length(x) < 300");
                    SealedFile.Do(connection, "SELECT 1 FROM t WHERE x = x'00' AND length(x) < 300");
                });
                Assert.Equal(PageSeal.DamagedPageCode, refusal.SqliteExtendedErrorCode);
                JournalException error = PageSeal.Damaged(_file.Path, refusal);
                Assert.Equal(JournalProblem.Damaged, error.Problem);
                Assert.Contains($"page {page} is not what was written", error.Message, StringComparison.Ordinal);
            }

            SealedFile.Flip(_file.Path, offset);
        }

        Assert.Empty(SealedFile.Broken(_file.Path));
    }

    [Fact]
    public void Pages_in_each_others_place_are_found()
    {
        SealedFile.Create(_file.Path).Dispose();
        byte[] bytes = File.ReadAllBytes(_file.Path);
        byte[] third = bytes[(2 * 4096)..(3 * 4096)];
        bytes.AsSpan(9 * 4096, 4096).CopyTo(bytes.AsSpan(2 * 4096));
        third.CopyTo(bytes.AsSpan(9 * 4096));
        File.WriteAllBytes(_file.Path, bytes);
        Assert.Equal([3L, 10L], SealedFile.Broken(_file.Path).Select(p => p.Number));
    }

    [Fact]
    public void A_file_without_room_for_seals_is_left_alone()
    {
        using (SqliteConnection connection = SealedFile.Open(_file.Path))
        {
            SealedFile.Do(connection, "PRAGMA journal_mode=wal; CREATE TABLE t(id INTEGER PRIMARY KEY, x BLOB)");
            SealedFile.Fill(connection, 100);
        }

        var header = File.ReadAllBytes(_file.Path).AsSpan(0, 100);
        Assert.Equal(0, PageSeal.SealedPageSize(header));
        using SqliteConnection other = SealedFile.Open(_file.Path, seals: false);
        using SqliteCommand check = other.CreateCommand();
        check.CommandText = "PRAGMA integrity_check";
        Assert.Equal("ok", check.ExecuteScalar());
    }
}
