// SPDX-License-Identifier: Apache-2.0
using System.IO.Hashing;

namespace Heatwright.Journal.Store.Sqlite;

/// <summary>A page whose seal does not hold.</summary>
/// <param name="Number">Page number, from 1.</param>
/// <param name="Size">Page size, bytes.</param>
/// <param name="Unsealed">True: the place of the seal holds zeros, so the page was written by a program that puts none.</param>
/// <param name="Flip">The one byte that explains it; null when no single byte does.</param>
internal sealed record BrokenPage(long Number, int Size, bool Unsealed, FlippedByte? Flip)
{
    /// <summary>Offset of its first byte in the file.</summary>
    public long Offset => (Number - 1) * Size;
}

/// <summary>A byte that is not what was written.</summary>
/// <param name="Offset">Offset in the file.</param>
/// <param name="Is">What it is.</param>
/// <param name="Was">What it was.</param>
internal sealed record FlippedByte(long Offset, byte Is, byte Was);

/// <summary>Goes through the bytes of a file with page seals without the help of the library. Changes nothing.</summary>
internal static class PageSealScan
{
    /// <summary>Pages whose seal does not hold, in order. A last page that is not whole is not looked at.</summary>
    /// <param name="file">Open for reading.</param>
    /// <param name="pageSize">Page size, bytes.</param>
    /// <param name="search">For how many broken pages the one byte that explains it is searched; the search costs about 0.2 s a page.</param>
    /// <param name="progress">Told the bytes read so far now and then.</param>
    public static IEnumerable<BrokenPage> Broken(Stream file, int pageSize, int search = 16, Action<long>? progress = null)
    {
        ArgumentNullException.ThrowIfNull(file);
        var buffer = new byte[Math.Max(pageSize, 1 << 18)];
        long start = 0;
        file.Position = 0;
        for (int length; (length = file.ReadAtLeast(buffer, buffer.Length, throwOnEndOfStream: false)) >= pageSize; start += length)
        {
            for (int at = 0; at + pageSize <= length; at += pageSize)
            {
                long number = ((start + at) / pageSize) + 1;
                if (PageSeal.LockByte / pageSize == number - 1 || PageSeal.Holds(buffer.AsSpan(at, pageSize), number))
                {
                    continue;
                }

                bool unsealed = PageSeal.Blank(buffer.AsSpan(at + pageSize - PageSeal.Length, PageSeal.Length));
                FlippedByte? flip = unsealed || search-- <= 0 ? null : Find(buffer.AsSpan(at, pageSize), number);
                yield return new BrokenPage(number, pageSize, unsealed, flip);
            }

            progress?.Invoke(start + length);
        }
    }

    /// <summary>The single byte whose change makes the seal hold, or null.</summary>
    /// <param name="page">The page as it is; unchanged on return.</param>
    /// <param name="number">Its number.</param>
    public static FlippedByte? Find(Span<byte> page, long number)
    {
        long offset = (number - 1) * page.Length;
        Span<byte> content = page[..^PageSeal.Length];
        ReadOnlySpan<byte> seal = page[^PageSeal.Length..];
        Span<byte> computed = stackalloc byte[PageSeal.Length];
        XxHash128.Hash(content, computed, number);
        int differing = 0, last = 0;
        for (int i = 0; i < computed.Length; i++)
        {
            if (computed[i] != seal[i])
            {
                differing++;
                last = i;
            }
        }

        if (differing == 1)
        {
            return new FlippedByte(offset + content.Length + last, seal[last], computed[last]);
        }

        for (int i = 0; i < content.Length; i++)
        {
            byte found = content[i];
            for (int change = 1; change < 256; change++)
            {
                content[i] = (byte)(found ^ change);
                XxHash128.Hash(content, computed, number);
                if (computed.SequenceEqual(seal))
                {
                    byte was = content[i];
                    content[i] = found;
                    return new FlippedByte(offset + i, found, was);
                }
            }

            content[i] = found;
        }

        return null;
    }
}
