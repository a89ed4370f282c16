// SPDX-License-Identifier: Apache-2.0
using System.Text.RegularExpressions;

namespace Heatwright.Cli.Tests;

/// <summary>The guide of the journal shows only commands that run, one after the other in one folder, and leaves out no option.</summary>
public sealed partial class JournalGuideTests : IDisposable
{
    private static readonly string Guide = File.ReadAllText(Path.Combine(Terminal.Root, "docs", "guide", "journal.md"));
    private static readonly string CommandLine = File.ReadAllText(Path.Combine(Terminal.Root, "docs", "guide", "command-line.md"));

    private readonly Terminal _terminal = new();

    public void Dispose() => _terminal.Dispose();

    [Fact]
    public void Every_command_of_the_guide_runs_in_the_order_in_which_it_stands_there()
    {
        string[] lines = [.. Line().Matches(Guide).Select(m => m.Value)];
        Assert.True(lines.Length >= 30, $"{lines.Length} lines");
        Assert.All(lines, line =>
        {
            Ran ran = _terminal.Shell(line);

            // The doctor asks for a backup that is not there yet: an answer.
            Assert.True(ran.ExitCode == 0 || (ran.ExitCode == 1 && line.EndsWith("doctor", StringComparison.Ordinal)), $"{line}\n{ran.Output}\n{ran.Errors}");
        });
    }

    [Theory]
    [InlineData("record")]
    [InlineData("journal")]
    public void Every_command_and_option_stands_in_the_guide_and_every_example_is_of_its_own_command(string group)
    {
        string[] members = Members(_terminal.Run(group, "--help").Ends(0).Output);
        Assert.True(members.Length >= 11, string.Join(' ', members));
        foreach (string member in members)
        {
            string help = _terminal.Run(group, member, "--help").Ends(0).Output;
            Assert.Contains(group == "record" ? $"| `{member}` |" : member, Guide, StringComparison.Ordinal);
            Assert.Contains($"  heatwright {group} {member}", help, StringComparison.Ordinal);
            Assert.All(
                Option().Matches(help).Select(m => m.Groups["option"].Value).Where(o => o != "--help"),
                o => Assert.True(Guide.Contains(o, StringComparison.Ordinal) || CommandLine.Contains(o, StringComparison.Ordinal), $"{group} {member} {o}"));
        }
    }

    private static string[] Members(string help) =>
        [.. Member().Matches(help[help.IndexOf("Commands:", StringComparison.Ordinal)..help.IndexOf("Examples:", StringComparison.Ordinal)]).Select(m => m.Groups["name"].Value)];

    [GeneratedRegex("^heatwright .*$", RegexOptions.Multiline)]
    private static partial Regex Line();

    [GeneratedRegex(@"^  (?<name>[a-z][a-z-]*) ", RegexOptions.Multiline | RegexOptions.ExplicitCapture)]
    private static partial Regex Member();

    [GeneratedRegex(@"^  (?<option>--[a-z-]+)", RegexOptions.Multiline | RegexOptions.ExplicitCapture)]
    private static partial Regex Option();
}
