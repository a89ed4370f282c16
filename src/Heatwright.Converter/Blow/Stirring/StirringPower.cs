// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;

namespace Heatwright.Converter.Blow.Stirring;

/// <summary>Power that bottom gas puts into a bath.</summary>
public static class StirringPower
{
    /// <summary>
    /// Specific power, W/t: n R T ln(1 + ρ g H/p)/M, the work of buoyancy of gas that is at bath temperature at once. Derived; the
    /// heating of cold gas may
    /// add up to (1 − T₀/T) of it, if it happens inside the bath (doubtful, left out).
    /// </summary>
    /// <param name="flowNm3PerS">Gas, Nm³/s.</param>
    /// <param name="temperatureK">Bath, K.</param>
    /// <param name="metalT">Metal, t.</param>
    /// <param name="depthM">Metal over the bottom elements, m.</param>
    /// <param name="surfacePa">Pressure over the bath, Pa.</param>
    /// <param name="metalDensityKgPerM3">Metal, kg/m³.</param>
    public static double WattPerTonne(
        double flowNm3PerS, double temperatureK, double metalT, double depthM, double surfacePa = 101_325, double metalDensityKgPerM3 = 7000)
    {
        Require(flowNm3PerS, temperatureK, metalT, depthM, surfacePa);
        Check.InRange(metalDensityKgPerM3, 500, 15_000, "kg/m³", nameof(metalDensityKgPerM3));
        double molPerS = flowNm3PerS / PhysicalConstants.NormalMolarVolume;
        return molPerS * PhysicalConstants.GasConstant * temperatureK * Math.Log(1 + (metalDensityKgPerM3 * Jet.Gravity.MPerS2 * depthM / surfacePa)) / metalT;
    }

    /// <summary>
    /// The textbook's form, W/t: 14.23 (Q T/M) log(1 + H/(1.48 p)) with Q in Nm³/min and p in atm. The Making, Shaping and Treating of
    /// Steel, 11th ed. (1998) ch. 11, from
    /// memory; the constant is 2.3026 R/(0.022414 · 60), and 1.48 m of steel of 6 980 kg/m³ weigh an atmosphere.
    /// </summary>
    public static double WattPerTonneTextbook(double flowNm3PerS, double temperatureK, double metalT, double depthM, double surfacePa = 101_325)
    {
        Require(flowNm3PerS, temperatureK, metalT, depthM, surfacePa);
        return 14.23 * (flowNm3PerS * 60 * temperatureK / metalT) * Math.Log10(1 + (depthM / (1.48 * surfacePa / 101_325)));
    }

    /// <summary>Gas flow (m³/s) at bath temperature and the pressure at half depth.</summary>
    public static double FlowAtHalfDepthM3PerS(
        double flowNm3PerS, double temperatureK, double depthM, double surfacePa = 101_325, double metalDensityKgPerM3 = 7000)
    {
        Require(flowNm3PerS, temperatureK, 1, depthM, surfacePa);
        return flowNm3PerS * temperatureK / 273.15 * 101_325 / (surfacePa + (metalDensityKgPerM3 * Jet.Gravity.MPerS2 * depthM / 2));
    }

    private static void Require(double flowNm3PerS, double temperatureK, double metalT, double depthM, double surfacePa)
    {
        Check.InRange(flowNm3PerS, 0, 10, "Nm³/s", nameof(flowNm3PerS));
        Check.InRange(temperatureK, 1400, 2300, "K", nameof(temperatureK));
        Check.InRange(metalT, 0.01, 1000, "t", nameof(metalT));
        Check.InRange(depthM, 0.01, 10, "m", nameof(depthM));
        Check.InRange(surfacePa, 10, 1e6, "Pa", nameof(surfacePa));
    }
}
