// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;
using System.Globalization;
using Heatwright.Cli.Commands;
using Heatwright.Journal.Store;
using Heatwright.Journal.Views;

namespace Heatwright.Cli.Input;

/// <summary>A journal with its list of heats, by the shifts of the works.</summary>
internal sealed class ListOptions
{
    private readonly JournalPlaceOption _journal = new();
    private readonly Option<string?> _zone = new("--zone")
    {
        Description = "Clock on the wall of the works, for shifts and dates: an IANA name such as Europe/Lisbon. Default: HEATWRIGHT_ZONE, else this machine's.",
        HelpName = "ZONE",
    };

    public void AddTo(Command command)
    {
        _journal.AddTo(command);
        command.Options.Add(_zone);
    }

    /// <summary>Opens the journal so that the cached list can be caught up, or read-only where that is all that is allowed; runs with its list.</summary>
    public T With<T>(ParseResult parsed, Func<HeatList, T> run)
    {
        string place = _journal.Place(parsed);
        using SqlJournal store = Open(place);
        return run(new HeatList(store, Shifts(parsed)));
    }

    public static DateOnly Date(string text, string field) =>
        DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly date)
            ? date
            : throw new BadInputException($"{field}: '{text}' is not a date.", "write 2026-11-25");

    private static SqlJournal Open(string place)
    {
        try
        {
            return JournalPlace.Open(place, new JournalOptions());
        }
        catch (JournalException e) when (e.Problem == JournalProblem.ReadOnly)
        {
            return JournalPlace.Open(place, new JournalOptions { ReadOnly = true });
        }
    }

    private ShiftPlan Shifts(ParseResult parsed)
    {
        string zone = parsed.GetValue(_zone) ?? Times.Zone.Id;
        try
        {
            return new ShiftPlan(zone);
        }
        catch (ArgumentException)
        {
            throw new BadInputException($"--zone: '{zone}' is not a time zone that is known here.", "write an IANA name such as Etc/UTC or Europe/Lisbon");
        }
    }
}
