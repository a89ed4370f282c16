// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;

namespace Heatwright.Journal.Lifecycle;

/// <summary>How far back to look: the journal as it stood when an entry was the last, or at a moment of arrival. Neither: as it stands.</summary>
/// <param name="Sequence">Only entries up to this one.</param>
/// <param name="Arrival">Only entries that had arrived by then.</param>
public readonly record struct AsOf(long? Sequence = null, DateTimeOffset? Arrival = null)
{
    /// <summary>As it stands.</summary>
    public static AsOf Now => default;

    /// <summary>The entry was there.</summary>
    public bool Includes(Entry entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        return (Sequence is not { } last || entry.Sequence <= last) && (Arrival is not { } time || entry.ArrivalTime <= time);
    }
}

/// <summary>Order of what happened: by source time; ties by arrival (time, then place in the journal).</summary>
public sealed class SourceOrder : IComparer<Entry>
{
    /// <summary>The one order.</summary>
    public static SourceOrder Instance { get; } = new();

    /// <inheritdoc/>
    public int Compare(Entry? x, Entry? y)
    {
        if (x is null || y is null)
        {
            return (x is null ? 0 : 1) - (y is null ? 0 : 1);
        }

        int source = x.SourceTime.CompareTo(y.SourceTime);
        int arrival = source != 0 ? source : x.ArrivalTime.CompareTo(y.ArrivalTime);
        return arrival != 0 ? arrival : x.Sequence.CompareTo(y.Sequence);
    }
}

/// <summary>A fact put right once.</summary>
/// <param name="Correction">The entry that did it: who, when and why.</param>
/// <param name="Before">What held before; null: nothing did.</param>
/// <param name="After">What holds after it; null: nothing does.</param>
public sealed record Change(Entry Correction, EntryBody? Before, EntryBody? After);

/// <summary>Something that an entry says, as it holds now.</summary>
/// <typeparam name="T">Kind of body.</typeparam>
/// <param name="Entry">The entry that said it: who, when, why.</param>
/// <param name="Body">What holds: the entry's own body, or what a correction put in its place.</param>
/// <param name="Original">What the entry itself says, when a correction has changed it; else null.</param>
/// <param name="Changes">Corrections applied, in order.</param>
/// <param name="Late">It arrived long after it was so.</param>
public sealed record Fact<T>(Entry Entry, T Body, EntryBody? Original, IReadOnlyList<Change> Changes, bool Late)
    where T : EntryBody
{
    /// <summary>Id of the entry.</summary>
    public Guid Id => Entry.Id;

    /// <summary>When it was so.</summary>
    public DateTimeOffset Time => Entry.SourceTime;

    /// <summary>A correction has changed it.</summary>
    public bool Corrected => Changes.Count > 0;
}

/// <summary>Something that does not fit the usual course of a heat. It was taken nevertheless; someone should look at it.</summary>
/// <param name="Entry">Id of the entry.</param>
/// <param name="Time">Its source time.</param>
/// <param name="Text">What does not fit, in words.</param>
public sealed record Irregularity(Guid Entry, DateTimeOffset Time, string Text);
