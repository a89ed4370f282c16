// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Store;

namespace Heatwright.Journal.Views;

/// <summary>The list of heats in memory, for a journal that may only be read. Many threads may use it.</summary>
internal sealed class MemoryHeatTable : IHeatTable
{
    private readonly Lock _lock = new();
    private readonly Dictionary<string, HeatRow> _rows = new(StringComparer.Ordinal);
    private long _upTo;

    public long UpTo()
    {
        lock (_lock)
        {
            return _upTo;
        }
    }

    public void Save(IReadOnlyList<HeatRow> rows, long upTo)
    {
        lock (_lock)
        {
            if (upTo < _upTo)
            {
                return;
            }

            foreach (HeatRow row in rows)
            {
                _rows[row.Heat] = row;
            }

            _upTo = upTo;
        }
    }

    public IReadOnlyDictionary<string, HeatRow> Get(IReadOnlyCollection<string> heats)
    {
        lock (_lock)
        {
            return heats.Distinct(StringComparer.Ordinal).Where(_rows.ContainsKey).ToDictionary(h => h, h => _rows[h], StringComparer.Ordinal);
        }
    }

    public IReadOnlyList<HeatRow> Query(HeatFilter filter)
    {
        IOrderedEnumerable<HeatRow> Newest(IOrderedEnumerable<HeatRow> rows) => rows.ThenByDescending(r => r.Opened).ThenByDescending(r => r.Heat, StringComparer.Ordinal);
        HeatRow[] found = Found(filter);
        IEnumerable<HeatRow> ordered = filter.Order switch
        {
            HeatOrder.Newest => Newest(found.OrderBy(_ => 0)),
            HeatOrder.Oldest => found.OrderBy(r => r.Opened).ThenBy(r => r.Heat, StringComparer.Ordinal),
            HeatOrder.Number => found.OrderBy(r => r.Heat, StringComparer.Ordinal),
            HeatOrder.Grade => Newest(found.OrderBy(r => r.Grade, StringComparer.Ordinal)),
            HeatOrder.Stage => Newest(found.OrderBy(r => r.Stage, StringComparer.Ordinal)),
            _ => throw new ArgumentOutOfRangeException(nameof(filter), filter.Order, "Unknown order of heats."),
        };
        return [.. ordered.Skip(Math.Max(0, filter.Skip)).Take(Math.Max(0, filter.Take))];
    }

    public long Count(HeatFilter filter) => Found(filter).Length;

    public void Clear()
    {
        lock (_lock)
        {
            _rows.Clear();
            _upTo = 0;
        }
    }

    private HeatRow[] Found(HeatFilter f)
    {
        ArgumentNullException.ThrowIfNull(f);
        bool Is(string? wanted, string value) => wanted is null || wanted == value;
        lock (_lock)
        {
            return
            [
                .. _rows.Values.Where(r => Is(f.Stage, r.Stage) && Is(f.Grade, r.Grade) && Is(f.Unit, r.Unit) && Is(f.Shift, r.Shift)
                    && (f.FromShiftDate is null || string.CompareOrdinal(r.ShiftDate, f.FromShiftDate) >= 0)
                    && (f.ToShiftDate is null || string.CompareOrdinal(r.ShiftDate, f.ToShiftDate) <= 0)
                    && (f.HeatContains is null || r.Heat.Contains(f.HeatContains, StringComparison.OrdinalIgnoreCase))
                    && (!f.StaleOnly || r.Stale > 0)),
            ];
        }
    }
}
