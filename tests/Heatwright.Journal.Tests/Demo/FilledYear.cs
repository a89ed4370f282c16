// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Demo;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;
using Heatwright.Journal.Store.Sqlite;

namespace Heatwright.Journal.Tests.Demo;

[CollectionDefinition(FilledYear.Name)]
public sealed class FilledYearShared : ICollectionFixture<FilledYear>;

/// <summary>A short year with a reline, made once and looked at by many tests: as heats with what was true, and as a filled journal.</summary>
public sealed class FilledYear : IDisposable
{
    public const string Name = "filled year";

    public static readonly DemoOptions Options = new() { Heats = 200, Seed = 7, HeatsWithSignals = 6 };

    private readonly string _folder = Directory.CreateTempSubdirectory("heatwright-demo-").FullName;

    public FilledYear()
    {
        var clock = new DemoClock();
        var heats = new List<DemoHeat>();
        Store = Open("year.journal", clock);
        Written = DemoYear.Fill(Store, Options, clock, null, heats.Add, TestContext.Current.CancellationToken);
        Heats = heats;
        Entries = [.. Store.Read()];
        ByHeat = Entries.Where(e => e.Heat.Length > 0).GroupBy(e => e.Heat).ToDictionary(g => g.Key, g => g.ToArray());
    }

    public IReadOnlyList<DemoHeat> Heats { get; }

    public IJournalStore Store { get; }

    public long Written { get; }

    public IReadOnlyList<Entry> Entries { get; }

    public IReadOnlyDictionary<string, Entry[]> ByHeat { get; }

    public IJournalStore Open(string name, TimeProvider clock) =>
        SqliteJournal.Open(Path.Combine(_folder, name), new JournalOptions { Clock = clock, CreateIfMissing = true });

    public void Dispose()
    {
        Store.Dispose();
        Directory.Delete(_folder, recursive: true);
    }
}
