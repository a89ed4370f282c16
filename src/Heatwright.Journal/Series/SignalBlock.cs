// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Journal.Series;

/// <summary>One value of a signal.</summary>
/// <param name="TimeMs">Time since the start of the block, ms.</param>
/// <param name="Value">Value in the unit of the channel; NaN where a bad source gave none.</param>
/// <param name="Status">How far it may be used.</param>
public readonly record struct SignalSample(long TimeMs, double Value, SampleStatus Status = default);

/// <summary>Samples of one channel in order of time. Times are the channel's own: even, or whenever the value changed.</summary>
public sealed class SignalSeries
{
    /// <summary>Longest stretch of time in a block, ms: 31 days.</summary>
    public const long MostTimeMs = 31L * 24 * 3600 * 1000;

    private readonly long[] _timesMs;
    private readonly double[] _values;
    private readonly SampleStatus[] _statuses;

    /// <summary>Takes arrays as they are: for what was checked before.</summary>
    internal SignalSeries(SignalChannel channel, long[] timesMs, double[] values, SampleStatus[] statuses)
    {
        Channel = channel;
        _timesMs = timesMs;
        _values = values;
        _statuses = statuses;
    }

    /// <summary>The channel.</summary>
    public SignalChannel Channel { get; }

    /// <summary>Number of samples.</summary>
    public int Count => _timesMs.Length;

    /// <summary>Times since the start of the block, ms, never falling.</summary>
    public ReadOnlySpan<long> TimesMs => _timesMs;

    /// <summary>Values in the unit of the channel, multiples of its resolution; NaN where a bad source gave none.</summary>
    public ReadOnlySpan<double> Values => _values;

    /// <summary>Statuses.</summary>
    public ReadOnlySpan<SampleStatus> Statuses => _statuses;

    /// <summary>A sample.</summary>
    public SignalSample this[int index] => new(_timesMs[index], _values[index], _statuses[index]);

    /// <summary>The samples one after the other.</summary>
    public IEnumerable<SignalSample> Samples => Enumerable.Range(0, Count).Select(i => this[i]);

    /// <summary>A series of samples. Values are rounded to the channel's resolution here, once; what is not a number becomes NaN.</summary>
    /// <exception cref="ArgumentException">A time is negative, falls or lies beyond 31 days; or a value that is no finite number has a status other than bad.</exception>
    public static SignalSeries Of(SignalChannel channel, IReadOnlyList<SignalSample> samples)
    {
        ArgumentNullException.ThrowIfNull(channel);
        ArgumentNullException.ThrowIfNull(samples);
        long[] times = new long[samples.Count];
        double[] values = new double[samples.Count];
        var statuses = new SampleStatus[samples.Count];
        for (int i = 0; i < times.Length; i++)
        {
            SignalSample s = samples[i];
            if (s.TimeMs < (i == 0 ? 0 : times[i - 1]) || s.TimeMs > MostTimeMs)
            {
                throw new ArgumentException(
                    $"Signal '{channel.Name}', sample {i + 1}: time {s.TimeMs} ms; allowed from {(i == 0 ? 0 : times[i - 1])} (the sample before) to {MostTimeMs}. Mend: sort the samples and start the block with the first.",
                    nameof(samples));
            }

            if (!double.IsFinite(s.Value) && !s.Status.IsBad)
            {
                throw new ArgumentException(
                    $"Signal '{channel.Name}', sample {i + 1}: {s.Value} is no number, and its status says {s.Status.Reason}. Mend: a status of the bad family.", nameof(samples));
            }

            if (!Enum.IsDefined(s.Status.Reason))
            {
                throw new ArgumentException($"Signal '{channel.Name}', sample {i + 1}: status {(int)s.Status.Reason} is unknown.", nameof(samples));
            }

            times[i] = s.TimeMs;
            values[i] = double.IsFinite(s.Value) ? channel.Round(s.Value) : double.NaN;
            statuses[i] = s.Status;
        }

        return new SignalSeries(channel, times, values, statuses);
    }

    /// <summary>Good values at even steps of time.</summary>
    public static SignalSeries Even(SignalChannel channel, IReadOnlyList<double> values, long stepMs = 1000, long firstMs = 0)
    {
        ArgumentNullException.ThrowIfNull(values);
        return Of(channel, [.. values.Select((v, i) => new SignalSample(firstMs + (i * stepMs), v))]);
    }
}

/// <summary>Signals of a stretch of time.</summary>
public sealed class SignalBlock
{
    /// <summary>Most samples of all channels together. Longer stretches are several blocks.</summary>
    public const int MostSamples = 1 << 20;

    /// <summary>Most channels.</summary>
    public const int MostChannels = 1000;

    /// <param name="start">Start; kept in UTC to the millisecond.</param>
    /// <param name="series">One for each channel, names differing.</param>
    /// <exception cref="ArgumentException">Two channels have one name, or there are too many samples or channels.</exception>
    public SignalBlock(DateTimeOffset start, IReadOnlyList<SignalSeries> series)
    {
        ArgumentNullException.ThrowIfNull(series);
        long samples = series.Sum(s => (long)s.Count);
        if (samples > MostSamples || series.Count > MostChannels)
        {
            throw new ArgumentException(
                $"A block of {series.Count} channels and {samples} samples; at most {MostChannels} and {MostSamples}. Mend: cut the stretch of time into several blocks.", nameof(series));
        }

        if (series.GroupBy(s => s.Channel.Name, StringComparer.Ordinal).FirstOrDefault(g => g.Count() > 1) is { } twice)
        {
            throw new ArgumentException($"Two channels of the block are named '{twice.Key}'. Mend: one name for each.", nameof(series));
        }

        Start = DateTimeOffset.FromUnixTimeMilliseconds(start.ToUnixTimeMilliseconds());
        Series = series;
    }

    /// <summary>Start, UTC, to the millisecond.</summary>
    public DateTimeOffset Start { get; }

    /// <summary>One for each channel.</summary>
    public IReadOnlyList<SignalSeries> Series { get; }

    /// <summary>The series of a channel, or null.</summary>
    public SignalSeries? Find(string channel) => Series.FirstOrDefault(s => s.Channel.Name == channel);

    /// <summary>The moment of a sample.</summary>
    public DateTimeOffset TimeOf(SignalSample sample) => Start.AddMilliseconds(sample.TimeMs);
}
