// SPDX-License-Identifier: Apache-2.0
using System.Buffers.Binary;

namespace Heatwright.Journal.Care;

/// <summary>A place in the write-ahead log that is not what was written.</summary>
/// <param name="Frame">Frame, from 1; 0 for the header.</param>
/// <param name="Page">Page that it carries; 0 for the header.</param>
/// <param name="First">First byte in the log.</param>
/// <param name="Last">Last byte.</param>
/// <param name="Flip">Offset of the one byte that explains it; null when no single byte does, or several might.</param>
internal sealed record BrokenFrame(long Frame, uint Page, long First, long Last, long? Flip);

/// <summary>What a write-ahead log holds.</summary>
/// <param name="Frames">Frames that the database reads: up to the last commit before anything broken.</param>
/// <param name="Pages">Pages that those frames carry.</param>
/// <param name="Broken">The first place that is not what was written; what follows it is not read by the database.</param>
/// <param name="LostFrames">Frames from there on that were written whole.</param>
internal sealed record LogContent(long Frames, IReadOnlySet<uint> Pages, BrokenFrame? Broken, long LostFrames);

/// <summary>
/// Reads the write-ahead log of a journal as bytes, before the database does: that takes a frame with a wrong checksum for the
/// end of the log and forgets what stands behind it. Here an end is told from damage: a frame is damaged when one changed byte makes its
/// checksum right, or when a commit follows it that hangs together with it. Frames without a commit prove nothing: a transaction
/// that was taken back (a full disk, say) leaves such behind the end. So a commit at the very end with several wrong bytes looks like one
/// that was never finished; a noted head finds that.
/// Layout: https://sqlite.org/fileformat2.html, section 4. Changes nothing.
/// </summary>
internal static class LogScan
{
    private const int HeaderLength = 32;
    private const int FrameHeader = 24;
    private const int Several = -1;

    /// <summary>The content of a log; an empty one holds nothing.</summary>
    public static LogContent Read(Stream log)
    {
        ArgumentNullException.ThrowIfNull(log);
        var pages = new HashSet<uint>();
        var none = new LogContent(0, pages, null, 0);
        var header = new byte[HeaderLength];
        log.Position = 0;
        if (log.ReadAtLeast(header, HeaderLength, throwOnEndOfStream: false) < HeaderLength)
        {
            return none;
        }

        int? headerFlip = null;
        bool headerHolds = HeaderHolds(header);
        if (!headerHolds && (headerFlip = Search(header, HeaderHolds)) is null)
        {
            // Nothing can be read by it. Frames behind it that hold by each other's checksums show that it was one once.
            return none with { Broken = new BrokenFrame(0, 0, 0, HeaderLength - 1, null), LostFrames = FollowingWithoutHeader(log) };
        }

        var scan = new Scan(header, log.Length);
        long committed = 0;
        var uncommitted = new List<uint>();
        (uint, uint) sum = scan.HeaderSum;
        for (long i = 1; i <= scan.Frames; i++)
        {
            byte[] frame = scan.Get(log, i);
            (uint, uint) next = scan.Sum(frame, sum);
            if (!scan.SaltHolds(frame) || next != scan.Stored(frame))
            {
                BrokenFrame? broken = Judge(log, scan, i, frame, sum, out long lost);
                return Done(broken, lost);
            }

            sum = next;
            uint page = BinaryPrimitives.ReadUInt32BigEndian(frame);
            uncommitted.Add(page);
            if (BinaryPrimitives.ReadUInt32BigEndian(frame.AsSpan(4)) != 0)
            {
                committed = i;
                pages.UnionWith(uncommitted);
                uncommitted.Clear();
            }
        }

        return Done(null, 0);

        LogContent Done(BrokenFrame? broken, long lost) => headerHolds
            ? new LogContent(committed, pages, broken, lost)
            : new LogContent(0, new HashSet<uint>(), new BrokenFrame(0, 0, 0, HeaderLength - 1, headerFlip is >= 0 ? headerFlip : null), committed);
    }

    private static BrokenFrame? Judge(Stream log, Scan scan, long number, byte[] frame, (uint, uint) before, out long lost)
    {
        long first = HeaderLength + ((number - 1) * scan.FrameLength);
        lost = 1;
        byte[] previous = frame;
        bool committed = false;
        for (long i = number + 1; i <= scan.Frames; i++)
        {
            byte[] next = scan.Get(log, i);
            bool follows = scan.SaltHolds(next) && scan.Sum(next, scan.Stored(previous)) == scan.Stored(next);
            if (!follows && i > number + 1)
            {
                break;
            }

            committed |= follows && BinaryPrimitives.ReadUInt32BigEndian(next.AsSpan(4)) != 0;
            lost++;
            previous = next;
        }

        int? flip = scan.Flip(frame, before);
        return committed || flip is not null
            ? new BrokenFrame(number, BinaryPrimitives.ReadUInt32BigEndian(frame), first, first + scan.FrameLength - 1, flip is >= 0 ? first + flip : null)
            : null;
    }

    private static long FollowingWithoutHeader(Stream log)
    {
        // The page size is always 4096 here; both byte orders of the checksum are tried.
        var big = new Scan(Fabricated(0x377f0683), log.Length);
        long most = 0;
        foreach (Scan scan in new[] { big, new Scan(Fabricated(0x377f0682), log.Length) })
        {
            long count = 0;
            byte[]? previous = null;
            for (long i = 1; i <= scan.Frames; i++)
            {
                byte[] frame = scan.Get(log, i);
                count += previous is not null && scan.Sum(frame, scan.Stored(previous)) == scan.Stored(frame) ? 1 : 0;
                previous = frame;
            }

            most = Math.Max(most, count);
        }

        return most;
    }

    private static byte[] Fabricated(uint magic)
    {
        var header = new byte[HeaderLength];
        BinaryPrimitives.WriteUInt32BigEndian(header, magic);
        BinaryPrimitives.WriteUInt32BigEndian(header.AsSpan(8), 4096);
        return header;
    }

    private static bool HeaderHolds(byte[] header)
    {
        uint magic = BinaryPrimitives.ReadUInt32BigEndian(header);
        uint size = BinaryPrimitives.ReadUInt32BigEndian(header.AsSpan(8));
        return magic is 0x377f0682 or 0x377f0683
            && BinaryPrimitives.ReadUInt32BigEndian(header.AsSpan(4)) == 3007000
            && size is >= 512 and <= 65536 && uint.IsPow2(size)
            && Scan.Sum(header.AsSpan(0, 24), (0, 0), magic == 0x377f0683)
                == (BinaryPrimitives.ReadUInt32BigEndian(header.AsSpan(24)), BinaryPrimitives.ReadUInt32BigEndian(header.AsSpan(28)));
    }

    /// <summary>Place of the byte whose change makes the bytes hold, or <see cref="Several"/>; the bytes are left with the first such change.</summary>
    private static int? Search(byte[] bytes, Func<byte[], bool> holds)
    {
        int? place = null;
        byte[]? right = null;
        for (int i = 0; i < bytes.Length; i++)
        {
            byte found = bytes[i];
            for (int change = 1; change < 256; change++)
            {
                bytes[i] = (byte)(found ^ change);
                if (holds(bytes))
                {
                    place = place is null ? i : Several;
                    right ??= [.. bytes];
                }
            }

            bytes[i] = found;
        }

        right?.CopyTo(bytes, 0);
        return place;
    }

    /// <summary>How this log is laid out.</summary>
    private sealed class Scan
    {
        private readonly bool _bigEndian;
        private readonly byte[] _salt;

        public Scan(byte[] header, long length)
        {
            _bigEndian = BinaryPrimitives.ReadUInt32BigEndian(header) == 0x377f0683;
            _salt = header[16..24];
            FrameLength = FrameHeader + (int)BinaryPrimitives.ReadUInt32BigEndian(header.AsSpan(8));
            Frames = (length - HeaderLength) / FrameLength;
            HeaderSum = (BinaryPrimitives.ReadUInt32BigEndian(header.AsSpan(24)), BinaryPrimitives.ReadUInt32BigEndian(header.AsSpan(28)));
        }

        public int FrameLength { get; }

        public long Frames { get; }

        public (uint, uint) HeaderSum { get; }

        public static (uint, uint) Sum(ReadOnlySpan<byte> bytes, (uint, uint) start, bool bigEndian)
        {
            (uint a, uint b) = start;
            for (int i = 0; i + 8 <= bytes.Length; i += 8)
            {
                uint x = BinaryPrimitives.ReadUInt32LittleEndian(bytes[i..]), y = BinaryPrimitives.ReadUInt32LittleEndian(bytes[(i + 4)..]);
                a += (bigEndian ? BinaryPrimitives.ReverseEndianness(x) : x) + b;
                b += (bigEndian ? BinaryPrimitives.ReverseEndianness(y) : y) + a;
            }

            return (a, b);
        }

        public byte[] Get(Stream log, long number)
        {
            var frame = new byte[FrameLength];
            log.Position = HeaderLength + ((number - 1) * FrameLength);
            int got = log.ReadAtLeast(frame, FrameLength, throwOnEndOfStream: false);
            frame.AsSpan(got).Clear();
            return frame;
        }

        public (uint, uint) Sum(byte[] frame, (uint, uint) before) =>
            Sum(frame.AsSpan(FrameHeader), Sum(frame.AsSpan(0, 8), before, _bigEndian), _bigEndian);

        public (uint, uint) Stored(byte[] frame) =>
            (BinaryPrimitives.ReadUInt32BigEndian(frame.AsSpan(16)), BinaryPrimitives.ReadUInt32BigEndian(frame.AsSpan(20)));

        /// <summary>Place in the frame of the one byte that explains why it does not hold; <see cref="Several"/> when several might (the sum is a weak one); null when none does.</summary>
        public int? Flip(byte[] frame, (uint A, uint B) before)
        {
            (uint a, uint b) = Sum(frame, before);
            (uint storedA, uint storedB) = Stored(frame);
            bool sumHolds = (a, b) == (storedA, storedB);
            if (!SaltHolds(frame))
            {
                return sumHolds ? Single(frame.AsSpan(8, 8), _salt, 8) : null;
            }

            var computed = new byte[8];
            BinaryPrimitives.WriteUInt32BigEndian(computed, a);
            BinaryPrimitives.WriteUInt32BigEndian(computed.AsSpan(4), b);
            int? explanation = Single(frame.AsSpan(16, 8), computed, 16);

            // The sum is linear in the words that it covers: what one of them adds to the result is its weight times the word.
            var unit = new byte[FrameLength];
            for (int word = 0; word < FrameLength; word += word == 4 ? FrameHeader - 4 : 4)
            {
                unit[word + (_bigEndian ? 3 : 0)] = 1;
                (uint weightA, uint weightB) = Sum(unit, (0, 0));
                unit.AsSpan(word, 4).Clear();
                for (int i = 0; i < 4; i++)
                {
                    int shift = 8 * (_bigEndian ? 3 - i : i);
                    for (int value = 0; value < 256; value++)
                    {
                        uint change = unchecked((uint)(value - frame[word + i]) << shift);
                        if (change != 0 && change * weightA == storedA - a && change * weightB == storedB - b)
                        {
                            explanation = explanation is null ? word + i : Several;
                        }
                    }
                }
            }

            return explanation;
        }

        private static int? Single(ReadOnlySpan<byte> found, ReadOnlySpan<byte> right, int at)
        {
            int differing = 0, last = 0;
            for (int i = 0; i < found.Length; i++)
            {
                if (found[i] != right[i])
                {
                    differing++;
                    last = i;
                }
            }

            return differing == 1 ? at + last : null;
        }

        public bool SaltHolds(byte[] frame) => frame.AsSpan(8, 8).SequenceEqual(_salt);
    }
}
