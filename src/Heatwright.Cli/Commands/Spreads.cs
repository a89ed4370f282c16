// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Charge;
using Heatwright.Shop;

namespace Heatwright.Cli.Commands;

/// <summary>What the plant says about its scales and probes, as the ensemble takes it.</summary>
internal static class Spreads
{
    public static InputSpread Of(MeasurementUncertainty m) => InputSpread.Default with
    {
        HotMetalMassPercent = m.HotMetalMassPercent,
        HotMetalTemperatureK = m.HotMetalTemperatureK,
        HotMetalCarbonPercent = m.HotMetalCarbonPercent,
        HotMetalSiliconPercent = m.HotMetalSiliconPercent,
        HotMetalManganesePercent = m.HotMetalManganesePercent,
        HotMetalPhosphorusPercent = m.HotMetalPhosphorusPercent,
        ScrapMassPercent = m.ScrapMassPercent,
        AdditionMassPercent = m.AdditionMassPercent,
        OxygenPercent = m.OxygenPercent,
        LanceHeightM = m.LanceHeightM,
        RetainedSlagPercent = m.RetainedSlagPercent,
    };
}
