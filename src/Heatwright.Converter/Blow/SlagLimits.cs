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

    /// <summary>Lime saturation, mass %: 45 % with iron oxide alone, rising with silica to 57 %; 0.02 %/K.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> LimeSaturation(Vector256<double> siO2, Vector256<double> slagK) =>
        Min(All(45) + (siO2 * 0.75), 57) + ((slagK - All(1873.15)) * 0.02);

    /// <summary>
    /// Magnesia saturation, mass %: 8–10 % at CaO/SiO2 3 and FeO 20 %, 15–20 % at 1.5, falling with iron oxide; 0.015 %/K.
    /// </summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> MagnesiaSaturation(Vector256<double> caO, Vector256<double> siO2, Vector256<double> feO, Vector256<double> slagK)
    {
        Vector256<double> basicity = Min(Max(caO / Max(siO2, 0.5), 0.6), 3.5);
        return Max(All(25.0) - (basicity * 5.0) - (feO * 0.04) + ((slagK - All(1873.15)) * 0.015), 4);
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
