// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;

namespace Heatwright.Converter.Blow.Jet;

/// <summary>
/// Isentropic flow of a perfect gas with γ = 1.4 (oxygen). Exact relations; NACA Report 1135 (1953) tabulates them.
/// Subscript 0 is the stagnation state, * the throat.
/// </summary>
public static class IsentropicFlow
{
    /// <summary>Ratio of specific heats.</summary>
    public const double Gamma = 1.4;

    /// <summary>Molar mass of O2, kg/mol (IUPAC).</summary>
    public const double OxygenMolarMassKg = 31.998e-3;

    /// <summary>Specific gas constant of O2, J/(kg·K).</summary>
    public const double OxygenGasConstant = PhysicalConstants.GasConstant / OxygenMolarMassKg;

    /// <summary>Volume of a mole of ideal gas at 0 °C and 101.325 kPa, m³/mol.</summary>
    public const double NormalMolarVolumeM3 = PhysicalConstants.NormalMolarVolume;

    /// <summary>Highest Mach number taken; oxygen lances stay below 2.5.</summary>
    public const double MostMach = 10;

    /// <summary>p/p₀ = (1 + 0.2 M²)^−3.5.</summary>
    public static double PressureRatio(double mach) => Math.Pow(1 + (0.2 * RequireMach(mach) * mach), -3.5);

    /// <summary>T/T₀ = 1/(1 + 0.2 M²).</summary>
    public static double TemperatureRatio(double mach) => 1 / (1 + (0.2 * RequireMach(mach) * mach));

    /// <summary>A/A* = [(1 + 0.2 M²)/1.2]³/M.</summary>
    public static double AreaRatio(double mach)
    {
        double t = (1 + (0.2 * Check.InRange(mach, 1e-6, MostMach, "-", nameof(mach)) * mach)) / 1.2;
        return t * t * t / mach;
    }

    /// <summary>Mach number that expands from p₀ to p: M = {5[(p₀/p)^(2/7) − 1]}^½.</summary>
    /// <param name="pressureRatio">p₀/p, at least 1.</param>
    public static double MachFromPressureRatio(double pressureRatio) =>
        Math.Sqrt(5 * (Math.Pow(Check.InRange(pressureRatio, 1, 4e4, "-", nameof(pressureRatio)), 2.0 / 7) - 1));

    /// <summary>Supersonic Mach number of an area ratio, found by Newton's method from above.</summary>
    /// <param name="areaRatio">A/A*, 1 to the ratio of <see cref="MostMach"/>.</param>
    public static double MachFromAreaRatio(double areaRatio)
    {
        Check.InRange(areaRatio, 1, 535, "-", nameof(areaRatio));
        double mach = 1 + Math.Sqrt(areaRatio - 1) + (0.5 * (areaRatio - 1) / areaRatio);
        for (int i = 0; i < 60; i++)
        {
            double t = (1 + (0.2 * mach * mach)) / 1.2;
            double error = (t * t * t / mach) - areaRatio;
            // d(A/A*)/dM = (A/A*)(M² − 1)/{M(1 + 0.2M²)}; zero at the throat, where the step is bounded instead.
            double slope = t * t * t / mach * ((mach * mach) - 1) / (mach * (1 + (0.2 * mach * mach)));
            double step = slope > 1e-12 ? error / slope : 0;
            double next = Math.Max(mach - step, 0.5 * (mach + 1));
            if (Math.Abs(next - mach) < 1e-14 * mach)
            {
                return next;
            }

            mach = next;
        }

        return mach;
    }

    /// <summary>Choked oxygen flow of a throat, kg/s: ṁ = C_d·A·p₀·(γ/(R T₀))^½·(2/(γ+1))³.</summary>
    /// <param name="stagnationPa">p₀, absolute, Pa; at least 1.893 times the pressure behind the throat.</param>
    /// <param name="stagnationK">T₀, K.</param>
    /// <param name="throatDiameterM">Throat, m.</param>
    /// <param name="dischargeCoefficient">C_d; 0.96–0.99 for a real nozzle (from memory).</param>
    public static double ChokedMassFlow(double stagnationPa, double stagnationK, double throatDiameterM, double dischargeCoefficient = 1) =>
        stagnationPa * ChokedFlowPerPascal(stagnationK, throatDiameterM, dischargeCoefficient);

    /// <summary>Stagnation pressure (Pa, absolute) that drives a mass flow (kg/s) through a choked throat.</summary>
    public static double StagnationPressure(double massFlowKgPerS, double stagnationK, double throatDiameterM, double dischargeCoefficient = 1) =>
        massFlowKgPerS / ChokedFlowPerPascal(stagnationK, throatDiameterM, dischargeCoefficient);

    /// <summary>Velocity (m/s) at a Mach number: M·(γ R T)^½.</summary>
    public static double Velocity(double mach, double stagnationK) =>
        mach * Math.Sqrt(Gamma * OxygenGasConstant * stagnationK * TemperatureRatio(mach));

    /// <summary>Oxygen in Nm³ (0 °C, 101.325 kPa) per kg.</summary>
    public const double OxygenNm3PerKg = NormalMolarVolumeM3 / OxygenMolarMassKg;

    private static double ChokedFlowPerPascal(double stagnationK, double throatDiameterM, double dischargeCoefficient)
    {
        Check.InRange(stagnationK, 200, 600, "K", nameof(stagnationK));
        Check.InRange(throatDiameterM, 1e-4, 1, "m", nameof(throatDiameterM));
        Check.InRange(dischargeCoefficient, 0.5, 1, "-", nameof(dischargeCoefficient));
        double area = Math.PI / 4 * throatDiameterM * throatDiameterM;
        const double critical = 1 / (1.2 * 1.2 * 1.2);
        return dischargeCoefficient * area * Math.Sqrt(Gamma / (OxygenGasConstant * stagnationK)) * critical;
    }

    private static double RequireMach(double mach) => Check.InRange(mach, 0, MostMach, "-", nameof(mach));
}
