// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;

namespace Heatwright.Journal.Tests.Store;

/// <summary>Entries to write, and the walk along the chain that every test ends with.</summary>
internal static class Sample
{
    public static readonly DateTimeOffset Time = new(2031, 3, 4, 4, 0, 0, TimeSpan.Zero);

    public static NewEntry Note(string heat, string text = "slopping at 6 min") =>
        NewEntry.Of(heat, new NoteBody(text), Time, "person:anna");

    public static NewEntry Scrap(string heat, double massKg) =>
        NewEntry.Of(heat, new ChargeBody(ChargeKind.Scrap, massKg, "heavy"), Time, "program:scale");

    public static NewEntry Signals(string heat, params byte[] packed) =>
        NewEntry.Of(heat, new SignalBlockBody(packed), Time, "signal:lance");

    public static NewEntry Correction(string heat, Guid of) =>
        NewEntry.Of(heat, new CorrectionBody(of, new NoteBody("none")), Time, "person:ben", "written to the wrong heat");

    public static AppendOutcome Append(this IJournalStore store, AppendRequest request) => store.Append([request])[0];

    /// <summary>Walks the journal: sequences and heat versions without gaps, every hash right, the head at the end.</summary>
    public static List<Entry> AssertChain(IJournalStore store)
    {
        var versions = new Dictionary<string, long>(StringComparer.Ordinal);
        var ids = new HashSet<Guid>();
        var entries = new List<Entry>();
        ReadOnlyMemory<byte> previous = EntryHash.Origin;
        foreach (Entry entry in store.Read())
        {
            Assert.Equal(entries.Count + 1, entry.Sequence);
            Assert.Equal(versions.GetValueOrDefault(entry.Heat) + 1, entry.HeatVersion);
            Assert.True(ids.Add(entry.Id), $"id {entry.Id} stands twice");
            Assert.Equal(EntryHash.Of(previous.Span, entry), entry.Hash.ToArray());
            versions[entry.Heat] = entry.HeatVersion;
            previous = entry.Hash;
            entries.Add(entry);
        }

        Assert.Equal(new JournalHead(entries.Count, previous).ToString(), store.Head().ToString());
        return entries;
    }

    /// <summary>Everything of two entries is equal, not only sequence and hash.</summary>
    public static void AssertSame(Entry expected, Entry actual)
    {
        Assert.Equal(expected with { BodyBytes = default, Hash = default }, actual with { BodyBytes = default, Hash = default });
        Assert.Equal(Fields(expected), Fields(actual));

        static string Fields(Entry e) => string.Join('|', e.Sequence, e.Id, e.Heat, e.HeatVersion, e.Kind, e.SchemaVersion, e.SourceTime.ToString("O"),
            e.ArrivalTime.ToString("O"), e.Actor, e.Reason, Convert.ToHexString(e.BodyBytes.Span), Convert.ToHexString(e.Hash.Span));
    }
}
