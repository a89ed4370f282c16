// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Converter.Blow;

/// <summary>Molar masses of the equations, kg/kmol: compile-time copies of <see cref="Heatwright.Chemistry.AtomicWeights"/> (a test holds them equal).</summary>
internal static class Molar
{
    /// <summary>Molar volume at 0 °C and 101.325 kPa, Nm³/kmol: the one rounding that all gas volumes here share.</summary>
    public const double NormalM3PerKmol = 22.414;

    public const double Fe = 55.845, C = 12.011, Si = 28.085, Mn = 54.938, P = 30.974, S = 32.06, Ti = 47.867, V = 50.942,
        Cr = 51.996, Al = 26.982, Ca = 40.078, Mg = 24.305, O = 15.999, N = 14.007, H = 1.008, Ar = 39.95;

    public const double SiO2 = Si + (2 * O), MnO = Mn + O, TiO2 = Ti + (2 * O), Al2O3 = (2 * Al) + (3 * O), P2O5 = (2 * P) + (5 * O),
        V2O3 = (2 * V) + (3 * O), Cr2O3 = (2 * Cr) + (3 * O), CaO = Ca + O, CaS = Ca + S, MgO = Mg + O, O2 = 2 * O, H2O = (2 * H) + O;
}
