// SPDX-License-Identifier: Apache-2.0
using System.Buffers.Binary;
using Heatwright.Journal.Store.Sqlite;

namespace Heatwright.Journal.Care;

/// <summary>Checks of a journal file as bytes, without the database: length, header, seals, write-ahead log. Changes nothing.</summary>
internal static class FileCheck
{
    private const int PageSize = 4096; // What journals are made with.
    private const int Tries = 5;       // Another program may be writing: what is wrong must be wrong each time.
    private const int MostLooks = 50;  // At something that changes from look to look.

    /// <summary>The log beside a file, or an empty one.</summary>
    public static LogContent Log(string path, FindingList findings)
    {
        string name = path + "-wal";
        var none = new LogContent(0, new HashSet<uint>(), null, 0);
        LogContent content = none;
        bool stays = false;
        byte[]? before = null;
        for (int looks = 0, same = 0; looks < MostLooks && same < Tries && File.Exists(name); looks++)
        {
            byte[] header = new byte[32];
            BrokenFrame? last = content.Broken;
            try
            {
                using FileStream log = Open(name);
                _ = log.ReadAtLeast(header, header.Length, throwOnEndOfStream: false);
                content = LogScan.Read(log);
            }
            catch (FileNotFoundException)
            {
                return none; // Folded into the file meanwhile.
            }

            if (content.Broken is null)
            {
                return content;
            }

            // A log that begins anew while it is read looks broken, each time at another place.
            same = before is not null && header.AsSpan().SequenceEqual(before) && content.Broken == last ? same + 1 : 1;
            stays = same == Tries;
            before = header;
        }

        if (stays && content.Broken is { } broken)
        {
            string place = broken.Frame == 0 ? "its header" : $"frame {broken.Frame}, which carries page {broken.Page},";
            string flip = broken.Flip is { } at ? $" (the byte at {at})" : "";
            findings.Add(new Finding(
                Check.Log,
                Severity.Damage,
                $"The write-ahead log {Path.GetFileName(name)} is not what was written: {place} at bytes {broken.First} to {broken.Last}{flip}. "
                    + $"The database takes that for the end of the log; {content.LostFrames} frames from there on are lost to it. "
                    + "Mend: before anything opens the journal to write, copy file and log elsewhere; then restore the last backup.",
                Page: broken.Page > 0 ? broken.Page : null,
                FirstByte: broken.First,
                LastByte: broken.Last));
        }

        return content;
    }

    /// <summary>Length, header and seals of the file.</summary>
    /// <param name="path">The file.</param>
    /// <param name="log">What the log beside it holds.</param>
    /// <param name="findings">Where findings go.</param>
    /// <param name="heatOf">Heat of an entry, or null when it cannot be told.</param>
    public static void Pages(string path, LogContent log, FindingList findings, Func<long, string?> heatOf)
    {
        using FileStream file = Open(path);
        var first = new byte[PageSize];
        int got = file.ReadAtLeast(first, PageSize, throwOnEndOfStream: false);
        if (got < PageSize)
        {
            findings.Add(new Finding(Check.File, Severity.Damage, $"The file has {file.Length} bytes, less than one page of {PageSize}: it is cut off.", FirstByte: 0, LastByte: Math.Max(0, file.Length - 1)));
            return;
        }

        bool sealedHeader = PageSeal.SealedPageSize(first) == PageSize;
        bool sealedPage = PageSeal.Holds(first, 1) || PageSealScan.Find(first, 1) is not null;
        if (!sealedHeader && !sealedPage)
        {
            bool noSeals = PageSeal.PageSize(first) != 0 && first[20] == 0;
            bool marked = PageSeal.Marked(first);
            findings.Add(new Finding(
                Check.File,
                noSeals && !marked ? Severity.Doubt : Severity.Damage,
                !noSeals ? "The file header is not that of a journal with sealed pages."
                    : marked ? "The header of this journal leaves no room for seals, which every journal has: it is damaged, or another program made the file anew. "
                        + "A flipped byte is found in entries only. Mend: when the chain below is whole, back it up; the copy has seals. Otherwise restore the last backup."
                    : "The pages of this file have no seals: it was made by another program. A flipped byte is found in entries only. Mend: back it up; the copy has seals.",
                Page: 1,
                FirstByte: 0,
                LastByte: 99));
            if (noSeals)
            {
                return;
            }
        }

        Lengths(path, findings);
        List<BrokenPage> broken = Broken(file, findings);
        if (broken.Count == 0)
        {
            return;
        }

        IReadOnlyDictionary<long, PageOwner> owners = PageOwners.Find(file, PageSize, broken);
        foreach (BrokenPage page in broken)
        {
            findings.Add(Say(page, owners.GetValueOrDefault(page.Number), log.Pages.Contains((uint)page.Number), heatOf));
        }

        if (broken.Any(p => p.Unsealed) || broken.Any(p => p is { Number: 1, Flip: null }))
        {
            findings.Add(new Finding(
                Check.File,
                Severity.Note,
                $"Pages without a right seal are also what another program leaves when it writes to the file ({broken.Count} here). "
                    + "When chain and structure below are whole, nothing of the record is lost. Mend: back it up; the backup is checked and sealed anew, and can be restored in its place."));
        }
    }

    /// <summary>Opens a file that others may be writing.</summary>
    public static FileStream Open(string path) => new(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, 1 << 16);

    private static void Lengths(string path, FindingList findings)
    {
        (long length, byte[] header, bool waits) = Still(path);
        long pages = length / PageSize;
        if (length % PageSize != 0)
        {
            findings.Add(new Finding(
                Check.File, Severity.Damage, $"The file has {length} bytes, not a whole number of pages of {PageSize}: its last page {pages + 1} is cut off.", Page: pages + 1, FirstByte: pages * PageSize, LastByte: length - 1));
        }

        // While pages wait in the log, the header in the file is behind.
        long counted = BinaryPrimitives.ReadUInt32BigEndian(header.AsSpan(28));
        if (!waits && counted != pages && PageSeal.Holds(header, 1))
        {
            findings.Add(new Finding(
                Check.File,
                Severity.Damage,
                counted > pages
                    ? $"The file has {pages} pages, its header counts {counted}: pages {pages + 1} to {counted} are cut off. Mend: restore the last backup."
                    : $"The file has {pages} pages, its header counts {counted}: something was added behind its end.",
                Page: Math.Min(counted, pages) + 1,
                FirstByte: Math.Min(counted, pages) * PageSize));
        }
    }

    /// <summary>Length and first page of one moment: looked at until nothing changed while they were.</summary>
    private static (long Length, byte[] Header, bool LogWaits) Still(string path)
    {
        (long, byte[], bool) look = Look();
        for (int looks = 1, same = 1; looks < MostLooks && same < Tries; looks++)
        {
            (long, byte[], bool) next = Look();
            same = next.Item1 == look.Item1 && next.Item3 == look.Item3 && next.Item2.AsSpan().SequenceEqual(look.Item2) ? same + 1 : 1;
            look = next;
            if (looks == MostLooks - 1 && same < Tries)
            {
                look.Item3 = true; // In use without a pause: as good as a log that waits.
            }
        }

        return look;

        (long, byte[], bool) Look()
        {
            var page = new byte[PageSize];
            using FileStream file = Open(path);
            _ = file.ReadAtLeast(page, PageSize, throwOnEndOfStream: false);
            return (file.Length, page, HasFrames(path));
        }
    }

    private static bool HasFrames(string path)
    {
        try
        {
            if (!HeldFile.HasLog(path))
            {
                return false;
            }

            using FileStream log = Open(path + "-wal");
            return LogScan.Read(log).Frames > 0;
        }
        catch (FileNotFoundException)
        {
            return false;
        }
    }

    private static List<BrokenPage> Broken(FileStream file, FindingList findings)
    {
        double length = Math.Max(1, file.Length);
        List<BrokenPage> broken = [.. PageSealScan.Broken(file, PageSize, progress: read => findings.Progress("pages", read / length)).Take(findings.Options.MostFindings)];
        for (int i = 1; i < Tries && broken.Count > 0; i++)
        {
            broken.RemoveAll(page => Again(file, page));
        }

        return broken;
    }

    /// <summary>Pages that are not what was written, but for those whose right content waits in the log.</summary>
    public static List<long> BrokenPages(string path)
    {
        LogContent log = Log(path, new FindingList(new VerifyOptions()));
        using FileStream file = Open(path);
        List<BrokenPage> broken = [.. PageSealScan.Broken(file, PageSize, search: 0).Where(p => !log.Pages.Contains((uint)p.Number))];
        for (int i = 1; i < Tries && broken.Count > 0; i++)
        {
            broken.RemoveAll(page => Again(file, page));
        }

        return [.. broken.Select(p => p.Number)];
    }

    /// <summary>True when the page holds on a second look: it was being written.</summary>
    private static bool Again(FileStream file, BrokenPage page)
    {
        var bytes = new byte[page.Size];
        using FileStream fresh = Open(file.Name); // Nothing of it is in a buffer yet.
        fresh.Position = page.Offset;
        return fresh.ReadAtLeast(bytes, page.Size, throwOnEndOfStream: false) == page.Size && PageSeal.Holds(bytes, page.Number);
    }

    private static Finding Say(BrokenPage page, PageOwner? owner, bool inLog, Func<long, string?> heatOf)
    {
        string how = page.Flip is { } flip ? $"the byte at {flip.Offset} is 0x{flip.Is:x2} and was 0x{flip.Was:x2}"
            : page.Unsealed ? "it has no seal, so another program wrote it"
            : "more than one byte differs, or another program wrote it";
        string what = owner is null ? "what it holds cannot be told" : page.Flip is null ? "it holds " + owner.What : "it lies in " + owner.What;
        string text = $"Page {page.Number} (bytes {page.Offset} to {page.Offset + page.Size - 1}) is not what was written: {how}; {what}.";
        long? entry = owner is { FirstEntry: { } one, LastEntry: { } last } && one == last ? one : null;
        string? heat = entry is { } e ? heatOf(e) : null;
        return new Finding(
            Check.Page,
            inLog ? Severity.Note : Severity.Damage,
            inLog ? text + " Its right content waits in the write-ahead log and will replace it." : text + " Mend: restore the last backup.",
            entry ?? owner?.FirstEntry,
            heat,
            page.Number,
            page.Flip?.Offset ?? page.Offset,
            page.Flip?.Offset ?? (page.Offset + page.Size - 1));
    }
}
