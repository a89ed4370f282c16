// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Converter.Blow;

namespace Heatwright.Converter.Gas;

/// <summary>The gas of a blow after the skirt: what the fan draws at each moment, with the skirt where the practice has it.</summary>
public static class HoodCourse
{
    /// <summary>Skirt counts as down at and below this opening, share of full (common practice, no source).</summary>
    public const double SkirtDown = 0.3;

    /// <summary>Combustion factor held while the skirt is down: 0.05–0.15 is common practice (from memory).</summary>
    public const double HeldCombustionFactor = 0.1;

    /// <summary>The gas of a point of the blow as the hood takes it.</summary>
    public static MouthGas MouthOf(BlowPoint point)
    {
        ArgumentNullException.ThrowIfNull(point);
        if (point.GasNm3PerS < 1e-6)
        {
            return new MouthGas(new GasMixture((GasSpecies.N2, 1)), 0, point.TemperatureK);
        }

        double water = 100 - point.GasCO - point.GasCO2 - point.GasO2 - point.GasH2 - point.GasN2 - point.GasAr;
        return new MouthGas(
            new GasMixture(
                (GasSpecies.CO, Math.Max(0, point.GasCO)), (GasSpecies.CO2, Math.Max(0, point.GasCO2)), (GasSpecies.O2, Math.Max(0, point.GasO2)),
                (GasSpecies.H2, Math.Max(0, point.GasH2)), (GasSpecies.H2O, Math.Max(0, water)), (GasSpecies.N2, Math.Max(0, point.GasN2)),
                (GasSpecies.Ar, Math.Max(0, point.GasAr))),
            point.GasNm3PerS,
            Math.Clamp(point.GasTemperatureK, 300, 4500));
    }

    /// <summary>True where the practice has the skirt down at a share of the planned oxygen.</summary>
    public static bool IsSkirtDown(HeatInput heat, double oxygenPercent)
    {
        ArgumentNullException.ThrowIfNull(heat);
        return heat.Programme.SkirtOpenFraction.LastOrDefault(s => s.OxygenPercent <= oxygenPercent).Value <= SkirtDown;
    }

    /// <summary>Gas behind the cooled hood at a point: with the skirt down the combustion factor is held, else the fan draws its full suction.</summary>
    public static HoodGas At(HeatInput heat, BlowPoint point)
    {
        ArgumentNullException.ThrowIfNull(point);
        HoodSettings settings = HoodSettings.Of(heat.Vessel) with { HeldCombustionFactor = IsSkirtDown(heat, point.OxygenPercent) ? HeldCombustionFactor : null };
        return Hood.Run(MouthOf(point), settings);
    }
}
