// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Series;
using Heatwright.Journal.Store;
using Heatwright.Journal.Store.Sqlite;

namespace Heatwright.Journal.Tests.Care;

/// <summary>A small journal with a bit of everything: short and long bodies, signals, corrections, cached rows and pages that became free.</summary>
internal static class CareJournal
{
    public static readonly DateTimeOffset Start = new(2031, 3, 4, 4, 0, 0, TimeSpan.Zero);

    /// <summary>Makes it and closes it.</summary>
    /// <returns>The end of the chain.</returns>
    public static JournalHead Make(string path, int heats = 12, int seed = 5)
    {
        using var store = SqliteJournal.Open(path, new JournalOptions { CreateIfMissing = true });
        Fill(store, heats, seed);
        return store.Head();
    }

    public static void Fill(IJournalStore store, int heats, int seed = 5, int from = 0)
    {
        var random = new Random(seed);
        for (int i = from; i < from + heats; i++)
        {
            store.Append([new AppendRequest(Heat($"L-{1000 + i}", Start.AddMinutes(40 * i), random))]);
        }

        HeatRow[] rows = [.. Enumerable.Range(from, heats * 5).Select(i => new HeatRow($"R-{i}", Start, "closed", "S235", "K1", "2031-03-04", "early", 0, Text(random, 300)))];
        store.Heats.Save(rows, store.Head().Sequence);
        store.Heats.Clear();
        store.Heats.Save(rows[..heats], store.Head().Sequence);
    }

    /// <summary>A heat whose bookkeeping agrees.</summary>
    public static List<NewEntry> Heat(string heat, DateTimeOffset at, Random random)
    {
        NewEntry scrap = Say(new ChargeBody(ChargeKind.Scrap, 41_000, "heavy"));
        return
        [
            Say(new OrderBody("S235", "K1", TappedMassKg: 160_000)),
            Say(new ChargeBody(ChargeKind.HotMetal, 140_000, TemperatureK: 1620)),
            scrap,
            NewEntry.Of(heat, new CorrectionBody(scrap.Id, new ChargeBody(ChargeKind.Scrap, 40_000, "heavy")), at.AddMinutes(3), "person:anna", "read from the wrong scale"),
            Say(new AdditionBody("lime", 7_000)),
            Say(new OperationBody(HeatOperation.Blow, OperationState.Running)),
            Say(Signals(random)),
            Say(new NoteBody(Text(random, random.Next(3) == 0 ? 9_000 : 80))),
            Say(new OperationBody(HeatOperation.Blow, OperationState.Complete, OxygenNm3: 8_400)),
            Say(new MeasurementBody(HeatPoint.EndOfBlow, 1925, 0.042)),
            Say(new EndBody(161_000, 14_000, 8_410, "cast")),
        ];

        NewEntry Say(EntryBody body) => NewEntry.Of(heat, body, at, "program:level2", "as it came");
    }

    public static SignalBlockBody Signals(Random random) => SignalPacking.ToBody(new SignalBlock(
        Start,
        [SignalSeries.Even(new SignalChannel("oxygen flow", "Nm3/min"), [.. Enumerable.Range(0, 300).Select(_ => 500 + random.NextDouble())])]));

    public static string Text(Random random, int length) => string.Concat(Enumerable.Range(0, length).Select(_ => (char)('a' + random.Next(26))));

    /// <summary>File and log as a killed process leaves them.</summary>
    public static void Kill(string path, string copy)
    {
        File.Copy(path, copy, overwrite: true);
        File.Copy(path + "-wal", copy + "-wal", overwrite: true);
    }
}
