// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;
using Heatwright.Journal.Tests.Store;

namespace Heatwright.Journal.Tests.Views;

/// <summary>A journal of plain heats, one an hour from 2026-03-09 06:30 UTC, and the sums that its views must come to.</summary>
internal sealed class ShopOfHeats : IDisposable
{
    public static readonly DateTimeOffset First = new(2026, 3, 9, 6, 30, 0, TimeSpan.Zero);

    private readonly TemporaryFolder _folder = new();

    public ShopOfHeats()
    {
        Path = _folder.File("heats.hwj");
        Store = JournalPlace.Open(Path, new JournalOptions { CreateIfMissing = true, Clock = Clock });
    }

    public string Path { get; }

    public SetClock Clock { get; } = new();

    public IJournalStore Store { get; private set; }

    public Dictionary<string, double> ActualKg { get; } = [];

    public Dictionary<string, double> PlannedKg { get; } = [];

    public static string Number(int i) => FormattableString.Invariant($"L-{1000 + i}");

    /// <summary>Writes heats i to i + count − 1.</summary>
    public void Heats(int count, int first = 0, bool closed = true)
    {
        var random = new Random(first + 1);
        for (int i = first; i < first + count; i++)
        {
            DateTimeOffset start = First.AddHours(i);
            string heat = Number(i), unit = i % 2 == 0 ? "North" : "South";
            var entries = new List<NewEntry>();
            void Say(double minute, EntryBody body) => entries.Add(NewEntry.Of(heat, body, start.AddMinutes(minute), "person:anna"));

            Say(-20, new OrderBody(i % 3 == 0 ? "DC01" : "S235JR", unit, "ordinary", 160_000, new Window(1913, 1943), new Window(0.03, 0.06)));
            double scrap = random.Next(20, 30) * 1000, lime = random.Next(50, 70) * 100, iron = 170_000 - scrap;
            Say(-19, new PlanBody(
                new Dictionary<string, double> { ["heavy"] = 25_000 }, new Dictionary<string, double> { ["lime"] = 6000 }, "ordinary", 1, 145_000, 1623, null, 8200));
            Sum(PlannedKg, ("scrap/heavy", 25_000), ("addition/lime", 6000), ("hot metal", 145_000));
            Say(-10, new ChargeBody(ChargeKind.Scrap, scrap / 2, "heavy"));
            Say(-9, new ChargeBody(ChargeKind.Scrap, scrap / 2, "heavy"));
            Say(-5, new ChargeBody(ChargeKind.HotMetal, iron, null, 1620));
            Say(0, new OperationBody(HeatOperation.Blow, OperationState.Running, 1, unit));
            Say(2, new AdditionBody("lime", lime));
            Sum(ActualKg, ("scrap/heavy", scrap), ("addition/lime", lime), ("hot metal", iron));
            Say(16, new OperationBody(HeatOperation.Blow, OperationState.Complete, 1, unit, 8000 + i));
            Say(18, new MeasurementBody(HeatPoint.EndOfBlow, i % 4 == 0 ? 1900 : 1925, 0.045));
            if (i % 4 == 0)
            {
                Say(20, new OperationBody(HeatOperation.Reblow, OperationState.Running, 1, unit));
                Say(21, new OperationBody(HeatOperation.Reblow, OperationState.Complete, 1, unit, 300));
                Say(22, new MeasurementBody(HeatPoint.EndOfBlow, 1922, 0.04, Index: 2));
            }

            if (i % 5 == 0)
            {
                Say(24, new DelayBody("wait-ladle", start.AddMinutes(22), start.AddMinutes(24 + (i % 7))));
            }

            Say(22.5, new AnalysisBody(HeatPoint.EndOfBlow, SampledMatter.Metal, new Dictionary<string, Reading> { ["P"] = new(0.012), ["Mn"] = new(0.11) }));
            Say(30, new OperationBody(HeatOperation.Tap, OperationState.Complete, 1, unit));
            if (closed)
            {
                Say(40, new EndBody(158_000 + i, 15_000, null, "cast"));
            }

            Store.Append(entries);
        }
    }

    public Guid Say(string heat, EntryBody body, DateTimeOffset time, string reason = "") =>
        Store.Append(NewEntry.Of(heat, body, time, "person:anna", reason))[0].Id;

    /// <summary>The same journal opened only to read.</summary>
    public IJournalStore ReadOnly() => JournalPlace.Open(Path, new JournalOptions { ReadOnly = true, Clock = Clock });

    public void Dispose()
    {
        Store.Dispose();
        _folder.Dispose();
    }

    private static void Sum(Dictionary<string, double> sums, params (string Key, double Kg)[] parts)
    {
        foreach ((string key, double kg) in parts)
        {
            sums[key] = sums.GetValueOrDefault(key) + kg;
        }
    }
}
