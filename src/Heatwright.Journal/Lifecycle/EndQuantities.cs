// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Blow;
using Heatwright.Journal.Entries;

namespace Heatwright.Journal.Lifecycle;

/// <summary>What plans and results tell of the end of a blow, and where the model has it.</summary>
public static class EndQuantities
{
    /// <summary>By <see cref="ResultQuantity"/>, in the order in which they are told.</summary>
    public static IReadOnlyList<(string Name, Func<BlowPoint, double> Value)> All { get; } =
    [
        (ResultQuantity.TemperatureK, p => p.TemperatureK), (ResultQuantity.CarbonPercent, p => p.C), (ResultQuantity.PhosphorusPercent, p => p.P),
        (ResultQuantity.ManganesePercent, p => p.Mn), (ResultQuantity.SulphurPercent, p => p.S), (ResultQuantity.OxygenPpm, p => p.OxygenPpm),
        (ResultQuantity.SlagFeoPercent, p => p.FeO), (ResultQuantity.SteelKg, p => p.MetalKg), (ResultQuantity.SlagKg, p => p.SlagKg),
    ];
}
