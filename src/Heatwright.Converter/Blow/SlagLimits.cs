// SPDX-License-Identifier: Apache-2.0
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using static Heatwright.Converter.Blow.LaneMath;

namespace Heatwright.Converter.Blow;

/// <summary>
/// How much lime and magnesia the slag can hold. Simple lines through remembered points of the CaO–FeO–SiO2(–MgO) diagrams at
/// 1600 °C; the handbook (chapter 20) shows them beside the activity model. All from memory unless said.
/// </summary>
internal static class SlagLimits
{
    /// <summary>Height of lining that slag washes, m.</summary>
    public const double WettedHeightM = 1.2;

    /// <summary>Lime saturation, mass %: 45 % with iron oxide alone, rising with silica to 57 %; 0.02 %/K from 1600 °C.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> LimeSaturation(Vector256<double> siO2, Vector256<double> slagK) =>
        Min(All(45) + (siO2 * 0.75), 57) + ((slagK - All(1873.15)) * 0.02);

    /// <summary>
    /// Magnesia saturation, mass %: <see cref="Heatwright.Chemistry.Slag.MgOSaturation.FittedMassPercent"/> with its clamps
    /// (CaO/SiO2 1–4, FetO 8–35 %, 1773–1973 K), four lanes at once.
    /// </summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> MagnesiaSaturation(Vector256<double> caO, Vector256<double> siO2, Vector256<double> fetO, Vector256<double> slagK)
    {
        Vector256<double> basicity = Min(Max(caO / Max(siO2, 0.1), 1), 4);
        Vector256<double> iron = Min(Max(fetO, 8), 35);
        Vector256<double> inverse = All(1) / Min(Max(slagK, 1773), 1973.15);
        return Exp((Log(basicity * (1 / 3.0)) * -0.95) - (Log(iron * 0.05) * 0.15) - ((inverse - All(1 / 1873.15)) * 6000)) * 9.0;
    }

    /// <summary>
    /// Share of the free dissolution rate that is left when a dicalcium silicate shell grows on the lumps: strong where silica is
    /// high against iron oxide (Matsushima, cited by Kobayashi &amp; Sadamoto, ISIJ Int. 57 (2017) 1703, for the mechanism; the form is ours).
    /// </summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> SilicateShell(Vector256<double> siO2, Vector256<double> feO)
    {
        Vector256<double> ratio = siO2 / (feO + All(4));
        return All(1) / (All(1) + (ratio * ratio * 1.5));
    }
}
