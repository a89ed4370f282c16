// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Store;

namespace Heatwright.Journal.Tests.Store;

/// <summary>The promises of a store on a real server. Skipped, visibly, where none is installed.</summary>
public sealed class PostgresContractTests : JournalStoreContract
{
    private readonly string _place = PostgresServer.Shared.NewDatabase();

    protected override IJournalStore OpenPlace(JournalOptions options) => JournalPlace.Open(_place, options);

    protected override void Tamper(string sql) => PostgresServer.Execute(_place, sql);

    [Fact]
    public void Emptying_the_table_is_refused_too()
    {
        IJournalStore store = Open();
        store.Append(Sample.Note("A"));
        Assert.Throws<Npgsql.PostgresException>(() => Tamper("TRUNCATE entry"));
        Assert.Single(Sample.AssertChain(store));
    }

    [Fact]
    public void Entries_are_durable_even_where_the_database_says_not_to_wait()
    {
        PostgresServer.Execute(_place, $"ALTER DATABASE {new Uri(_place).AbsolutePath[1..]} SET synchronous_commit = off");
        var store = (SqlJournal)Open();
        Assert.Equal("on", store.Writing(s =>
        {
            string setting = s.Query("SELECT current_setting('synchronous_commit')", r => r.GetString(0))[0];
            return setting;
        }));
        Assert.Null(store.DurabilityNote);
    }
}
