// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Store;
using Heatwright.Journal.Store.Migrations;
using Heatwright.Journal.Store.Sqlite;
using Microsoft.Data.Sqlite;
using static Heatwright.Journal.Tests.Store.Sample;

namespace Heatwright.Journal.Tests.Store;

/// <summary>Older journals are brought up to date with a copy beside them; newer ones and what is no journal are refused and left as they are.</summary>
public sealed class MigrationTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    private string Path => _folder.File("shop.journal");

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Both_databases_have_the_same_steps() =>
        Assert.Equal(Migration.Sqlite.Select(m => (m.Version, m.Name)), Migration.Postgres.Select(m => (m.Version, m.Name)));

    [Fact]
    public void An_older_file_is_brought_up_to_date_with_a_copy_beside_it()
    {
        string head = MakeVersion1();
        using (SqlJournal store = JournalPlace.Open(Path))
        {
            Assert.Equal(Migration.Newest, store.LayoutVersion);
            Assert.Equal(head, store.Head().ToString());
            Assert.Equal(2, AssertChain(store).Count);
            Assert.Equal(0, store.Heats.UpTo());
            store.Append(Note("A"));
        }

        string copy = Assert.Single(Directory.GetFiles(_folder.Path, "*before*"));
        Assert.Equal("shop.before-v2.journal", System.IO.Path.GetFileName(copy));
        using SqlJournal old = JournalPlace.Open(copy, new JournalOptions { ReadOnly = true });
        Assert.Equal(1, old.LayoutVersion);
        Assert.Equal(head, old.Head().ToString());
        Assert.Equal(2, AssertChain(old).Count);
    }

    [Fact]
    public void A_copy_from_before_is_never_written_over()
    {
        MakeVersion1();
        File.WriteAllText(_folder.File("shop.before-v2.journal"), "first");
        File.WriteAllText(_folder.File("shop.before-v2-2.journal"), "second");
        JournalPlace.Open(Path).Dispose();
        Assert.Equal("first", File.ReadAllText(_folder.File("shop.before-v2.journal")));
        Assert.Equal("second", File.ReadAllText(_folder.File("shop.before-v2-2.journal")));
        using SqlJournal copy = JournalPlace.Open(_folder.File("shop.before-v2-3.journal"), new JournalOptions { ReadOnly = true });
        Assert.Equal(2, AssertChain(copy).Count);
        Assert.Empty(Directory.GetFiles(_folder.Path, "*.part"));
    }

    [Fact]
    public void Many_who_open_an_older_file_at_once_all_find_it_up_to_date()
    {
        MakeVersion1();
        Parallel.For(0, 4, new ParallelOptions { MaxDegreeOfParallelism = 4 }, _ =>
        {
            using SqlJournal store = JournalPlace.Open(Path);
            store.Append(Note("B"));
        });
        using SqlJournal again = JournalPlace.Open(Path);
        Assert.Equal(6, AssertChain(again).Count);
    }

    [Fact]
    public void An_older_file_can_be_read_as_it_is()
    {
        MakeVersion1();
        byte[] before = File.ReadAllBytes(Path);
        using (SqlJournal store = JournalPlace.Open(Path, new JournalOptions { ReadOnly = true }))
        {
            Assert.Equal(1, store.LayoutVersion);
            Assert.Equal(2, AssertChain(store).Count);
            var row = new HeatRow("A", Time, "ordered", "", "", "2031-03-04", "early", 0, "{}");
            store.Heats.Save([row], 2);
            Assert.Equal(2, store.Heats.UpTo());
            Assert.Equal([row], store.Heats.Query(new HeatFilter()));
        }

        Assert.Equal(before, File.ReadAllBytes(Path));
        Assert.Empty(Directory.GetFiles(_folder.Path, "*before*"));
    }

    [Fact]
    public void The_list_of_a_reader_begins_with_the_stored_rows_and_adds_nothing_to_them()
    {
        var row = new HeatRow("A", Time, "ordered", "", "", "2031-03-04", "early", 0, "{}");
        using SqlJournal store = JournalPlace.Create(Path);
        store.Heats.Save([row], 2);
        using SqlJournal reader = JournalPlace.Open(Path, new JournalOptions { ReadOnly = true });
        Assert.Equal(2, reader.Heats.UpTo());
        Assert.Equal([row], reader.Heats.Query(new HeatFilter()));
        reader.Heats.Save([row with { Stage = "closed" }], 3);
        Assert.Equal("closed", reader.Heats.Get(["A"])["A"].Stage);
        Assert.Equal(2, store.Heats.UpTo());
        Assert.Equal([row], store.Heats.Query(new HeatFilter()));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_newer_file_is_refused_with_both_versions_and_not_touched(bool readOnly)
    {
        JournalPlace.Create(Path).Dispose();
        Execute(Path, "PRAGMA user_version = 7");
        byte[] before = File.ReadAllBytes(Path);
        JournalException refusal = Refusal(JournalProblem.TooNew, Path, new JournalOptions { ReadOnly = readOnly, CreateIfMissing = !readOnly });
        Assert.Contains("layout version 7", refusal.Message, StringComparison.Ordinal);
        Assert.Contains($"up to {Migration.Newest}", refusal.Message, StringComparison.Ordinal);
        Assert.Equal(before, File.ReadAllBytes(Path));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void What_is_no_journal_is_refused_and_not_touched(bool readOnly)
    {
        File.WriteAllText(Path, string.Join('\n', Enumerable.Range(0, 400).Select(i => $"{i};0.04;1650")));
        string database = _folder.File("other.db");
        Execute(database, "CREATE TABLE entry (sequence INTEGER PRIMARY KEY); PRAGMA user_version = 1");
        var options = new JournalOptions { ReadOnly = readOnly, CreateIfMissing = !readOnly };
        foreach (string path in new[] { Path, database })
        {
            byte[] before = File.ReadAllBytes(path);
            Refusal(JournalProblem.NotAJournal, path, options);
            Assert.Equal(before, File.ReadAllBytes(path));
        }

        Refusal(JournalProblem.NotAJournal, _folder.Path, options);
    }

    [Fact]
    public void A_file_left_empty_by_a_broken_beginning_becomes_a_journal_only_where_one_is_to_be_made()
    {
        File.WriteAllBytes(Path, []);
        Refusal(JournalProblem.NotAJournal, Path, new JournalOptions());
        Refusal(JournalProblem.NotAJournal, Path, new JournalOptions { ReadOnly = true });
        using SqlJournal store = JournalPlace.Open(Path, new JournalOptions { CreateIfMissing = true });
        store.Append(Note("A"));
        Assert.Single(AssertChain(store));
    }

    [Fact]
    public void Where_nothing_is_nothing_is_made_unasked()
    {
        Refusal(JournalProblem.NotFound, Path, new JournalOptions());
        Refusal(JournalProblem.NotFound, Path, new JournalOptions { ReadOnly = true, CreateIfMissing = true });
        Refusal(JournalProblem.NotFound, _folder.File("no/such/shop.journal"), new JournalOptions { CreateIfMissing = true });
        Assert.Empty(Directory.GetFileSystemEntries(_folder.Path));
        JournalPlace.Create(Path).Dispose();
        Assert.Equal(JournalProblem.Exists, Assert.Throws<JournalException>(() => JournalPlace.Create(Path)).Problem);
    }

    private static JournalException Refusal(JournalProblem problem, string path, JournalOptions options)
    {
        var refusal = Assert.Throws<JournalException>(() => JournalPlace.Open(path, options));
        Assert.Equal(problem, refusal.Problem);
        Assert.Contains(path, refusal.Message, StringComparison.Ordinal);
        Assert.Contains("Mend:", refusal.Message, StringComparison.Ordinal);
        return refusal;
    }

    /// <summary>A file as the first layout left it, with two entries; their chain's head.</summary>
    private string MakeVersion1()
    {
        using SqlJournal source = JournalPlace.Create(_folder.File("source.journal"));
        source.Append(Note("A"), Scrap("B", 30_000));
        string head = source.Head().ToString();
        source.Dispose();
        using SqliteConnection connection = Connect(Path);
        PageSeal.Prepare(connection);
        SqliteFile.Execute(connection, $"PRAGMA journal_mode = WAL; {Migration.Sqlite[0].Sql}");
        SqliteFile.Execute(
            connection,
            $"""
            ATTACH '{_folder.File("source.journal")}' AS source;
            INSERT INTO entry SELECT * FROM source.entry ORDER BY sequence;
            PRAGMA application_id = {SqliteFile.ApplicationId};
            PRAGMA user_version = 1;
            """);
        return head;
    }

    private static void Execute(string path, string sql)
    {
        using SqliteConnection connection = Connect(path);
        SqliteFile.Execute(connection, sql);
    }

    private static SqliteConnection Connect(string path)
    {
        PageSealVfs.Register();
        var connection = new SqliteConnection($"Data Source={path};Vfs={PageSealVfs.Name};Pooling=False");
        connection.Open();
        return connection;
    }
}
