// SPDX-License-Identifier: Apache-2.0
using System.Buffers.Binary;

namespace Heatwright.Journal.Files.Tables;

/// <summary>
/// Walks the footer of a Parquet file (Thrift compact protocol) before the library reads it: on a footer that does not end where it
/// should, the library goes round forever (found by spoilt files).
/// </summary>
internal ref struct ParquetFooter
{
    private const int Deepest = 32;
    private const int Largest = 64 << 20;

    private readonly ReadOnlySpan<byte> _bytes;
    private int _at;

    private ParquetFooter(ReadOnlySpan<byte> bytes) => _bytes = bytes;

    /// <summary>Null when the footer is whole, or what is wrong with it.</summary>
    public static string? Fault(Stream stream)
    {
        Span<byte> tail = stackalloc byte[8];
        if (stream.Length < 12)
        {
            return "it is too short";
        }

        stream.Position = stream.Length - tail.Length;
        stream.ReadExactly(tail);
        int length = BinaryPrimitives.ReadInt32LittleEndian(tail);
        if (!tail[4..].SequenceEqual("PAR1"u8) || length <= 0 || length > Math.Min(Largest, stream.Length - 12))
        {
            return "its end is missing";
        }

        byte[] footer = new byte[length];
        stream.Position = stream.Length - tail.Length - length;
        stream.ReadExactly(footer);
        var walk = new ParquetFooter(footer);
        return walk.Struct(0) && walk._at == length ? null : "its footer is broken";
    }

    private readonly int Left => _bytes.Length - _at;

    private bool Struct(int depth)
    {
        if (depth > Deepest)
        {
            return false;
        }

        while (Left > 0)
        {
            byte head = _bytes[_at++];
            if (head == 0)
            {
                return true;
            }

            // A field number of its own follows when the step from the last one does not fit.
            if ((head >> 4) == 0 && !Varint(out _))
            {
                return false;
            }

            // In a field, the two truth values are types of their own and take no byte.
            int type = head & 0x0F;
            if (type is not (1 or 2) && !Value(type, depth))
            {
                return false;
            }
        }

        return false;
    }

    private bool Value(int type, int depth) => type switch
    {
        1 or 2 or 3 => Skip(1),
        4 or 5 or 6 => Varint(out _),
        7 => Skip(8),
        8 => Varint(out ulong length) && length <= (ulong)Left && Skip((int)length),
        9 or 10 => List(depth),
        11 => Map(depth),
        12 => Struct(depth + 1),
        _ => false,
    };

    private bool List(int depth)
    {
        if (Left == 0 || depth > Deepest)
        {
            return false;
        }

        byte head = _bytes[_at++];
        ulong size = (ulong)(head >> 4);
        return (size != 15 || Varint(out size)) && Values(size, head & 0x0F, depth);
    }

    private bool Map(int depth)
    {
        if (!Varint(out ulong size) || size == 0)
        {
            return size == 0;
        }

        if (Left == 0 || size > (ulong)Left)
        {
            return false;
        }

        byte types = _bytes[_at++];
        for (ulong i = 0; i < size; i++)
        {
            if (!Value(types >> 4, depth + 1) || !Value(types & 0x0F, depth + 1))
            {
                return false;
            }
        }

        return true;
    }

    // Each value takes a byte at least, so that a size that lies is seen at once.
    private bool Values(ulong size, int type, int depth)
    {
        if (size > (ulong)Left)
        {
            return false;
        }

        for (ulong i = 0; i < size; i++)
        {
            if (!Value(type, depth + 1))
            {
                return false;
            }
        }

        return true;
    }

    private bool Skip(int bytes)
    {
        if (bytes > Left)
        {
            return false;
        }

        _at += bytes;
        return true;
    }

    private bool Varint(out ulong value)
    {
        value = 0;
        for (int shift = 0; shift < 64 && Left > 0; shift += 7)
        {
            byte b = _bytes[_at++];
            value |= (ulong)(b & 0x7F) << shift;
            if (b < 0x80)
            {
                return true;
            }
        }

        return false;
    }
}
