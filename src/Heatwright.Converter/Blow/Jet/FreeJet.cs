// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Converter.Blow.Jet;

/// <summary>The jet between nozzle and bath.</summary>
public static class FreeJet
{
    /// <summary>
    /// Decay constant of a turbulent round jet, u_axis/u_exit = K·d/x at equal densities; K ≈ 7.5 as in Banks and Chandrasekhara
    /// (1963), from memory.
    /// </summary>
    public const double DecayConstant = 7.5;

    /// <summary>
    /// Length of the potential core, m: (4.2 + 1.1 M²)·d_e. Fit in the manner of J. C. Lau and others, J. Fluid Mech. 93 (1979) 1–27,
    /// from memory; cold
    /// surroundings. Hot, thin gas lengthens it.
    /// </summary>
    public static double CoherentLengthM(double exitDiameterM, double exitMach) =>
        Check.InRange(exitDiameterM, 1e-4, 1, "m", nameof(exitDiameterM)) * (4.2 + (1.1 * Check.InRange(exitMach, 0, 4, "-", nameof(exitMach)) * exitMach));

    /// <summary>
    /// Dynamic pressure on the axis, Pa: ½ρu² = 2K²·ṁu/(π x²). Momentum is conserved and the axis velocity falls with 1/x, so the density
    /// of the surroundings drops out: this is the jet inside Banks and Chandrasekhara's cavity balance. Far field: beyond the core only.
    /// </summary>
    /// <param name="momentumN">Momentum of the jet, N.</param>
    /// <param name="distanceM">Distance from the nozzle along the axis, m.</param>
    public static double AxialDynamicPressurePa(double momentumN, double distanceM)
    {
        Check.InRange(momentumN, 0, 1e6, "N", nameof(momentumN));
        Check.InRange(distanceM, 0.01, 100, "m", nameof(distanceM));
        return 2 * DecayConstant * DecayConstant * momentumN / (Math.PI * distanceM * distanceM);
    }
}
