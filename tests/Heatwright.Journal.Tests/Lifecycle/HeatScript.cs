// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Lifecycle;
using Heatwright.Journal.Views;

namespace Heatwright.Journal.Tests.Lifecycle;

/// <summary>A heat told in minutes after 06:00 UTC, and the chain of entries that a journal would make of it.</summary>
internal sealed class HeatScript(string heat = "L-1001")
{
    public static readonly DateTimeOffset Six = new(2026, 3, 9, 6, 0, 0, TimeSpan.Zero);

    private readonly List<(NewEntry Entry, DateTimeOffset Arrival)> _said = [];

    public string Heat { get; } = heat;

    public static DateTimeOffset At(double minute) => Six.AddMinutes(minute);

    /// <summary>Says something that was so at a minute and arrived at another (or a second later).</summary>
    public Guid Say(double minute, EntryBody body, double? arrives = null, string reason = "", string actor = "person:anna")
    {
        NewEntry entry = NewEntry.Of(Heat, body, At(minute), actor, reason);
        _said.Add((entry, arrives is { } a ? At(a) : At(minute).AddSeconds(1)));
        return entry.Id;
    }

    public Guid Begin(double minute, HeatOperation operation, int index = 1) => Say(minute, new OperationBody(operation, OperationState.Running, index, "North"));

    public Guid Complete(double minute, HeatOperation operation, int index = 1, double? oxygenNm3 = null) =>
        Say(minute, new OperationBody(operation, OperationState.Complete, index, "North", oxygenNm3));

    /// <summary>The entries in the order in which they were said.</summary>
    public List<Entry> Entries() => Chain(_said);

    /// <summary>The entries, had they arrived in another order.</summary>
    public List<Entry> Entries(IReadOnlyList<int> order) => Chain(order.Select((o, i) => (_said[o].Entry, Six.AddHours(10).AddSeconds(i))));

    public int Count => _said.Count;

    public IReadOnlyList<NewEntry> New => [.. _said.Select(s => s.Entry)];

    public HeatRecord Record(AsOf asOf = default) => HeatRecord.Of(Heat, Entries(), asOf);

    /// <summary>What a journal would make of entries that arrive in this order.</summary>
    public static List<Entry> Chain(IEnumerable<(NewEntry Entry, DateTimeOffset Arrival)> said)
    {
        var entries = new List<Entry>();
        var versions = new Dictionary<string, long>(StringComparer.Ordinal);
        ReadOnlyMemory<byte> previous = EntryHash.Origin;
        foreach ((NewEntry e, DateTimeOffset arrival) in said)
        {
            long version = versions[e.Heat] = versions.GetValueOrDefault(e.Heat) + 1;
            var entry = new Entry(
                entries.Count + 1, e.Id, e.Heat, version, e.Kind, EntryText.SchemaVersion, e.SourceTime, arrival, e.Actor, e.Reason, EntryText.Write(e.Body), default);
            entry = entry with { Hash = EntryHash.Of(previous.Span, entry) };
            entries.Add(entry);
            previous = entry.Hash;
        }

        return entries;
    }

    /// <summary>An ordinary heat from order to closing with one reblow.</summary>
    public static HeatScript Whole()
    {
        var s = new HeatScript();
        s.Say(0, new OrderBody("S235JR", "North", "ordinary", 160_000, new Window(1913, 1943, 1928), new Window(0.03, 0.06, 0.045)));
        s.Say(1, new PlanBody(
            new Dictionary<string, double> { ["heavy"] = 6700, ["returns"] = 8600 }, new Dictionary<string, double> { ["lime"] = 5900 }, "ordinary", 1, 142_700, 1623, null, 8240));
        s.Say(5, new ChargeBody(ChargeKind.Scrap, 6850, "heavy"));
        s.Say(5.5, new ChargeBody(ChargeKind.Scrap, 8500, "returns"));
        s.Say(9, new ChargeBody(ChargeKind.HotMetal, 142_900, null, 1625));
        s.Begin(12, HeatOperation.Blow);
        s.Say(14, new AdditionBody("lime", 3000, AdditionPlace.Converter, 900));
        s.Say(18, new AdditionBody("lime", 2900, AdditionPlace.Converter, 3000));
        s.Say(25.5, new MeasurementBody(HeatPoint.InBlow, 1830, 0.45));
        s.Complete(29, HeatOperation.Blow, oxygenNm3: 8260);
        s.Say(31, new MeasurementBody(HeatPoint.EndOfBlow, 1905, 0.07));
        s.Begin(34, HeatOperation.Reblow);
        s.Complete(35, HeatOperation.Reblow, oxygenNm3: 420);
        s.Say(37, new MeasurementBody(HeatPoint.EndOfBlow, 1925, 0.045, Index: 2));
        s.Say(37.5, new AnalysisBody(HeatPoint.EndOfBlow, SampledMatter.Metal, new Dictionary<string, Reading> { ["P"] = new(0.014), ["Mn"] = new(0.12) }), arrives: 42);
        s.Begin(39, HeatOperation.Tap);
        s.Say(41, new AdditionBody("ferromanganese", 800, AdditionPlace.Ladle));
        s.Complete(45, HeatOperation.Tap);
        s.Say(55, new EndBody(158_400, 14_000, 8680, "cast"));
        return s;
    }
}
