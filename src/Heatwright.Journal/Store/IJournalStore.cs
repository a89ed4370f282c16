// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;

namespace Heatwright.Journal.Store;

/// <summary>Entries that are written together or not at all.</summary>
/// <param name="Entries">In order; at least one. They may belong to several heats.</param>
/// <param name="Expected">Versions that heats must have now, by heat number, or the request is refused: how two people at one heat learn of each other.</param>
public sealed record AppendRequest(IReadOnlyList<NewEntry> Entries, IReadOnlyDictionary<string, long>? Expected = null);

/// <summary>What became of a request.</summary>
public enum AppendStatus
{
    /// <summary>Written and durable.</summary>
    Written,
    /// <summary>All its ids were there already with the same content: it had been written before.</summary>
    AlreadyThere,
    /// <summary>A heat does not have the version that was expected. Nothing of the request was written.</summary>
    VersionConflict,
    /// <summary>An id is there already with other content, or only some of the ids are. Nothing of the request was written.</summary>
    IdConflict,
}

/// <summary>What became of a request.</summary>
/// <param name="Status">Written or not.</param>
/// <param name="Entries">The entries as they stand (written now or before); empty after a conflict.</param>
/// <param name="Conflict">After a conflict: which heat, expected and actual version; or which id.</param>
public sealed record AppendOutcome(AppendStatus Status, IReadOnlyList<Entry> Entries, string? Conflict = null);

/// <summary>The end of the chain. Note it elsewhere and a cut-off tail can be found later.</summary>
/// <param name="Sequence">Sequence of the last entry; 0 in an empty journal.</param>
/// <param name="Hash">Its hash.</param>
public sealed record JournalHead(long Sequence, ReadOnlyMemory<byte> Hash)
{
    /// <inheritdoc/>
    public override string ToString() => $"{Sequence}:{Convert.ToHexStringLower(Hash.Span)}";
}

/// <summary>
/// An append-only store of entries. What <see cref="Append"/> has answered as written is on the disk and survives the loss of the
/// process and of power, as far as the disk keeps its word. Nothing is ever changed or removed. Many threads may use it at once.
/// </summary>
public interface IJournalStore : IDisposable
{
    /// <summary>Where it is, for messages: the path, or server and database without password.</summary>
    string Place { get; }

    /// <summary>Opened only to read.</summary>
    bool ReadOnly { get; }

    /// <summary>Writes requests in order, in one durable transaction. A request in conflict is left out; the others are written.</summary>
    /// <exception cref="JournalException">The store cannot be written; nothing was.</exception>
    IReadOnlyList<AppendOutcome> Append(IReadOnlyList<AppendRequest> requests);

    /// <summary>The end of the chain now.</summary>
    JournalHead Head();

    /// <summary>Entries from a sequence on, in order, read in portions so that memory stays flat.</summary>
    IEnumerable<Entry> Read(long fromSequence = 1);

    /// <summary>All entries of a heat, in order.</summary>
    /// <param name="heat">Heat number; empty for what belongs to no heat.</param>
    /// <param name="signals">False: leave signal blocks out.</param>
    IReadOnlyList<Entry> ReadHeat(string heat, bool signals = true);

    /// <summary>The entry with this id, or null.</summary>
    Entry? Find(Guid id);

    /// <summary>Version of a heat: the number of its entries; 0 when it has none.</summary>
    long Version(string heat);

    /// <summary>Calls back with the new head after entries were written by anyone (this process or another), until disposed. Calls may be merged; they come from another thread.</summary>
    IDisposable Watch(Action<JournalHead> changed);

    /// <summary>The cached list of heats, made from the entries; see Views/HeatList.</summary>
    IHeatTable Heats { get; }
}

/// <summary>One row for each heat, kept beside the entries for speed. Made from them and thrown away at will; not part of the record.</summary>
public interface IHeatTable
{
    /// <summary>Entries up to this sequence are in the rows.</summary>
    long UpTo();

    /// <summary>Writes rows and the sequence they are made to, together. Does nothing when another writer has gone further already.</summary>
    void Save(IReadOnlyList<HeatRow> rows, long upTo);

    /// <summary>Rows by heat number.</summary>
    IReadOnlyDictionary<string, HeatRow> Get(IReadOnlyCollection<string> heats);

    /// <summary>Rows that the filter lets through, in its order.</summary>
    IReadOnlyList<HeatRow> Query(HeatFilter filter);

    /// <summary>Heat numbers of all rows that the filter lets through, in its order, without its page: one look at a table that others write to.</summary>
    IReadOnlyList<string> Numbers(HeatFilter filter);

    /// <summary>Number of rows that the filter lets through, without its page.</summary>
    long Count(HeatFilter filter);

    /// <summary>Removes all rows.</summary>
    void Clear();
}

/// <summary>A heat in the list. Columns that lists filter and sort by; the rest is in <see cref="Summary"/>.</summary>
/// <param name="Heat">Heat number.</param>
/// <param name="Opened">Source time of its first entry.</param>
/// <param name="Stage">Stage of its life (Lifecycle/HeatStage), as stored text.</param>
/// <param name="Grade">Grade, or empty.</param>
/// <param name="Unit">Converter, or empty.</param>
/// <param name="ShiftDate">Date of the shift in which it was blown (or opened, before that), as yyyy-MM-dd; a night shift belongs to the date it began.</param>
/// <param name="Shift">Shift, e.g. "night".</param>
/// <param name="Stale">Number of stale results.</param>
/// <param name="Summary">Figures of the heat as JSON (Views/HeatSummary).</param>
public sealed record HeatRow(
    string Heat, DateTimeOffset Opened, string Stage, string Grade, string Unit, string ShiftDate, string Shift, int Stale, string Summary);

/// <summary>Columns that lists sort by.</summary>
public enum HeatOrder
{
    /// <summary>Newest first.</summary>
    Newest,
    /// <summary>Oldest first.</summary>
    Oldest,
    /// <summary>By heat number.</summary>
    Number,
    /// <summary>By grade, then newest.</summary>
    Grade,
    /// <summary>By stage, then newest.</summary>
    Stage,
}

/// <summary>Which heats. Null: no matter.</summary>
public sealed record HeatFilter(
    string? Stage = null,
    string? Grade = null,
    string? Unit = null,
    string? FromShiftDate = null,
    string? ToShiftDate = null,
    string? Shift = null,
    string? HeatContains = null,
    bool StaleOnly = false,
    HeatOrder Order = HeatOrder.Newest,
    int Skip = 0,
    int Take = 100);
