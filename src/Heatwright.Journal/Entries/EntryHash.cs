// SPDX-License-Identifier: Apache-2.0
using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;

namespace Heatwright.Journal.Entries;

/// <summary>
/// The chain: SHA-256 (FIPS 180-4) over a fixed tag, the hash of the entry before, and every field with its length in front,
/// so that no two different entries give the same bytes. Integers are big-endian, times are UTC milliseconds since 1970,
/// text is UTF-8.
/// </summary>
public static class EntryHash
{
    /// <summary>Length of a hash, bytes.</summary>
    public const int Length = 32;

    private static readonly byte[] Tag = "heatwright entry 1\n"u8.ToArray();

    /// <summary>What the first entry is chained to: zeros.</summary>
    public static ReadOnlyMemory<byte> Origin { get; } = new byte[Length];

    /// <summary>The hash of an entry that follows <paramref name="previous"/>. The entry's own <see cref="Entry.Hash"/> is not read.</summary>
    public static byte[] Of(ReadOnlySpan<byte> previous, Entry entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        hash.AppendData(Tag);
        hash.AppendData(previous);
        Number(hash, entry.Sequence);
        Span<byte> id = stackalloc byte[16];
        entry.Id.TryWriteBytes(id, bigEndian: true, out _);
        hash.AppendData(id);
        Text(hash, entry.Heat);
        Number(hash, entry.HeatVersion);
        Text(hash, entry.Kind.Name());
        Number(hash, entry.SchemaVersion);
        Number(hash, entry.SourceTime.ToUnixTimeMilliseconds());
        Number(hash, entry.ArrivalTime.ToUnixTimeMilliseconds());
        Text(hash, entry.Actor);
        Text(hash, entry.Reason);
        Number(hash, entry.BodyBytes.Length);
        hash.AppendData(entry.BodyBytes.Span);
        return hash.GetHashAndReset();
    }

    private static void Text(IncrementalHash hash, string text)
    {
        byte[] bytes = Encoding.UTF8.GetBytes(text);
        Number(hash, bytes.Length);
        hash.AppendData(bytes);
    }

    private static void Number(IncrementalHash hash, long number)
    {
        Span<byte> bytes = stackalloc byte[8];
        BinaryPrimitives.WriteInt64BigEndian(bytes, number);
        hash.AppendData(bytes);
    }
}
