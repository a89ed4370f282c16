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

    public void AddTo(Command command) => command.Options.Add(_journal);

    /// <summary>The place that is meant.</summary>
    public string Place(ParseResult parsed) =>
        parsed.GetValue(_journal) ?? (Environment.GetEnvironmentVariable("HEATWRIGHT_JOURNAL") is { Length: > 0 } place ? place : DefaultFile);

    /// <summary>Opens it; for writing a file that is not there is made.</summary>
    /// <exception cref="JournalException">It cannot be used.</exception>
    public IJournalStore Open(ParseResult parsed, bool write) => JournalPlace.Open(Place(parsed), new JournalOptions { ReadOnly = !write, CreateIfMissing = write });
}
