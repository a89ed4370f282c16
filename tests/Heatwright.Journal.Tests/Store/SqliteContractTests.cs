// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Store;
using Microsoft.Data.Sqlite;

namespace Heatwright.Journal.Tests.Store;

public sealed class SqliteContractTests : JournalStoreContract
{
    private readonly TemporaryFolder _folder = new();

    private string Path => _folder.File("shop.journal");

    public override void Dispose()
    {
        base.Dispose();
        _folder.Dispose();
    }

    protected override IJournalStore OpenPlace(JournalOptions options) => JournalPlace.Open(Path, options);

    protected override void Tamper(string sql)
    {
        using var connection = new SqliteConnection($"Data Source={Path};Pooling=False");
        connection.Open();
        using SqliteCommand command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }

    [Fact]
    public void Replacing_an_entry_is_refused_too()
    {
        IJournalStore store = Open();
        store.Append(Sample.Note("A"), Sample.Note("A"));
        Assert.Throws<SqliteException>(() => Tamper("INSERT OR REPLACE INTO entry SELECT sequence, id, heat, heat_version, kind, schema_version, source_time, arrival_time, 'person:ben', reason, hash, body FROM entry WHERE sequence = 1"));
        Assert.Throws<SqliteException>(() => Tamper("INSERT OR REPLACE INTO entry SELECT 3, id, heat, 3, kind, schema_version, source_time, arrival_time, actor, reason, hash, body FROM entry WHERE sequence = 1"));
        Assert.Equal(2, Sample.AssertChain(store).Count);
    }

    [Fact]
    public void Every_page_of_a_new_journal_has_room_for_its_seal_and_the_header_names_the_program()
    {
        IJournalStore store = Open();
        store.Append(Sample.Note("A"));
        store.Dispose();
        byte[] file = File.ReadAllBytes(Path);
        Assert.Equal(16, file[20]);
        Assert.Equal("HwJ1"u8.ToArray(), file[68..72]);
        Assert.False(File.Exists(Path + "-wal"));
    }
}
