// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;

namespace Heatwright.Journal.Series;

/// <summary>
/// A block of signals as few bytes, without loss. A version, then a head (start, and for each channel its name, unit, resolution,
/// number of samples, where its times come from, runs of equal status, and how its values are written), then the values of one
/// channel after the other, each in whatever way is smallest for it (<see cref="ValueCoding"/>). Even times cost nothing.
/// There is no checksum here: the hash of the entry covers these bytes.
/// </summary>
public static class SignalPacking
{
    private const int Version = 1;

    // Bytes of head that a channel can need: names and units of four bytes a character, and a run of status for each sample.
    private const int HeadBytesOfChannel = 1200;
    private const int HeadBytesOfSample = 4;

    private static ReadOnlySpan<byte> Magic => "HwS"u8;

    /// <summary>The bytes of a block.</summary>
    public static byte[] Pack(SignalBlock block)
    {
        ArgumentNullException.ThrowIfNull(block);
        var head = new PackedWriter();
        var bodies = new List<byte[]>(block.Series.Count);
        head.Signed(block.Start.ToUnixTimeMilliseconds());
        head.Count(block.Series.Count);
        for (int i = 0; i < block.Series.Count; i++)
        {
            SignalSeries series = block.Series[i];
            head.Text(series.Channel.Name);
            head.Text(series.Channel.Unit);
            head.Real(series.Channel.Resolution);
            head.Count(series.Count);
            var body = new PackedWriter();
            TimeCoding.Write(head, body, block.Series, i);
            StatusCoding.Write(head, series);
            ValueCoding.Write(head, body, series);
            bodies.Add(body.Written.ToArray());
        }

        var all = new PackedWriter();
        all.Bytes(Magic);
        all.Byte(Version);
        PackedRun.Write(all, head.Written);
        foreach (byte[] body in bodies)
        {
            PackedRun.Write(all, body);
        }

        return all.Written.ToArray();
    }

    /// <summary>The block that the bytes hold.</summary>
    /// <exception cref="EntryFormatException">They hold none, or one of a later version.</exception>
    public static SignalBlock Unpack(ReadOnlyMemory<byte> bytes)
    {
        var reader = new PackedReader(bytes);
        if (!reader.Take(Magic.Length).Span.SequenceEqual(Magic))
        {
            throw Malformed("it does not begin as one");
        }

        int version = reader.Byte();
        if (version != Version)
        {
            throw new EntryFormatException($"A signal block of version {version}; this program knows {Version}. Mend: read it with the program that wrote it, or a later one.");
        }

        var head = new PackedReader(PackedRun.Read(
            reader, (HeadBytesOfChannel * SignalBlock.MostChannels) + (HeadBytesOfSample * SignalBlock.MostSamples), "head"));
        DateTimeOffset start = StartOf(head.Signed());
        int channels = head.Count(SignalBlock.MostChannels, "channels");
        var series = new List<SignalSeries>(channels);
        int left = SignalBlock.MostSamples;
        for (int i = 0; i < channels; i++)
        {
            SignalChannel channel = Channel(head);
            int count = head.Count(left, "samples");
            left -= count;
            series.Add(Series(head, reader, channel, count, series));
        }

        if (reader.Left > 0 || head.Left > 0)
        {
            throw Malformed($"{reader.Left + head.Left} bytes are left over");
        }

        try
        {
            return new SignalBlock(start, series);
        }
        catch (ArgumentException e)
        {
            throw Malformed("two channels have one name", e);
        }
    }

    /// <summary>The block as the body of an entry.</summary>
    public static SignalBlockBody ToBody(SignalBlock block) => new(Pack(block));

    /// <summary>The block in the body of an entry.</summary>
    /// <exception cref="EntryFormatException">It holds none, or one of a later version.</exception>
    public static SignalBlock FromBody(SignalBlockBody body)
    {
        ArgumentNullException.ThrowIfNull(body);
        return Unpack(body.Packed);
    }

    internal static EntryFormatException Malformed(string what, Exception? inner = null) =>
        new($"This is no signal block: {what}. Mend: verify the journal; restore the entry from a backup.", inner);

    private static SignalSeries Series(PackedReader head, PackedReader reader, SignalChannel channel, int count, List<SignalSeries> before)
    {
        TimePlan times = TimeCoding.ReadPlan(head, count, before);
        (SampleStatus[] statuses, bool[] missing, int present) = StatusCoding.Read(head, count);
        ValuePlan values = ValueCoding.ReadPlan(head, channel);
        var body = new PackedReader(PackedRun.Read(reader, 20 * count, $"samples of '{channel.Name}'"));
        long[] timesMs = TimeCoding.Read(times, body, count);
        double[] all = ValueCoding.Read(values, body, channel, missing, present);
        return body.Left == 0 ? new SignalSeries(channel, timesMs, all, statuses) : throw Malformed($"'{channel.Name}' has {body.Left} bytes too many");
    }

    private static SignalChannel Channel(PackedReader head)
    {
        string name = head.Text(4 * SignalChannel.MostNameLength);
        string unit = head.Text(4 * SignalChannel.MostNameLength);
        double resolution = head.Real();
        try
        {
            return new SignalChannel(name, unit, resolution);
        }
        catch (ArgumentException e)
        {
            throw Malformed(e.Message, e);
        }
    }

    private static DateTimeOffset StartOf(long milliseconds)
    {
        try
        {
            return DateTimeOffset.FromUnixTimeMilliseconds(milliseconds);
        }
        catch (ArgumentOutOfRangeException e)
        {
            throw Malformed($"it starts {milliseconds} ms after 1970", e);
        }
    }
}
