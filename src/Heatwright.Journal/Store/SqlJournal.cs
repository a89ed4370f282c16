// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store.Append;

namespace Heatwright.Journal.Store;

/// <summary>What the journals in SQLite and PostgreSQL have in common: the statements, and how requests are decided.</summary>
public abstract class SqlJournal : IJournalStore, ISqlWork, IVerbatimAppend
{
    private const string HeadSql = "SELECT sequence, hash FROM entry ORDER BY sequence DESC LIMIT 1";
    private const string FindSql = $"SELECT {SqlSession.EntryColumns} FROM entry WHERE id = @id";
    private const string VersionSql = "SELECT coalesce(max(heat_version), 0) FROM entry WHERE heat = @heat";
    private const string HeatSql = $"SELECT {SqlSession.EntryColumns} FROM entry WHERE heat = @heat ORDER BY heat_version";
    private const string HeatWithoutSignalsSql =
        $"SELECT {SqlSession.EntryColumns} FROM entry WHERE heat = @heat AND kind <> 'signal-block' ORDER BY heat_version";

    private readonly WatchHub _watch;
    private readonly SqlHeatTable _stored;
    private int _disposed;

    private protected SqlJournal(string place, JournalOptions options)
    {
        Place = place;
        Options = options;
        _stored = new SqlHeatTable(this);
        Heats = options.ReadOnly ? new PrivateHeatTable(StoredHeats) : _stored;
        _watch = new WatchHub(Head, Listen, options.WatchInterval);
    }

    /// <inheritdoc/>
    public string Place { get; }

    /// <inheritdoc/>
    public bool ReadOnly => Options.ReadOnly;

    /// <summary>The cached list of heats. A journal opened only to read keeps its additions to the list in memory.</summary>
    public IHeatTable Heats { get; }

    /// <summary>Version of the layout at the place.</summary>
    public int LayoutVersion { get; private protected set; }

    /// <summary>Why "written" may not outlive a loss of power, as far as the settings of the place tell; null when nothing speaks against it.</summary>
    public virtual string? DurabilityNote => null;

    private protected JournalOptions Options { get; }

    /// <inheritdoc/>
    public IReadOnlyList<AppendOutcome> Append(IReadOnlyList<AppendRequest> requests)
    {
        var batch = AppendBatch.Prepare(requests);
        RefuseIfReadOnly();
        if (requests.Count == 0)
        {
            return [];
        }

        AppendOutcome[] outcomes = Writing(session =>
        {
            AppendState state = Load(session, batch);
            (AppendOutcome[] decided, List<Entry> written) = batch.Decide(state, Options.Clock);
            if (written.Count > 0)
            {
                Insert(session, written);
            }

            return decided;
        });
        if (outcomes.Any(o => o.Status == AppendStatus.Written))
        {
            _watch.Signal();
        }

        return outcomes;
    }

    /// <inheritdoc/>
    void IVerbatimAppend.AppendVerbatim(IReadOnlyList<Entry> entries)
    {
        RefuseIfReadOnly();
        if (entries.Count == 0)
        {
            return;
        }

        Writing(session =>
        {
            JournalHead head = ReadHead(session);
            if (head.Sequence == entries[^1].Sequence && head.Hash.Span.SequenceEqual(entries[^1].Hash.Span))
            {
                return true; // Written before the connection was lost.
            }

            foreach (Entry entry in entries)
            {
                if (entry.Sequence != head.Sequence + 1 || !EntryHash.Of(head.Hash.Span, entry).AsSpan().SequenceEqual(entry.Hash.Span))
                {
                    throw new JournalException(
                        JournalProblem.Damaged, $"{Place}: entry {entry.Sequence} does not follow entry {head.Sequence} (its hash or its place is another). Mend: verify the journal that it comes from.");
                }

                head = new JournalHead(entry.Sequence, entry.Hash);
            }

            Insert(session, [.. entries]);
            return true;
        });
        _watch.Signal();
    }

    /// <inheritdoc/>
    public JournalHead Head() => Reading(ReadHead);

    /// <inheritdoc/>
    public IEnumerable<Entry> Read(long fromSequence = 1)
    {
        var portion = new EntryPortion();
        for (long next = Math.Max(1, fromSequence); ;)
        {
            List<Entry> entries = Reading(session => portion.Next(session, next));
            if (entries.Count == 0)
            {
                yield break;
            }

            foreach (Entry entry in entries)
            {
                yield return entry;
            }

            next = entries[^1].Sequence + 1;
        }
    }

    /// <inheritdoc/>
    public IReadOnlyList<Entry> ReadHeat(string heat, bool signals = true) =>
        Reading(session => session.Query(signals ? HeatSql : HeatWithoutSignalsSql, session.ReadEntry, ("@heat", heat)));

    /// <inheritdoc/>
    public Entry? Find(Guid id) => Reading(session => FindIn(session, id));

    /// <inheritdoc/>
    public long Version(string heat) => Reading(session => VersionIn(session, heat));

    /// <inheritdoc/>
    public IDisposable Watch(Action<JournalHead> changed)
    {
        ArgumentNullException.ThrowIfNull(changed);
        return _watch.Add(changed);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        if (Interlocked.Exchange(ref _disposed, 1) == 0)
        {
            _watch.Dispose();
            (Heats as PrivateHeatTable)?.Dispose();
            Close();
        }

        GC.SuppressFinalize(this);
    }

    /// <summary>Reads on a connection of its own; several at once.</summary>
    internal abstract T Reading<T>(Func<SqlSession, T> read);

    T ISqlWork.Reading<T>(Func<SqlSession, T> read) => Reading(read);

    T ISqlWork.Writing<T>(Func<SqlSession, T> write) => Writing(write);

    /// <summary>Writes in one durable transaction, alone. The work may be run again after a lost connection.</summary>
    internal abstract T Writing<T>(Func<SqlSession, T> write);

    /// <summary>What a batch must know, read inside its transaction.</summary>
    private protected abstract AppendState Load(SqlSession session, AppendBatch batch);

    /// <summary>Writes entries inside the transaction.</summary>
    private protected abstract void Insert(SqlSession session, List<Entry> entries);

    /// <summary>Begins to call back when entries may have been written by others, until disposed.</summary>
    private protected abstract IDisposable Listen(Action signal);

    /// <summary>Closes what is open.</summary>
    private protected abstract void Close();

    private protected static JournalHead ReadHead(SqlSession session)
    {
        List<JournalHead> head = session.Query(HeadSql, r => new JournalHead(r.GetInt64(0), r.GetFieldValue<byte[]>(1)));
        return head.Count == 0 ? new JournalHead(0, EntryHash.Origin) : head[0];
    }

    private protected static Entry? FindIn(SqlSession session, Guid id) =>
        session.Query(FindSql, session.ReadEntry, ("@id", session.Id(id))).FirstOrDefault();

    private protected static long VersionIn(SqlSession session, string heat) =>
        session.Query(VersionSql, r => r.GetInt64(0), ("@heat", heat))[0];

    private protected bool IsDisposed => Volatile.Read(ref _disposed) != 0;

    private protected void ThrowIfDisposed() => ObjectDisposedException.ThrowIf(IsDisposed, this);

    /// <summary>The list as stored, where the layout has one already.</summary>
    private SqlHeatTable? StoredHeats() => LayoutVersion >= SqlHeatTable.SinceLayout ? _stored : null;

    private void RefuseIfReadOnly()
    {
        if (ReadOnly)
        {
            throw new JournalException(JournalProblem.ReadOnly, $"{Place} was opened only to read. Mend: open it to write.");
        }
    }
}
