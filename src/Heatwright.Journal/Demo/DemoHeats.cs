// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter;
using Heatwright.Converter.Blow;
using Heatwright.Shop;

namespace Heatwright.Journal.Demo;

/// <summary>
/// Makes the heats of the year week by week: each week is planned, charged, measured, corrected and blown as one batch, and
/// what its ends taught shifts the aims of the next, as a works does on Mondays.
/// </summary>
internal sealed class DemoHeats
{
    private const double Learns = 0.7;

    private readonly DemoOptions _options;
    private readonly Works _works;
    private readonly PlanRule _plan;
    private readonly CrewCharge _charge;
    private readonly CorrectionRule _rule;
    private readonly CrewBlow _blow;
    private readonly IReadOnlyList<HiddenHeat> _hidden;
    private readonly Dictionary<string, CrewShift> _shifts = new() { ["North"] = new(), ["South"] = new() };

    public DemoHeats(DemoOptions options)
    {
        options.Validate();
        _options = options;
        _works = ShopLoader.DemonstrationWorks;
        Schedule = DemoSchedule.Of(options);
        _hidden = HiddenCourse.Of(options, Schedule, _works);
        _plan = new PlanRule(_works, options);
        _charge = new CrewCharge(_works, options);
        _rule = new CorrectionRule(_works, options);
        _blow = new CrewBlow(_works, options, _rule);
    }

    public DemoSchedule Schedule { get; }

    public Works Works => _works;

    /// <summary>The heats, week by week.</summary>
    public IEnumerable<IReadOnlyList<HeatStory>> Weeks()
    {
        foreach (IGrouping<int, HeatSlot> week in Schedule.Heats.GroupBy(Week))
        {
            HeatStory[] block = [.. week.Select(Story)];
            _plan.Run(block, s => (_shifts[s.Slot.Unit].AimK, _shifts[s.Slot.Unit].Oxygen));
            foreach (HeatStory s in block)
            {
                _charge.Run(s);
            }

            MisKey(block);
            _rule.Prepare(block);
            _blow.Run(block, _shifts);
            Learn(block);
            yield return block;
        }
    }

    private int Week(HeatSlot slot) => (DateOnly.FromDateTime(DemoCalendar.Local(slot.ChargeAt).AddHours(-6)).DayNumber - _options.FirstDay.DayNumber) / 7;

    private HeatStory Story(HeatSlot slot)
    {
        HiddenHeat hidden = _hidden[slot.Index];
        HeatMishaps mishaps = HeatMishaps.Draw(_options.Seed, slot.Index);
        ConverterUnit unit = _works.Plant.Converters[slot.Unit];
        bool newCampaign = slot.LiningHeats == 0;
        MetalAnalysis iron = mishaps.StaleIron ? _hidden[slot.Index - 1].IronReported : hidden.IronReported;
        var heat = new Heat(
            slot.Number,
            null,
            null,
            unit with { Vessel = unit.Vessel with { LiningAgeHeats = slot.LiningHeats } },
            _works.Practices[slot.Order.Practice],
            DemoGrades.Order(slot.Order, _works),
            Math.Clamp(hidden.IronReadK - WorksFallK, 1430, 1800),
            iron,
            400,
            newCampaign ? unit.RetainedSlag with { MassKg = 0 } : unit.RetainedSlag,
            null,
            new PlanScope(Objective.Cost, unit.HotMetalKg, [], [], unit.ScrapBoxes * unit.ScrapBoxVolumeM3));
        return new HeatStory(slot, hidden, mishaps, heat);
    }

    /// <summary>What the works takes off the measured hot-metal temperature for the way to the vessel, K, whatever the wait.</summary>
    public const double WorksFallK = 18;

    // What the model says while the wrong weight stands.
    private void MisKey(HeatStory[] block)
    {
        HeatStory[] wrong = [.. block.Where(s => s.Mishaps.MisKeyed)];
        HeatInput[] inputs = [.. wrong.Select(s => s.Charge.Written with { HotMetal = s.Charge.Written.HotMetal with { MassKg = MisKeyedKg(s) } })];
        BlowResult[] results = BlowModel.Run(inputs, [.. inputs.Select(_ => ModelParameters.Default)], new BlowOptions(Workers: _options.Workers));
        for (int i = 0; i < wrong.Length; i++)
        {
            wrong[i].ForecastMisKeyed = results[i].End;
        }
    }

    /// <summary>Hot metal with two digits changed about; ten tonnes more where they are the same.</summary>
    public static double MisKeyedKg(HeatStory s)
    {
        int hundreds = (int)Math.Round(s.Charge.Weighed.HotMetalKg / 100);
        int ones = hundreds / 10 % 10, tenths = hundreds % 10;
        int keyed = ones == tenths ? hundreds + 100 : hundreds + (9 * (tenths - ones));
        return keyed * 100.0;
    }

    // The weighed heat by the nominal model against the end reading; odd heats are left out as a careful metallurgist would.
    private void Learn(HeatStory[] block)
    {
        BlowPoint[] model = _rule.AsBlown(block);
        for (int i = 0; i < block.Length; i++)
        {
            block[i].AsBlown = model[i];
        }

        var seen = block.Select((s, i) => (Story: s, Model: model[i], Read: s.Blows[0]))
            .Where(h => !h.Story.Mishaps.MisKeyed && Math.Abs(h.Model.TemperatureK - h.Read.ReadK) < 70 && h.Story.Slot.LiningHeats > 5);
        foreach (var unit in seen.GroupBy(h => h.Story.Slot.Unit))
        {
            var last = unit.TakeLast(20).ToArray();
            if (last.Length < 4)
            {
                continue;
            }

            double offK = last.Average(h => h.Model.TemperatureK - h.Read.ReadK);
            double offLogC = last.Average(h => Math.Log(h.Read.ReadCarbon / Math.Max(1e-4, h.Model.C)));
            var corrected = last.Where(h => h.Story.Correction.ReadK is not null).ToArray();
            double endK = corrected.Length < 4 ? 0 : corrected.Average(h => h.Story.Correction.ExpectedK - h.Read.ReadK);
            double endLogC = corrected.Length < 4 ? 0 : corrected.Average(h => Math.Log(h.Story.Correction.ExpectedCarbon / h.Read.ReadCarbon));
            CrewShift was = _shifts[unit.Key];
            _shifts[unit.Key] = new CrewShift(
                Math.Round(Math.Clamp(((1 - Learns) * was.AimK) + (Learns * offK), -40, 40)),
                Math.Round(Math.Clamp(((1 - Learns) * was.Oxygen) + (Learns * (1 + (offLogC * 0.04))), 0.95, 1.06), 3),
                Math.Round(Math.Clamp(((1 - Learns) * was.EndK) + (Learns * endK), -20, 20)),
                Math.Clamp(((1 - Learns) * was.EndLogCarbon) + (Learns * endLogC), -0.5, 0.5));
        }
    }
}
