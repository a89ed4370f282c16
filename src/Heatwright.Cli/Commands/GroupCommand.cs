// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;

namespace Heatwright.Cli.Commands;

/// <summary>A command that has commands of its own, with the examples of each.</summary>
internal sealed class GroupCommand(string name, string description) : Command(name, description)
{
    private readonly List<(Command Command, IReadOnlyList<string> Examples)> _members = [];

    public IReadOnlyList<(Command Command, IReadOnlyList<string> Examples)> Members => _members;

    public void Add((Command Command, IReadOnlyList<string> Examples) member)
    {
        _members.Add(member);
        Subcommands.Add(member.Command);
    }
}
