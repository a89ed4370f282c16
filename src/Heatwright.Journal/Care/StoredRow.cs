// SPDX-License-Identifier: Apache-2.0
using System.Diagnostics.CodeAnalysis;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;

namespace Heatwright.Journal.Care;

/// <summary>A row of the entry table as it lies there, right or wrong.</summary>
internal sealed record StoredRow(
    long Sequence, byte[] Id, string Heat, long HeatVersion, string Kind, long SchemaVersion, long SourceMs, long ArrivalMs, string Actor, string Reason, byte[] Hash, byte[] Body)
{
    private static readonly long MostMs = DateTimeOffset.MaxValue.ToUnixTimeMilliseconds();

    /// <summary>The entry that the row holds, or what stands against it.</summary>
    public bool TryEntry([NotNullWhen(true)] out Entry? entry, [NotNullWhen(false)] out string? fault)
    {
        entry = null;
        bool known = EntryKinds.TryParse(Kind, out EntryKind kind);
        fault = Id.Length != 16 ? $"its id has {Id.Length} bytes, not 16"
            : Hash.Length != EntryHash.Length ? $"its hash has {Hash.Length} bytes, not {EntryHash.Length}"
            : !known ? $"its kind '{Kind}' is unknown to this program"
            : SchemaVersion is < 0 or > int.MaxValue ? $"its schema version is {SchemaVersion}"
            : !Believable(SourceMs) || !Believable(ArrivalMs) ? "its times are none"
            : null;
        if (fault is not null)
        {
            return false;
        }

        entry = new Entry(
            Sequence,
            new Guid(Id, bigEndian: true),
            Heat,
            HeatVersion,
            kind,
            (int)SchemaVersion,
            DateTimeOffset.FromUnixTimeMilliseconds(SourceMs),
            DateTimeOffset.FromUnixTimeMilliseconds(ArrivalMs),
            Actor,
            Reason,
            Body,
            Hash);
        return true;
    }

    // Not by the absolute value: the least number of 64 bits has none.
    private static bool Believable(long ms) => ms >= -(MostMs / 2) && ms <= MostMs / 2;
}

/// <summary>Rows of a store for verification: read past seals and checks, never written.</summary>
internal interface IStoredRows : IDisposable
{
    /// <summary>Entries by the store's own count, for progress; 0 when it cannot be told.</summary>
    long Last();

    /// <summary>Rows from a sequence on, in order.</summary>
    /// <exception cref="StoredRowException">The rest cannot be read.</exception>
    IEnumerable<StoredRow> From(long sequence);

    /// <summary>All rows but signal blocks, by heat and version.</summary>
    /// <exception cref="StoredRowException">The rest cannot be read.</exception>
    IEnumerable<StoredRow> ByHeat();

    /// <summary>Entries that the cached list of heats was made to.</summary>
    /// <exception cref="StoredRowException">It cannot be read.</exception>
    long CachedTo();

    /// <summary>The cached row of a heat, or null.</summary>
    /// <exception cref="StoredRowException">It cannot be read.</exception>
    HeatRow? Cached(string heat);

    /// <summary>Ids that stand in several rows.</summary>
    /// <exception cref="StoredRowException">They cannot be read.</exception>
    IEnumerable<byte[]> DoubledIds();
}

/// <summary>Rows that cannot be read, in the words of the database.</summary>
internal sealed class StoredRowException(string message, Exception inner) : Exception(message, inner);
