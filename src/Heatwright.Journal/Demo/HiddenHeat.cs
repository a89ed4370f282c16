// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter;
using Heatwright.Converter.Blow;

namespace Heatwright.Journal.Demo;

/// <summary>What no one at the works can weigh about one heat, known before it is blown.</summary>
public sealed record HiddenHeat
{
    /// <summary>Parameters of the blow.</summary>
    public required ModelParameters Parameters { get; init; }

    /// <summary>Hot metal as it reaches the vessel: with the ladle's heel and cooled on the way. Its mass is that of the plan's order only.</summary>
    public required MetalAnalysis Iron { get; init; }

    /// <summary>Temperature of the hot metal in the vessel's mouth, K.</summary>
    public required double IronTemperatureK { get; init; }

    /// <summary>Hot metal at its measurement, K, before what it loses on the way.</summary>
    public required double IronMeasuredTrueK { get; init; }

    /// <summary>What the laboratory says of the hot metal: of the ladle's own sample, without its heel.</summary>
    public required MetalAnalysis IronReported { get; init; }

    /// <summary>What the probe in the hot-metal ladle reads, K.</summary>
    public required double IronReadK { get; init; }

    /// <summary>Slag carried over, kg.</summary>
    public required double CarriedSlagKg { get; init; }

    /// <summary>What the hot-metal scale reads over what is there.</summary>
    public required double IronScale { get; init; }

    /// <summary>What the oxygen meter reads over what flows, less one.</summary>
    public required double OxygenMeter { get; init; }

    /// <summary>Scrap as the lot really is, by class.</summary>
    public required IReadOnlyDictionary<string, ScrapMaterial> Scrap { get; init; }

    /// <summary>What the scrap scale reads over what is there, by class.</summary>
    public required IReadOnlyDictionary<string, double> ScrapScale { get; init; }

    /// <summary>Lot in use, by class.</summary>
    public required IReadOnlyDictionary<string, string> ScrapLot { get; init; }

    /// <summary>Scrap and yard, K.</summary>
    public required double AmbientK { get; init; }

    /// <summary>It rained on the yard.</summary>
    public required bool Rain { get; init; }

    /// <summary>Slag kept from the heat before.</summary>
    public required RetainedSlag Kept { get; init; }

    /// <summary>Lance higher than it is shown, m.</summary>
    public required double LanceZeroM { get; init; }

    /// <summary>Hot face of the lining when charging, K.</summary>
    public required double LiningStartK { get; init; }

    /// <summary>Metal frozen to the vessel in the heat before that melts in this one, kg.</summary>
    public required double SkullInKg { get; init; }

    /// <summary>Metal that freezes to the vessel in this heat, kg.</summary>
    public required double SkullOutKg { get; init; }

    /// <summary>Habit of the slag: iron oxide at the end over the model's, relative.</summary>
    public required double SlagHabit { get; init; }

    /// <summary>It slops.</summary>
    public required bool Slops { get; init; }

    /// <summary>Oxygen lost in slopping, share.</summary>
    public required double SlopOxygen { get; init; }

    /// <summary>Iron thrown out, kg.</summary>
    public required double SlopIronKg { get; init; }

    /// <summary>Slag thrown out, kg.</summary>
    public required double SlopSlagKg { get; init; }

    /// <summary>Shares of the planned oxygen at which it slops, %.</summary>
    public required double SlopPercent { get; init; }
}

/// <summary>The end of a blow as it really was.</summary>
/// <param name="TemperatureK">Bath once it is even, K.</param>
/// <param name="CarbonPercent">Carbon, mass %.</param>
/// <param name="PhosphorusPercent">Phosphorus, mass %.</param>
/// <param name="ManganesePercent">Manganese, mass %.</param>
/// <param name="SulphurPercent">Sulphur, mass %.</param>
/// <param name="CopperPercent">Copper, mass %.</param>
/// <param name="TinPercent">Tin, mass %.</param>
/// <param name="ChromiumPercent">Chromium, mass %.</param>
/// <param name="NickelPercent">Nickel, mass %.</param>
/// <param name="NitrogenPpm">Nitrogen, mass ppm.</param>
/// <param name="OxygenPpm">Dissolved oxygen, mass ppm.</param>
/// <param name="SteelKg">Liquid steel, kg.</param>
/// <param name="SlagKg">Slag, kg.</param>
/// <param name="SlagPercent">Slag by constituent, mass %.</param>
/// <param name="BlowS">Oxygen on, s, all blows.</param>
public sealed record HiddenEnd(
    double TemperatureK,
    double CarbonPercent,
    double PhosphorusPercent,
    double ManganesePercent,
    double SulphurPercent,
    double CopperPercent,
    double TinPercent,
    double ChromiumPercent,
    double NickelPercent,
    double NitrogenPpm,
    double OxygenPpm,
    double SteelKg,
    double SlagKg,
    IReadOnlyDictionary<string, double> SlagPercent,
    double BlowS);
