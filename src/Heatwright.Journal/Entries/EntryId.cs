// SPDX-License-Identifier: Apache-2.0
using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;

namespace Heatwright.Journal.Entries;

/// <summary>Ids that follow from what an entry is about, so that saying it again makes the same id.</summary>
public static class EntryId
{
    /// <summary>
    /// A UUID of version 8 (RFC 9562, section 5.8) from the first bits of SHA-256 over the parts, each with its length in front.
    /// </summary>
    public static Guid From(params ReadOnlySpan<string> parts)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        Span<byte> length = stackalloc byte[4];
        foreach (string part in parts)
        {
            byte[] bytes = Encoding.UTF8.GetBytes(part);
            BinaryPrimitives.WriteInt32BigEndian(length, bytes.Length);
            hash.AppendData(length);
            hash.AppendData(bytes);
        }

        byte[] digest = hash.GetHashAndReset();
        digest[6] = (byte)((digest[6] & 0x0f) | 0x80);
        digest[8] = (byte)((digest[8] & 0x3f) | 0x80);
        return new Guid(digest.AsSpan(0, 16), bigEndian: true);
    }
}
