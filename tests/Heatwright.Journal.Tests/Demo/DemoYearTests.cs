// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Demo;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Lifecycle;
using Heatwright.Journal.Series;
using Heatwright.Journal.Store;

namespace Heatwright.Journal.Tests.Demo;

[Collection(FilledYear.Name)]
public sealed class DemoYearTests(FilledYear year, ITestOutputHelper output)
{
    [Fact]
    public void The_journal_holds_every_entry_of_every_heat_and_the_works_files_first()
    {
        Assert.Equal(year.Written, year.Entries.Count);
        Assert.Equal(FilledYear.Options.Heats, year.ByHeat.Count);
        Assert.All(year.Heats, h => Assert.Equal(h.Entries.Count, year.ByHeat[h.Number].Length));
        var works = Assert.IsType<WorksBody>(year.Entries[0].Body);
        Assert.Contains("plant.yaml", works.Files.Keys);
        Assert.Contains(works.Files.Keys, f => f.StartsWith("practices/", StringComparison.Ordinal));
    }

    [Fact]
    public void Entries_arrive_when_the_works_would_have_written_them()
    {
        TimedEntry[] made = [.. DemoYear.Entries(new DemoOptions { Heats = 6, Seed = FilledYear.Options.Seed })];
        Assert.Equal(made.OrderBy(e => e.Arrival).Select(e => e.Entry.Id), made.Select(e => e.Entry.Id));
        var arrivals = year.Heats.SelectMany(h => h.Entries).ToDictionary(e => e.Entry.Id, e => e.Arrival);
        Assert.All(year.Entries.Where(e => e.Heat.Length > 0), e => Assert.Equal(arrivals[e.Id], e.ArrivalTime));
        Assert.All(year.Entries, e => Assert.True(e.ArrivalTime >= e.SourceTime, $"{e.Kind} of {e.Heat} arrives before it was so"));
    }

    [Fact]
    public void The_same_seed_gives_the_same_hash_and_another_seed_another()
    {
        JournalHead Head(string file, int seed, int workers)
        {
            var clock = new DemoClock();
            using IJournalStore store = year.Open(file, clock);
            DemoYear.Fill(store, new DemoOptions { Heats = 8, Seed = seed, HeatsWithSignals = 2, Workers = workers }, clock, cancel: TestContext.Current.CancellationToken);
            return store.Head();
        }

        string first = Head("first", 3, 1).ToString();
        Assert.Equal(first, Head("second", 3, 2).ToString());
        Assert.NotEqual(first, Head("third", 4, 2).ToString());
    }

    [Fact]
    public void Filling_again_writes_nothing()
    {
        var options = new DemoOptions { Heats = 4, Seed = 5, HeatsWithSignals = 1 };
        using IJournalStore store = year.Open("again", TimeProvider.System);
        long written = DemoYear.Fill(store, options, cancel: TestContext.Current.CancellationToken);
        JournalHead head = store.Head();
        Assert.Equal(written, DemoYear.Fill(store, options, cancel: TestContext.Current.CancellationToken));
        Assert.Equal(head.ToString(), store.Head().ToString());
    }

    [Fact]
    public void Stopped_filling_leaves_whole_transactions_and_goes_on()
    {
        using var stop = new CancellationTokenSource();
        var options = new DemoOptions { Heats = 4, Seed = 6, HeatsWithSignals = 0 };
        using IJournalStore store = year.Open("stopped", TimeProvider.System);
        stop.Cancel();
        Assert.Throws<OperationCanceledException>(() => DemoYear.Fill(store, options, cancel: stop.Token));
        long written = DemoYear.Fill(store, options, cancel: TestContext.Current.CancellationToken);
        Assert.Equal(written, store.Head().Sequence);
    }

    [Fact]
    public void Every_life_is_sound_but_for_the_taps_whose_end_was_not_keyed()
    {
        foreach (DemoHeat heat in year.Heats)
        {
            HeatFacts facts = HeatFacts.Of(heat.Number, year.ByHeat[heat.Number]);
            var life = HeatLife.Of(facts);
            Assert.Empty(facts.Irregularities);
            Assert.Equal(HeatStage.Closed, life.Stage);
            Assert.Equal(heat.Ends.Count - 1, life.Reblows);
            if (heat.Story.Mishaps.TapNotKeyed)
            {
                Assert.Contains("without a tap", Assert.Single(life.Irregularities).Text, StringComparison.Ordinal);
            }
            else
            {
                Assert.True(life.Irregularities.Count == 0, heat.Number + ": " + string.Join("; ", life.Irregularities.Select(i => i.Text)));
            }
        }
    }

    [Fact]
    public void Every_reference_meets_an_entry_that_came_before()
    {
        var place = year.Entries.ToDictionary(e => e.Id, e => e.Sequence);
        foreach (Entry e in year.Entries)
        {
            IEnumerable<Guid> seen = e.Body switch
            {
                PlanBody p => [.. p.Basis!.Inputs!, p.Basis.Works!.Value],
                ResultBody r => [.. r.Basis.Inputs ?? [], r.Basis.Works!.Value, .. r.Replaces is { } old ? [old] : Array.Empty<Guid>()],
                DecisionBody d => d.BasedOn!,
                CorrectionBody c => [c.Corrects],
                _ => [],
            };
            Assert.All(seen, id => Assert.True(place[id] < e.Sequence, $"{e.Kind} of {e.Heat} looks ahead"));
        }
    }

    [Fact]
    public void No_two_heats_are_on_one_vessel_or_blown_at_one_time()
    {
        (string Unit, DateTimeOffset From, DateTimeOffset Until)[] on = [.. year.ByHeat.Values.Select(entries =>
        {
            Entry[] o = [.. entries.Where(e => e.Body is OperationBody)];
            return (((OperationBody)o[0].Body).Unit!, o.Min(e => e.SourceTime), o.Max(e => e.SourceTime));
        })];
        foreach (var unit in on.GroupBy(o => o.Unit))
        {
            var order = unit.OrderBy(o => o.From).ToArray();
            Assert.All(order.Zip(order.Skip(1)), p => Assert.True(p.First.Until < p.Second.From, $"{unit.Key}: {p.First.Until} and {p.Second.From}"));
        }

        var oxygen = year.Entries.Where(e => e.Body is OperationBody { Operation: HeatOperation.Blow or HeatOperation.Reblow }).OrderBy(e => e.SourceTime).ToArray();
        string? blowing = null;
        foreach (Entry e in oxygen)
        {
            bool ends = ((OperationBody)e.Body).State == OperationState.Complete;
            Assert.True(blowing is null || blowing == e.Heat, $"{e.Heat} blows while {blowing} does");
            blowing = ends ? null : e.Heat;
        }
    }

    [Fact]
    public void The_last_heats_carry_signals_that_agree_with_the_record()
    {
        foreach ((string heat, Entry[] entries) in year.ByHeat)
        {
            Entry? signals = entries.SingleOrDefault(e => e.Body is SignalBlockBody);
            Assert.Equal(year.Heats.Skip(FilledYear.Options.Heats - FilledYear.Options.HeatsWithSignals).Any(h => h.Number == heat), signals is not null);
            if (signals is null)
            {
                continue;
            }

            SignalBlock block = SignalPacking.FromBody((SignalBlockBody)signals.Body);
            Assert.Equal(25, block.Series.Count);
            Assert.InRange(signals.BodyBytes.Length, 2000, 150_000);
            double blown = entries.Select(e => e.Body).OfType<OperationBody>().First(o => o is { Operation: HeatOperation.Blow, State: OperationState.Complete }).OxygenNm3!.Value;
            SignalSeries oxygen = block.Series.Single(s => s.Channel.Name == "oxygen blown");
            Assert.InRange(oxygen.Values[^1], blown - 20, blown + 20);
            Assert.True(oxygen.Values.ToArray().Zip(oxygen.Values.ToArray().Skip(1)).All(p => p.Second >= p.First));
        }
    }

    [Fact]
    public void What_was_true_is_in_no_entry()
    {
        foreach (DemoHeat heat in year.Heats)
        {
            HiddenHeat h = heat.Hidden;
            double[] truths =
            [
                h.IronTemperatureK, h.IronMeasuredTrueK, h.CarriedSlagKg, h.IronScale, h.LanceZeroM, h.LiningStartK, h.SlagHabit, h.Kept.MassKg, h.AmbientK,
                h.Parameters.HeatLossScale, h.Parameters.OxygenUse, h.Parameters.PhosphorusOffset, .. h.ScrapScale.Values,
                .. heat.Ends.SelectMany(e => new[] { e.TemperatureK, e.CarbonPercent, e.PhosphorusPercent, e.OxygenPpm, e.SteelKg, e.SlagKg }),
            ];
            var told = year.ByHeat[heat.Number].Where(e => e.Kind != EntryKind.SignalBlock).SelectMany(e => Numbers(e.BodyBytes)).ToHashSet();
            Assert.All(truths.Where(t => t != 0), t => Assert.DoesNotContain(t, told));
        }

        Assert.DoesNotContain(year.Entries, e => e.Kind != EntryKind.SignalBlock && System.Text.Encoding.UTF8.GetString(e.BodyBytes.Span).Contains("hidden", StringComparison.OrdinalIgnoreCase));
    }

    [Fact]
    public void The_heats_are_such_as_a_shop_makes()
    {
        var summary = DemoSummary.Of(year.Heats);
        output.WriteLine(summary.ToString());
        DemoSpread Of(string start) => summary.Spreads.First(s => s.Name.StartsWith(start, StringComparison.Ordinal));

        // Bounds: usual ranges of operations (common practice, no source), not what the generator happens to give.
        Assert.InRange(summary.ReblownShare, 0.01, 0.12);
        Assert.InRange(summary.JointHit, 0.65, 0.95);
        Assert.InRange(Of("blow").P50, 14, 23);
        Assert.InRange(Of("blow").P95, 14, 23);
        Assert.InRange(Of("oxygen").Mean, 45, 60);
        Assert.InRange(Of("hot metal").Mean, 800, 1000);
        Assert.InRange(Of("FeO").P50, 13, 28);
        Assert.InRange(Of("charge to slag off").Mean, 36, 55);
        foreach (HiddenEnd end in year.Heats.SelectMany(h => h.Ends))
        {
            Assert.InRange(end.TemperatureK - 273.15, 1520, 1760);
            Assert.InRange(end.CarbonPercent, 0.015, 0.9);
            Assert.InRange(end.PhosphorusPercent, 0.003, 0.06);
            Assert.InRange(end.SteelKg, 145e3, 172e3);
            Assert.InRange(end.SlagKg, 8e3, 35e3);
            Assert.InRange(end.SlagPercent.Values.Sum(), 90, 102);
        }
    }

    private static List<double> Numbers(ReadOnlyMemory<byte> json)
    {
        var reader = new System.Text.Json.Utf8JsonReader(json.Span);
        var numbers = new List<double>();
        while (reader.Read())
        {
            if (reader.TokenType == System.Text.Json.JsonTokenType.Number)
            {
                numbers.Add(reader.GetDouble());
            }
        }

        return numbers;
    }
}
