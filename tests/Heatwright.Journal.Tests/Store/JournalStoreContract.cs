// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;
using static Heatwright.Journal.Tests.Store.Sample;

namespace Heatwright.Journal.Tests.Store;

/// <summary>What every store promises about writing and reading; each database runs all of it.</summary>
public abstract partial class JournalStoreContract : IDisposable
{
    private readonly List<IJournalStore> _open = [];

    protected SetClock Clock { get; } = new();

    protected CancellationToken Cancelled => TestContext.Current.CancellationToken;

    /// <summary>Opens the journal of this test; the first time it is made.</summary>
    protected abstract IJournalStore OpenPlace(JournalOptions options);

    /// <summary>Runs a statement on the tables, past the store.</summary>
    protected abstract void Tamper(string sql);

    public virtual void Dispose()
    {
        _open.ForEach(s => s.Dispose());
        GC.SuppressFinalize(this);
    }

    protected IJournalStore Open(JournalOptions? options = null)
    {
        IJournalStore store = OpenPlace(options ?? new JournalOptions { Clock = Clock, CreateIfMissing = true });
        _open.Add(store);
        return store;
    }

    [Fact]
    public void A_new_journal_is_empty()
    {
        IJournalStore store = Open();
        Assert.Equal($"0:{new string('0', 64)}", store.Head().ToString());
        Assert.Empty(store.Read());
        Assert.Empty(store.ReadHeat("4711"));
        Assert.Equal(0, store.Version("4711"));
        Assert.Null(store.Find(Guid.CreateVersion7()));
        Assert.False(store.ReadOnly);
    }

    [Fact]
    public void What_was_written_is_read_back_whole()
    {
        IJournalStore store = Open();
        NewEntry entry = NewEntry.Of(
            "4711 Ä", new NoteBody("lance 1.8 m, <0.002 % \"S\"\n\0"), new DateTimeOffset(2031, 3, 4, 6, 0, 0, 123, TimeSpan.FromHours(2)).AddTicks(9999), "person:Zoë", "why\nnot 🔥");
        Entry written = store.Append(entry)[0];
        Assert.Equal((1, 1, "4711 Ä", EntryKind.Note, 1), (written.Sequence, written.HeatVersion, written.Heat, written.Kind, written.SchemaVersion));
        Assert.Equal(new DateTimeOffset(2031, 3, 4, 4, 0, 0, 123, TimeSpan.Zero), written.SourceTime);
        Assert.Equal(Clock.Now, written.ArrivalTime);
        Assert.Equal((entry.Id, "person:Zoë", "why\nnot 🔥", entry.Body), (written.Id, written.Actor, written.Reason, written.Body));
        AssertSame(written, store.Find(entry.Id)!);
        AssertSame(written, Assert.Single(store.ReadHeat("4711 Ä")));
        AssertSame(written, Assert.Single(AssertChain(store)));
        Assert.Equal(TimeSpan.Zero, store.Find(entry.Id)!.SourceTime.Offset);
    }

    [Fact]
    public void Entries_of_several_heats_share_one_chain_and_have_versions_of_their_own()
    {
        IJournalStore store = Open();
        store.Append(Note("A"), Note("B"), Note("A"), Note(""));
        Assert.Equal([1L, 1L, 2L, 1L], AssertChain(store).Select(e => e.HeatVersion));
        Assert.Equal((2, 1, 1), (store.Version("A"), store.Version("B"), store.Version("")));
        Assert.Equal([3L, 4L], store.Read(3).Select(e => e.Sequence));
        Assert.Empty(store.Read(5));
        Assert.Equal([1L, 3L], store.ReadHeat("A").Select(e => e.Sequence));
        Assert.Empty(store.ReadHeat("a"));
    }

    [Fact]
    public void Signals_can_be_left_out()
    {
        IJournalStore store = Open();
        store.Append(Note("A"), Signals("A", 1, 2, 3), Scrap("A", 30_000));
        Assert.Equal([EntryKind.Note, EntryKind.ChargeWeighed], store.ReadHeat("A", signals: false).Select(e => e.Kind));
        Assert.Equal([1, 2, 3], store.ReadHeat("A")[1].BodyBytes.ToArray());
    }

    [Fact]
    public void Writing_again_doubles_nothing()
    {
        IJournalStore store = Open();
        AppendRequest request = new([Note("A"), Scrap("A", 30_000)], new Dictionary<string, long> { ["A"] = 0 });
        AppendOutcome first = store.Append(request);
        Clock.Advance(TimeSpan.FromMinutes(1));
        AppendOutcome second = store.Append(request);
        Assert.Equal((AppendStatus.Written, AppendStatus.AlreadyThere), (first.Status, second.Status));
        Assert.All(first.Entries.Zip(second.Entries), p => AssertSame(p.First, p.Second));
        Assert.Equal(2, AssertChain(store).Count);
    }

    [Fact]
    public void Writing_twice_in_one_call_doubles_nothing()
    {
        IJournalStore store = Open();
        AppendRequest request = new([Note("A")]);
        Assert.Equal([AppendStatus.Written, AppendStatus.AlreadyThere], store.Append([request, request]).Select(o => o.Status));
        Assert.Single(AssertChain(store));
    }

    public static TheoryData<string> Fields() => ["heat", "kind", "source time", "actor", "reason", "body"];

    [Theory]
    [MemberData(nameof(Fields))]
    public void An_id_with_other_content_is_a_conflict(string field)
    {
        IJournalStore store = Open();
        NewEntry entry = Note("A");
        store.Append(entry);
        NewEntry other = field switch
        {
            "heat" => entry with { Heat = "B" },
            "kind" => entry with { Body = new DelayBody("wait-ladle", Time) },
            "source time" => entry with { SourceTime = Time.AddMilliseconds(1) },
            "actor" => entry with { Actor = "person:ben" },
            "reason" => entry with { Reason = "because" },
            _ => entry with { Body = new NoteBody("quiet blow") },
        };
        AppendOutcome outcome = store.Append(new AppendRequest([other]));
        Assert.Equal(AppendStatus.IdConflict, outcome.Status);
        Assert.Empty(outcome.Entries);
        Assert.Contains(entry.Id.ToString(), outcome.Conflict, StringComparison.Ordinal);
        Assert.Contains(field, outcome.Conflict, StringComparison.Ordinal);
        Assert.Single(AssertChain(store));
        var refusal = Assert.Throws<JournalException>(() => store.Append(other));
        Assert.Equal(JournalProblem.Conflict, refusal.Problem);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_request_that_is_there_in_part_is_a_conflict(bool oldFirst)
    {
        IJournalStore store = Open();
        NewEntry old = Note("A");
        store.Append(old);
        NewEntry fresh = Note("A");
        Assert.Equal(AppendStatus.IdConflict, store.Append(new AppendRequest(oldFirst ? [old, fresh] : [fresh, old])).Status);
        Assert.Null(store.Find(fresh.Id));
        Assert.Single(AssertChain(store));
    }

    [Fact]
    public void A_heat_that_moved_on_refuses_what_expects_its_old_version()
    {
        IJournalStore store = Open();
        store.Append(Note("A"), Note("A"));
        NewEntry late = Note("A");
        AppendOutcome refused = store.Append(new AppendRequest([late], new Dictionary<string, long> { ["A"] = 1 }));
        Assert.Equal(AppendStatus.VersionConflict, refused.Status);
        Assert.Equal("heat A has version 2; expected was 1", refused.Conflict);
        Assert.Equal(AppendStatus.Written, store.Append(new AppendRequest([late], new Dictionary<string, long> { ["A"] = 2, ["C"] = 0 })).Status);
        Assert.Equal(3, AssertChain(store).Count);
    }

    [Fact]
    public void A_conflict_spoils_nothing_but_its_own_request()
    {
        IJournalStore store = Open();
        NewEntry taken = Note("A");
        store.Append(taken);
        IReadOnlyList<AppendOutcome> outcomes = store.Append(
        [
            new AppendRequest([Note("B")]),
            new AppendRequest([Note("A"), Note("B")], new Dictionary<string, long> { ["A"] = 7 }),
            new AppendRequest([Note("A"), taken with { Actor = "person:ben" }]),
            new AppendRequest([Note("B")], new Dictionary<string, long> { ["B"] = 1 }),
            new AppendRequest([Note("B")], new Dictionary<string, long> { ["B"] = 1 }),
        ]);
        Assert.Equal(
            [AppendStatus.Written, AppendStatus.VersionConflict, AppendStatus.IdConflict, AppendStatus.Written, AppendStatus.VersionConflict],
            outcomes.Select(o => o.Status));
        Assert.Equal(["A", "B", "B"], AssertChain(store).Select(e => e.Heat));
    }

    [Fact]
    public void A_correction_needs_what_it_corrects_in_the_same_heat()
    {
        IJournalStore store = Open();
        NewEntry note = Note("A");
        store.Append(note);
        Assert.Contains("corrects", Refusal(Correction("A", Guid.CreateVersion7())).Message, StringComparison.Ordinal);
        Assert.Contains("heat 'A'", Refusal(Correction("B", note.Id)).Message, StringComparison.Ordinal);
        NewEntry later = Note("A");
        NewEntry early = Correction("A", later.Id);
        Refusal(early, later);
        Assert.Single(AssertChain(store));
        store.Append(Correction("A", note.Id));
        store.Append(later, early);
        Assert.Equal(4, AssertChain(store).Count);

        JournalException Refusal(params NewEntry[] entries)
        {
            var refusal = Assert.Throws<JournalException>(() => store.Append(entries));
            Assert.Equal(JournalProblem.BadEntry, refusal.Problem);
            Assert.Contains("Mend:", refusal.Message, StringComparison.Ordinal);
            return refusal;
        }
    }

    [Fact]
    public void What_was_written_is_there_when_opened_again()
    {
        IJournalStore store = Open();
        IReadOnlyList<Entry> written = store.Append(Note("A"), Scrap("B", 1));
        string head = store.Head().ToString();
        store.Dispose();
        IJournalStore again = Open();
        Assert.Equal(head, again.Head().ToString());
        Assert.All(written.Zip(AssertChain(again)), p => AssertSame(p.First, p.Second));
        again.Append(Note("A"));
        Assert.Equal(3, AssertChain(again).Count);
    }

    [Fact]
    public void Nothing_is_changed_or_removed_past_the_store_by_mistake()
    {
        IJournalStore store = Open();
        store.Append(Note("A"), Note("A"));
        Assert.ThrowsAny<System.Data.Common.DbException>(() => Tamper("UPDATE entry SET actor = 'person:ben' WHERE sequence = 1"));
        Assert.ThrowsAny<System.Data.Common.DbException>(() => Tamper("DELETE FROM entry WHERE sequence = 2"));
        Assert.Equal(2, AssertChain(store).Count);
    }

    [Fact]
    public void A_reader_changes_nothing()
    {
        IJournalStore store = Open();
        store.Append(Note("A"));
        IJournalStore reader = Open(new JournalOptions { ReadOnly = true });
        Assert.True(reader.ReadOnly);
        Assert.Single(AssertChain(reader));
        Assert.Equal(JournalProblem.ReadOnly, Assert.Throws<JournalException>(() => reader.Append(Note("A"))).Problem);
        store.Append(Note("A"));
        Assert.Equal(2, AssertChain(reader).Count);
    }

    [Fact]
    public void A_long_journal_is_read_in_portions_without_loss()
    {
        IJournalStore store = Open();
        var random = new Random(17);
        var requests = new List<AppendRequest>();
        for (int i = 0; i < 1500; i++)
        {
            byte[] packed = new byte[i % 300 == 299 ? 900_000 : random.Next(1, 600)];
            random.NextBytes(packed);
            requests.Add(new AppendRequest([Signals($"H{i % 7}", packed)]));
        }

        IReadOnlyList<AppendOutcome> written = store.Append(requests);
        List<Entry> read = AssertChain(store);
        Assert.Equal(written.Select(o => o.Entries[0].Id), read.Select(e => e.Id));
        Assert.Equal(500, store.Read(1001).Count());
    }

    [Fact]
    public void Nothing_to_write_is_no_fault() => Assert.Empty(Open().Append(Array.Empty<AppendRequest>()));

    [Fact]
    public void A_closed_store_says_so()
    {
        IJournalStore store = Open();
        store.Dispose();
        store.Dispose();
        Assert.Throws<ObjectDisposedException>(() => store.Head());
        Assert.Throws<ObjectDisposedException>(() => store.Append(Note("A")));
    }
}
