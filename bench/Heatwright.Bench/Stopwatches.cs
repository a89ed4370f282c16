// SPDX-License-Identifier: Apache-2.0
using System.Diagnostics;

namespace Heatwright.Bench;

/// <summary>Time of repeated work.</summary>
/// <param name="Repeats">How often it ran after the warm-up.</param>
/// <param name="LeastS">Shortest, s: nearest to the cost of the work itself.</param>
/// <param name="MedianS">Median, s: what a user sees on this machine today.</param>
/// <param name="WorstS">Longest, s.</param>
/// <param name="BytesPerRun">Managed memory allocated per run on the calling thread.</param>
public sealed record Timing(int Repeats, double LeastS, double MedianS, double WorstS, long BytesPerRun)
{
    /// <inheritdoc/>
    public override string ToString() =>
        $"median {Text(MedianS)}, least {Text(LeastS)}, worst {Text(WorstS)} of {Repeats}; {BytesPerRun} B allocated";

    private static string Text(double seconds) => seconds switch
    {
        >= 1 => $"{seconds:F2} s",
        >= 1e-3 => $"{seconds * 1e3:F2} ms",
        _ => $"{seconds * 1e6:F1} µs",
    };
}

/// <summary>A plain harness: warm up until the just-in-time compiler has settled, then time each run.</summary>
public static class Stopwatches
{
    /// <summary>Times the work.</summary>
    /// <param name="work">What to time; returns something so that it is not optimised away.</param>
    /// <param name="budgetS">Roughly how long to measure, s, after a warm-up of half of it.</param>
    /// <param name="leastRuns">Runs at least, whatever the budget says.</param>
    public static Timing Time(Func<object?> work, double budgetS = 1, int leastRuns = 5)
    {
        ArgumentNullException.ThrowIfNull(work);
        var total = Stopwatch.StartNew();
        while (total.Elapsed.TotalSeconds < budgetS / 2)
        {
            GC.KeepAlive(work());
        }

        var times = new List<double>();
        long before = GC.GetAllocatedBytesForCurrentThread();
        total.Restart();
        while (times.Count < leastRuns || total.Elapsed.TotalSeconds < budgetS)
        {
            long start = Stopwatch.GetTimestamp();
            GC.KeepAlive(work());
            times.Add(Stopwatch.GetElapsedTime(start).TotalSeconds);
        }

        long bytes = (GC.GetAllocatedBytesForCurrentThread() - before) / times.Count;
        times.Sort();
        return new Timing(times.Count, times[0], times[times.Count / 2], times[^1], bytes);
    }
}
