// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;

namespace Heatwright.Journal.Demo;

/// <summary>A heat's place in the timetable, before anything is blown.</summary>
/// <param name="Index">From zero.</param>
/// <param name="Unit">Converter.</param>
/// <param name="ChargeAt">Scrap into the vessel.</param>
/// <param name="EmptyMin">The vessel stood empty so long before, minutes.</param>
/// <param name="Sequence">Running number of the caster sequence.</param>
/// <param name="PlaceInSequence">From zero.</param>
/// <param name="Order">Grade and how it is made.</param>
/// <param name="LiningHeats">Heats on the lining before this one.</param>
/// <param name="LanceHeats">Heats on the lance head before this one.</param>
/// <param name="TapholeHeats">Heats on the taphole before this one.</param>
/// <param name="IronWaitMin">From the hot-metal measurement to pouring, minutes.</param>
/// <param name="ChargeDelay">Reason code and minutes of a delay before charging, or null.</param>
/// <param name="TapDelay">Reason code and minutes of a delay before the tap, or null.</param>
internal sealed record HeatSlot(
    int Index,
    string Unit,
    DateTimeOffset ChargeAt,
    double EmptyMin,
    int Sequence,
    int PlaceInSequence,
    DemoGrade Order,
    int LiningHeats,
    int LanceHeats,
    int TapholeHeats,
    double IronWaitMin,
    (string Code, double Minutes)? ChargeDelay,
    (string Code, double Minutes)? TapDelay)
{
    /// <summary>Heat number.</summary>
    public string Number => $"L-{20001 + Index}";

    /// <summary>Day of the year as a share, 0 to 1.</summary>
    public double Season => DemoCalendar.Season(ChargeAt);
}

/// <summary>Something that belongs to no heat.</summary>
internal sealed record ShopEvent(DateTimeOffset At, EntryBody Body, string Actor, string Reason = "");

/// <summary>
/// The timetable: sequences of three to six heats in two of the three shifts of a working day, converters in turn, some
/// Saturday nights, repair days, a reline of South after the middle heat. Intervals are drawn long enough for a
/// reblow, so that what happens in one heat never moves the next. Durations are of the usual order (from memory, no source).
/// </summary>
internal sealed class DemoSchedule
{
    private const double FromChargeToEmptyMin = 50;

    private readonly DemoOptions _options;
    private readonly DemoRandom _random;
    private readonly Dictionary<string, UnitState> _units;
    private readonly List<HeatSlot> _heats = [];
    private readonly List<ShopEvent> _events = [];
    private int _sequence;
    private DateTimeOffset _free = DateTimeOffset.MinValue;
    private DateTimeOffset _southBack = DateTimeOffset.MinValue;
    private bool _relined;

    private DemoSchedule(DemoOptions options)
    {
        _options = options;
        _random = new DemoRandom(options.Seed, "schedule");
        _units = new Dictionary<string, UnitState>
        {
            ["North"] = new("North", Lining: 1450, Lance: _random.Below(150), Taphole: _random.Below(100)),
            ["South"] = new("South", Lining: 3900, Lance: _random.Below(150), Taphole: _random.Below(100)),
        };
        foreach (UnitState u in _units.Values)
        {
            u.LanceLife = (int)_random.Kept(220, 30);
            u.TapholeLife = (int)_random.Kept(140, 18);
        }
    }

    /// <summary>Heats in order of charging.</summary>
    public IReadOnlyList<HeatSlot> Heats => _heats;

    /// <summary>Equipment, calibrations and repair days in order of time.</summary>
    public IReadOnlyList<ShopEvent> Events => _events;

    /// <summary>Index of the first heat charged after the reline began.</summary>
    public int RelineAt { get; private set; } = int.MaxValue;

    /// <summary>Index of the first heat on the new lining of South.</summary>
    public int FirstOnNewLining { get; private set; } = int.MaxValue;

    /// <summary>Dates on which the hot-metal scale was calibrated.</summary>
    public List<DateTimeOffset> ScaleCalibrations { get; } = [];

    public static DemoSchedule Of(DemoOptions options)
    {
        var schedule = new DemoSchedule(options);
        schedule.Run();
        return schedule;
    }

    private void Run()
    {
        for (int day = 0; _heats.Count < _options.Heats; day++)
        {
            DateOnly date = _options.FirstDay.AddDays(day);
            foreach (TimeOnly start in Starts(date, day))
            {
                if (_heats.Count < _options.Heats)
                {
                    Sequence(DemoCalendar.Utc(date, start).AddMinutes(_random.Between(-8, 12)));
                }
            }

            Reline(date);
            Care(date, day);
        }

        _events.Sort((a, b) => a.At.CompareTo(b.At));
    }

    private List<TimeOnly> Starts(DateOnly date, int day)
    {
        TimeOnly early = new(6, 40), late = new(14, 40), night = new(22, 35);
        if (date.DayOfWeek == DayOfWeek.Sunday)
        {
            return [];
        }

        if (date.DayOfWeek == DayOfWeek.Saturday)
        {
            // Some Saturday nights run into Sunday; the clock is changed in two of them.
            return (day / 7) % 4 == 3 || date is { Month: 3 or 10, Day: >= 24 } ? [night] : [];
        }

        // Every second Wednesday is repair day: nothing before the night.
        if (date.DayOfWeek == DayOfWeek.Wednesday && (day / 7) % 2 == 1)
        {
            _events.Add(new ShopEvent(
                DemoCalendar.Utc(date, new TimeOnly(13, 45)), new NoteBody("Repair day: cooling water, lance cars and weigh hoppers looked at."), "person:maintenance"));
            return [night];
        }

        return _random.Weighted<List<TimeOnly>>([([early, night], 4), ([early, late], 4), ([late, night], 2)]);
    }

    private void Sequence(DateTimeOffset start)
    {
        bool single = start < _southBack;
        int length = single
            ? _random.Weighted([(3, 4.0), (4, 6)])
            : _random.Weighted([(3, 2.0), (4, 4.5), (5, 2.5), (6, 1)]);
        DemoGrade order = _random.Weighted(DemoGrades.Book);
        _sequence++;
        UnitState unit = single ? _units["North"] : _random.Chance(0.5) ? _units["North"] : _units["South"];
        DateTimeOffset at = start > _free ? start : _free;
        for (int place = 0; place < length && _heats.Count < _options.Heats; place++)
        {
            // A grade may change within a sequence when the caster allows it.
            order = place > 0 && _random.Chance(0.12) ? _random.Weighted(DemoGrades.Book) : order;
            (string, double)? before = Delay(0.16, [("wait-hot-metal", 4), ("wait-crane", 3), ("wait-scrap", 2), ("wait-gas-cleaning", 1)], 4, 22);
            (string, double)? tap = Delay(0.10, [("wait-ladle", 4), ("wait-caster", 4), ("wait-slag-pot", 1)], 3, 9);
            at = at.AddMinutes(before?.Item2 ?? 0);
            at = at.AddSeconds(-at.Second).AddMilliseconds(-at.Millisecond).AddMicroseconds(-at.Microsecond).AddSeconds(_random.Below(60));
            Heat(unit, at, place, order, before, tap);
            double interval = single ? _random.Between(66, 74) : _random.Between(39, 46);
            at = at.AddMinutes(interval + (tap?.Item2 ?? 0));
            unit = single ? unit : unit.Name == "North" ? _units["South"] : _units["North"];
        }

        _free = at;
    }

    private void Heat(UnitState unit, DateTimeOffset at, int place, DemoGrade order, (string, double)? before, (string, double)? tap)
    {
        WearParts(unit, at.AddMinutes(-FromChargeToEmptyMin));
        double empty = unit.LastEmpty == default ? 8 * 60 : (at - unit.LastEmpty).TotalMinutes;
        if (_relined && unit.Name == "South" && FirstOnNewLining == int.MaxValue)
        {
            FirstOnNewLining = _heats.Count;
        }

        double ironWait = Math.Max(19, _random.LogNormal(27, 0.3)) + (before is ("wait-crane" or "wait-gas-cleaning" or "wait-scrap", var minutes) ? minutes : 0);
        _heats.Add(new HeatSlot(
            _heats.Count, unit.Name, at, Math.Max(2, empty), _sequence, place, order, unit.Lining, unit.Lance, unit.Taphole, ironWait, before, tap));
        unit.Lining++;
        unit.Lance++;
        unit.Taphole++;
        unit.LastEmpty = at.AddMinutes(FromChargeToEmptyMin + (tap?.Item2 ?? 0));
    }

    private (string, double)? Delay(double chance, IReadOnlyList<(string, double)> codes, double least, double most)
    {
        bool delayed = _random.Chance(chance);
        string code = _random.Weighted(codes);
        double minutes = Math.Round(_random.Between(least, most));
        return delayed ? (code, minutes) : null;
    }

    // A worn lance or taphole is changed when the vessel next stands empty long enough.
    private void WearParts(UnitState unit, DateTimeOffset at)
    {
        if (unit.LastEmpty != default && (at - unit.LastEmpty).TotalMinutes < 60)
        {
            return;
        }

        if (unit.Lance >= unit.LanceLife)
        {
            Renew(unit, at, WearPart.Lance, unit.Lance, $"{unit.Name[0]}L-{++unit.Lances:000}", "tip worn");
            unit.Lance = 0;
            unit.LanceLife = (int)_random.Kept(220, 30);
        }

        if (unit.Taphole >= unit.TapholeLife)
        {
            Renew(unit, at.AddMinutes(20), WearPart.Taphole, unit.Taphole, $"{unit.Name[0]}T-{++unit.Tapholes:000}", "tap fell to three minutes, stream scattered");
            unit.Taphole = 0;
            unit.TapholeLife = (int)_random.Kept(140, 18);
        }
    }

    private void Renew(UnitState unit, DateTimeOffset at, WearPart part, int age, string serial, string reason) =>
        _events.Add(new ShopEvent(at, new EquipmentBody(unit.Name, part, true, age, serial), "person:maintenance", reason));

    private void Reline(DateOnly date)
    {
        if (_relined || _heats.Count < _options.Heats / 2 || _options.Heats < 40)
        {
            return;
        }

        _relined = true;
        RelineAt = _heats.Count;
        UnitState south = _units["South"];
        int days = Math.Clamp(_options.Heats / 160, 2, 12);
        DateTimeOffset begin = DemoCalendar.Utc(date.AddDays(1), new TimeOnly(5, 0));
        _southBack = DemoCalendar.Utc(date.AddDays(1 + days), new TimeOnly(5, 0));
        _events.Add(new ShopEvent(begin, new NoteBody($"South taken out for reline after {south.Lining} heats; North runs alone."), "person:shop-manager"));
        Renew(south, _southBack.AddMinutes(-90), WearPart.Lining, south.Lining, "S-2", "end of campaign");
        Renew(south, _southBack.AddMinutes(-85), WearPart.BottomElements, south.Lining, "SB-2", "renewed with the lining");
        Renew(south, _southBack.AddMinutes(-80), WearPart.Taphole, south.Taphole, $"ST-{++south.Tapholes:000}", "renewed with the lining");
        south.Lining = 0;
        south.Taphole = 0;
        south.LastEmpty = _southBack.AddMinutes(-120);
    }

    private void Care(DateOnly date, int day)
    {
        // Every eighth Sunday the hot-metal scale, three times a year the hoppers.
        if (date.DayOfWeek == DayOfWeek.Sunday && (day / 7) % 8 == 7)
        {
            DateTimeOffset at = DemoCalendar.Utc(date, new TimeOnly(10, 30));
            ScaleCalibrations.Add(at);
            _events.Add(new ShopEvent(at, new NoteBody("Hot-metal scale calibrated with test weights; zero and span set."), "person:weighing-service"));
        }

        if (date.Day == 28 && date.Month % 4 == 0)
        {
            _events.Add(new ShopEvent(
                DemoCalendar.Utc(date, new TimeOnly(12, 0)), new NoteBody("Weigh hoppers for lime, dolomitic lime and ore checked; within one per cent."), "person:weighing-service"));
        }
    }

    private sealed record UnitState(string Name)
    {
        public UnitState(string name, int Lining, int Lance, int Taphole)
            : this(name)
        {
            this.Lining = Lining;
            this.Lance = Lance;
            this.Taphole = Taphole;
        }

        public int Lining { get; set; }

        public int Lance { get; set; }

        public int Taphole { get; set; }

        public int LanceLife { get; set; }

        public int TapholeLife { get; set; }

        public int Lances { get; set; } = 40;

        public int Tapholes { get; set; } = 60;

        public DateTimeOffset LastEmpty { get; set; }
    }
}
