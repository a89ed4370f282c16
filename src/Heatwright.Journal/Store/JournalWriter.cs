// SPDX-License-Identifier: Apache-2.0
using System.Threading.Channels;
using Heatwright.Journal.Store.Append;

namespace Heatwright.Journal.Store;

/// <summary>
/// Writes for many callers at once: what waits while a transaction is on its way to the disk goes together into the next one, so
/// that callers share the cost of durability. Each call is answered when its own entries are durable.
/// </summary>
/// <remarks>
/// Requests are written in the order in which they were accepted. Disposing writes all that was accepted. The store is not disposed.
/// </remarks>
public sealed class JournalWriter : IAsyncDisposable, IDisposable
{
    private const int MostEntriesTogether = 2000;

    private readonly IJournalStore _store;
    private readonly Channel<Waiting> _queue;
    private readonly Task _worker;

    /// <summary>Writes to a store.</summary>
    /// <param name="store">The store.</param>
    /// <param name="capacity">Requests that may wait; beyond that, callers are held back.</param>
    public JournalWriter(IJournalStore store, int capacity = 4096)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentOutOfRangeException.ThrowIfLessThan(capacity, 1);
        _store = store;
        _queue = Channel.CreateBounded<Waiting>(new BoundedChannelOptions(capacity) { SingleReader = true });
        _worker = Task.Run(Work);
    }

    /// <summary>Writes a request.</summary>
    /// <param name="request">The request.</param>
    /// <param name="cancellation">Ends the wait. A request that was accepted before is written all the same; ask again with the same ids to learn of it.</param>
    /// <returns>What became of it, when it is durable.</returns>
    /// <exception cref="JournalException">
    /// A bad entry, or the store could not be written: nothing of this request was. One exception: on PostgreSQL, when the connection
    /// breaks or time runs out during the commit (<see cref="JournalProblem.Unreachable"/>, <see cref="JournalProblem.Busy"/>), it may have
    /// been written. Ask again with the same ids: what was written is answered as <see cref="AppendStatus.AlreadyThere"/> and never twice.
    /// </exception>
    /// <exception cref="ObjectDisposedException">The writer is closed.</exception>
    public async Task<AppendOutcome> AppendAsync(AppendRequest request, CancellationToken cancellation = default)
    {
        EntryCheck.Request(request);
        var waiting = new Waiting(request, new TaskCompletionSource<AppendOutcome>(TaskCreationOptions.RunContinuationsAsynchronously));
        try
        {
            await _queue.Writer.WriteAsync(waiting, cancellation);
        }
        catch (ChannelClosedException e)
        {
            throw new ObjectDisposedException("The writer is closed.", e);
        }

        return await waiting.Answer.Task.WaitAsync(cancellation);
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        _queue.Writer.TryComplete();
        await _worker;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _queue.Writer.TryComplete();
        _worker.Wait();
    }

    private async Task Work()
    {
        var together = new List<Waiting>();
        while (await _queue.Reader.WaitToReadAsync())
        {
            together.Clear();
            for (int entries = 0; entries < MostEntriesTogether && _queue.Reader.TryRead(out Waiting? next);)
            {
                together.Add(next);
                entries += next.Request.Entries.Count;
            }

            Write(together);
        }
    }

    private void Write(List<Waiting> together)
    {
        try
        {
            IReadOnlyList<AppendOutcome> outcomes = _store.Append([.. together.Select(w => w.Request)]);
            for (int i = 0; i < together.Count; i++)
            {
                together[i].Answer.SetResult(outcomes[i]);
            }
        }
        catch (JournalException e) when (e.Problem == JournalProblem.BadEntry && together.Count > 1)
        {
            // One of them is bad, and nothing was written. Each by itself, so that it fails alone.
            together.ForEach(w => Write([w]));
        }
#pragma warning disable CA1031 // Whatever it is, it is the callers' answer; those who come later are served again.
        catch (Exception e)
#pragma warning restore CA1031
        {
            together.ForEach(w => w.Answer.SetException(e));
        }
    }

    private sealed record Waiting(AppendRequest Request, TaskCompletionSource<AppendOutcome> Answer);
}
