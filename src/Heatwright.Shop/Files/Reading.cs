// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Shop.Files;

/// <summary>Collects the problems of one file, with the names that other files define.</summary>
internal sealed class Reading(string file, References references)
{
    /// <summary>A longer list helps no one and lets a hostile file cost time.</summary>
    public const int MaxProblems = 100;

    private readonly List<Problem> _problems = [];
    private readonly HashSet<(string Code, int Line, int Column, string Name)> _told = [];

    public string File { get; } = file;

    public References References { get; } = references;

    public bool Full => _problems.Count > MaxProblems;

    public int Count => _problems.Count;

    /// <summary>Problems in order of place.</summary>
    public IReadOnlyList<Problem> Problems => [.. _problems.OrderBy(p => p.Line).ThenBy(p => p.Column)];

    public void Add(string code, Node? at, string field, string? value, string message, string? limit, string mend) =>
        Add(code, at?.Line ?? 0, at?.Column ?? 0, field, value, message, limit, mend);

    public void Add(string code, int line, int column, string field, string? value, string message, string? limit, string mend)
    {
        // An aliased block is read once for each place; its problems are told once.
        if (line > 0 && !_told.Add((code, line, column, field[(field.LastIndexOf('.') + 1)..])))
        {
            return;
        }

        if (_problems.Count == MaxProblems)
        {
            _problems.Add(new Problem(
                ProblemCode.MoreProblems, File, int.MaxValue, 0, "", null, $"More than {MaxProblems} problems; the rest is not listed.", null,
                "mend these first"));
        }

        if (_problems.Count <= MaxProblems)
        {
            _problems.Add(new Problem(code, File, line, column, Shorten(field, 200), value is null ? null : Shorten(value, 60), message, limit, mend));
        }
    }

    /// <summary>Text for a message: one line, no control characters, at most so many characters.</summary>
    public static string Shorten(string text, int most)
    {
        string line = string.Concat(text.Take(most + 1).Select(c => char.IsControl(c) || char.IsSurrogate(c) ? ' ' : c));
        return line.Length <= most ? line : line[..(most - 1)] + "…";
    }
}

/// <summary>Which names a field may refer to. A null set means that the file that defines them is not at hand: names are not checked.</summary>
internal sealed record References(
    IReadOnlyCollection<string>? ScrapClasses = null,
    IReadOnlyCollection<string>? Additions = null,
    IReadOnlyCollection<string>? Grades = null,
    IReadOnlyCollection<string>? Practices = null,
    IReadOnlyCollection<string>? Converters = null)
{
    public static readonly References None = new();
}
