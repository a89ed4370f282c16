// SPDX-License-Identifier: Apache-2.0
using System.Text;

namespace Heatwright.Shop.Files;

/// <summary>Files of a shop kept as texts, and files that keep what is read from them.</summary>
internal sealed class CopiedFiles : ShopFiles
{
    private readonly ShopFiles? _from;
    private readonly string _shown;
    private readonly SortedDictionary<string, string> _texts = new(StringComparer.Ordinal);

    /// <summary>Texts by name.</summary>
    public CopiedFiles(IReadOnlyDictionary<string, string> texts, string shown)
    {
        _shown = shown;
        foreach ((string name, string text) in texts)
        {
            _texts[name] = text;
        }
    }

    /// <summary>Reads from elsewhere and keeps a copy.</summary>
    public CopiedFiles(ShopFiles from)
    {
        _from = from;
        _shown = "";
    }

    /// <summary>What was read, or given, by name.</summary>
    public IReadOnlyDictionary<string, string> Texts => _texts;

    public override string Show(string name) => _from?.Show(name) ?? $"{_shown}:{name}";

    public override IReadOnlyList<string> List(string folder) =>
        _from?.List(folder) ?? [.. _texts.Keys.Where(n => n.StartsWith(folder + "/", StringComparison.Ordinal)).Select(n => n[(folder.Length + 1)..])];

    public override byte[]? Read(string name, string shown, List<Problem> problems)
    {
        if (_from is not null)
        {
            byte[]? bytes = _from.Read(name, shown, problems);
            if (bytes is not null)
            {
                _texts[name] = Encoding.UTF8.GetString(bytes);
            }

            return bytes;
        }

        if (_texts.TryGetValue(name, out string? text))
        {
            return Encoding.UTF8.GetBytes(text);
        }

        problems.Add(new Problem(ProblemCode.FileMissing, shown, 0, 0, "", null, "The copy of the works has no such file.", null, "take another copy"));
        return null;
    }
}
