// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Blow;

namespace Heatwright.Converter.Charge;

/// <summary>An in-blow measurement.</summary>
/// <param name="OxygenPercent">Oxygen metered when it was taken, % of plan.</param>
/// <param name="TemperatureK">Bath temperature, K.</param>
/// <param name="CarbonPercent">Carbon, mass %; null when the reading failed.</param>
/// <param name="TemperatureErrorK">Standard error of the temperature, K.</param>
/// <param name="CarbonErrorPercent">Standard error of the carbon, mass %.</param>
public sealed record InBlowMeasurement(
    double OxygenPercent,
    double TemperatureK,
    double? CarbonPercent,
    double TemperatureErrorK = 6,
    double CarbonErrorPercent = 0.04);

/// <summary>A window with its aim.</summary>
/// <param name="Least">Least.</param>
/// <param name="Most">Greatest.</param>
/// <param name="Aim">Aim.</param>
public sealed record EndWindow(double Least, double Most, double Aim)
{
    /// <summary>The value lies within, ends included.</summary>
    public bool Holds(double value) => value >= Least && value <= Most;
}

/// <summary>What a correction starts from.</summary>
public sealed record CorrectionRequest
{
    /// <summary>The heat as written: what was charged and planned.</summary>
    public required HeatInput Heat { get; init; }

    /// <summary>The measurement.</summary>
    public required InBlowMeasurement Measurement { get; init; }

    /// <summary>Window of end temperature, K.</summary>
    public required EndWindow TemperatureK { get; init; }

    /// <summary>Window of end carbon, mass %.</summary>
    public required EndWindow CarbonPercent { get; init; }

    /// <summary>Coolants (or heating agents) in the bunkers, each with the most that may go in now, kg. At most three are tried.</summary>
    public IReadOnlyList<(FluxMaterial Material, double MostKg)> Coolants { get; init; } = [];

    /// <summary>Most phosphorus at the end, mass %; null: not judged.</summary>
    public double? MostPhosphorusPercent { get; init; }

    /// <summary>Ensemble; null for 1000 members about <see cref="Parameters"/>.</summary>
    public EnsembleDraw? Ensemble { get; init; }

    /// <summary>Parameters about which the ensemble is drawn when none is given.</summary>
    public ModelParameters Parameters { get; init; } = ModelParameters.Default;

    /// <summary>Most oxygen that is looked at, % of plan.</summary>
    public double MostOxygenPercent { get; init; } = 112;

    /// <summary>Oxygen between measurement and addition of the coolant, % of plan: the time to decide.</summary>
    public double DecisionPercent { get; init; } = 2;
}

/// <summary>One way to end the blow, with its odds.</summary>
/// <param name="Coolant">Name of the coolant; null for none.</param>
/// <param name="CoolantKg">Coolant, kg.</param>
/// <param name="EndOxygenPercent">Oxygen at which to stop, % of plan.</param>
/// <param name="OxygenToBlowNm3">Oxygen from the measurement to the end, Nm³.</param>
/// <param name="InWindow">P(temperature and carbon in their windows).</param>
/// <param name="TemperatureInWindow">P(temperature in its window).</param>
/// <param name="CarbonInWindow">P(carbon in its window).</param>
/// <param name="PhosphorusInWindow">P(phosphorus at most its limit); NaN when it is not judged.</param>
/// <param name="TemperatureK">Expected end temperature, K.</param>
/// <param name="TemperatureDeviationK">Its standard deviation, K.</param>
/// <param name="CarbonPercent">Expected end carbon, mass %.</param>
/// <param name="CarbonDeviationPercent">Its standard deviation, mass %.</param>
/// <param name="SlagFeOPercent">Expected FeO in the slag, mass %.</param>
/// <param name="MetalKg">Expected liquid metal, kg.</param>
public sealed record CorrectionOption(
    string? Coolant,
    double CoolantKg,
    double EndOxygenPercent,
    double OxygenToBlowNm3,
    double InWindow,
    double TemperatureInWindow,
    double CarbonInWindow,
    double PhosphorusInWindow,
    double TemperatureK,
    double TemperatureDeviationK,
    double CarbonPercent,
    double CarbonDeviationPercent,
    double SlagFeOPercent,
    double MetalKg);

/// <summary>How far the measurement lies from what was expected.</summary>
/// <param name="ExpectedTemperatureK">Mean of the members at the measurement, K.</param>
/// <param name="TemperatureDeviationK">Standard deviation of reading: members and instrument together, K.</param>
/// <param name="ExpectedCarbonPercent">Mean of the members, mass %.</param>
/// <param name="CarbonDeviationPercent">Standard deviation of reading, mass %.</param>
/// <param name="Share">Share of readings that an ensemble like this would give nearer to its middle, 0 to 1.</param>
/// <param name="Outside">The share exceeds 0.99: doubt the reading, the charge or the parameters.</param>
public sealed record Surprise(
    double ExpectedTemperatureK,
    double TemperatureDeviationK,
    double ExpectedCarbonPercent,
    double CarbonDeviationPercent,
    double Share,
    bool Outside);

/// <summary>What the correction says.</summary>
/// <param name="Best">The option with the best odds.</param>
/// <param name="Options">Best of each kind (none, each coolant, to plan), the best first.</param>
/// <param name="EffectiveMembers">Effective number of members after weighing: 1/Σw².</param>
/// <param name="Tempered">Share of the information used: below 1 when too few members would have carried it all.</param>
/// <param name="Surprise">How far the measurement lies from what was expected.</param>
/// <param name="Warnings">What the crew should know before following it.</param>
public sealed record CorrectionAdvice(
    CorrectionOption Best,
    IReadOnlyList<CorrectionOption> Options,
    double EffectiveMembers,
    double Tempered,
    Surprise Surprise,
    IReadOnlyList<string> Warnings);
