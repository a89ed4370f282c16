// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;

namespace Heatwright.Cli.Input;

/// <summary>Who writes into the journal.</summary>
internal sealed class PersonOption
{
    private readonly Option<string> _by = new("--by")
    {
        Description = "Who says it; default: HEATWRIGHT_BY, else the name you are logged in with.",
        HelpName = "NAME",
        DefaultValueFactory = _ => Environment.GetEnvironmentVariable("HEATWRIGHT_BY") is { Length: > 0 } name ? name : Environment.UserName,
    };

    public void AddTo(Command command) => command.Options.Add(_by);

    public string Actor(ParseResult parsed) => "person:" + parsed.GetValue(_by);
}
