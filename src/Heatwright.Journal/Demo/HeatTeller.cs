// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Converter.Blow;
using Heatwright.Journal.Entries;
using Heatwright.Shop;

namespace Heatwright.Journal.Demo;

/// <summary>
/// Tells a heat as the works records it: scales, probes and laboratory with their errors, people with their reasons. Only what
/// was read or said; what was true stays in <see cref="HeatStory.Hidden"/>. This part: order, plan and charge.
/// </summary>
internal sealed partial class HeatTeller
{
    private static readonly string Program = "program:heatwright/" + Version;

    private readonly DemoOptions _options;
    private readonly HeatStory _s;
    private readonly HeatStory? _before;
    private readonly HeatClock _clock;
    private readonly HeatPages _pages;
    private readonly DemoRandom _r;
    private readonly char _crew;
    private Guid _iron;
    private Guid _order;
    private Guid _planReads;
    private Guid _forecast;
    private Guid _inBlow;

    private HeatTeller(HeatStory story, HeatStory? before, DemoOptions options)
    {
        _options = options;
        _s = story;
        _before = before;
        _clock = new HeatClock(story, options);
        _pages = new HeatPages(options.Seed, story.Slot.Number);
        _r = story.Random(options, "tell");
        _crew = DemoCalendar.Crew(_clock.Ignition);
    }

    private static string Version => typeof(BlowModel).Assembly.GetName().Version!.ToString(3);

    private string Blower => "person:blower-" + _crew;

    private string Crane => "person:crane-" + _crew;

    /// <summary>The entries of a heat, in the order in which they were made.</summary>
    /// <param name="story">Heat.</param>
    /// <param name="before">Heat before it, with whose sample one may be swapped.</param>
    /// <param name="options">Options.</param>
    /// <param name="works">Id of the works entry.</param>
    public static IReadOnlyList<TimedEntry> Tell(HeatStory story, HeatStory? before, DemoOptions options, Guid works)
    {
        var teller = new HeatTeller(story, before, options);
        teller.Order();
        teller.Iron();
        teller.Plan(works);
        teller.Charged();
        teller.Forecast(works);
        teller.Blow(works);
        teller.Signals();
        teller.Ends();
        teller.After();
        return teller._pages.Entries;
    }

    private void Order()
    {
        DemoGrade g = _s.Slot.Order;
        Order o = _s.Heat.Order;
        DateTimeOffset due = _s.Slot.ChargeAt.AddMinutes(52);
        _order = _pages.Add(
            new OrderBody(
                g.Grade,
                _s.Slot.Unit,
                g.Practice,
                o.TappedMassKg,
                new Window(o.TemperatureK.Least, o.TemperatureK.Most, o.TemperatureAimK),
                new Window(o.CarbonPercent.Least, o.CarbonPercent.Most, o.CarbonAimPercent),
                o.EndPercent.OrderBy(e => e.Key).ToDictionary(e => e.Key.ToString(), e => new Window(Most: Round(e.Value.Most!.Value, 4))),
                o.Basicity,
                Confidence: o.Confidence,
                Due: due.AddTicks(-(due.Ticks % TimeSpan.TicksPerMinute))),
            _s.Slot.ChargeAt.AddMinutes(-_clock.Between(180, 420)),
            "person:shop-planner");
    }

    private void Iron()
    {
        _iron = _pages.Add(
            new MeasurementBody(HeatPoint.HotMetal, Round(_s.Hidden.IronReadK, 2), Probe: "dip, S type"), _clock.IronMeasured, "person:iron-bay", lateS: 15);
        var percent = new Dictionary<string, Reading>();
        foreach (Element e in (Element[])[Element.C, Element.Si, Element.Mn, Element.P, Element.S, Element.Ti, Element.V, Element.Cr, Element.Cu])
        {
            percent[e.ToString()] = new Reading(_s.Hidden.IronReported[e]);
        }

        Guid analysis = _pages.AddArriving(
            new AnalysisBody(HeatPoint.HotMetal, SampledMatter.Metal, percent, $"H{_s.Slot.Index + 70001}"), _clock.IronSampled, _clock.IronAnalysed, "signal:laboratory");
        _planReads = _s.Mishaps.StaleIron ? Guid.Empty : analysis;
    }

    private void Plan(Guid works)
    {
        PlanMade p = _s.Plan;
        var iron = new Dictionary<string, double>();
        foreach (Element e in (Element[])[Element.C, Element.Si, Element.Mn, Element.P, Element.S])
        {
            iron[e.ToString()] = _s.Heat.HotMetalAnalysis[e];
        }

        var expected = new Dictionary<string, Expected>();
        for (int q = 0; q < PlanRule.Quantities.Count; q++)
        {
            (string name, Func<BlowPoint, double> of, _) = PlanRule.Quantities[q];
            expected[name] = new Expected(Tidy(name, of(p.Nominal)), Tidy(name, p.Low[q]), Tidy(name, p.High[q]));
        }

        expected[ResultQuantity.BlowS] = new Expected(Math.Round((_clock.AtOxygen(100) - _clock.Ignition).TotalSeconds - (_s.Mishaps.Held ? HeatClock.HoldMin * 60 : 0)));
        string reason = p.AimShiftK == 0 && p.Oxygen() == 0
            ? "Works rule."
            : FormattableString.Invariant($"Works rule; aimed {p.AimShiftK:+0;-0;0} K and {p.Oxygen():+0.0;-0.0;0.0} % oxygen for what last week's heats on {_s.Slot.Unit} missed.");
        if (_s.Mishaps.StaleIron)
        {
            reason += " Hot-metal analysis not back: that of the ladle before taken.";
        }

        Guid[] inputs = _planReads == Guid.Empty ? [_order, _iron] : [_order, _iron, _planReads];
        _pages.Add(
            new PlanBody(
                p.Charge.ScrapKg.Where(s => s.Value > 0).ToDictionary(s => s.Key, s => s.Value),
                p.Charge.AdditionsKg.Where(a => a.Value > 0).ToDictionary(a => a.Key, a => a.Value),
                _s.Heat.Practice.Id,
                _s.Heat.Practice.Version,
                p.Charge.HotMetalKg,
                Round(_s.Heat.HotMetalTemperatureK, 2),
                iron,
                p.Charge.OxygenNm3,
                expected,
                Math.Round(p.CostEur),
                Math.Round(p.Probability, 2),
                new Basis("Heatwright " + Version, works, _options.Seed, _options.PlanMembers, Inputs: inputs)),
            _clock.Planned,
            "person:planner-" + _crew,
            reason);
    }

    private void Charged()
    {
        ChargeMade c = _s.Charge;
        (string Card, string Loaded)? wrong = CrewCharge.WrongClass(_s);
        int place = 0;
        foreach ((string id, double kg) in c.Weighed.ScrapKg)
        {
            DateTimeOffset at = _clock.Planned.AddMinutes(1.5 + (1.6 * place++));
            at = at > _clock.ChargeAt.AddSeconds(-40) ? _clock.ChargeAt.AddSeconds(-40 + (5 * place)) : at;
            var body = new ChargeBody(ChargeKind.Scrap, kg, id, Round(Math.Round(_s.Hidden.AmbientK - 273.15) + 273.15, 2), Lot: _s.Hidden.ScrapLot[id], Scale: "scrap-crane-2");
            Guid scrap = _pages.Add(body, at, "signal:scrap-scale");
            if (wrong is { } w && w.Card == id && _r.Chance(0.5))
            {
                _pages.Add(
                    new CorrectionBody(scrap, body with { Material = w.Loaded, Lot = null }),
                    _clock.ChargeAt.AddHours(_clock.Between(2, 9)),
                    "person:scrap-yard",
                    $"Box card said {id}; the yard's count shows that {w.Loaded} was loaded.");
            }
        }

        if (_s.Heat.RetainedSlag.MassKg > 0)
        {
            // Judged by eye, in half tonnes.
            double judged = Math.Clamp(Math.Round(_s.Hidden.Kept.MassKg * (1 + (0.25 * _r.Normal())) / 500) * 500, 2000, 12e3);
            _pages.Add(new ChargeBody(ChargeKind.RetainedSlag, judged), _clock.ChargeAt.AddSeconds(-90), Blower, "judged by eye");
        }

        Operation(HeatOperation.ChargeScrap, _clock.ChargeAt, _clock.ScrapCharged);
        var iron = new ChargeBody(
            ChargeKind.HotMetal, c.Weighed.HotMetalKg, TemperatureK: Round(_s.Heat.HotMetalTemperatureK, 2), SlagKg: _s.Heat.HotMetalSlagKg, Lot: $"ladle-{(_s.Slot.Index % 7) + 1}", Scale: "hot-metal-crane-1");
        double keyed = _s.Mishaps.MisKeyed ? DemoHeats.MisKeyedKg(_s) : c.Weighed.HotMetalKg;
        DateTimeOffset weighed = _clock.IronPouring.AddMinutes(-1.5);
        Guid charge = _pages.Add(iron with { MassKg = keyed }, weighed, _s.Mishaps.MisKeyed ? Crane : "signal:hot-metal-scale");
        Operation(HeatOperation.ChargeHotMetal, _clock.IronPouring, _clock.IronPoured);
        if (_s.Mishaps.MisKeyed)
        {
            DateTimeOffset found = _clock.ChargeAt.AddMinutes(_r.Chance(0.6) ? _clock.Between(12, 40) : _clock.Between(120, 420));
            _pages.Add(
                new CorrectionBody(charge, iron), found, "person:shift-engineer-" + _crew, "Digits changed about when keyed by hand; ticket of the scale read again.");
            _misKeyedFound = found;
        }

        if (_s.Slot.ChargeDelay is { } delay)
        {
            _pages.Add(
                new DelayBody(delay.Code, _clock.ChargeAt.AddMinutes(-delay.Minutes), _clock.ChargeAt, _s.Slot.Unit), _clock.ChargeAt, Blower, lateS: 40);
        }
    }

    private DateTimeOffset? _misKeyedFound;

    private void Forecast(Guid works)
    {
        DateTimeOffset at = _clock.Ignition.AddSeconds(-25);
        _forecast = Result(_s.ForecastMisKeyed ?? _s.Forecast!, at, works, null);
        if (_misKeyedFound is { } found && _r.Chance(0.7))
        {
            Result(_s.Forecast!, found.AddMinutes(2), works, _forecast);
        }
    }

    private Guid Result(BlowPoint end, DateTimeOffset at, Guid works, Guid? replaces)
    {
        var values = PlanRule.Quantities.ToDictionary(q => q.Name, q => new Expected(Tidy(q.Name, q.Of(end))));
        return _pages.Add(
            new ResultBody(
                ResultQuestion.Forecast,
                values,
                new Basis("Heatwright " + Version, works, Members: 1),
                ["charge/*", "measurement/hot-metal/1", "analysis/hot-metal/metal/1"],
                replaces),
            at,
            Program);
    }

    private void Operation(HeatOperation operation, DateTimeOffset from, DateTimeOffset until, int index = 1)
    {
        _pages.Add(new OperationBody(operation, OperationState.Running, index, _s.Slot.Unit), from, "signal:converter-" + _s.Slot.Unit.ToLowerInvariant());
        _pages.Add(new OperationBody(operation, OperationState.Complete, index, _s.Slot.Unit), until, "signal:converter-" + _s.Slot.Unit.ToLowerInvariant());
    }

    private static double Round(double value, int digits) => Math.Round(value, digits);

    // Digits that the quantity deserves.
    private static double Tidy(string quantity, double value) => quantity switch
    {
        ResultQuantity.TemperatureK => Math.Round(value, 1),
        ResultQuantity.SteelKg or ResultQuantity.SlagKg => Math.Round(value / 10) * 10,
        ResultQuantity.OxygenPpm => Math.Round(value),
        ResultQuantity.SlagFeoPercent => Math.Round(value, 1),
        ResultQuantity.CarbonPercent or ResultQuantity.PhosphorusPercent or ResultQuantity.SulphurPercent => Math.Round(value, 4),
        _ => Math.Round(value, 3),
    };
}
