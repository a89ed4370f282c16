// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Blow.Jet;

namespace Heatwright.Converter.Blow;

/// <summary>Plain figures of the vessel that the blow needs.</summary>
internal static class VesselShape
{
    /// <summary>Liquid steel near 1600 °C, kg/m³ (Jimbo &amp; Cramb, Metall. Trans. B 24 (1993) 5: 7014 at 0.05 % C and 1650 °C).</summary>
    public const double SteelKgM3 = 7000;

    /// <summary>Liquid slag, kg/m³ (Mills &amp; Keene 1987 volumes give 3010 for an ordinary converter slag).</summary>
    public const double SlagKgM3 = 3000;

    /// <summary>Wear of the working lining, m per heat (0.3–1 mm without splashing, less with it: common practice, from memory).</summary>
    public const double WearMPerHeat = 0.15e-3;

    /// <summary>Thickness of lining that follows the bath within one blow, m: √(2·a·t) with a 3e-6 m²/s for magnesia-carbon and t 1000 s.</summary>
    public const double LiningActiveLayerM = 0.07;

    /// <summary>Volumetric heat capacity of magnesia-carbon brick, J/(m³ K): 2950 kg/m³ × 1250 J/(kg K) (from memory).</summary>
    public const double LiningJPerM3K = 3.7e6;
}

/// <summary>Isentropic constants of the lance nozzles with oxygen at 298.15 K (see <see cref="IsentropicFlow"/>).</summary>
/// <param name="StagnationPaPerKgS">Stagnation pressure per total mass flow, Pa/(kg/s).</param>
internal readonly record struct NozzleConstants(double StagnationPaPerKgS)
{
    /// <summary>Discharge coefficient of a real nozzle (0.96–0.99, from memory).</summary>
    private const double Discharge = 0.97;

    public static NozzleConstants Of(Vessel vessel) =>
        new(IsentropicFlow.StagnationPressure(1.0 / vessel.NozzleCount, HeatInput.AmbientK, vessel.NozzleThroatM, Discharge));
}
