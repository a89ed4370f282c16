// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Shop.Files;

/// <summary>A value of a file with its place. Shared, never changed, when an alias repeats it.</summary>
internal abstract class Node(int line, int column)
{
    public int Line { get; } = line;

    public int Column { get; } = column;

    /// <summary>Number of values in it, aliases expanded.</summary>
    public long Weight { get; set; } = 1;
}

/// <summary>A single value as text. <see cref="Plain"/>: without quotes.</summary>
internal sealed class ScalarNode(int line, int column, string text, bool plain) : Node(line, column)
{
    public string Text { get; } = text;

    public bool Plain { get; } = plain;

    /// <summary>Nothing was written, or one of YAML's words for nothing.</summary>
    public bool IsEmpty => Plain && Text is "" or "~" or "null";
}

/// <summary>A list.</summary>
internal sealed class ListNode(int line, int column) : Node(line, column)
{
    public List<Node> Items { get; } = [];
}

/// <summary>A block of named values in written order.</summary>
internal sealed class BlockNode(int line, int column) : Node(line, column)
{
    private readonly Dictionary<string, int> _index = new(StringComparer.Ordinal);

    public List<(ScalarNode Key, Node Value)> Entries { get; } = [];

    /// <summary>Adds an entry, or returns the key that was there before.</summary>
    public ScalarNode? Add(ScalarNode key, Node value)
    {
        if (_index.TryGetValue(key.Text, out int first))
        {
            return Entries[first].Key;
        }

        _index[key.Text] = Entries.Count;
        Entries.Add((key, value));
        return null;
    }

    public bool TryGet(string name, out ScalarNode key, out Node value)
    {
        if (_index.TryGetValue(name, out int i))
        {
            (key, value) = Entries[i];
            return true;
        }

        key = null!;
        value = null!;
        return false;
    }
}
