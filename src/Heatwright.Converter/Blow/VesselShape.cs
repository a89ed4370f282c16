// SPDX-License-Identifier: Apache-2.0
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

/// <summary>Isentropic constants of the lance nozzles at 298 K stagnation temperature (γ = 1.4; NACA Report 1135, 1953).</summary>
/// <param name="StagnationPaPerKgS">Stagnation pressure per total mass flow, Pa/(kg/s).</param>
/// <param name="ExitVelocityMPerS">Gas velocity at the nozzle exit, m/s.</param>
/// <param name="ExitPressureRatio">Exit pressure over stagnation pressure.</param>
/// <param name="ExitAreaM2">Exit area of all nozzles, m².</param>
internal readonly record struct NozzleConstants(double StagnationPaPerKgS, double ExitVelocityMPerS, double ExitPressureRatio, double ExitAreaM2)
{
    private const double GasConstant = 8314.46 / 31.998;
    private const double StagnationK = 298.15;

    /// <summary>Discharge coefficient of a real nozzle (0.96–0.99, from memory).</summary>
    private const double Discharge = 0.97;

    public static NozzleConstants Of(Vessel vessel)
    {
        double throat = Math.PI / 4 * vessel.NozzleThroatM * vessel.NozzleThroatM * vessel.NozzleCount;
        double exit = Math.PI / 4 * vessel.NozzleExitM * vessel.NozzleExitM * vessel.NozzleCount;
        double mach = ExitMach(exit / throat);
        double cold = 1 / (1 + (0.2 * mach * mach));
        double choked = Discharge * throat * Math.Sqrt(1.4 / (GasConstant * StagnationK)) * Math.Pow(1 / 1.2, 3);
        return new NozzleConstants(1 / choked, mach * Math.Sqrt(1.4 * GasConstant * StagnationK * cold), Math.Pow(cold, 3.5), exit);
    }

    /// <summary>Supersonic root of A/A* = (1/M)((1 + 0.2 M²)/1.2)³.</summary>
    private static double ExitMach(double areaRatio)
    {
        double least = 1, most = 5;
        for (int i = 0; i < 60; i++)
        {
            double mid = 0.5 * (least + most);
            double a = Math.Pow((1 + (0.2 * mid * mid)) / 1.2, 3) / mid;
            if (a < areaRatio)
            {
                least = mid;
            }
            else
            {
                most = mid;
            }
        }

        return 0.5 * (least + most);
    }
}
