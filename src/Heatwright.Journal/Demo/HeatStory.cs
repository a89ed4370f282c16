// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter;
using Heatwright.Converter.Blow;
using Heatwright.Shop;

namespace Heatwright.Journal.Demo;

/// <summary>One heat while the year is made: filled phase by phase, then told as entries.</summary>
internal sealed class HeatStory(HeatSlot slot, HiddenHeat hidden, HeatMishaps mishaps, Heat heat)
{
    public HeatSlot Slot { get; } = slot;

    public HiddenHeat Hidden { get; } = hidden;

    public HeatMishaps Mishaps { get; } = mishaps;

    /// <summary>The heat as the planner sees it.</summary>
    public Heat Heat { get; } = heat;

    /// <summary>Plan: set by <see cref="PlanRule"/>.</summary>
    public PlanMade Plan { get; set; } = null!;

    /// <summary>What was weighed, and what is there: set by <see cref="CrewCharge"/>.</summary>
    public ChargeMade Charge { get; set; } = null!;

    /// <summary>What the nominal model says of the weighed charge; null until asked.</summary>
    public BlowPoint? Forecast { get; set; }

    /// <summary>The same with a weight that was keyed wrongly; null otherwise.</summary>
    public BlowPoint? ForecastMisKeyed { get; set; }

    /// <summary>What the nominal model says of the heat as it was blown.</summary>
    public BlowPoint? AsBlown { get; set; }

    /// <summary>The nominal model's course of the end of the blow, by <see cref="CorrectionRule"/>.</summary>
    public CorrectionMade Correction { get; set; } = null!;

    /// <summary>Blows and ends in order: the blow, then reblows.</summary>
    public List<BlowMade> Blows { get; } = [];

    /// <summary>True course of the blow second by second, for heats that carry signals.</summary>
    public IReadOnlyList<BlowPoint> Trajectory { get; set; } = [];

    /// <summary>True bath in the vessel at the tap.</summary>
    public HiddenEnd End => Blows[^1].End;

    public DemoRandom Random(DemoOptions options, string stream) => new(options.Seed, stream, Slot.Index);
}

/// <summary>What the works planned.</summary>
/// <param name="Charge">Charge and oxygen.</param>
/// <param name="AimShiftK">The crew aims so much over the order, K, for what the last heats missed.</param>
/// <param name="OxygenFactor">The crew's factor on the oxygen for what the last heats missed.</param>
/// <param name="Nominal">End by the nominal model without the crew's factor, its temperature less what the crew knows it to be off by.</param>
/// <param name="Low">10th percentile by quantity of <see cref="PlanRule.Quantities"/>.</param>
/// <param name="High">90th percentile.</param>
/// <param name="Probability">Share of the members inside the windows.</param>
/// <param name="CostEur">Cost of charge and oxygen, EUR.</param>
internal sealed record PlanMade(
    Charge Charge,
    double AimShiftK,
    double OxygenFactor,
    BlowPoint Nominal,
    IReadOnlyList<double> Low,
    IReadOnlyList<double> High,
    double Probability,
    double CostEur)
{
    /// <summary>The crew's change of the oxygen, %.</summary>
    public double Oxygen() => Math.Round(100 * (OxygenFactor - 1), 1);
}

/// <summary>What was charged.</summary>
/// <param name="Weighed">What the scales read.</param>
/// <param name="Written">The model's input from what was weighed: what the works believes.</param>
/// <param name="True">The model's input as it really was.</param>
/// <param name="OxygenNm3">Oxygen planned, Nm³.</param>
internal sealed record ChargeMade(Charge Weighed, HeatInput Written, HeatInput True, double OxygenNm3);

/// <summary>What the crew made of the in-blow measurement.</summary>
/// <param name="AtPercent">Oxygen at the measurement, % of plan.</param>
/// <param name="TrueK">Bath, K.</param>
/// <param name="TrueCarbon">Carbon, mass %.</param>
/// <param name="ReadK">Reading, K; null without.</param>
/// <param name="ReadCarbon">Reading, mass %; null without.</param>
/// <param name="PlannedEndK">End expected at the planned oxygen, K; from the reading when there is one.</param>
/// <param name="PlannedEndCarbon">The same, mass %.</param>
/// <param name="EndPercent">Oxygen at which to stop, % of plan.</param>
/// <param name="OreKg">Ore given, kg.</param>
/// <param name="ExpectedK">End expected after the correction, K.</param>
/// <param name="ExpectedCarbon">The same, mass %.</param>
internal sealed record CorrectionMade(
    double AtPercent,
    double TrueK,
    double TrueCarbon,
    double? ReadK,
    double? ReadCarbon,
    double PlannedEndK,
    double PlannedEndCarbon,
    double EndPercent,
    double OreKg,
    double ExpectedK,
    double ExpectedCarbon);

/// <summary>One blow and its end.</summary>
/// <param name="EndPercent">Oxygen since ignition, % of plan.</param>
/// <param name="End">As it really was.</param>
/// <param name="ReadK">End temperature by probe, K.</param>
/// <param name="ReadOxygenPpm">Dissolved oxygen by probe, mass ppm.</param>
/// <param name="ReadCarbon">Carbon from it or from the liquidus, mass %.</param>
/// <param name="Why">Why it was blown on after this end; null: tapped.</param>
/// <param name="CoolOreKg">Ore given after this end to cool it, kg.</param>
internal sealed record BlowMade(
    double EndPercent, HiddenEnd End, double ReadK, double ReadOxygenPpm, double ReadCarbon, string? Why = null, double CoolOreKg = 0);

/// <summary>What goes wrong in a heat, drawn beforehand.</summary>
internal sealed record HeatMishaps(
    bool BadProbe,
    bool SecondDip,
    bool MissedMeasurement,
    bool WrongScrapClass,
    bool LimeNotOpened,
    bool MisKeyed,
    bool SwappedSample,
    bool LateAnalysis,
    bool StaleIron,
    bool Held,
    bool TapNotKeyed)
{
    public static HeatMishaps Draw(int seed, int index)
    {
        var r = new DemoRandom(seed, "mishaps", index);
        DemoRates rates = HiddenPlant.Rates;
        bool missed = r.Chance(rates.MissedMeasurement);
        return new HeatMishaps(
            r.Chance(rates.BadProbe / (1 - rates.MissedMeasurement)) && !missed,
            r.Chance(0.5),
            missed,
            r.Chance(rates.WrongScrapClass),
            r.Chance(rates.LimeNotOpened),
            r.Chance(rates.MisKeyed),
            r.Chance(rates.SwappedSample) && index > 0,
            r.Chance(rates.LateAnalysis),
            r.Chance(rates.StaleIron) && index > 0,
            r.Chance(rates.Held),
            r.Chance(rates.TapNotKeyed));
    }
}
