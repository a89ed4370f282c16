// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Care;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;
using Heatwright.Journal.Store.Sqlite;
using Heatwright.Journal.Tests.Store;

namespace Heatwright.Journal.Tests.Care;

/// <summary>
/// A writer, or the server under it, is killed at a random instant again and again. What it was told is written is there, no request
/// is there in part, the chain holds, and the next start needs no hand.
/// </summary>
public sealed class KillTests : IDisposable
{
    private static readonly int Kills = Environment.GetEnvironmentVariable("HEATWRIGHT_LONG") == "1" ? 200 : 20;

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Writers_of_a_file_are_killed()
    {
        string path = _folder.File("works.journal");
        SqliteJournal.Open(path, new JournalOptions { CreateIfMissing = true }).Dispose();
        var acknowledged = new HashSet<Guid>();
        var random = new Random(31);
        for (int kill = 0; kill < Kills; kill++)
        {
            using (var writer = new KilledWriter(path, kill))
            {
                writer.Await(2 + random.Next(40)); // The first says that it starts.
                writer.Kill(random.Next(200_000));
                acknowledged.UnionWith(writer.Acknowledged);
            }

            // As it lies there, before anything has opened it; and after.
            VerifyReport killed = JournalVerify.Run(path);
            Assert.True(killed.Whole, string.Join('\n', killed.Findings));
            using (var store = SqliteJournal.Open(path))
            {
                AssertWhole(store, acknowledged);
                Assert.Equal(killed.Head.ToString(), store.Head().ToString());
                acknowledged.Add(store.Append(Sample.Note($"after {kill}", "1 of 1"))[0].Id);
            }

            Assert.Empty(JournalVerify.Run(path).Findings);
        }
    }

    [Fact]
    public void The_making_of_a_file_is_killed()
    {
        var random = new Random(32);
        for (int kill = 0; kill < Kills; kill++)
        {
            string path = _folder.File($"new{kill}.journal");
            using (var writer = new KilledWriter(KilledWriter.CreatePrefix + path, kill))
            {
                writer.AwaitStart();
                writer.Kill(random.Next(kill % 2 == 0 ? 40_000 : 400_000));
            }

            using var store = SqliteJournal.Open(path, new JournalOptions { CreateIfMissing = true });
            AssertWhole(store, []);
            store.Append(Sample.Note("first", "1 of 1"));
        }
    }

    [Fact]
    public void Writers_and_the_server_of_a_database_are_killed()
    {
        Assert.SkipUnless(PostgresServer.Absent is null, PostgresServer.Absent ?? "");
        using var server = new PostgresServer();
        string place = server.NewDatabase();
        JournalPlace.Create(place).Dispose();
        var acknowledged = new HashSet<Guid>();
        var random = new Random(33);
        for (int kill = 0; kill < Kills; kill++)
        {
            using (var writer = new KilledWriter(place, kill))
            {
                writer.Await(2 + random.Next(40)); // The first says that it starts.
                if (kill % 2 == 0)
                {
                    Thread.SpinWait(random.Next(200_000));
                    server.Kill();
                    server.Start();
                    writer.Await(5); // It goes on by itself.
                }

                writer.Kill(random.Next(200_000));
                acknowledged.UnionWith(writer.Acknowledged);
            }

            using SqlJournal store = JournalPlace.Open(place);
            AssertWhole(store, acknowledged);
            acknowledged.Add(store.Append(Sample.Note($"after {kill}", "1 of 1"))[0].Id);
        }

        Assert.Empty(JournalVerify.Run(place).Findings);
    }

    private static void AssertWhole(SqlJournal store, HashSet<Guid> acknowledged)
    {
        List<Entry> entries = Sample.AssertChain(store);
        Assert.Subset(entries.Select(e => e.Id).ToHashSet(), acknowledged);
        foreach (IGrouping<string, Entry> request in entries.GroupBy(e => e.Heat))
        {
            string text = ((NoteBody)request.First().Body).Text;
            Assert.Equal(text.Split(' ')[2], request.Count().ToString());
        }
    }
}
