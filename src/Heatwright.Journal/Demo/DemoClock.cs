// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Journal.Demo;

/// <summary>
/// The clock of a journal that is being filled with a past year. Each reading gives the arrival of the next request of the
/// transaction, so that entries arrive when the works would have written them; it never goes back.
/// </summary>
public sealed class DemoClock : TimeProvider
{
    private readonly Lock _gate = new();
    private Queue<DateTimeOffset> _next = new();
    private DateTimeOffset _now = DateTimeOffset.UnixEpoch;

    /// <inheritdoc/>
    public override DateTimeOffset GetUtcNow()
    {
        lock (_gate)
        {
            if (_next.TryDequeue(out DateTimeOffset next) && next > _now)
            {
                _now = next;
            }

            return _now;
        }
    }

    /// <summary>Arrivals of the requests that come now, in order.</summary>
    internal void Expect(IReadOnlyList<DateTimeOffset> arrivals)
    {
        lock (_gate)
        {
            _next = new Queue<DateTimeOffset>(arrivals);
        }
    }
}
