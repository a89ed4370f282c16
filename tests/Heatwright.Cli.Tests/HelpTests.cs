// SPDX-License-Identifier: Apache-2.0
using System.Text.RegularExpressions;

namespace Heatwright.Cli.Tests;

public sealed partial class HelpTests : IDisposable
{
    private readonly Terminal _terminal = new();

    public void Dispose() => _terminal.Dispose();

    public static TheoryData<string> Commands()
    {
        using var terminal = new Terminal();
        return [.. Names(terminal.Run("--help").Ends(0).Output)];
    }

    [Fact]
    public void Help_lists_commands_examples_and_exit_codes()
    {
        string help = _terminal.Run("--help").Ends(0).Output;
        Assert.Contains("blow", Names(help));
        Assert.Contains("plan", Names(help));
        Assert.Contains("validate", Names(help));
        Assert.NotEmpty(Examples(help));
        Assert.Contains("Exit codes:", help, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Commands))]
    public void Every_example_of_the_help_runs(string command)
    {
        string[] examples = Examples(_terminal.Run(command, "--help").Ends(0).Output);
        Assert.NotEmpty(examples);
        if (command == "journal")
        {
            _terminal.Run("demo", "--heats", "2").Ends(0);
        }

        Assert.All(examples, e =>
        {
            Ran ran = _terminal.Shell(e);

            // A plan may be infeasible, and the record of a plant is not here; both are answers.
            Assert.True(ran.ExitCode is 0 or 1 || (command == "check-model" && ran.ExitCode == 2), $"{e}\n{ran.Output}\n{ran.Errors}");
        });
    }

    private static string[] Examples(string help) => [.. ExampleLine().Matches(help[help.IndexOf("Examples:", StringComparison.Ordinal)..]).Select(m => m.Groups["line"].Value)];

    private static string[] Names(string help) => [.. CommandLine().Matches(help[help.IndexOf("Commands:", StringComparison.Ordinal)..help.IndexOf("Examples:", StringComparison.Ordinal)]).Select(m => m.Groups["name"].Value)];

    [GeneratedRegex(@"^  (?<line>heatwright .*)$", RegexOptions.Multiline | RegexOptions.ExplicitCapture)]
    private static partial Regex ExampleLine();

    [GeneratedRegex(@"^  (?<name>[a-z][a-z-]*) ", RegexOptions.Multiline | RegexOptions.ExplicitCapture)]
    private static partial Regex CommandLine();
}
