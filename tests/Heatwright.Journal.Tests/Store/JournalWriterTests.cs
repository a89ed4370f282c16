// SPDX-License-Identifier: Apache-2.0
using System.Collections.Concurrent;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;
using static Heatwright.Journal.Tests.Store.Sample;

namespace Heatwright.Journal.Tests.Store;

public sealed class JournalWriterTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly SqlJournal _store;

    public JournalWriterTests() => _store = JournalPlace.Create(_folder.File("shop.journal"));

    public void Dispose()
    {
        _store.Dispose();
        _folder.Dispose();
    }

    [Fact]
    public async Task Many_callers_are_each_answered_with_their_own_entries()
    {
        await using var writer = new JournalWriter(_store, capacity: 16);
        NewEntry[] entries = [.. Enumerable.Range(0, 500).Select(i => Note($"H{i % 9}", $"note {i}"))];
        AppendOutcome[] outcomes = await Task.WhenAll(entries.Select(e => writer.AppendAsync(new AppendRequest([e]), TestContext.Current.CancellationToken)));
        Assert.All(outcomes, o => Assert.Equal(AppendStatus.Written, o.Status));
        Assert.Equal(entries.Select(e => e.Id), outcomes.Select(o => o.Entries[0].Id));
        Assert.Equal(500, AssertChain(_store).Count);
    }

    [Fact]
    public async Task What_waits_goes_together_into_one_transaction_and_stays_in_order()
    {
        using var slow = new HeldStore(_store);
        var writer = new JournalWriter(slow);
        Task<AppendOutcome> first = writer.AppendAsync(new AppendRequest([Note("A")]), TestContext.Current.CancellationToken);
        await slow.Arrived(TestContext.Current.CancellationToken);
        NewEntry[] later = [.. Enumerable.Range(0, 50).Select(i => Note("A", $"note {i}"))];
        Task<AppendOutcome>[] waiting = [.. later.Select(e => writer.AppendAsync(new AppendRequest([e]), TestContext.Current.CancellationToken))];
        Assert.False(first.IsCompleted);
        slow.LetGo();
        await Task.WhenAll([first, .. waiting]);
        await writer.DisposeAsync();
        Assert.Equal([1, 50], slow.Sizes);
        Assert.Equal(later.Select(e => e.Id), AssertChain(_store).Skip(1).Select(e => e.Id));
    }

    [Fact]
    public async Task Closing_writes_all_that_was_accepted_and_refuses_what_comes_after()
    {
        using var slow = new HeldStore(_store);
        var writer = new JournalWriter(slow);
        Task<AppendOutcome>[] accepted = [.. Enumerable.Range(0, 30).Select(_ => writer.AppendAsync(new AppendRequest([Note("A")]), TestContext.Current.CancellationToken))];
        ValueTask closing = writer.DisposeAsync();
        await Assert.ThrowsAsync<ObjectDisposedException>(() => writer.AppendAsync(new AppendRequest([Note("A")]), TestContext.Current.CancellationToken));
        slow.LetGo();
        await closing;
        Assert.All(await Task.WhenAll(accepted), o => Assert.Equal(AppendStatus.Written, o.Status));
        Assert.Equal(30, AssertChain(_store).Count);
    }

    [Fact]
    public async Task A_failed_transaction_fails_its_requests_and_no_others()
    {
        using var slow = new HeldStore(_store) { FailCall = 2 };
        await using var writer = new JournalWriter(slow);
        Task<AppendOutcome> before = writer.AppendAsync(new AppendRequest([Note("A")]), TestContext.Current.CancellationToken);
        await slow.Arrived(TestContext.Current.CancellationToken);
        Task<AppendOutcome>[] failing = [.. Enumerable.Range(0, 3).Select(_ => writer.AppendAsync(new AppendRequest([Note("A")]), TestContext.Current.CancellationToken))];
        slow.LetGo();
        Assert.Equal(AppendStatus.Written, (await before).Status);
        foreach (Task<AppendOutcome> task in failing)
        {
            Assert.Equal(JournalProblem.DiskFull, (await Assert.ThrowsAsync<JournalException>(() => task)).Problem);
        }

        Assert.Equal(AppendStatus.Written, (await writer.AppendAsync(new AppendRequest([Note("A")]), TestContext.Current.CancellationToken)).Status);
        Assert.Equal(2, AssertChain(_store).Count);
    }

    [Fact]
    public async Task A_bad_entry_fails_alone()
    {
        using var slow = new HeldStore(_store);
        await using var writer = new JournalWriter(slow);
        Task<AppendOutcome> first = writer.AppendAsync(new AppendRequest([Note("A")]), TestContext.Current.CancellationToken);
        await slow.Arrived(TestContext.Current.CancellationToken);
        Task<AppendOutcome> good = writer.AppendAsync(new AppendRequest([Note("A")]), TestContext.Current.CancellationToken);
        Task<AppendOutcome> bad = writer.AppendAsync(new AppendRequest([Correction("A", Guid.CreateVersion7())]), TestContext.Current.CancellationToken);
        Task<AppendOutcome> empty = writer.AppendAsync(new AppendRequest([]), TestContext.Current.CancellationToken);
        Task<AppendOutcome> alsoGood = writer.AppendAsync(new AppendRequest([Note("A")]), TestContext.Current.CancellationToken);
        slow.LetGo();
        await Task.WhenAll(first, good, alsoGood);
        Assert.Equal(JournalProblem.BadEntry, (await Assert.ThrowsAsync<JournalException>(() => bad)).Problem);
        Assert.Equal(JournalProblem.BadEntry, (await Assert.ThrowsAsync<JournalException>(() => empty)).Problem);
        Assert.Equal(3, AssertChain(_store).Count);
    }

    [Fact]
    public async Task Who_stops_waiting_does_not_take_back_what_was_accepted()
    {
        using var slow = new HeldStore(_store);
        using var patience = new CancellationTokenSource();
        var writer = new JournalWriter(slow);
        Task<AppendOutcome> first = writer.AppendAsync(new AppendRequest([Note("A")]), patience.Token);
        await slow.Arrived(TestContext.Current.CancellationToken);
        await patience.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => first);
        slow.LetGo();
        await writer.DisposeAsync();
        Assert.Single(AssertChain(_store));
    }

    /// <summary>A store whose first write waits until it is let go.</summary>
    private sealed class HeldStore(IJournalStore inner) : PassedOnStore(inner)
    {
        private readonly ManualResetEventSlim _go = new();
        private readonly SemaphoreSlim _arrived = new(0);
        private int _calls;

        public int FailCall { get; init; }

        public ConcurrentQueue<int> Sizes { get; } = new();

        public Task Arrived(CancellationToken cancellation) => _arrived.WaitAsync(cancellation);

        public void LetGo() => _go.Set();

        public override IReadOnlyList<AppendOutcome> Append(IReadOnlyList<AppendRequest> requests)
        {
            _arrived.Release();
            _go.Wait();
            if (++_calls == FailCall)
            {
                throw new JournalException(JournalProblem.DiskFull, "on purpose");
            }

            Sizes.Enqueue(requests.Count);
            return base.Append(requests);
        }

        protected override void Dispose(bool disposing)
        {
            _go.Set();
            _go.Dispose();
            _arrived.Dispose();
            base.Dispose(disposing);
        }
    }
}
