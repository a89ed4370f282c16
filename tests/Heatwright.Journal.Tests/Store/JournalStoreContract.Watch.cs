// SPDX-License-Identifier: Apache-2.0
using System.Threading.Channels;
using Heatwright.Journal.Store;
using static Heatwright.Journal.Tests.Store.Sample;

namespace Heatwright.Journal.Tests.Store;

public abstract partial class JournalStoreContract
{
    [Fact]
    public async Task A_watcher_learns_of_what_this_store_writes()
    {
        IJournalStore store = Open();
        store.Append(Note("A"));
        (ChannelReader<JournalHead> news, IDisposable watching) = WatchOn(store);
        store.Append(Note("A"));
        Assert.Equal(store.Head().ToString(), (await news.ReadAsync(Cancelled)).ToString());
        watching.Dispose();
    }

    [Fact]
    public async Task A_watcher_learns_of_what_others_write()
    {
        IJournalStore store = Open();
        IJournalStore other = Open();
        (ChannelReader<JournalHead> news, IDisposable watching) = WatchOn(store);
        other.Append(Note("A"));
        Assert.Equal(1, (await news.ReadAsync(Cancelled)).Sequence);
        other.Append(Note("A"), Note("B"));
        Assert.Equal(other.Head().ToString(), (await news.ReadAsync(Cancelled)).ToString());
        watching.Dispose();
    }

    [Fact]
    public async Task A_watcher_that_throws_keeps_nothing_from_the_others()
    {
        IJournalStore store = Open();
        using IDisposable bad = store.Watch(_ => throw new InvalidOperationException("on purpose"));
        (ChannelReader<JournalHead> news, IDisposable watching) = WatchOn(store);
        store.Append(Note("A"));
        Assert.Equal(1, (await news.ReadAsync(Cancelled)).Sequence);
        store.Append(Note("A"));
        Assert.Equal(2, (await news.ReadAsync(Cancelled)).Sequence);
        watching.Dispose();
    }

    [Fact]
    public async Task A_watcher_that_left_is_not_called()
    {
        IJournalStore store = Open();
        (ChannelReader<JournalHead> gone, IDisposable leaving) = WatchOn(store);
        (ChannelReader<JournalHead> news, IDisposable watching) = WatchOn(store);
        leaving.Dispose();
        store.Append(Note("A"));
        await news.ReadAsync(Cancelled);
        Assert.False(gone.TryRead(out _));
        watching.Dispose();
    }

    private static (ChannelReader<JournalHead> News, IDisposable Watching) WatchOn(IJournalStore store)
    {
        var channel = Channel.CreateUnbounded<JournalHead>();
        return (channel.Reader, store.Watch(h => channel.Writer.TryWrite(h)));
    }
}
