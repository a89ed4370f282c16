// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;

namespace Heatwright.Journal.Store.Append;

/// <summary>What an entry must look like to be taken. Each refusal names field, value, limit and mend.</summary>
internal static class EntryCheck
{
    /// <summary>Longest heat number, characters.</summary>
    public const int HeatLength = 64;

    /// <summary>Longest actor, characters.</summary>
    public const int ActorLength = 200;

    /// <summary>Longest reason, characters.</summary>
    public const int ReasonLength = 4000;

    /// <summary>Largest body, bytes: far above any block of signals, far below what a database row holds.</summary>
    public const int BodyLength = 64 * 1024 * 1024;

    private static readonly DateTimeOffset Earliest = new(1990, 1, 1, 0, 0, 0, TimeSpan.Zero);

    private static readonly DateTimeOffset Latest = new(2200, 1, 1, 0, 0, 0, TimeSpan.Zero);

    /// <summary>Refuses a request that cannot be taken whatever the journal holds.</summary>
    /// <exception cref="JournalException">Bad entry.</exception>
    public static void Request(AppendRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        if (request.Entries is null || request.Entries.Count == 0)
        {
            throw Bad("A request holds no entry", "at least one is needed", "leave the request out");
        }

        var ids = new HashSet<Guid>(request.Entries.Count);
        foreach (NewEntry entry in request.Entries)
        {
            Entry(entry);
            if (!ids.Add(entry.Id))
            {
                throw Bad($"id {entry.Id} stands twice in one request", "each entry has its own", "use NewEntry.Of, which makes a new id");
            }
        }
    }

    private static void Entry(NewEntry entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        if (entry.Id == Guid.Empty)
        {
            throw Bad("id is all zeros", "each entry has its own", "use NewEntry.Of, which makes a new id");
        }

        if (entry.Body is null)
        {
            throw Bad("body is missing", "an entry says something", "give a body");
        }

        if (entry.Body is CorrectionBody { Replacement: CorrectionBody or SignalBlockBody } correction)
        {
            throw Bad($"replacement of a correction is a {correction.Replacement!.Kind.Name()}", "what holds instead, of any other kind", "correct the entry that was wrong from the first, by its own id");
        }

        Heat(entry.Heat);
        Text("actor", entry.Actor, ActorLength, lines: false);
        if (string.IsNullOrWhiteSpace(entry.Actor))
        {
            throw Bad($"actor '{entry.Actor}' is empty", $"1 to {ActorLength} characters", "say who writes, e.g. \"person:anna\"");
        }

        Text("reason", entry.Reason, ReasonLength, lines: true);
        if (entry.Kind is EntryKind.Correction or EntryKind.Decision && string.IsNullOrWhiteSpace(entry.Reason))
        {
            throw Bad($"reason of a {entry.Kind.Name()} is empty", $"1 to {ReasonLength} characters", "say why");
        }

        if (entry.SourceTime < Earliest || entry.SourceTime >= Latest)
        {
            throw Bad($"sourceTime {entry.SourceTime:O}", $"{Earliest.Year} to {Latest.Year - 1}", "set the clock of the source, or give the time in UTC");
        }
    }

    /// <summary>Refuses what is no heat number.</summary>
    public static void Heat(string heat)
    {
        Text("heat", heat, HeatLength, lines: false);
        if (heat.Length > 0 && (char.IsWhiteSpace(heat[0]) || char.IsWhiteSpace(heat[^1])))
        {
            // "4711" and "4711 " would be two heats that look like one.
            throw Bad($"heat '{heat}' begins or ends with a space", "no space around a heat number", "take it away");
        }
    }

    /// <summary>Refuses a body too large to be kept.</summary>
    public static void Body(NewEntry entry, int length)
    {
        if (length > BodyLength)
        {
            throw Bad($"body of {entry.Kind.Name()} {entry.Id} is {length} bytes", $"at most {BodyLength}", "split it into several entries");
        }
    }

    /// <summary>The refusal of an entry.</summary>
    public static JournalException Bad(string what, string limit, string mend) =>
        new(JournalProblem.BadEntry, $"Entry not taken: {what}. Limit: {limit}. Mend: {mend}.");

    private static void Text(string field, string? value, int longest, bool lines)
    {
        if (value is null)
        {
            throw Bad($"{field} is missing", $"at most {longest} characters", "give a text, empty where that is allowed");
        }

        if (value.Length > longest)
        {
            throw Bad($"{field} '{value[..32]}…' has {value.Length} characters", $"at most {longest}", "shorten it");
        }

        for (int i = 0; i < value.Length; i++)
        {
            char c = value[i];
            if (char.IsControl(c) && !(lines && c is '\n' or '\r' or '\t'))
            {
                throw Bad($"{field} holds the control character U+{(int)c:X4} at place {i + 1}", "none", "take it away");
            }

            if (!char.IsSurrogate(c))
            {
                continue;
            }

            if (i + 1 == value.Length || !char.IsSurrogatePair(c, value[i + 1]))
            {
                throw Bad($"{field} holds half a character (U+{(int)c:X4}) at place {i + 1}", "well-formed Unicode", "write it again");
            }

            i++;
        }
    }
}
