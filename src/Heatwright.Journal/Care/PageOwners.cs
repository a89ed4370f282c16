// SPDX-License-Identifier: Apache-2.0
using System.Buffers.Binary;
using System.Text;
using Heatwright.Journal.Store.Sqlite;

namespace Heatwright.Journal.Care;

/// <summary>What a broken page holds, as far as it can be told.</summary>
/// <param name="What">In words.</param>
/// <param name="FirstEntry">First entry that it holds, or part of it.</param>
/// <param name="LastEntry">Last entry.</param>
internal sealed record PageOwner(string What, long? FirstEntry = null, long? LastEntry = null);

/// <summary>
/// Goes down the trees of a database file as bytes, to tell what broken pages hold. Where the one flipped byte of a page is known, the
/// page is read as it was, and the cell that has the byte is named. Layout: https://sqlite.org/fileformat2.html, section 1.6.
/// Reads every page of the file once, so it is only done when something is broken. Changes nothing.
/// </summary>
internal sealed class PageOwners
{
    private const string Entries = "entry";

    private readonly Stream _file;
    private readonly int _size;
    private readonly int _usable;
    private readonly long _pages;
    private readonly Dictionary<long, BrokenPage> _broken;
    private readonly Dictionary<long, PageOwner> _owners = [];
    private readonly System.Collections.BitArray _seen;

    private PageOwners(Stream file, int pageSize, IEnumerable<BrokenPage> broken)
    {
        _file = file;
        _size = pageSize;
        _usable = pageSize - PageSeal.Length;
        _pages = file.Length / pageSize;
        _broken = broken.ToDictionary(b => b.Number);
        _seen = new System.Collections.BitArray((int)Math.Min(int.MaxValue - 1, _pages + 1));
    }

    /// <summary>Owners by page number; a page that no tree leads to is absent.</summary>
    public static IReadOnlyDictionary<long, PageOwner> Find(Stream file, int pageSize, IEnumerable<BrokenPage> broken)
    {
        var owners = new PageOwners(file, pageSize, broken);
        var roots = new List<(string Name, long Root)>();
        owners.Tree("list of tables", 1, roots);
        foreach ((string name, long root) in roots)
        {
            owners.Tree(name, root, null);
        }

        owners.FreePages();
        return owners._owners;
    }

    private void Tree(string name, long root, List<(string, long)>? schema)
    {
        var open = new Stack<(long Page, long Low, long High)>();
        open.Push((root, 1, long.MaxValue));
        while (open.TryPop(out (long Page, long Low, long High) at))
        {
            byte[]? page = Take(at.Page);
            if (page is null)
            {
                continue;
            }

            bool isEntries = name == "table " + Entries;
            if (_broken.TryGetValue(at.Page, out BrokenPage? broken) && broken.Flip is null)
            {
                // Its pointers cannot be trusted; what lies below it stays unnamed unless it is broken itself.
                _owners[at.Page] = isEntries
                    ? new PageOwner(at.High == long.MaxValue ? $"entries from {at.Low} on" : $"entries {at.Low} to {at.High}", at.Low, at.High == long.MaxValue ? null : at.High)
                    : new PageOwner(name);
                continue;
            }

            try
            {
                Cells(name, at.Page, page, at.Low, open, schema);
            }
            catch (Exception e) when (e is ArgumentOutOfRangeException or IndexOutOfRangeException or OverflowException)
            {
                _owners.TryAdd(at.Page, new PageOwner(name));
            }
        }
    }

    private void Cells(string name, long number, byte[] page, long low, Stack<(long, long, long)> open, List<(string, long)>? schema)
    {
        int start = number == 1 ? 100 : 0;
        int kind = page[start];
        bool interior = kind is 2 or 5;
        bool table = kind is 5 or 13;
        bool isEntries = table && name == "table " + Entries;
        int count = BinaryPrimitives.ReadUInt16BigEndian(page.AsSpan(start + 3));
        int pointers = start + (interior ? 12 : 8);
        int? flip = _broken.TryGetValue(number, out BrokenPage? broken) ? (int)(broken.Flip!.Offset - broken.Offset) : null;
        if (flip is { } place)
        {
            string where = place >= _usable ? $"the seal of a page of {name}; nothing of the record is touched"
                : number == 1 && place < 100 ? "the file header"
                : place < pointers + (2 * count) ? $"the order of a page of {name}"
                : $"a part of {name} that holds nothing";
            _owners[number] = new PageOwner(where);
        }

        for (int i = 0; i < count; i++)
        {
            int cell = BinaryPrimitives.ReadUInt16BigEndian(page.AsSpan(pointers + (2 * i)));
            int at = cell;
            long child = 0, payload = 0, key = 0;
            if (interior)
            {
                child = BinaryPrimitives.ReadUInt32BigEndian(page.AsSpan(at));
                at += 4;
            }

            if (!(table && interior))
            {
                payload = Varint(page, ref at);
            }

            if (table)
            {
                key = Varint(page, ref at);
            }

            (int local, long overflow) = table && interior ? (0, 0) : Payload(page, at, payload, table);
            string what = isEntries && !interior ? $"entry {key}" : name;
            if (flip is { } f && f >= cell && f < at + local + (overflow > 0 ? 4 : 0))
            {
                _owners[number] = isEntries && !interior ? new PageOwner(what, key, key) : new PageOwner("an entry of " + name);
            }

            Overflow(what, overflow, payload - local, isEntries && !interior ? key : null);
            if (interior)
            {
                open.Push((child, table ? low : 1, table ? key : long.MaxValue));
                low = table ? key + 1 : low;
            }
            else if (schema is not null && Root(page.AsSpan(at, local)) is { } root)
            {
                schema.Add(root);
            }
        }

        if (interior)
        {
            open.Push((BinaryPrimitives.ReadUInt32BigEndian(page.AsSpan(start + 8)), low, long.MaxValue));
        }
    }

    private void Overflow(string what, long page, long rest, long? entry)
    {
        for (; page > 0 && rest > 0; rest -= _usable - 4)
        {
            byte[]? bytes = Take(page);
            if (bytes is null)
            {
                return;
            }

            if (_broken.TryGetValue(page, out BrokenPage? broken))
            {
                _owners[page] = new PageOwner(what, entry, entry);
                if (broken.Flip is null)
                {
                    return;
                }
            }

            page = BinaryPrimitives.ReadUInt32BigEndian(bytes);
        }
    }

    private (int Local, long Overflow) Payload(byte[] page, int at, long payload, bool table)
    {
        int most = table ? _usable - 35 : ((_usable - 12) * 64 / 255) - 23;
        if (payload <= most)
        {
            return ((int)payload, 0);
        }

        int least = ((_usable - 12) * 32 / 255) - 23;
        int local = least + (int)((payload - least) % (_usable - 4));
        local = local <= most ? local : least;
        return (local, BinaryPrimitives.ReadUInt32BigEndian(page.AsSpan(at + local)));
    }

    private void FreePages()
    {
        if (Page(1) is not { } header)
        {
            return;
        }

        for (long trunk = BinaryPrimitives.ReadUInt32BigEndian(header.AsSpan(32)); trunk > 0 && Take(trunk) is { } page; trunk = BinaryPrimitives.ReadUInt32BigEndian(page))
        {
            Free(trunk);
            long leaves = Math.Min(BinaryPrimitives.ReadUInt32BigEndian(page.AsSpan(4)), (_usable / 4) - 2);
            for (int i = 0; i < leaves; i++)
            {
                Free(BinaryPrimitives.ReadUInt32BigEndian(page.AsSpan(8 + (4 * i))));
            }
        }
    }

    private void Free(long number)
    {
        if (_broken.ContainsKey(number))
        {
            _owners.TryAdd(number, new PageOwner("a page that is free; nothing of the record is touched"));
        }
    }

    /// <summary>A page that no tree has led to yet, with its flipped byte put right; null when there is none such.</summary>
    private byte[]? Take(long number)
    {
        if (number < 1 || number > _pages || number >= _seen.Length || _seen[(int)number])
        {
            return null;
        }

        _seen[(int)number] = true;
        return Page(number);
    }

    private byte[]? Page(long number)
    {
        var page = new byte[_size];
        _file.Position = (number - 1) * _size;
        if (_file.ReadAtLeast(page, _size, throwOnEndOfStream: false) < _size)
        {
            return null;
        }

        if (_broken.TryGetValue(number, out BrokenPage? broken) && broken.Flip is { } flip)
        {
            page[flip.Offset - broken.Offset] = flip.Was;
        }

        return page;
    }

    /// <summary>Name and root page from a row of the list of tables: type, name, table, root page, statement.</summary>
    private static (string, long)? Root(ReadOnlySpan<byte> record)
    {
        int at = 0;
        int headerLength = (int)Varint(record, ref at);
        Span<long> types = stackalloc long[4];
        for (int i = 0; i < types.Length; i++)
        {
            types[i] = Varint(record, ref at);
        }

        at = headerLength;
        string type = Text(record, types[0], ref at);
        string name = Text(record, types[1], ref at);
        Text(record, types[2], ref at);
        long root = 0;
        int length = types[3] switch { >= 1 and <= 4 => (int)types[3], 5 => 6, 6 => 8, _ => 0 };
        for (int i = 0; i < length; i++)
        {
            root = (root << 8) | record[at + i];
        }

        root = types[3] == 9 ? 1 : root;
        return root > 0 ? ($"{type} {name}", root) : null;
    }

    private static string Text(ReadOnlySpan<byte> record, long type, ref int at)
    {
        int length = type >= 13 ? (int)((type - 13) / 2) : 0;
        string text = Encoding.UTF8.GetString(record.Slice(at, length));
        at += length;
        return text;
    }

    private static long Varint(ReadOnlySpan<byte> bytes, ref int at)
    {
        long value = 0;
        for (int i = 0; i < 9; i++)
        {
            byte b = bytes[at++];
            if (i == 8)
            {
                return (value << 8) | b;
            }

            value = (value << 7) | (uint)(b & 0x7f);
            if (b < 0x80)
            {
                break;
            }
        }

        return value;
    }
}
