// SPDX-License-Identifier: Apache-2.0
using System.Text;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Files.Import;
using Heatwright.Journal.Files.Mapping;
using Heatwright.Journal.Store;
using Heatwright.Journal.Tests.Store;

namespace Heatwright.Journal.Tests.Files;

/// <summary>A folder with files and a journal, as someone at a desk has them.</summary>
public sealed class Desk : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly List<IJournalStore> _journals = [];

    public SetClock Clock { get; } = new();

    public string Path(string name) => _folder.File(name);

    public string Put(string name, string text, Encoding? encoding = null) => Put(name, [.. (encoding ?? new UTF8Encoding(false)).GetPreamble(), .. (encoding ?? new UTF8Encoding(false)).GetBytes(text)]);

    public string Put(string name, byte[] bytes)
    {
        File.WriteAllBytes(Path(name), bytes);
        return Path(name);
    }

    public IJournalStore Journal(string name = "shop.journal")
    {
        IJournalStore store = JournalPlace.Open(Path(name), new JournalOptions { CreateIfMissing = true, Clock = Clock });
        _journals.Add(store);
        return store;
    }

    public static ImportMapping Mapping(string columns, string more = "", string time = "{assume: 2024-01-01 06:00, zone: UTC}") => MappingFormat.Read(
        Encoding.UTF8.GetBytes($"kind: mapping\nformat: 1\nname: test\nheat: heat\ntime: {time}\n{more}\ncolumns:\n" + string.Concat(columns.Split('\n').Select(c => $"  {c.Trim()}\n"))), "mapping.yaml");

    public static IReadOnlyDictionary<string, WideValue> Values(IJournalStore store, string heat) =>
        WideHeat.Of(heat, store.ReadHeat(heat)).Facts.ToDictionary(f => f.Key, f => f.Value.Value);

    public static IReadOnlyList<T> Bodies<T>(IJournalStore store, string heat)
        where T : EntryBody => [.. store.ReadHeat(heat).Select(e => e.Body).OfType<T>()];

    public void Dispose()
    {
        _journals.ForEach(j => j.Dispose());
        _folder.Dispose();
    }
}
