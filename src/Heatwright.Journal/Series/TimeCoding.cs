// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Journal.Series;

internal enum TimeMethod
{
    /// <summary>First time and one step.</summary>
    Even,
    /// <summary>The times of an earlier channel.</summary>
    Shared,
    /// <summary>First time, then the change of each step against the one before.</summary>
    Free,
}

/// <summary>Where the times of a channel come from.</summary>
internal readonly record struct TimePlan(TimeMethod Method, long FirstMs, long StepMs, SignalSeries? Like);

/// <summary>Times of samples. Even ones are two numbers, and channels that were read together share theirs.</summary>
internal static class TimeCoding
{
    public static void Write(PackedWriter head, PackedWriter body, IReadOnlyList<SignalSeries> series, int index)
    {
        ReadOnlySpan<long> times = series[index].TimesMs;
        if (IsEven(times))
        {
            head.Byte((int)TimeMethod.Even);
            head.Signed(times.Length > 0 ? times[0] : 0);
            head.Signed(times.Length > 1 ? times[1] - times[0] : 0);
            return;
        }

        for (int i = 0; i < index; i++)
        {
            if (series[i].TimesMs.SequenceEqual(times))
            {
                head.Byte((int)TimeMethod.Shared);
                head.Count(i);
                return;
            }
        }

        head.Byte((int)TimeMethod.Free);
        long step = 0, last = 0;
        foreach (long time in times)
        {
            body.Signed(time - last - step);
            step = time - last;
            last = time;
        }
    }

    public static TimePlan ReadPlan(PackedReader head, int count, List<SignalSeries> before)
    {
        var method = (TimeMethod)head.Byte();
        switch (method)
        {
            case TimeMethod.Even:
                long first = head.Signed(), step = head.Signed();
                bool possible = first is >= 0 and <= SignalSeries.MostTimeMs && step is >= 0 and <= SignalSeries.MostTimeMs
                    && (count == 0 || first + (step * (count - 1)) <= SignalSeries.MostTimeMs);
                return possible ? new TimePlan(method, first, step, null) : throw SignalPacking.Malformed($"even times from {first} by {step} ms");
            case TimeMethod.Shared:
                int like = head.Count(int.MaxValue, "channels");
                return like < before.Count && before[like].Count == count
                    ? new TimePlan(method, 0, 0, before[like])
                    : throw SignalPacking.Malformed($"times shared with channel {like}");
            case TimeMethod.Free:
                return new TimePlan(method, 0, 0, null);
            default:
                throw SignalPacking.Malformed($"times written in way {(int)method}");
        }
    }

    public static long[] Read(TimePlan plan, PackedReader body, int count)
    {
        if (plan.Like is { } like)
        {
            return like.TimesMs.ToArray();
        }

        long[] times = new long[count];
        long step = 0, last = 0;
        for (int i = 0; i < count; i++)
        {
            if (plan.Method == TimeMethod.Even)
            {
                times[i] = plan.FirstMs + (i * plan.StepMs);
                continue;
            }

            // Wrapping arithmetic is harmless: what comes out is checked.
            step = unchecked(step + body.Signed());
            long time = unchecked(last + step);
            if (time < last || time > SignalSeries.MostTimeMs)
            {
                throw SignalPacking.Malformed($"sample {i + 1} at {time} ms");
            }

            times[i] = last = time;
        }

        return times;
    }

    private static bool IsEven(ReadOnlySpan<long> times)
    {
        for (int i = 2; i < times.Length; i++)
        {
            if (times[i] - times[i - 1] != times[1] - times[0])
            {
                return false;
            }
        }

        return true;
    }
}

/// <summary>Runs of equal status, and which samples have no value.</summary>
internal static class StatusCoding
{
    private const int NoValue = 0x40;

    public static void Write(PackedWriter head, SignalSeries series)
    {
        var runs = new List<(int Code, int Length)>();
        for (int i = 0; i < series.Count; i++)
        {
            int code = series.Statuses[i].Code | (double.IsNaN(series.Values[i]) ? NoValue : 0);
            if (runs.Count > 0 && runs[^1].Code == code)
            {
                runs[^1] = (code, runs[^1].Length + 1);
            }
            else
            {
                runs.Add((code, 1));
            }
        }

        foreach ((int code, int length) in runs)
        {
            head.Byte(code);
            head.Count(length);
        }
    }

    public static (SampleStatus[] Statuses, bool[] Missing, int Present) Read(PackedReader head, int count)
    {
        var statuses = new SampleStatus[count];
        bool[] missing = new bool[count];
        int present = 0;
        for (int i = 0; i < count;)
        {
            int code = head.Byte();
            bool none = (code & NoValue) != 0;
            if (!SampleStatus.TryFrom(code & ~NoValue, out SampleStatus status) || (none && !status.IsBad))
            {
                throw SignalPacking.Malformed($"status {code}");
            }

            int length = head.Count(count - i, "samples of one status");
            if (length == 0)
            {
                throw SignalPacking.Malformed("a run of status without samples");
            }

            statuses.AsSpan(i, length).Fill(status);
            missing.AsSpan(i, length).Fill(none);
            present += none ? 0 : length;
            i += length;
        }

        return (statuses, missing, present);
    }
}
