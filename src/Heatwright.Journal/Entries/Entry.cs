// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Journal.Entries;

/// <summary>An entry to be written. The journal adds sequence, arrival time and hash.</summary>
/// <param name="Id">Chosen by the writer, so that writing again after a lost answer doubles nothing.</param>
/// <param name="Heat">Heat number; empty for what belongs to no heat (equipment, works, import).</param>
/// <param name="Body">What is said.</param>
/// <param name="SourceTime">When it was so, by the clock of whoever says it. Kept in UTC to the millisecond.</param>
/// <param name="Actor">Person or program that says it.</param>
/// <param name="Reason">Why; needed for corrections and decisions, may be empty otherwise.</param>
public sealed record NewEntry(Guid Id, string Heat, EntryBody Body, DateTimeOffset SourceTime, string Actor, string Reason = "")
{
    /// <summary>Kind of the body.</summary>
    public EntryKind Kind => Body.Kind;

    /// <summary>An entry under a new id.</summary>
    public static NewEntry Of(string heat, EntryBody body, DateTimeOffset sourceTime, string actor, string reason = "") =>
        new(Guid.CreateVersion7(), heat, body, sourceTime, actor, reason);
}

/// <summary>An entry as it stands in the journal. The stored bytes are what the hash covers; the body is read from them when asked for.</summary>
/// <param name="Sequence">Place in the journal, from 1, without gaps.</param>
/// <param name="Id">Chosen by the writer.</param>
/// <param name="Heat">Heat number, or empty.</param>
/// <param name="HeatVersion">Place among the heat's entries, from 1, without gaps.</param>
/// <param name="Kind">What it says.</param>
/// <param name="SchemaVersion">Version of the body's layout.</param>
/// <param name="SourceTime">When it was so, UTC.</param>
/// <param name="ArrivalTime">When the journal took it, UTC.</param>
/// <param name="Actor">Who says it.</param>
/// <param name="Reason">Why.</param>
/// <param name="BodyBytes">The body as stored: UTF-8 JSON, or a packed block for signals.</param>
/// <param name="Hash">SHA-256 over the hash of the entry before and all of the above (<see cref="EntryHash"/>).</param>
public sealed record Entry(
    long Sequence,
    Guid Id,
    string Heat,
    long HeatVersion,
    EntryKind Kind,
    int SchemaVersion,
    DateTimeOffset SourceTime,
    DateTimeOffset ArrivalTime,
    string Actor,
    string Reason,
    ReadOnlyMemory<byte> BodyBytes,
    ReadOnlyMemory<byte> Hash)
{
    private EntryBody? _body;

    /// <summary>The body.</summary>
    /// <exception cref="EntryFormatException">The bytes do not hold a body of this kind and version.</exception>
    public EntryBody Body => _body ??= EntryText.Read(Kind, SchemaVersion, BodyBytes);

    /// <inheritdoc/>
    public bool Equals(Entry? other) => other is not null && Sequence == other.Sequence && Hash.Span.SequenceEqual(other.Hash.Span);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Sequence, Id);
}
