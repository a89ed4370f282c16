// SPDX-License-Identifier: Apache-2.0
using System.Diagnostics;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;
using Microsoft.Data.Sqlite;

namespace Heatwright.Bench;

/// <summary>
/// The journal on SQLite: durable entries a second beside a bare loop of inserts with the same durability (WAL, synchronous=FULL, the same
/// columns and number of commits); opening a heat among 100 000; memory while a million entries are read.
/// </summary>
internal static class JournalBench
{
    private const double LeastEntriesPerS = 2000;
    private const double LeastRatio = 0.5;
    private const double OpenLimitS = 0.020;
    private const int Heats = 100_000;
    private const int EntriesPerHeat = 10;

    public static bool Run()
    {
        string folder = Directory.CreateTempSubdirectory("heatwright-bench-").FullName;
        try
        {
            bool good = Rates(folder, 1, 4000) & Rates(folder, 10, 40_000);
            return Sustained(folder) & Large(folder) & good;
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static NewEntry Fact(int i) => NewEntry.Of(
        "B-" + (i / EntriesPerHeat), new AdditionBody("lime", 1000 + (i % 977), OxygenNm3: i % 8000), DateTimeOffset.UnixEpoch.AddDays(20_000).AddSeconds(i), "program:bench");

    // One caller that waits for every answer: each request of so many entries is a commit of its own.
    private static bool Rates(string folder, int entriesPerCommit, int entries)
    {
        NewEntry[] facts = [.. Enumerable.Range(0, entries).Select(Fact)];
        double bare = BestOf(3, () => Bare(Path.Combine(folder, Guid.NewGuid() + ".db"), facts, entriesPerCommit));
        double ours = BestOf(3, () =>
        {
            using SqlJournal store = Open(Path.Combine(folder, Guid.NewGuid() + ".journal"));
            long start = Stopwatch.GetTimestamp();
            foreach (NewEntry[] chunk in facts.Chunk(entriesPerCommit))
            {
                store.Append(chunk);
            }

            return entries / Stopwatch.GetElapsedTime(start).TotalSeconds;
        });
        Console.WriteLine(
            $"journal, {entriesPerCommit} entries a commit: {ours:F0} durable entries/s; bare inserts {bare:F0}/s; ratio {ours / bare:F2}  (limit {LeastRatio:F1})");
        return ours / bare >= LeastRatio;
    }

    // Eight callers, one entry each: the writer puts together what waits.
    private static bool Sustained(string folder)
    {
        const int entries = 60_000;
        using SqlJournal store = Open(Path.Combine(folder, "sustained.journal"));
        using var writer = new JournalWriter(store);
        int next = -1;
        long start = Stopwatch.GetTimestamp();
        Task[] callers = [.. Enumerable.Range(0, 8).Select(_ => Task.Run(async () =>
        {
            for (int i = Interlocked.Increment(ref next); i < entries; i = Interlocked.Increment(ref next))
            {
                AppendOutcome outcome = await writer.AppendAsync(new AppendRequest([Fact(i)]));
                if (outcome.Status != AppendStatus.Written)
                {
                    throw new InvalidOperationException(outcome.Conflict);
                }
            }
        }))];
        Task.WaitAll(callers);
        double rate = entries / Stopwatch.GetElapsedTime(start).TotalSeconds;
        Console.WriteLine($"journal, 8 callers one entry each: {rate:F0} durable entries/s sustained over {entries}  (limit {LeastEntriesPerS:F0})");
        return rate >= LeastEntriesPerS;
    }

    private static bool Large(string folder)
    {
        using SqlJournal store = Open(Path.Combine(folder, "large.journal"));
        long start = Stopwatch.GetTimestamp();
        foreach (NewEntry[] chunk in Enumerable.Range(0, Heats * EntriesPerHeat).Select(Fact).Chunk(5000))
        {
            store.Append(chunk);
        }

        double fill = Heats * EntriesPerHeat / Stopwatch.GetElapsedTime(start).TotalSeconds;
        int pick = 0;
        Timing open = Stopwatches.Time(() => store.ReadHeat("B-" + (pick = (pick + 61_803) % Heats)).Select(e => e.Body).ToList(), 2, 100);
        Console.WriteLine($"journal, open a heat among {Heats}: {open}  (limit of the median {OpenLimitS * 1e3:F0} ms); filled at {fill:F0} entries/s in commits of 5000");

        long most = 0, read = 0;
        long before = GC.GetTotalMemory(forceFullCollection: true);
        start = Stopwatch.GetTimestamp();
        foreach (Entry _ in store.Read())
        {
            if (++read % 100_000 == 0)
            {
                most = Math.Max(most, GC.GetTotalMemory(forceFullCollection: true) - before);
            }
        }

        double mb = most / 1048576.0;
        Console.WriteLine($"journal, reading {read} entries: {read / Stopwatch.GetElapsedTime(start).TotalSeconds:F0}/s, live memory grew by {mb:F1} MB at most  (limit 32)");
        return open.MedianS <= OpenLimitS && mb <= 32 && read == Heats * EntriesPerHeat;
    }

    private static double BestOf(int times, Func<double> rate) => Enumerable.Range(0, times).Max(_ => rate());

    private static SqlJournal Open(string path) => JournalPlace.Open(path, new JournalOptions { CreateIfMissing = true });

    // The least that any program would do to have these rows durable: one prepared statement, one commit for each request.
    private static double Bare(string path, NewEntry[] facts, int entriesPerCommit)
    {
        using var connection = new SqliteConnection($"Data Source={path};Pooling=False");
        connection.Open();
        Execute(connection, "PRAGMA journal_mode=WAL");
        Execute(connection, "PRAGMA synchronous=FULL");
        Execute(connection, """
            CREATE TABLE entry(sequence INTEGER PRIMARY KEY, id BLOB UNIQUE, heat TEXT, heat_version INTEGER, kind TEXT, schema_version INTEGER,
            source_time INTEGER, arrival_time INTEGER, actor TEXT, reason TEXT, body BLOB, hash BLOB, UNIQUE(heat, heat_version)) STRICT
            """);
        using SqliteCommand insert = connection.CreateCommand();
        insert.CommandText = "INSERT INTO entry VALUES ($1,$2,$3,$4,$5,$6,$7,$8,$9,$10,$11,$12)";
        SqliteParameter[] p = [.. Enumerable.Range(1, 12).Select(i => insert.Parameters.AddWithValue("$" + i, i))];
        insert.Prepare();
        byte[] hash = new byte[32];
        int sequence = 0;
        long start = Stopwatch.GetTimestamp();
        foreach (NewEntry[] chunk in facts.Chunk(entriesPerCommit))
        {
            using SqliteTransaction transaction = connection.BeginTransaction();
            insert.Transaction = transaction;
            foreach (NewEntry fact in chunk)
            {
                object[] values =
                [
                    ++sequence, fact.Id.ToByteArray(bigEndian: true), fact.Heat, ((sequence - 1) % EntriesPerHeat) + 1, fact.Kind.Name(), 1,
                    fact.SourceTime.ToUnixTimeMilliseconds(), fact.SourceTime.ToUnixTimeMilliseconds(), fact.Actor, fact.Reason, EntryText.Write(fact.Body), hash,
                ];
                for (int i = 0; i < values.Length; i++)
                {
                    p[i].Value = values[i];
                }

                insert.ExecuteNonQuery();
            }

            transaction.Commit();
        }

        return facts.Length / Stopwatch.GetElapsedTime(start).TotalSeconds;
    }

    private static void Execute(SqliteConnection connection, string sql)
    {
        using SqliteCommand command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }
}
