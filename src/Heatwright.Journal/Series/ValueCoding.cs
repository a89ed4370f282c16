// SPDX-License-Identifier: Apache-2.0
using System.Buffers.Binary;

namespace Heatwright.Journal.Series;

internal enum ValueMethod
{
    /// <summary>Whole steps against the first one.</summary>
    Steps,
    /// <summary>Changes of whole steps.</summary>
    Changes,
    /// <summary>Changes of the change.</summary>
    Bends,
    /// <summary>The 64 bits against those of the value before (exclusive or), byte planes one after the other.</summary>
    Bits,
}

/// <summary>How the values of a channel are written: the method, and the decimal places that make steps of values kept exactly (−1: the channel's own resolution).</summary>
internal readonly record struct ValuePlan(ValueMethod Method, int Decimals);

/// <summary>
/// Values of a channel. Where all are whole steps of the resolution, or of a power of ten (values kept exactly that a source rounded
/// itself), they are written as whole numbers: as they are, as changes or as changes of changes, whichever is smallest. Else their
/// bits are. A way is only taken when every value comes back with the same bits.
/// </summary>
internal static class ValueCoding
{
    private const int MostDecimals = 6;

    public static void Write(PackedWriter head, PackedWriter body, SignalSeries series)
    {
        double[] values = [.. series.Values.ToArray().Where(v => !double.IsNaN(v))];
        (ValuePlan Plan, PackedWriter Bytes)? best = null;
        int bestLength = int.MaxValue;
        foreach ((ValuePlan plan, PackedWriter bytes) in Ways(series.Channel, values))
        {
            int length = PackedRun.LengthOf(bytes.Written, PackedRun.Quick);
            if (length < bestLength)
            {
                (best, bestLength) = ((plan, bytes), length);
            }
        }

        (ValuePlan chosen, PackedWriter written) = best!.Value;
        head.Byte((int)chosen.Method);
        head.Signed(chosen.Decimals);
        body.Bytes(written.Written);
    }

    public static ValuePlan ReadPlan(PackedReader head, SignalChannel channel)
    {
        var method = (ValueMethod)head.Byte();
        long decimals = head.Signed();
        bool possible = Enum.IsDefined(method) && decimals is >= -1 and <= MostDecimals && (decimals >= 0 || channel.Resolution > 0 || method == ValueMethod.Bits);
        return possible ? new ValuePlan(method, (int)decimals) : throw SignalPacking.Malformed($"values written in way {(int)method} with {decimals} decimals");
    }

    public static double[] Read(ValuePlan plan, PackedReader body, SignalChannel channel, bool[] missing, int present)
    {
        double[] packed = plan.Method == ValueMethod.Bits ? ReadBits(body, present) : ReadSteps(plan, body, channel, present);
        double[] all = new double[missing.Length];
        int next = 0;
        for (int i = 0; i < all.Length; i++)
        {
            all[i] = missing[i] ? double.NaN : packed[next++];
        }

        return all;
    }

    private static IEnumerable<(ValuePlan Plan, PackedWriter Bytes)> Ways(SignalChannel channel, double[] values)
    {
        if (Steps(channel, values) is { } found)
        {
            foreach (ValueMethod method in (ValueMethod[])[ValueMethod.Steps, ValueMethod.Changes, ValueMethod.Bends])
            {
                yield return (new ValuePlan(method, found.Decimals), WriteSteps(method, found.Steps));
            }

            // Whole steps with a resolution never lose against bits; without one they nearly always win, too.
            if (channel.Resolution > 0)
            {
                yield break;
            }
        }

        yield return (new ValuePlan(ValueMethod.Bits, -1), WriteBits(values));
    }

    private static (long[] Steps, int Decimals)? Steps(SignalChannel channel, double[] values)
    {
        if (channel.Resolution > 0)
        {
            return StepsOf(channel, values) is { } own ? (own, -1) : null;
        }

        for (int decimals = 0; decimals <= MostDecimals; decimals++)
        {
            if (StepsOf(Decimal(decimals), values) is { } steps)
            {
                return (steps, decimals);
            }
        }

        return null;
    }

    private static long[]? StepsOf(SignalChannel channel, double[] values)
    {
        long[] steps = new long[values.Length];
        for (int i = 0; i < values.Length; i++)
        {
            if (!channel.TrySteps(values[i], out steps[i]) || BitConverter.DoubleToInt64Bits(channel.Value(steps[i])) != BitConverter.DoubleToInt64Bits(values[i]))
            {
                return null;
            }
        }

        return steps;
    }

    private static SignalChannel Decimal(int decimals) => new("decimals", "", 1 / Math.Pow(10, decimals));

    private static PackedWriter WriteSteps(ValueMethod method, long[] steps)
    {
        var bytes = new PackedWriter();
        long last = 0, change = 0;
        foreach (long step in steps)
        {
            bytes.Signed(step - last - change);
            if (method == ValueMethod.Steps)
            {
                last = steps[0];
                continue;
            }

            change = method == ValueMethod.Bends ? step - last : 0;
            last = step;
        }

        return bytes;
    }

    private static double[] ReadSteps(ValuePlan plan, PackedReader body, SignalChannel channel, int count)
    {
        SignalChannel by = plan.Decimals < 0 ? channel : Decimal(plan.Decimals);
        double[] values = new double[count];
        long last = 0, change = 0;
        for (int i = 0; i < count; i++)
        {
            // Wrapping arithmetic is harmless: any whole number of steps is a value.
            long step = unchecked(last + change + body.Signed());
            values[i] = by.Value(step);
            if (!double.IsFinite(values[i]))
            {
                throw SignalPacking.Malformed($"value {i + 1} is no number");
            }

            if (plan.Method != ValueMethod.Steps)
            {
                change = plan.Method == ValueMethod.Bends ? unchecked(step - last) : 0;
                last = step;
            }
            else if (i == 0)
            {
                last = step;
            }
        }

        return values;
    }

    private static PackedWriter WriteBits(double[] values)
    {
        byte[] planes = new byte[8 * values.Length];
        long last = 0;
        Span<byte> eight = stackalloc byte[8];
        for (int i = 0; i < values.Length; i++)
        {
            long bits = BitConverter.DoubleToInt64Bits(values[i]);
            BinaryPrimitives.WriteInt64BigEndian(eight, bits ^ last);
            last = bits;
            for (int plane = 0; plane < 8; plane++)
            {
                planes[(plane * values.Length) + i] = eight[plane];
            }
        }

        var bytes = new PackedWriter();
        bytes.Bytes(planes);
        return bytes;
    }

    private static double[] ReadBits(PackedReader body, int count)
    {
        ReadOnlySpan<byte> planes = body.Take(8 * count).Span;
        double[] values = new double[count];
        long last = 0;
        for (int i = 0; i < count; i++)
        {
            long bits = 0;
            for (int plane = 0; plane < 8; plane++)
            {
                bits = (bits << 8) | planes[(plane * count) + i];
            }

            last ^= bits;
            values[i] = BitConverter.Int64BitsToDouble(last);
            if (!double.IsFinite(values[i]))
            {
                throw SignalPacking.Malformed($"value {i + 1} is no number");
            }
        }

        return values;
    }
}
