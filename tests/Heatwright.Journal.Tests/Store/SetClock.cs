// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Journal.Tests.Store;

/// <summary>A clock that stands where it is set.</summary>
public sealed class SetClock : TimeProvider
{
    private long _ticks = new DateTimeOffset(2031, 3, 4, 5, 6, 7, 891, TimeSpan.Zero).UtcTicks;

    public DateTimeOffset Now => new(Interlocked.Read(ref _ticks), TimeSpan.Zero);

    public override DateTimeOffset GetUtcNow() => Now;

    public void Advance(TimeSpan by) => Interlocked.Add(ref _ticks, by.Ticks);
}
