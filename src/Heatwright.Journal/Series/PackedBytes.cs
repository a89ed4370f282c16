// SPDX-License-Identifier: Apache-2.0
using System.Buffers.Binary;
using System.IO.Compression;
using System.Text;
using Heatwright.Journal.Entries;

namespace Heatwright.Journal.Series;

/// <summary>Bytes being written: numbers of seven bits a byte, least first (LEB128), signed ones in zigzag order (0, −1, 1, −2 …).</summary>
internal sealed class PackedWriter
{
    private byte[] _bytes = new byte[256];

    public int Length { get; private set; }

    public ReadOnlySpan<byte> Written => _bytes.AsSpan(0, Length);

    public void Byte(int value) => Room(1)[0] = (byte)value;

    public void Bytes(ReadOnlySpan<byte> bytes) => bytes.CopyTo(Room(bytes.Length));

    public void Number(ulong value)
    {
        while (value >= 0x80)
        {
            Byte((int)(value & 0x7f) | 0x80);
            value >>= 7;
        }

        Byte((int)value);
    }

    public void Count(int value) => Number((ulong)value);

    public void Signed(long value) => Number((ulong)((value << 1) ^ (value >> 63)));

    public void Real(double value) => BinaryPrimitives.WriteDoubleLittleEndian(Room(8), value);

    public void Text(string text)
    {
        byte[] bytes = Encoding.UTF8.GetBytes(text);
        Count(bytes.Length);
        Bytes(bytes);
    }

    private Span<byte> Room(int count)
    {
        if (Length + count > _bytes.Length)
        {
            Array.Resize(ref _bytes, Math.Max(Length + count, 2 * _bytes.Length));
        }

        Length += count;
        return _bytes.AsSpan(Length - count, count);
    }
}

/// <summary>The same bytes being read. Anything that cannot be what a writer wrote is an <see cref="EntryFormatException"/>.</summary>
internal sealed class PackedReader(ReadOnlyMemory<byte> bytes)
{
    private ReadOnlyMemory<byte> _rest = bytes;

    public int Left => _rest.Length;

    public int Byte() => Take(1).Span[0];

    public ReadOnlyMemory<byte> Take(int count)
    {
        if (count < 0 || count > _rest.Length)
        {
            throw SignalPacking.Malformed($"it ends {count - _rest.Length} bytes early");
        }

        ReadOnlyMemory<byte> taken = _rest[..count];
        _rest = _rest[count..];
        return taken;
    }

    public ulong Number()
    {
        ulong value = 0;
        for (int shift = 0; shift < 64; shift += 7)
        {
            int next = Byte();
            value |= (ulong)(next & 0x7f) << shift;
            if (next < 0x80)
            {
                return shift < 63 || next <= 1 ? value : throw SignalPacking.Malformed("a number has more than 64 bits");
            }
        }

        throw SignalPacking.Malformed("a number does not end");
    }

    /// <summary>A count that is at most so much: checked before anything is made of that size.</summary>
    public int Count(int most, string what)
    {
        ulong value = Number();
        return value <= (ulong)most ? (int)value : throw SignalPacking.Malformed($"{value} {what}, at most {most} are possible");
    }

    public long Signed()
    {
        ulong value = Number();
        return (long)(value >> 1) ^ -(long)(value & 1);
    }

    public double Real() => BinaryPrimitives.ReadDoubleLittleEndian(Take(8).Span);

    public string Text(int mostBytes)
    {
        ReadOnlyMemory<byte> text = Take(Count(mostBytes, "bytes of text"));
        try
        {
            return new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(text.Span);
        }
        catch (DecoderFallbackException e)
        {
            throw SignalPacking.Malformed("a name is not UTF-8", e);
        }
    }
}

/// <summary>A run of bytes made small by Brotli (RFC 7932), or left as it is where that is smaller.</summary>
internal static class PackedRun
{
    // A window of 64 KiB spans the runs that one channel of one heat gives; a larger one costs memory and finds nothing.
    private const int WindowBits = 16;

    /// <summary>Quality with which ways of writing are compared.</summary>
    public const int Quick = 4;

    /// <summary>Quality with which is written.</summary>
    public const int Thorough = 9;

    /// <summary>Writes length, stored length and bytes.</summary>
    public static void Write(PackedWriter to, ReadOnlySpan<byte> raw)
    {
        byte[] small = Small(raw, Thorough, out int length);
        bool shrunk = length < raw.Length;
        to.Count(raw.Length);
        to.Count(shrunk ? length : raw.Length);
        to.Bytes(shrunk ? small.AsSpan(0, length) : raw);
    }

    /// <summary>Length that the bytes would take.</summary>
    public static int LengthOf(ReadOnlySpan<byte> raw, int quality)
    {
        Small(raw, quality, out int length);
        return Math.Min(length, raw.Length);
    }

    /// <summary>Reads what <see cref="Write"/> wrote; never makes more room than the bytes asked for.</summary>
    public static ReadOnlyMemory<byte> Read(PackedReader from, int mostRaw, string what)
    {
        int rawLength = from.Count(mostRaw, $"bytes of {what}");
        int length = from.Count(from.Left, $"stored bytes of {what}");
        ReadOnlyMemory<byte> stored = from.Take(length);
        if (length == rawLength)
        {
            return stored;
        }

        byte[] raw = new byte[rawLength];
        return BrotliDecoder.TryDecompress(stored.Span, raw, out int written) && written == rawLength
            ? raw
            : throw SignalPacking.Malformed($"the {what} do not unpack to {rawLength} bytes");
    }

    private static byte[] Small(ReadOnlySpan<byte> raw, int quality, out int length)
    {
        byte[] small = new byte[BrotliEncoder.GetMaxCompressedLength(raw.Length)];
        if (!BrotliEncoder.TryCompress(raw, small, out length, quality, WindowBits))
        {
            length = int.MaxValue;
        }

        return small;
    }
}
