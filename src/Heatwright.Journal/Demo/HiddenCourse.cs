// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Converter;
using Heatwright.Converter.Blow;
using Heatwright.Shop;

namespace Heatwright.Journal.Demo;

/// <summary>
/// The hidden state carried from heat to heat: scales that drift, lance and slag habits, skull, weather. None of it depends on
/// how a blow came out, so that the whole year can be drawn first and the blows run many at a time.
/// </summary>
internal sealed class HiddenCourse
{
    private readonly DemoOptions _options;
    private readonly DemoSchedule _schedule;
    private readonly Works _works;
    private readonly HiddenIron _iron;
    private readonly HiddenYard _yard;
    private readonly Dictionary<string, VesselState> _vessels = [];
    private double _scalePercent;
    private double _oxygenMeter;
    private DateTimeOffset _scaleAt;

    private HiddenCourse(DemoOptions options, DemoSchedule schedule, Works works)
    {
        _options = options;
        _schedule = schedule;
        _works = works;
        _iron = new HiddenIron(options.Seed);
        _yard = new HiddenYard(options.Seed, works.Materials);
        _scalePercent = new DemoRandom(options.Seed, "scale").Kept(0.1, 0.1);
        _scaleAt = schedule.Heats[0].ChargeAt;
        foreach (string unit in (string[])["North", "South"])
        {
            _vessels[unit] = new VesselState();
        }
    }

    public static IReadOnlyList<HiddenHeat> Of(DemoOptions options, DemoSchedule schedule, Works works)
    {
        var course = new HiddenCourse(options, schedule, works);
        return [.. schedule.Heats.Select(course.Next)];
    }

    private HiddenHeat Next(HeatSlot slot)
    {
        var r = new DemoRandom(_options.Seed, "hidden", slot.Index);
        VesselState vessel = _vessels[slot.Unit];
        Scale(slot, r);
        _oxygenMeter = Math.Clamp((0.995 * _oxygenMeter) + r.Normal(0, 0.0005), -0.008, 0.008);
        if (slot.LanceHeats == 0)
        {
            vessel.LanceZeroM = r.Kept(0, 0.03);
        }

        vessel.LanceZeroM = Math.Clamp(vessel.LanceZeroM + HiddenPlant.LanceZeroMPerHeat + r.Normal(0, 0.004), -0.10, 0.25);
        double lanceZero = vessel.LanceZeroM + r.Kept(0, 0.03);
        bool newCampaign = slot.LiningHeats == 0;
        IronNow iron = _iron.Next(slot, r);
        YardNow yard = _yard.Next(slot);
        RetainedSlag kept = Kept(vessel, slot, newCampaign, r);
        bool soft = slot.Order.Practice == "soft-early-slag";
        bool slops = r.Chance(HiddenPlant.SlopChance(iron.True[Element.Si], kept.MassKg, lanceZero, soft));
        double violence = r.LogNormal(1, 0.4);
        double skullIn = vessel.SkullKg;
        vessel.SkullKg = r.Chance(HiddenPlant.SkullChance + (slot.EmptyMin > 120 ? 0.2 : 0)) ? r.Between(300, 1600) : 0;
        vessel.LastCarbonAim = slot.Order.CarbonPercent.Aim;
        double slopOxygen = slops ? Math.Min(0.03, 0.010 * violence) : 0;
        return new HiddenHeat
        {
            Parameters = Parameters(slot, r, slopOxygen, slops ? 0.02 * violence : 0),
            Iron = iron.True,
            IronTemperatureK = iron.TrueK,
            IronMeasuredTrueK = iron.AtMeasurementK,
            IronReported = iron.Reported,
            IronReadK = iron.ReadK,
            CarriedSlagKg = Math.Min(2500, r.LogNormal(HiddenPlant.CarriedSlagKg, 0.45)),
            IronScale = 1 + ((_scalePercent + r.Kept(0, 0.3)) / 100),
            OxygenMeter = _oxygenMeter,
            Scrap = yard.Scrap,
            ScrapScale = yard.Scale,
            ScrapLot = yard.Lot,
            AmbientK = yard.AmbientK,
            Rain = yard.Rain,
            Kept = kept,
            LanceZeroM = lanceZero,
            LiningStartK = Math.Clamp(HiddenPlant.LiningStartK(slot.EmptyMin) + r.Kept(0, 12), 1100, 1450),
            SkullInKg = newCampaign ? 0 : skullIn,
            SkullOutKg = vessel.SkullKg,
            SlagHabit = vessel.Habit,
            Slops = slops,
            SlopOxygen = slopOxygen,
            SlopIronKg = slops ? 450 * violence : 0,
            SlopSlagKg = slops ? 1500 * violence : 0,
            SlopPercent = r.Between(26, 52),
        };
    }

    private void Scale(HeatSlot slot, DemoRandom r)
    {
        if (_schedule.ScaleCalibrations.Exists(c => c > _scaleAt && c <= slot.ChargeAt))
        {
            _scalePercent = r.Kept(0, 0.05);
        }

        _scalePercent += HiddenPlant.ScaleDriftPercentPerDay * (slot.ChargeAt - _scaleAt).TotalDays;
        _scaleAt = slot.ChargeAt;
    }

    private static ModelParameters Parameters(HeatSlot slot, DemoRandom r, double slopOxygen, double slopLoss)
    {
        ModelParameters b = HiddenPlant.Base(slot.Unit);
        double Rate(double value) => r.LogNormal(value, HiddenPlant.RateScatter);
        double use = b.OxygenUse - HiddenPlant.OxygenLostOverLance(slot.LanceHeats) + r.Kept(0, HiddenPlant.OxygenUseScatter);
        return b with
        {
            HeatLossScale = r.LogNormal(b.HeatLossScale, HiddenPlant.HeatLossScatter) * HiddenPlant.LossOverLining(slot.LiningHeats) * (1 + slopLoss),
            OxygenUse = use * (1 - slopOxygen),
            PostCombustion = Math.Max(0, b.PostCombustion + r.Kept(0, HiddenPlant.PostCombustionScatter)),
            JetTransfer = Rate(b.JetTransfer),
            DropletBirth = Rate(b.DropletBirth),
            Interface = Rate(b.Interface),
            LimeDissolution = Rate(b.LimeDissolution),
            ScrapTransfer = Rate(b.ScrapTransfer),
            PhosphorusOffset = b.PhosphorusOffset + HiddenPlant.PhosphorusOverSeason(slot.Season) + r.Kept(0, HiddenPlant.PhosphorusScatter),
        };
    }

    // What is kept depends on the order of the heat before and on the vessel's habit, which outlives the heat.
    private RetainedSlag Kept(VesselState vessel, HeatSlot slot, bool newCampaign, DemoRandom r)
    {
        vessel.Habit = newCampaign
            ? 0
            : (HiddenPlant.SlagMemory * vessel.Habit)
                + r.Kept(0, HiddenPlant.SlagMemorySpread * Math.Sqrt(1 - (HiddenPlant.SlagMemory * HiddenPlant.SlagMemory)));
        RetainedSlag nominal = _works.Plant.Converters[slot.Unit].RetainedSlag;
        double iron = Math.Clamp((14 + (0.4 / Math.Max(0.03, vessel.LastCarbonAim))) * (1 + vessel.Habit), 8, 36);
        double was = nominal.Analysis[Constituent.FeO] + nominal.Analysis[Constituent.Fe2O3];
        var parts = new Dictionary<Constituent, double>();
        foreach (Constituent c in Enum.GetValues<Constituent>())
        {
            double percent = nominal.Analysis[c];
            if (percent > 0)
            {
                parts[c] = c is Constituent.FeO or Constituent.Fe2O3 ? percent * iron / was : percent * (100 - iron) / (100 - was);
            }
        }

        double massKg = newCampaign ? 0 : Math.Clamp(r.LogNormal(6200, 0.28), 2000, 13e3);
        return new RetainedSlag(massKg, SolidAnalysis.Normalised(parts), Math.Max(1150, 1560 - (0.9 * Math.Min(slot.EmptyMin, 400))));
    }

    private sealed class VesselState
    {
        public double LanceZeroM { get; set; } = 0.05;

        public double Habit { get; set; }

        public double SkullKg { get; set; }

        public double LastCarbonAim { get; set; } = 0.045;
    }
}
