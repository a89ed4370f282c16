// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter;
using Heatwright.Journal.Entries;
using Heatwright.Shop;

namespace Heatwright.Journal.Demo;

/// <summary>This part: the blow, the measurement in it, ends, reblows and what was decided.</summary>
internal sealed partial class HeatTeller
{
    private string Vessel => "signal:converter-" + _s.Slot.Unit.ToLowerInvariant();

    private void Blow(Guid works)
    {
        BlowTimes first = _clock.Blows[0];
        _pages.Add(new OperationBody(HeatOperation.Blow, OperationState.Running, 1, _s.Slot.Unit), first.Begin, Vessel);
        if (_s.Mishaps.Held)
        {
            _pages.Add(new OperationBody(HeatOperation.Blow, OperationState.Held, 1, _s.Slot.Unit), _clock.HeldAt, Vessel, "pressure at the hood");
            _pages.Add(new OperationBody(HeatOperation.Blow, OperationState.Running, 1, _s.Slot.Unit), _clock.HeldAt.AddMinutes(HeatClock.HoldMin), Vessel, "cleared by gas cleaning");
            _pages.Add(
                new DelayBody("gas-cleaning", _clock.HeldAt, _clock.HeldAt.AddMinutes(HeatClock.HoldMin), _s.Slot.Unit, "Blow held: pressure at the hood."),
                _clock.HeldAt.AddMinutes(HeatClock.HoldMin), Blower, lateS: 60);
        }

        Additions();
        if (_s.Hidden.Slops)
        {
            _pages.Add(
                new NoteBody(_r.Chance(0.5) ? "Slopped; lance lowered, flow cut for a minute." : "Slopping over the mouth, slag in the pit; lance lowered."),
                _clock.AtOxygen(_s.Hidden.SlopPercent), Blower, lateS: 90);
        }

        Measurement();
        Correction(works);
        _pages.Add(
            new OperationBody(HeatOperation.Blow, OperationState.Complete, 1, _s.Slot.Unit, Oxygen(_s.Blows[0].EndPercent)), first.End, Vessel);
    }

    private void Additions()
    {
        Addition? missing = CrewCharge.NotOpened(_s, _s.Charge.Written.Programme.Additions);
        foreach (Addition a in _s.Charge.Written.Programme.Additions)
        {
            if (a.OxygenPercent > _s.Blows[0].EndPercent)
            {
                continue;
            }

            if (a == missing)
            {
                _pages.Add(
                    new NoteBody(FormattableString.Invariant($"Lime gate had not opened: batch of {a.MassKg:F0} kg still in the hopper after the blow.")),
                    _clock.Blows[0].End.AddMinutes(2), Blower);
                continue;
            }

            bool before = a.OxygenPercent <= 0;
            DateTimeOffset at = before ? _clock.ScrapCharged.AddSeconds(-30) : _clock.AtOxygen(a.OxygenPercent);
            _pages.Add(
                new AdditionBody(a.Material.Name, Math.Round(a.MassKg / 5) * 5, OxygenNm3: before ? 0 : Oxygen(a.OxygenPercent)), at, "signal:weigh-hoppers", lateS: 2 + a.DosingS);
        }
    }

    private void Measurement()
    {
        CorrectionMade c = _s.Correction;
        DateTimeOffset at = _clock.AtOxygen(c.AtPercent);
        double oxygen = Oxygen(c.AtPercent);
        if (_s.Mishaps.MissedMeasurement)
        {
            string why = _r.Weighted([("Probe machine in fault", 4), ("No probe in the magazine", 2), ("Lance skulled, probe path not free", 3)]);
            _pages.Add(new NoteBody($"No in-blow measurement: {why}."), at, Blower, lateS: 120);
            return;
        }

        if (_s.Mishaps.BadProbe)
        {
            bool none = _r.Chance(0.6);
            double foolishK = Math.Round(1380 + (60 * _r.Unit())) + 273.15;
            _pages.Add(
                new MeasurementBody(HeatPoint.InBlow, none ? null : foolishK, OxygenNm3: oxygen, Status: ReadingStatus.Bad, Probe: "sublance T+C"),
                at, "signal:sublance", none ? "no plateau" : "broke at immersion", 12);
            if (c.ReadK is null)
            {
                return;
            }
        }

        int index = _s.Mishaps.BadProbe ? 2 : 1;
        _inBlow = _pages.Add(
            new MeasurementBody(
                HeatPoint.InBlow, Round(c.ReadK!.Value, 2), c.ReadCarbon, BathLevelM: Round(1.62 + _r.Kept(0, 0.05), 2), OxygenNm3: oxygen, Index: index, Probe: "sublance T+C"),
            at.AddSeconds(_s.Mishaps.BadProbe ? 45 : 0), "signal:sublance", lateS: 12);
    }

    private void Correction(Guid works)
    {
        CorrectionMade c = _s.Correction;
        DateTimeOffset at = _clock.AtOxygen(c.AtPercent).AddSeconds(_s.Mishaps.BadProbe ? 70 : 25);
        if (c.ReadK is null)
        {
            _pages.Add(
                new DecisionBody("oxygen and coolant to the end", "to plan", BasedOn: [_forecast]), at, Blower,
                _s.Mishaps.MissedMeasurement ? "no in-blow measurement; forecast followed" : "probe failed, no time for a second; forecast followed");
            return;
        }

        Guid result = _pages.Add(
            new ResultBody(
                ResultQuestion.Correction,
                new Dictionary<string, Expected>
                {
                    [ResultQuantity.TemperatureK] = new(Round(c.PlannedEndK, 1)),
                    [ResultQuantity.CarbonPercent] = new(Round(c.PlannedEndCarbon, 4)),
                    [ResultQuantity.OxygenNm3] = new(Oxygen(100)),
                },
                new Basis("Heatwright " + Version, works, Members: 1, Inputs: [_inBlow]),
                ["charge/*", "measurement/in-blow/*"]),
            at, Program, "end to plan, shifted onto the measurement");
        double more = Oxygen(c.EndPercent) - Oxygen(c.AtPercent);
        string ore = c.OreKg > 0 ? FormattableString.Invariant($", {c.OreKg:F0} kg ore") : "";
        Order order = _s.Heat.Order;
        double offK = c.PlannedEndK - order.TemperatureAimK;
        string why = FormattableString.Invariant(
            $"to plan it would end at {c.PlannedEndK - 273.15:F0} °C and {c.PlannedEndCarbon:F3} % C; aim {order.TemperatureAimK - 273.15:F0} °C and {order.CarbonAimPercent:F3} %");
        _pages.Add(
            new DecisionBody(
                "oxygen and coolant to the end",
                FormattableString.Invariant($"{more:F0} Nm3 more{ore}"),
                [FormattableString.Invariant($"to plan: {c.PlannedEndK - 273.15:F0} °C, {c.PlannedEndCarbon:F3} % C"), FormattableString.Invariant($"chosen: {c.ExpectedK - 273.15:F0} °C, {c.ExpectedCarbon:F3} % C")],
                [result, _inBlow]),
            at.AddSeconds(8), Blower, offK > 6 ? "hot: " + why : offK < -8 ? "cold: " + why : why);
        if (c.OreKg > 0)
        {
            double at2 = CorrectionRule.OreAt(c);
            _pages.Add(new AdditionBody("ore", c.OreKg, OxygenNm3: Oxygen(at2)), at.AddSeconds(20), "signal:weigh-hoppers", lateS: 22);
        }
    }

    private void Ends()
    {
        for (int i = 0; i < _s.Blows.Count; i++)
        {
            BlowMade blow = _s.Blows[i];
            BlowTimes t = _clock.Blows[i];
            if (i > 0)
            {
                double part = Oxygen(blow.EndPercent) - Oxygen(_s.Blows[i - 1].EndPercent);
                _pages.Add(new OperationBody(HeatOperation.Reblow, OperationState.Running, i, _s.Slot.Unit), t.Begin, Vessel);
                _pages.Add(new OperationBody(HeatOperation.Reblow, OperationState.Complete, i, _s.Slot.Unit, part), t.End, Vessel);
            }

            Guid measured = _pages.Add(
                new MeasurementBody(HeatPoint.EndOfBlow, Round(blow.ReadK, 2), blow.ReadCarbon, blow.ReadOxygenPpm, OxygenNm3: Oxygen(blow.EndPercent), Index: i + 1, Probe: "sublance T+O"),
                t.Measured, "signal:sublance", lateS: 10);
            Guid? analysed = i == _s.Blows.Count - 1 || CrewBlow.WaitsForPhosphorus(_s) ? Analysis(blow, t, i + 1) : null;
            Decide(blow, t, measured, t.Analysed < t.Decided ? analysed : null);
        }
    }

    private Guid Analysis(BlowMade blow, BlowTimes t, int index)
    {
        AnalysisBody right = Steel(HeatPoint.EndOfBlow, blow.End, index, 0);
        string sample = $"E{_s.Slot.Index + 20001}-{index}";
        right = right with { Sample = sample };
        if (_s.Mishaps.SwappedSample && _before is { } other && index == _s.Blows.Count)
        {
            AnalysisBody wrong = Steel(HeatPoint.EndOfBlow, other.End, index, 0) with { Sample = sample };
            Guid id = _pages.AddArriving(wrong, t.Measured, t.Analysed, "signal:laboratory");
            _pages.Add(
                new CorrectionBody(id, right), t.Analysed.AddMinutes(_clock.Between(25, 90)), "person:laboratory",
                $"Sample was that of {other.Slot.Number}, swapped in the tube; the kept half analysed again.");
            return id;
        }

        Guid analysis = _pages.AddArriving(
            right, t.Measured, t.Analysed, "signal:laboratory", _s.Mishaps.LateAnalysis ? "spectrometer down, sent late" : "");
        if (_r.Chance(0.7) && index == _s.Blows.Count)
        {
            var slag = new Dictionary<string, Reading>();
            foreach ((string name, double percent) in blow.End.SlagPercent)
            {
                slag[name] = new Reading(Round(Math.Max(0.1, percent + _r.Kept(0, name is "FeO" or "CaO" ? 0.9 : 0.02 + (0.03 * percent))), 1));
            }

            _pages.AddArriving(
                new AnalysisBody(HeatPoint.EndOfBlow, SampledMatter.Slag, slag, $"S{_s.Slot.Index + 20001}", index), t.Measured, t.Analysed.AddMinutes(_clock.Between(3, 9)), "signal:laboratory");
        }

        return analysis;
    }

    private void Decide(BlowMade blow, BlowTimes t, Guid measured, Guid? analysed)
    {
        Order o = _s.Heat.Order;
        string found = FormattableString.Invariant($"{blow.ReadK - 273.15:F0} °C, {blow.ReadCarbon:F3} % C, {blow.ReadOxygenPpm:F0} ppm O");
        Guid[] seen = analysed is { } a ? [measured, a] : [measured];
        string[] options = ["tap", "blow on", "cool and tap"];
        if (blow.Why is { } why)
        {
            _pages.Add(new DecisionBody("tap or blow on", "blow on", options, seen), t.Decided, Blower, $"{why}: {found}");
            return;
        }

        bool inside = o.TemperatureK.Holds(blow.ReadK) && o.CarbonPercent.Holds(blow.ReadCarbon);
        if (blow.CoolOreKg > 0)
        {
            _pages.Add(new DecisionBody("tap or blow on", "cool and tap", options, seen), t.Decided, Blower, "hot: " + found);
            _pages.Add(new AdditionBody("ore", blow.CoolOreKg, OxygenNm3: Oxygen(blow.EndPercent)), t.Decided.AddSeconds(30), "signal:weigh-hoppers", "cooling, oxygen off", 20);
            double readK = Math.Round(blow.End.TemperatureK - (HiddenPlant.BathFallKPerMin * 3) + _r.Kept(0, 3.2) - 273.15) + 273.15;
            _pages.Add(
                new MeasurementBody(HeatPoint.EndOfBlow, Round(readK, 2), OxygenNm3: Oxygen(blow.EndPercent), Index: _s.Blows.Count + 1, Probe: "sublance T+O"),
                t.Decided.AddMinutes(2.6), "signal:sublance", lateS: 10);
            return;
        }

        _pages.Add(
            new DecisionBody("tap or blow on", "tap", options, seen), t.Decided, Blower, (inside ? "inside: " : "outside, ladle furnace takes it: ") + found);
    }

    private AnalysisBody Steel(HeatPoint point, HiddenEnd e, int index, double pickUp)
    {
        double Metal(double percent, double spread, int digits) => Math.Max(Math.Pow(10, -digits), Math.Round(percent + _r.Kept(0, spread), digits));
        var percent = new Dictionary<string, Reading>
        {
            ["C"] = new(Metal(e.CarbonPercent + pickUp, 0.0015 + (0.004 * e.CarbonPercent), 3)),
            ["Mn"] = new(Metal(e.ManganesePercent, 0.003, 3)),
            ["P"] = new(Metal(e.PhosphorusPercent, 0.0006, 4)),
            ["S"] = new(Metal(e.SulphurPercent, 0.0005, 4)),
            ["Cu"] = new(Metal(e.CopperPercent, 0.002, 3)),
            ["Cr"] = new(Metal(e.ChromiumPercent, 0.001, 3)),
            ["Ni"] = new(Metal(e.NickelPercent, 0.001, 3)),
            ["Sn"] = e.TinPercent < 0.002 ? new Reading(0.002, Below: true) : new Reading(Metal(e.TinPercent, 0.0004, 4)),
            ["N"] = new(Metal(e.NitrogenPpm / 1e4, 0.0003, 4)),
        };
        return new AnalysisBody(point, SampledMatter.Metal, percent, Index: index);
    }

    private double Oxygen(double percent) => Math.Round(_s.Charge.OxygenNm3 * percent / 1000) * 10;
}
