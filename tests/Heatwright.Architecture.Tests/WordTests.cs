// SPDX-License-Identifier: Apache-2.0
using System.Text.RegularExpressions;

namespace Heatwright.Architecture.Tests;

/// <summary>What the repository says to its readers: no place on somebody's machine, no promise, no note to self.</summary>
public sealed partial class WordTests
{
    private static readonly string[] TextKinds = [".md", ".cs", ".yaml", ".yml", ".json", ".csv", ".csproj", ".props", ".svg", ".slnx", ""];

    private static readonly string[] Texts =
        [.. Repository.Files.Where(f => TextKinds.Contains(Path.GetExtension(f)) && !f.EndsWith("packages.lock.json", StringComparison.Ordinal))];

    [Fact]
    public void No_text_names_a_path_of_a_machine() => Offenders.None(Found(Texts, MachinePath()));

    [Fact]
    public void No_text_keeps_a_note_to_self() => Offenders.None(Found(Texts, NoteToSelf()));

    /// <summary>The product says what it sees; whether that is enough is decided by those who answer for the plant.</summary>
    [Fact]
    public void Product_and_guides_never_call_anything_safe() =>
        Offenders.None(Found(Texts.Where(f => !f.StartsWith("tests/", StringComparison.Ordinal) && f != "LICENSE"), Promise()));

    [Fact]
    public void Links_between_documents_lead_somewhere()
    {
        var dead = new List<string>();
        foreach (string file in Texts.Where(f => f.EndsWith(".md", StringComparison.Ordinal)))
        {
            foreach (Match link in Link().Matches(Repository.Read(file)))
            {
                string target = Path.Combine(Repository.Root, Path.GetDirectoryName(file)!, link.Groups["target"].Value);
                if (!File.Exists(target) && !Directory.Exists(target))
                {
                    dead.Add($"{file}: {link.Groups["target"].Value}");
                }
            }
        }

        Offenders.None(dead);
    }

    [Fact]
    public void Every_chapter_and_decision_is_in_its_table_of_contents() =>
        Assert.All(
            Texts.Where(f => f.StartsWith("docs/", StringComparison.Ordinal) && f.EndsWith(".md", StringComparison.Ordinal)),
            f => Assert.True(
                Path.GetFileName(f) == "README.md"
                || Repository.Read(Path.GetDirectoryName(f)!.Replace('\\', '/') + "/README.md").Contains(Path.GetFileName(f), StringComparison.Ordinal),
                $"{f} is not listed in the README.md beside it"));

    [Theory]
    [InlineData("see /" + "home/anna/heats", "machine")]
    [InlineData("see C:" + "\\heats", "machine")]
    [InlineData("https://example.org/home/a and src/Heatwright.Cli and 3/4", null)]
    [InlineData("// TO" + "DO later", "note")]
    [InlineData("the heat is " + "safe to tap", "promise")]
    [InlineData("never says \"" + "safe\"; thread-" + "safe; unsafe code", null)]
    public void Rules_find_what_they_are_for(string text, string? rule)
    {
        Assert.Equal(rule == "machine", MachinePath().IsMatch(text));
        Assert.Equal(rule == "note", NoteToSelf().IsMatch(text));
        Assert.Equal(rule == "promise", Promise().IsMatch(text));
    }

    private static List<string> Found(IEnumerable<string> files, Regex pattern)
    {
        var found = new List<string>();
        foreach (string file in files)
        {
            string[] lines = Repository.Read(file).Split('\n');
            for (int i = 0; i < lines.Length; i++)
            {
                if (!lines[i].StartsWith("#!", StringComparison.Ordinal) && pattern.IsMatch(lines[i]))
                {
                    found.Add($"{file}:{i + 1}: {lines[i].Trim()}");
                }
            }
        }

        return found;
    }

    [GeneratedRegex(@"(?<![\w.~}*])/(home|root|work|Users|mnt|opt|var|tmp|usr|srv)/[\w.]|(?<!\w)[A-Z]:\\\w")]
    private static partial Regex MachinePath();

    [GeneratedRegex(@"\b(TO[D]O|FIX[M]E|XX[X]|HAC[K])\b")]
    private static partial Regex NoteToSelf();

    // Quoted or hyphenated ("safe", thread-safe) it is not a promise.
    [GeneratedRegex(@"(?<![\w""“-])[Ss]afe(ly)?(?![\w""”-])")]
    private static partial Regex Promise();

    [GeneratedRegex(@"\]\((?<target>[^)#:\s]+)(#[^)]*)?\)")]
    private static partial Regex Link();
}
