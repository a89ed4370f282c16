// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Store;

namespace Heatwright.Journal.Tests.Store;

/// <summary>Many writers at once lose and double nothing, through a crash and a restart of the server too.</summary>
public sealed class ManyWritersTests(ITestOutputHelper output)
{
    [Fact]
    public async Task Sixteen_writers_on_a_server_that_crashes_and_restarts_lose_and_double_nothing()
    {
        Assert.SkipUnless(PostgresServer.Absent is null, PostgresServer.Absent ?? "");
        using var server = new PostgresServer();
        string place = server.NewDatabase();
        using SqlJournal judge = JournalPlace.Create(place);
        SqlJournal[] stores = [.. Enumerable.Range(0, 8).Select(_ => JournalPlace.Open(place))];
        var crew = new WriterCrew(16, w => stores[w % stores.Length]);
        using var stop = new CancellationTokenSource();
        Task work = crew.Run(stop.Token);
        using var failed = new CancellationTokenSource();
        _ = work.ContinueWith(_ => failed.Cancel(), TaskContinuationOptions.OnlyOnFaulted);
        try
        {
            // In the middle of the time: a crash under load, then an orderly restart under load.
            await Pass(WriterCrew.Time / 2, failed.Token);
            await crew.More(50, failed.Token);
            server.Stop(atOnce: true);
            server.Start();
            await crew.More(50, failed.Token);
            server.Stop(atOnce: false);
            server.Start();
            await crew.More(50, failed.Token);
            await Pass(WriterCrew.Time / 2, failed.Token);
        }
        catch (OperationCanceledException) when (failed.IsCancellationRequested)
        {
            // What the writers met is thrown below.
        }

        await stop.CancelAsync();
        await work;
        output.WriteLine($"{crew.Acknowledged.Count} entries by 16 writers in {WriterCrew.Time.TotalSeconds} s, {crew.Conflicts} conflicts");
        crew.AssertNothingLostOrDoubled(judge);
        Assert.True(crew.Conflicts > 0, "the writers never met: the test shows nothing");
        Array.ForEach(stores, s => s.Dispose());
    }

    [Fact]
    public async Task Eight_threads_and_two_stores_on_one_file_lose_and_double_nothing()
    {
        using var folder = new TemporaryFolder();
        string place = folder.File("shop.journal");
        using SqlJournal first = JournalPlace.Create(place);
        using SqlJournal second = JournalPlace.Open(place);
        var crew = new WriterCrew(8, w => w % 2 == 0 ? first : second);
        using var stop = new CancellationTokenSource();
        Task work = crew.Run(stop.Token);
        await Task.WhenAny(work, Pass(WriterCrew.Time / 4, TestContext.Current.CancellationToken));
        await Task.WhenAny(work, crew.More(200, TestContext.Current.CancellationToken));
        await stop.CancelAsync();
        await work;
        output.WriteLine($"{crew.Acknowledged.Count} entries by 8 writers in {WriterCrew.Time.TotalSeconds / 4} s, {crew.Conflicts} conflicts");
        crew.AssertNothingLostOrDoubled(first);
        Assert.True(crew.Conflicts > 0, "the writers never met: the test shows nothing");
    }

    [Fact]
    public void A_server_that_does_not_come_back_is_given_up()
    {
        Assert.SkipUnless(PostgresServer.Absent is null, PostgresServer.Absent ?? "");
        using var server = new PostgresServer();
        using SqlJournal store = JournalPlace.Open(server.NewDatabase(), new JournalOptions { CreateIfMissing = true, Reconnects = 3 });
        store.Append(Sample.Note("A"));
        server.Stop(atOnce: true);
        Heatwright.Journal.Entries.NewEntry late = Sample.Note("A");
        var refusal = Assert.Throws<JournalException>(() => store.Append(late));
        Assert.Equal(JournalProblem.Unreachable, refusal.Problem);
        Assert.Contains(store.Place, refusal.Message, StringComparison.Ordinal);
        server.Start();
        store.Append(late);
        Assert.Equal(2, Sample.AssertChain(store).Count);
    }

    [Fact]
    public async Task A_watcher_is_told_what_came_while_its_connection_was_lost()
    {
        Assert.SkipUnless(PostgresServer.Absent is null, PostgresServer.Absent ?? "");
        using var server = new PostgresServer();
        string place = server.NewDatabase();
        using SqlJournal writer = JournalPlace.Create(place);
        using SqlJournal store = JournalPlace.Open(place);
        var news = System.Threading.Channels.Channel.CreateUnbounded<long>();
        using IDisposable watching = store.Watch(h => news.Writer.TryWrite(h.Sequence));
        writer.Append(Sample.Note("A"));
        Assert.Equal(1, await news.Reader.ReadAsync(TestContext.Current.CancellationToken));
        server.Stop(atOnce: true);
        server.Start();
        writer.Append(Sample.Note("A"));
        Assert.Equal(2, await news.Reader.ReadAsync(TestContext.Current.CancellationToken));
    }

    /// <summary>Lets time pass in which others work; nothing is concluded from its having passed.</summary>
    private static async Task Pass(TimeSpan time, CancellationToken cancellation)
    {
        using var timer = new PeriodicTimer(time);
        await timer.WaitForNextTickAsync(cancellation);
    }
}
