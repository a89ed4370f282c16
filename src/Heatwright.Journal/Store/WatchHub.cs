// SPDX-License-Identifier: Apache-2.0
using System.Threading.Channels;

namespace Heatwright.Journal.Store;

/// <summary>
/// Tells watchers of new entries. Signals come from this store's own writing and from whatever listens for that of others; many
/// signals at once become one call with the newest head. A watcher is called when the head has moved beyond what it knew when it
/// began to watch or was last called, on one background thread, one watcher after another; what it throws is not passed on.
/// </summary>
internal sealed class WatchHub(Func<JournalHead> head, Func<Action, IDisposable> listen, TimeSpan retryAfter) : IDisposable
{
    private readonly Lock _gate = new();
    private readonly List<Watcher> _watchers = [];
    private readonly Channel<bool> _signals = Channel.CreateBounded<bool>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite });
    private readonly CancellationTokenSource _end = new();
    private IDisposable? _listening;
    private Task? _worker;

    /// <summary>Adds a watcher until disposed. A call that is under way then still ends.</summary>
    public IDisposable Add(Action<JournalHead> changed)
    {
        lock (_gate)
        {
            ObjectDisposedException.ThrowIf(_end.IsCancellationRequested, this);

            // Listening begins before the head is read: what is written in between is signalled, not missed.
            _listening ??= listen(Signal);
            _worker ??= Task.Run(Work);
            var watcher = new Watcher(this, changed) { Seen = head().Sequence };
            _watchers.Add(watcher);
            return watcher;
        }
    }

    /// <summary>Entries may have been written.</summary>
    public void Signal() => _signals.Writer.TryWrite(true);

    public void Dispose()
    {
        IDisposable? listening;
        lock (_gate)
        {
            listening = _listening;
            _listening = null;
            _watchers.Clear();
            _end.Cancel();
        }

        listening?.Dispose();
    }

    private async Task Work()
    {
        try
        {
            while (await _signals.Reader.WaitToReadAsync(_end.Token))
            {
                while (_signals.Reader.TryRead(out _))
                {
                }

                if (!TryTell())
                {
                    await Task.Delay(retryAfter, _end.Token);
                    Signal();
                }
            }
        }
        catch (OperationCanceledException)
        {
            // The store is closed.
        }
    }

    private bool TryTell()
    {
        Watcher[] watchers;
        lock (_gate)
        {
            watchers = [.. _watchers];
        }

        if (watchers.Length == 0)
        {
            return true;
        }

        JournalHead now;
        try
        {
            now = head();
        }
        catch (JournalException)
        {
            return false;
        }
        catch (ObjectDisposedException)
        {
            return true;
        }

        foreach (Watcher watcher in watchers)
        {
            watcher.Tell(now);
        }

        return true;
    }

    private void Remove(Watcher watcher)
    {
        IDisposable? listening = null;
        lock (_gate)
        {
            if (_watchers.Remove(watcher) && _watchers.Count == 0)
            {
                listening = _listening;
                _listening = null;
            }
        }

        listening?.Dispose();
    }

    private sealed class Watcher(WatchHub hub, Action<JournalHead> changed) : IDisposable
    {
        private volatile bool _gone;

        public long Seen { get; set; }

        public void Tell(JournalHead now)
        {
            if (_gone || now.Sequence <= Seen)
            {
                return;
            }

            Seen = now.Sequence;
            try
            {
                changed(now);
            }
#pragma warning disable CA1031 // One watcher's fault must not take the news from the others, nor end the program.
            catch (Exception)
#pragma warning restore CA1031
            {
            }
        }

        public void Dispose()
        {
            _gone = true;
            hub.Remove(this);
        }
    }
}
