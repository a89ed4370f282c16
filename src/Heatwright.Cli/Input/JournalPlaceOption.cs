// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;
using Heatwright.Journal.Store;

namespace Heatwright.Cli.Input;

/// <summary>Which journal.</summary>
internal sealed class JournalPlaceOption
{
    /// <summary>File that is taken when none is named.</summary>
    public const string DefaultFile = "heatwright.journal";

    private readonly Option<string?> _journal = new("--journal")
    {
        Description = $"Journal: a file, or postgresql://user@host/database. Default: HEATWRIGHT_JOURNAL, else {DefaultFile} in this folder.",
        HelpName = "PLACE",
    };

    private readonly Option<bool> _new = new("--new") { Description = "Make the journal that --journal names when it is not there." };

    /// <summary>With <paramref name="mayMake"/> also --new: a slip in a name must not begin another journal.</summary>
    public void AddTo(Command command, bool mayMake = false)
    {
        command.Options.Add(_journal);
        if (mayMake)
        {
            command.Options.Add(_new);
        }
    }

    /// <summary>The place that is meant.</summary>
    public string Place(ParseResult parsed) =>
        parsed.GetValue(_journal) ?? (Environment.GetEnvironmentVariable("HEATWRIGHT_JOURNAL") is { Length: > 0 } place ? place : DefaultFile);

    /// <summary>Opens it. For writing, the file that is taken when none is named is made when it is not there, and another one with --new or where the command is there to fill one.</summary>
    /// <exception cref="JournalException">It cannot be used.</exception>
    public IJournalStore Open(ParseResult parsed, bool write, bool mayMake = false)
    {
        string place = Place(parsed);
        bool make = write && (mayMake || place == DefaultFile || parsed.GetValue(_new));
        return write && !make && !JournalPlace.IsServer(place) && !File.Exists(place)
            ? throw new BadInputException($"{place}: there is no journal.", "look at the name; to begin one there, add --new")
            : JournalPlace.Open(place, new JournalOptions { ReadOnly = !write, CreateIfMissing = make });
    }
}
