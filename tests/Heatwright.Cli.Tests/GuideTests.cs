// SPDX-License-Identifier: Apache-2.0
using System.Text.RegularExpressions;

namespace Heatwright.Cli.Tests;

/// <summary>The guide shows only commands that run, and leaves out no option.</summary>
public sealed partial class GuideTests : IDisposable
{
    private static readonly string Guide = File.ReadAllText(Path.Combine(Terminal.Root, "docs", "guide", "command-line.md"));
    private static readonly string[] Commands = ["plan", "blow", "correct", "explain", "validate", "check-model", "demo"];

    private readonly Terminal _terminal = new();

    public void Dispose() => _terminal.Dispose();

    [Fact]
    public void Every_command_of_the_guide_runs()
    {
        string[] lines = [.. Line().Matches(Guide).Select(m => m.Value)];
        Assert.True(lines.Length >= 8);
        Assert.All(lines, line =>
        {
            Ran ran = _terminal.Shell(line);
            Assert.True(ran.ExitCode is 0 or 1, $"{line}\n{ran.Output}\n{ran.Errors}");
        });
    }

    [Fact]
    public void Every_option_stands_in_the_guide()
    {
        foreach (string command in Commands)
        {
            string help = _terminal.Run(command, "--help").Ends(0).Output;
            Assert.Contains($"| `{command}` |", Guide, StringComparison.Ordinal);
            Assert.All(Option().Matches(help).Select(m => m.Groups["option"].Value).Where(o => o != "--help"), o => Assert.Contains("`" + o, Guide, StringComparison.Ordinal));
        }
    }

    [Fact]
    public void Every_format_stands_in_the_guide()
    {
        foreach (string command in Commands.Except(["check-model", "demo"]))
        {
            string[] arguments = command == "correct" ? ["--temperature", "1570", "--members", "60"] : command == "validate" ? [] : ["--members", "60"];
            string json = _terminal.Run([command, "examples/heats/ordinary.yaml", "--json", .. arguments]).Output;
            string format = Format().Match(json).Groups["format"].Value;
            Assert.Contains($"| `{format}` |", Guide, StringComparison.Ordinal);
        }
    }

    [GeneratedRegex("^heatwright .*$", RegexOptions.Multiline)]
    private static partial Regex Line();

    [GeneratedRegex(@"^  (?<option>--[a-z-]+)", RegexOptions.Multiline | RegexOptions.ExplicitCapture)]
    private static partial Regex Option();

    [GeneratedRegex("\"format\": \"(?<format>[^\"]+)\"", RegexOptions.ExplicitCapture)]
    private static partial Regex Format();
}
