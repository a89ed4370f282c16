// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Blow;

namespace Heatwright.Journal.Demo;

/// <summary>
/// What the invented works is really like: the numbers from which the demonstration year is made and which no entry of the
/// journal says. All invented; what each does stands in the handbook, chapter 95. Public so that what is learnt from the
/// year can be held against what was true (<see cref="HiddenHeat"/> has it heat by heat).
/// </summary>
public static class HiddenPlant
{
    /// <summary>Parameters of the vessel named at a new lance, a lining of middle age and mid-season: what the drifts start from.</summary>
    public static ModelParameters Base(string unit) => new(
        HeatLossScale: unit == "North" ? 0.94 : 0.97,
        OxygenUse: unit == "North" ? 0.945 : 0.940,
        PostCombustion: 0.061,
        PostCombustionHeatShare: 0.47,
        IronOxidationShare: 0.78,
        JetTransfer: 1.05,
        DropletBirth: 56,
        SlagReduction: 1.1,
        Interface: 1.08,
        LimeDissolution: 0.85,
        ScrapTransfer: 0.92,
        PhosphorusOffset: -0.34,
        ManganeseOffset: 0.14,
        FoamScale: 1.2,
        DustScale: 1.15,
        FerricShare: 0.18,
        BathCoPressure: unit == "North" ? 1.38 : 1.32,
        LiningWear: 1.25);

    /// <summary>Scatter from heat to heat, standard deviation: of the logarithm of the heat loss.</summary>
    public const double HeatLossScatter = 0.05;

    /// <summary>Of the oxygen use, absolute.</summary>
    public const double OxygenUseScatter = 0.004;

    /// <summary>Of post-combustion, absolute.</summary>
    public const double PostCombustionScatter = 0.004;

    /// <summary>Of the logarithm of the rates (jet, droplets, interface, lime, scrap).</summary>
    public const double RateScatter = 0.06;

    /// <summary>Of the phosphorus offset, log10.</summary>
    public const double PhosphorusScatter = 0.035;

    /// <summary>Heat loss over lining age: a new lining drinks heat and a thin one lets it through.</summary>
    /// <param name="heats">Heats on the lining.</param>
    public static double LossOverLining(double heats) => 1 + (0.45 * Math.Exp(-heats / 25)) + (0.20 * ((heats / 4000) - 0.5));

    /// <summary>Oxygen use lost over the life of a lance head, absolute.</summary>
    /// <param name="heats">Heats on the head.</param>
    public static double OxygenLostOverLance(double heats) => 0.010 * Math.Pow(heats / 220, 2);

    /// <summary>Phosphorus offset over the year, log10: humid summer air and lime that slakes.</summary>
    /// <param name="season">Share of the year, 0 to 1.</param>
    public static double PhosphorusOverSeason(double season) => -0.05 * Math.Sin(2 * Math.PI * (season - 0.28));

    /// <summary>Hot face of the lining after standing empty, K.</summary>
    /// <param name="emptyMin">Minutes empty; a burner keeps what is left after some hours.</param>
    public static double LiningStartK(double emptyMin) => 1385 - (150 * (1 - Math.Exp(-emptyMin / 160)));

    /// <summary>Fall of hot metal in the covered ladle, K/min.</summary>
    public const double IronFallKPerMin = 0.4;

    /// <summary>Fall of hot metal in the pouring stream, K.</summary>
    public const double IronPourFallK = 8;

    /// <summary>Share of the hot-metal ladle that is left in it from the heat before, log-normal median (sigma 0.4).</summary>
    public const double LadleHeel = 0.045;

    /// <summary>Drift of the hot-metal scale, % of the value a day, until it is calibrated.</summary>
    public const double ScaleDriftPercentPerDay = 0.016;

    /// <summary>Bias of the scrap crane's scale, %: it reads high.</summary>
    public const double ScrapScalePercent = 0.6;

    /// <summary>Bias of the lime hopper, %: it reads high, a part hangs in the chute.</summary>
    public const double LimeHopperPercent = 1.5;

    /// <summary>Slag poured with the hot metal, kg, log-normal median (sigma 0.45); the planner reckons with 400.</summary>
    public const double CarriedSlagKg = 520;

    /// <summary>Skull that grows on the lance and shifts its zero, m each heat; knocked off when the head is changed.</summary>
    public const double LanceZeroMPerHeat = 0.0007;

    /// <summary>Persistence of the slag's habit from one heat of a vessel to its next.</summary>
    public const double SlagMemory = 0.6;

    /// <summary>What the habit does to iron oxide at the end: relative, one standard deviation.</summary>
    public const double SlagMemorySpread = 0.12;

    /// <summary>Share of heats in which metal freezes to the vessel's cone.</summary>
    public const double SkullChance = 0.18;

    /// <summary>Hotter by so much once the bath is even, K: what a probe right after the blow does not yet read.</summary>
    public const double LateHeatK = 5;

    /// <summary>Time constant of that, s.</summary>
    public const double LateHeatS = 75;

    /// <summary>Fall of the bath while it waits, K/min.</summary>
    public const double BathFallKPerMin = 1.1;

    /// <summary>Nitrogen taken up from air when the vessel is turned down, mass ppm.</summary>
    public const double AirNitrogenPpm = 7;

    /// <summary>The in-blow probe reads low by so much, K.</summary>
    public const double InBlowBiasK = -3;

    /// <summary>Chance that a heat slops.</summary>
    /// <param name="siliconPercent">Silicon of the hot metal, mass %.</param>
    /// <param name="keptSlagKg">Slag kept, kg.</param>
    /// <param name="lanceZeroM">Lance higher than it is shown, m.</param>
    /// <param name="soft">Soft practice.</param>
    public static double SlopChance(double siliconPercent, double keptSlagKg, double lanceZeroM, bool soft) =>
        1 / (1 + Math.Exp(3.3 - (4 * (siliconPercent - 0.5)) - (0.25 * ((keptSlagKg / 1000) - 6)) - (3 * lanceZeroM) + (soft ? 0.5 : 0)));

    /// <summary>Rates of mistakes and failures, share of heats.</summary>
    public static DemoRates Rates { get; } = new();
}

/// <summary>Rates of mistakes and failures, share of heats. Invented.</summary>
/// <param name="BadProbe">In-blow probe that gives no or a foolish reading.</param>
/// <param name="MissedMeasurement">No in-blow measurement at all.</param>
/// <param name="WrongScrapClass">A class loaded that the box card does not say.</param>
/// <param name="LimeNotOpened">A lime batch that stayed in the hopper.</param>
/// <param name="MisKeyed">A weight keyed wrongly and put right later.</param>
/// <param name="SwappedSample">An end sample that was another heat's, put right later.</param>
/// <param name="LateAnalysis">An end analysis that came long after the tap.</param>
/// <param name="StaleIron">Hot-metal analysis not back when the plan was made.</param>
/// <param name="Held">A blow held by a trip.</param>
/// <param name="TapNotKeyed">End of the tap not keyed.</param>
public sealed record DemoRates(
    double BadProbe = 0.05,
    double MissedMeasurement = 0.08,
    double WrongScrapClass = 0.010,
    double LimeNotOpened = 0.006,
    double MisKeyed = 0.014,
    double SwappedSample = 0.007,
    double LateAnalysis = 0.04,
    double StaleIron = 0.04,
    double Held = 0.015,
    double TapNotKeyed = 0.005);
