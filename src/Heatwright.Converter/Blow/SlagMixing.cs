// SPDX-License-Identifier: Apache-2.0
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Heatwright.Chemistry;
using Heatwright.Converter.Charge;
using static Heatwright.Converter.Blow.BlowState;
using static Heatwright.Converter.Blow.LaneMath;

namespace Heatwright.Converter.Blow;

/// <summary>Heat of forming silicate and phosphate in the liquid slag: as much as there is lime for.</summary>
internal static class SlagMixing
{
    private static readonly double LimePerKg = 1 / Constituents.MolarMass(Constituent.CaO);
    private static readonly double SilicaPerKg = 1 / Constituents.MolarMass(Constituent.SiO2);
    private static readonly double PhosphatePerKg = 1 / Constituents.MolarMass(Constituent.P2O5);

    /// <summary>Heat counted from the separate oxides, J (negative: given off).</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> Heat(Vector256<double> limeKg, Vector256<double> silicaKg, Vector256<double> phosphateKg)
    {
        Vector256<double> lime = Positive(limeKg) * LimePerKg;
        Vector256<double> silica = Positive(silicaKg) * SilicaPerKg;
        Vector256<double> phosphate = Positive(phosphateKg) * PhosphatePerKg;

        // Phosphate first: it is the stronger bond; silicate takes what lime is left.
        Vector256<double> boundPhosphate = LesserOf(phosphate, lime * (1 / 3.0));
        Vector256<double> boundSilica = LesserOf(silica, Positive(lime - (boundPhosphate * 3)) * 0.5);
        return (boundSilica * Enthalpies.SilicateHeatJPerKmol) + (boundPhosphate * Enthalpies.PhosphateHeatJPerKmol);
    }

    /// <summary>The same for one lane of a state.</summary>
    public static double Heat(Vector256<double>[] state, int lane) =>
        Heat(state[Slag + CaO], state[Slag + SiO2], state[Slag + P2O5]).GetElement(lane);
}
