// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Converter.Blow.Jet;

/// <summary>How well the pressure at a nozzle's exit fits the vessel.</summary>
public enum NozzleExpansion
{
    /// <summary>Exit pressure within 10 % of the surroundings.</summary>
    Matched,
    /// <summary>Exit pressure higher: the jet expands outside, shocks cost momentum, the tip runs hotter at its rim.</summary>
    Underexpanded,
    /// <summary>Exit pressure lower: oblique shocks at the exit; draws hot gas in and wears the exit edge.</summary>
    Overexpanded,
    /// <summary>
    /// Exit pressure below about 0.4 of the surroundings: the flow leaves the wall inside the nozzle (criterion from memory).
    /// </summary>
    Separated,
    /// <summary>The throat is not choked: no supersonic jet, and the mass flow formula does not hold.</summary>
    Unchoked,
}

/// <summary>One convergent–divergent nozzle of a lance.</summary>
/// <param name="ThroatDiameterM">Throat, m.</param>
/// <param name="ExitDiameterM">Exit, m; not smaller than the throat.</param>
public sealed record LanceNozzle(double ThroatDiameterM, double ExitDiameterM)
{
    /// <summary>p₀/p below which a throat is not choked, 1.2^3.5.</summary>
    public const double CriticalPressureRatio = 1.892929158737854;

    /// <summary>Exit area over throat area.</summary>
    public double AreaRatio { get; } =
        Math.Pow(Check.InRange(ExitDiameterM, ThroatDiameterM, 1, "m", nameof(ExitDiameterM)) / Check.InRange(ThroatDiameterM, 1e-4, 1, "m", nameof(ThroatDiameterM)), 2);

    /// <summary>Exit Mach number of the full-flowing nozzle.</summary>
    public double ExitMach => IsentropicFlow.MachFromAreaRatio(AreaRatio);

    /// <summary>Supply pressure (Pa, absolute, at the nozzle) for which the nozzle is matched to its surroundings (Pa).</summary>
    public double DesignPressurePa(double ambientPa = 101_325) => ambientPa / IsentropicFlow.PressureRatio(ExitMach);

    /// <summary>State of the jet at the exit for a supply pressure.</summary>
    /// <param name="stagnationPa">Supply pressure at the nozzle, absolute, Pa.</param>
    /// <param name="stagnationK">Oxygen temperature, K.</param>
    /// <param name="ambientPa">Pressure of the vessel, Pa.</param>
    /// <param name="dischargeCoefficient">0.96–0.99 for a real nozzle (from memory).</param>
    public NozzleState At(double stagnationPa, double stagnationK = 298.15, double ambientPa = 101_325, double dischargeCoefficient = 0.97)
    {
        Check.InRange(ambientPa, 1e3, 1e6, "Pa", nameof(ambientPa));
        Check.InRange(stagnationPa, ambientPa, 1e7, "Pa", nameof(stagnationPa));
        double mach = ExitMach;
        double velocity = IsentropicFlow.Velocity(mach, stagnationK);
        double exitPa = stagnationPa * IsentropicFlow.PressureRatio(mach);
        double flow = IsentropicFlow.ChokedMassFlow(stagnationPa, stagnationK, ThroatDiameterM, dischargeCoefficient);
        double ratio = exitPa / ambientPa;
        NozzleExpansion expansion = stagnationPa < CriticalPressureRatio * ambientPa ? NozzleExpansion.Unchoked
            : ratio < 0.4 ? NozzleExpansion.Separated
            : ratio < 0.9 ? NozzleExpansion.Overexpanded
            : ratio > 1.1 ? NozzleExpansion.Underexpanded
            : NozzleExpansion.Matched;

        // What the jet carries once it has come to the pressure of the vessel: momentum flux plus the pressure force on the exit.
        double exitArea = Math.PI / 4 * ExitDiameterM * ExitDiameterM;
        double momentum = (flow * velocity) + ((exitPa - ambientPa) * exitArea);
        return new NozzleState(flow, mach, exitPa, velocity, momentum, ratio, expansion);
    }

    /// <summary>State of the jet for an oxygen flow through this one nozzle.</summary>
    /// <param name="flowNm3PerS">Flow per nozzle, Nm³/s.</param>
    /// <param name="stagnationK">Oxygen temperature, K.</param>
    /// <param name="ambientPa">Pressure of the vessel, Pa.</param>
    /// <param name="dischargeCoefficient">0.96–0.99 for a real nozzle.</param>
    /// <exception cref="ArgumentOutOfRangeException">The flow needs less than ambient pressure, or more than 100 bar.</exception>
    public NozzleState AtFlow(double flowNm3PerS, double stagnationK = 298.15, double ambientPa = 101_325, double dischargeCoefficient = 0.97) =>
        At(
            IsentropicFlow.StagnationPressure(flowNm3PerS / IsentropicFlow.OxygenNm3PerKg, stagnationK, ThroatDiameterM, dischargeCoefficient),
            stagnationK,
            ambientPa,
            dischargeCoefficient);
}

/// <summary>A jet where it leaves its nozzle.</summary>
/// <param name="MassFlowKgPerS">Oxygen, kg/s.</param>
/// <param name="ExitMach">Mach number at the exit.</param>
/// <param name="ExitPressurePa">Static pressure at the exit, Pa.</param>
/// <param name="ExitVelocityMPerS">Velocity at the exit, m/s.</param>
/// <param name="MomentumN">Momentum flow with the pressure force of the exit, N.</param>
/// <param name="PressureToAmbient">Exit pressure over the pressure of the vessel.</param>
/// <param name="Expansion">The warning that goes with it.</param>
public sealed record NozzleState(
    double MassFlowKgPerS, double ExitMach, double ExitPressurePa, double ExitVelocityMPerS, double MomentumN, double PressureToAmbient, NozzleExpansion Expansion);
