// SPDX-License-Identifier: Apache-2.0
using System.Buffers;
using System.Text;
using System.Text.Unicode;

namespace Heatwright.Journal.Files.Tables;

/// <summary>
/// Finds how a text file is encoded: by its byte order mark; else UTF-16 when every other byte of the start is zero; else UTF-8
/// when the whole file is; else Windows-1252, in which every byte is some sign.
/// </summary>
internal static class TextEncodingFinder
{
    private const int Portion = 1 << 16;

    /// <summary>Encoding, length of the mark and what to say of it. The stream is left anywhere.</summary>
    public static (Encoding Encoding, int MarkLength, string Fact) Find(Stream stream)
    {
        byte[] buffer = new byte[Portion];
        int length = stream.ReadAtLeast(buffer, Portion, throwOnEndOfStream: false);
        ReadOnlySpan<byte> start = buffer.AsSpan(0, length);
        if (start.StartsWith((ReadOnlySpan<byte>)[0xEF, 0xBB, 0xBF]))
        {
            // A file with the mark and a broken byte further on is read as far as it goes: the sign becomes U+FFFD and shows.
            return (new UTF8Encoding(true), 3, "UTF-8 with byte order mark");
        }

        if (start.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE]))
        {
            return (new UnicodeEncoding(bigEndian: false, true), 2, "UTF-16, little-endian");
        }

        if (start.StartsWith((ReadOnlySpan<byte>)[0xFE, 0xFF]))
        {
            return (new UnicodeEncoding(bigEndian: true, true), 2, "UTF-16, big-endian");
        }

        if (UnmarkedUtf16(start) is { } bigEndian)
        {
            return (new UnicodeEncoding(bigEndian, false), 0, $"UTF-16, {(bigEndian ? "big" : "little")}-endian, without byte order mark");
        }

        long? bad = FirstNotUtf8(stream, buffer, length, out byte value);
        return bad is null
            ? (new UTF8Encoding(false), 0, "UTF-8")
            : (CodePagesEncodingProvider.Instance.GetEncoding(1252)!, 0, $"Windows-1252 (byte {value:X2} at position {bad + 1} is not UTF-8)");
    }

    // Latin letters in UTF-16 have a zero byte each. A CSV of one byte to the sign has none.
    private static bool? UnmarkedUtf16(ReadOnlySpan<byte> start)
    {
        int even = 0;
        int odd = 0;
        for (int i = 0; i + 1 < start.Length; i += 2)
        {
            even += start[i] == 0 ? 1 : 0;
            odd += start[i + 1] == 0 ? 1 : 0;
        }

        int pairs = start.Length / 2;
        return pairs < 2 ? null : odd > pairs * 0.7 && even == 0 ? false : even > pairs * 0.7 && odd == 0 ? true : null;
    }

    private static long? FirstNotUtf8(Stream stream, byte[] buffer, int length, out byte value)
    {
        long passed = 0;
        char[] scrap = new char[Portion];
        while (true)
        {
            bool last = length < Portion;
            OperationStatus status = Utf8.ToUtf16(buffer.AsSpan(0, length), scrap, out int read, out _, replaceInvalidSequences: false, isFinalBlock: last);
            if (status == OperationStatus.InvalidData)
            {
                value = buffer[read];
                return passed + read;
            }

            if (last)
            {
                value = 0;
                return null;
            }

            // Up to three bytes of a sign that runs into the next portion stay.
            int rest = length - read;
            buffer.AsSpan(read, rest).CopyTo(buffer);
            passed += read;
            length = rest + stream.ReadAtLeast(buffer.AsSpan(rest), Portion - rest, throwOnEndOfStream: false);
        }
    }
}
