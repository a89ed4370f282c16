// SPDX-License-Identifier: Apache-2.0
using CsCheck;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Series;

namespace Heatwright.Journal.Tests.Series;

public sealed class SignalPackingTests
{
    private static readonly DateTimeOffset Start = new(2026, 3, 9, 4, 30, 0, 250, TimeSpan.Zero);

    private static readonly SampleStatus[] Statuses =
        [.. Enum.GetValues<SampleReason>().SelectMany(r => new[] { new SampleStatus(r), new SampleStatus(r, Historical: true) })];

    private static readonly Gen<double> Finite = Gen.OneOf(
        Gen.Double.Where(double.IsFinite),
        Gen.Double[-2000, 2000],
        Gen.OneOf(0.0, -0.0, double.Epsilon, -double.Epsilon, double.MaxValue, double.MinValue, 1.0 / 3, 1e300, 0.1, 1650.4));

    private static readonly Gen<double> Decimal = Gen.Int[-20_000, 20_000].Select(i => i / 100.0);

    private static readonly Gen<(long Step, double Value, SampleStatus Status)> Sample = Gen.Select(
        Gen.OneOf(Gen.Const(1000L), Gen.Long[0, 100_000]), Gen.OneOf(Finite, Decimal, Gen.Const(21.5)), Gen.OneOf(Gen.Const(SampleStatus.Good), Gen.OneOf(Statuses)));

    private static readonly Gen<SignalSeries> Series = Gen.Select(
        Gen.OneOf("°C", "Nm3/min", "vol %", "", "m"), Gen.OneOf(0.0, 0, 0.1, 0.25, 0.001, 5, 1e-9, 0.3), Sample.Array[0, 60], Gen.Bool).Select(Make);

    private static readonly Gen<SignalBlock> Block = Series.Array[0, 6].Select(all => new SignalBlock(
        Start, [.. all.Select((s, i) => SignalSeries.Of(new SignalChannel($"signal {i}", s.Channel.Unit, s.Channel.Resolution), [.. s.Samples]))]));

    [Fact]
    public void Any_block_comes_back_bit_by_bit() => Block.Sample(block => Same(block, SignalPacking.Unpack(SignalPacking.Pack(block))), iter: 3000);

    [Fact]
    public void Packing_the_same_block_gives_the_same_bytes() =>
        Block.Sample(b => Assert.Equal(SignalPacking.Pack(b), SignalPacking.Pack(SignalPacking.Unpack(SignalPacking.Pack(b)))), iter: 500);

    [Fact]
    public void Rounding_happens_once_and_to_the_nearest_step() =>
        Gen.Select(Gen.Double[-5000, 5000], Gen.OneOf(0.1, 0.01, 0.25, 0.3, 2.0, 100.0)).Sample((value, resolution) =>
        {
            var channel = new SignalChannel("t", "°C", resolution);
            double rounded = channel.Round(value);
            Assert.Equal(rounded, channel.Round(rounded));
            Assert.True(Math.Abs(rounded - value) <= resolution * 0.5000001, $"{value} became {rounded}");
        });

    [Theory]
    [InlineData(0.1, 0.30000000000000004, 0.3)]
    [InlineData(0.01, 1650.4049, 1650.4)]
    [InlineData(0.05, 7.3249, 7.3)]
    [InlineData(5, 12.4, 10)]
    public void Steps_of_a_decimal_resolution_are_the_doubles_that_people_write(double resolution, double value, double expected) =>
        Assert.Equal(expected, new SignalChannel("t", "", resolution).Round(value));

    [Fact]
    public void Value_beyond_counting_in_steps_stays_as_it_is()
    {
        SignalSeries series = SignalSeries.Even(new SignalChannel("t", "", 0.1), [1e300, 12.34]);
        Assert.Equal([1e300, 12.3], series.Values.ToArray());
        Assert.Equal([1e300, 12.3], SignalPacking.Unpack(SignalPacking.Pack(new SignalBlock(Start, [series]))).Series[0].Values.ToArray());
    }

    [Fact]
    public void Even_times_and_a_constant_value_cost_nothing_per_sample()
    {
        int Length(int count) => SignalPacking.Pack(new SignalBlock(Start, [SignalSeries.Even(new SignalChannel("tilt", "deg", 0.1), new double[count])])).Length;
        Assert.InRange(Length(100_000) - Length(1000), 0, 20);
    }

    [Fact]
    public void Channels_read_together_share_their_uneven_times()
    {
        var random = new Random(5);
        SignalSample[] samples = [.. Enumerable.Range(0, 500).Select(i => new SignalSample((1000L * i) + random.Next(400), i % 7))];
        int Length(int channels) => SignalPacking.Pack(new SignalBlock(
            Start, [.. Enumerable.Range(0, channels).Select(c => SignalSeries.Of(new SignalChannel($"c{c}", "", 1), samples))])).Length;
        int first = Length(1), second = Length(2) - first;
        Assert.True(first > 500, $"{first} bytes");
        Assert.True(second < 60, $"the second channel takes {second} bytes");
    }

    [Fact]
    public void Twenty_minutes_of_25_signals_stay_far_below_150_kB()
    {
        SignalBlock block = BelievableBlow.Block(seed: 1);
        byte[] packed = SignalPacking.Pack(block);
        byte[] exact = SignalPacking.Pack(BelievableBlow.Block(seed: 1, exact: true));
        TestContext.Current.TestOutputHelper!.WriteLine(
            $"{block.Series.Count} signals, {block.Series.Sum(s => s.Count)} samples: {packed.Length / 1000.0:F1} kB at the resolution of the instruments, {exact.Length / 1000.0:F1} kB as exact doubles of noise.");
        Assert.Equal(25, block.Series.Count);
        Assert.All(block.Series, s => Assert.Equal(1200, s.Count));
        Same(block, SignalPacking.Unpack(packed));
        Assert.True(packed.Length < 150_000 / 3, $"{packed.Length} bytes");

        // Noise in the last bits of a double cannot be made small: 8 bytes each is what it takes.
        Assert.True(exact.Length < 25 * 1200 * 8, $"{exact.Length} bytes");
    }

    [Fact]
    public void Values_that_a_source_rounded_itself_are_small_also_when_kept_exactly()
    {
        double[] values = [.. BelievableBlow.Block(seed: 2).Find("gas temperature")!.Values.ToArray().Where(double.IsFinite)];
        int exact = SignalPacking.Pack(new SignalBlock(Start, [SignalSeries.Even(new SignalChannel("t", "°C"), values)])).Length;
        int rounded = SignalPacking.Pack(new SignalBlock(Start, [SignalSeries.Even(new SignalChannel("t", "°C", 1), values)])).Length;
        Assert.InRange(exact - rounded, -4, 4);
    }

    [Fact]
    public void Any_bytes_are_a_block_or_refused_in_words() => Gen.Byte.Array[0, 200].Sample(bytes => Try(bytes), iter: 5000);

    /// <summary>Damage to real bytes reaches further into the reader than bytes from nowhere.</summary>
    [Fact]
    public void Damaged_block_is_read_or_refused_in_words() =>
        Gen.Select(Block, Gen.Int[0, int.MaxValue], Gen.Byte, Gen.Int[0, 3]).Sample(
            (block, place, value, how) =>
            {
                byte[] bytes = SignalPacking.Pack(block);
                int at = place % bytes.Length;
                switch (how)
                {
                    case 0:
                        bytes[at] = value;
                        break;
                    case 1:
                        bytes = bytes[..at];
                        break;
                    case 2:
                        bytes = [.. bytes, value];
                        break;
                    default:
                        bytes = [.. bytes[..at], value, .. bytes[at..]];
                        break;
                }

                Try(bytes);
            },
            iter: 20_000);

    [Fact]
    public void Little_bytes_that_claim_much_make_no_room_for_it()
    {
        // A head that says: one channel, two thousand million samples.
        byte[] head = [0, 1, 1, (byte)'t', 0, 0, 0, 0, 0, 0, 0, 0, 0, 0x80, 0x94, 0xeb, 0xdc, 0x03];
        byte[] bytes = [.. "HwS\u0001"u8, (byte)head.Length, (byte)head.Length, .. head];
        long before = GC.GetAllocatedBytesForCurrentThread();
        var refused = Assert.Throws<EntryFormatException>(() => SignalPacking.Unpack(bytes));
        Assert.Contains("samples", refused.Message, StringComparison.Ordinal);
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 200_000);
    }

    [Fact]
    public void Later_version_is_refused_as_such()
    {
        byte[] bytes = SignalPacking.Pack(new SignalBlock(Start, []));
        bytes[3] = 2;
        Assert.Contains("version 2", Assert.Throws<EntryFormatException>(() => SignalPacking.Unpack(bytes)).Message, StringComparison.Ordinal);
    }

    /// <summary>The layout is for ever: bytes that version 1 wrote must be read by every later program.</summary>
    [Fact]
    public void Layout_of_version_1_stands()
    {
        var block = new SignalBlock(DateTimeOffset.UnixEpoch, [SignalSeries.Even(new SignalChannel("lance", "m", 0.01), [1.8, 1.8, 1.79])]);
        Assert.Equal("487753011B1B0001056C616E6365016D7B14AE47E17A843F030000D00F00030001" + "0404" + "E8020001", Convert.ToHexString(SignalPacking.Pack(block)));
    }

    [Theory]
    [InlineData("", "m", 0)]
    [InlineData("lance", "furlong", 0)]
    [InlineData("lance", "m", -1)]
    [InlineData("lance", "m", double.NaN)]
    public void Channel_that_means_nothing_is_refused(string name, string unit, double resolution) =>
        Assert.Throws<ArgumentException>(() => new SignalChannel(name, unit, resolution));

    [Fact]
    public void No_number_without_a_bad_status()
    {
        var channel = new SignalChannel("t", "°C");
        Assert.Throws<ArgumentException>(() => SignalSeries.Of(channel, [new SignalSample(0, double.NaN)]));
        Assert.Throws<ArgumentException>(() => SignalSeries.Of(channel, [new SignalSample(0, double.PositiveInfinity, new SampleStatus(SampleReason.Uncertain))]));
        Assert.True(double.IsNaN(SignalSeries.Of(channel, [new SignalSample(0, double.PositiveInfinity, new SampleStatus(SampleReason.Bad))]).Values[0]));
    }

    [Fact]
    public void Times_never_fall() =>
        Assert.Throws<ArgumentException>(() => SignalSeries.Of(new SignalChannel("t", "°C"), [new SignalSample(1000, 1), new SignalSample(999, 1)]));

    private static SignalSeries Make(string unit, double resolution, (long Step, double Value, SampleStatus Status)[] samples, bool even)
    {
        long time = 0;
        return SignalSeries.Of(
            new SignalChannel("signal", unit, resolution),
            [.. samples.Select(s => new SignalSample(time += even ? 500 : s.Step, s.Status.IsBad && s.Value > 100 ? double.NaN : s.Value, s.Status))]);
    }

    private static void Try(byte[] bytes)
    {
        try
        {
            SignalBlock block = SignalPacking.Unpack(bytes);

            // What is taken must be a block that could have been written.
            Assert.All(block.Series, s => SignalSeries.Of(s.Channel, [.. s.Samples]));
        }
        catch (EntryFormatException e)
        {
            Assert.Contains("Mend", e.Message, StringComparison.Ordinal);
        }
    }

    private static void Same(SignalBlock expected, SignalBlock actual)
    {
        Assert.Equal(expected.Start, actual.Start);
        Assert.Equal(expected.Series.Select(s => s.Channel), actual.Series.Select(s => s.Channel));
        foreach ((SignalSeries a, SignalSeries b) in expected.Series.Zip(actual.Series))
        {
            Assert.Equal(a.TimesMs.ToArray(), b.TimesMs.ToArray());
            Assert.Equal(a.Statuses.ToArray(), b.Statuses.ToArray());
            Assert.Equal(a.Values.ToArray().Select(BitConverter.DoubleToInt64Bits), b.Values.ToArray().Select(BitConverter.DoubleToInt64Bits));
        }
    }
}
