// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;

namespace Heatwright.Cli.Input;

/// <summary>The ensemble behind every band and probability.</summary>
internal sealed class EnsembleOptions
{
    private readonly Option<int> _seed = new("--seed")
    {
        Description = "Seed of the ensemble. Same files, version and seed: same bytes.",
        DefaultValueFactory = _ => 1,
        HelpName = "N",
    };

    private readonly Option<int> _members;

    public EnsembleOptions(int members) => _members = new Option<int>("--members")
    {
        Description = "Members of the ensemble, 20 to 20000.",
        DefaultValueFactory = _ => members,
        HelpName = "N",
    };

    public void AddTo(Command command)
    {
        command.Options.Add(_seed);
        command.Options.Add(_members);
        _members.Validators.Add(result =>
        {
            int value = result.GetValueOrDefault<int>();
            if (value is < 20 or > 20000)
            {
                result.AddError($"--members: {value} lies outside 20 to 20000. Mend: a few hundred give bands, a thousand odds to about 1 %.");
            }
        });
    }

    public int Seed(ParseResult parsed) => parsed.GetValue(_seed);

    public int Members(ParseResult parsed) => parsed.GetValue(_members);
}
