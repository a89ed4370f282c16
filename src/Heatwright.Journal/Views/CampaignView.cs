// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Lifecycle;

namespace Heatwright.Journal.Views;

/// <summary>The life of one part from its renewal to the next.</summary>
/// <param name="Unit">Converter.</param>
/// <param name="Part">Part.</param>
/// <param name="Serial">Serial or name, where given.</param>
/// <param name="Began">Renewal; null for the part that was in when the journal begins.</param>
/// <param name="Ended">Next renewal; null while it is in.</param>
/// <param name="Heats">Heats blown on it since it came in, or since the journal begins.</param>
/// <param name="AgeHeats">Its age now or at its end, heats; null when no one has said how old it was when the journal began.</param>
/// <param name="CountedByWorks">Age that the works gave when it came out, where it did: differs where a heat is missing on one side.</param>
/// <param name="Mended">When it was mended.</param>
public sealed record Campaign(
    string Unit,
    WearPart Part,
    string? Serial,
    DateTimeOffset? Began,
    DateTimeOffset? Ended,
    int Heats,
    double? AgeHeats,
    double? CountedByWorks,
    IReadOnlyList<DateTimeOffset> Mended);

/// <summary>Age of the parts with which a heat was blown: the heats they had had before it.</summary>
/// <param name="Heat">Heat number.</param>
/// <param name="Unit">Converter.</param>
/// <param name="Blown">When oxygen came on.</param>
/// <param name="Ages">Age by part, heats; parts of unknown age are not in it.</param>
public sealed record HeatAges(string Heat, string Unit, DateTimeOffset Blown, IReadOnlyDictionary<WearPart, double> Ages);

/// <summary>
/// Campaigns of lining, lance, taphole and bottom elements of each converter, counted from the heats that were blown and the renewals
/// that were entered, in order of source time. Where the works gives an age while a part is in, or wrote one down with a heat, counting
/// goes on from that. An age written down with a heat that is less than half of what was counted means a renewal that no one entered: a
/// new campaign begins with that heat.
/// </summary>
/// <param name="Campaigns">By converter and part, the first to the last.</param>
/// <param name="Heats">Every blown heat in order, with the ages at it.</param>
public sealed record CampaignView(IReadOnlyList<Campaign> Campaigns, IReadOnlyList<HeatAges> Heats)
{
    private static readonly Dictionary<WearPart, double> NoAges = [];

    /// <summary>The campaign a part is in now, or null when nothing is known of it.</summary>
    public Campaign? Now(string unit, WearPart part) => Campaigns.LastOrDefault(c => c.Unit == unit && c.Part == part);

    /// <summary>Campaigns of a converter.</summary>
    /// <param name="list">List of heats.</param>
    /// <param name="unit">Converter; null for all.</param>
    public static CampaignView Of(HeatList list, string? unit = null)
    {
        ArgumentNullException.ThrowIfNull(list);
        HeatFacts equipment = HeatFacts.Of("", list.Store.ReadHeat("", signals: false));
        IEnumerable<Step> changes = equipment.Of<EquipmentBody>().Select(f => new Step(f.Time, f.Body.Unit, "", f.Body, NoAges));
        IEnumerable<Step> blown = list.All().Select(r => (Row: r, Summary: HeatSummary.Of(r))).Where(b => b.Summary.BlowBegan is not null && b.Row.Unit.Length > 0)
            .Select(b => new Step(b.Summary.BlowBegan!.Value, b.Row.Unit, b.Row.Heat, null, b.Summary.CountedAges));
        var parts = new Dictionary<(string Unit, WearPart Part), Counter>();
        var done = new List<Campaign>();
        var heats = new List<HeatAges>();

        // At the same moment a part is changed before the heat is blown on it.
        foreach (Step step in changes.Concat(blown).Where(s => unit is null || s.Unit == unit).OrderBy(s => s.Time).ThenBy(s => s.Change is null).ThenBy(s => s.Heat, StringComparer.Ordinal))
        {
            if (step.Change is { } change)
            {
                Counter counter = CounterOf(parts, step.Unit, change.Part);
                if (change.Renewed)
                {
                    if (counter.Known)
                    {
                        done.Add(counter.Close(step.Unit, change.Part, step.Time, change.AgeHeats));
                    }

                    parts[(step.Unit, change.Part)] = new Counter { Began = step.Time, Serial = change.Serial, Age = 0 };
                }
                else
                {
                    if (change.Counted != true)
                    {
                        counter.Mended.Add(step.Time);
                    }

                    counter.Age = change.AgeHeats ?? counter.Age;
                    counter.Serial = change.Serial ?? counter.Serial;
                }
            }
            else
            {
                foreach ((WearPart part, double age) in step.CountedAges)
                {
                    Counter counter = CounterOf(parts, step.Unit, part);
                    if (age < counter.Age / 2)
                    {
                        done.Add(counter.Close(step.Unit, part, step.Time, null));
                        parts[(step.Unit, part)] = counter = new Counter { Began = step.Time };
                    }

                    counter.Age = age;
                }

                heats.Add(new HeatAges(
                    step.Heat,
                    step.Unit,
                    step.Time,
                    Enum.GetValues<WearPart>().Select(p => (Part: p, CounterOf(parts, step.Unit, p).Age)).Where(p => p.Age is not null).ToDictionary(p => p.Part, p => p.Age!.Value)));
                foreach (WearPart part in Enum.GetValues<WearPart>())
                {
                    CounterOf(parts, step.Unit, part).Blown();
                }
            }
        }

        Campaign[] all =
        [
            .. done.Concat(parts.Where(p => p.Value.Known).Select(p => p.Value.Close(p.Key.Unit, p.Key.Part, null, null)))
                .OrderBy(c => c.Unit, StringComparer.Ordinal).ThenBy(c => c.Part).ThenBy(c => c.Began ?? DateTimeOffset.MinValue),
        ];
        return new CampaignView(all, heats);
    }

    private static Counter CounterOf(Dictionary<(string Unit, WearPart Part), Counter> parts, string unit, WearPart part)
    {
        if (!parts.TryGetValue((unit, part), out Counter? counter))
        {
            parts[(unit, part)] = counter = new Counter();
        }

        return counter;
    }

    private sealed record Step(DateTimeOffset Time, string Unit, string Heat, EquipmentBody? Change, IReadOnlyDictionary<WearPart, double> CountedAges);

    private sealed class Counter
    {
        public DateTimeOffset? Began { get; init; }

        public string? Serial { get; set; }

        public double? Age { get; set; }

        public List<DateTimeOffset> Mended { get; } = [];

        public bool Known => Began is not null || Heats > 0 || Mended.Count > 0;

        private int Heats { get; set; }

        public void Blown()
        {
            Heats++;
            Age++;
        }

        public Campaign Close(string unit, WearPart part, DateTimeOffset? ended, double? countedByWorks) =>
            new(unit, part, Serial, Began, ended, Heats, Age, countedByWorks, Mended);
    }
}
