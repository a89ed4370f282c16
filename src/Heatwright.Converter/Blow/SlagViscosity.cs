// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;

namespace Heatwright.Converter.Blow;

/// <summary>Urbain's viscosity for the slag of a point (Urbain, Steel Res. 58 (1987) 111; coefficients in Mills 2011).</summary>
internal static class SlagViscosity
{
    /// <summary>Viscosity in Pa·s of the liquid; mass % in, FeO standing for all iron oxide.</summary>
    public static double PaS(double caO, double siO2, double mgO, double feO, double mnO, double p2O5, double al2O3, double temperatureK)
    {
        double g = (siO2 / Constituents.MolarMass(Constituent.SiO2)) + (p2O5 / Constituents.MolarMass(Constituent.P2O5));
        double m = (caO / Constituents.MolarMass(Constituent.CaO)) + (mgO / Constituents.MolarMass(Constituent.MgO))
            + (feO / Constituents.MolarMass(Constituent.FeO)) + (mnO / Constituents.MolarMass(Constituent.MnO));
        double a = al2O3 / Constituents.MolarMass(Constituent.Al2O3);
        double sum = g + m + a;
        double x = g / sum;
        double alpha = m / (m + a);
        double a2 = alpha * alpha;
        double b0 = 13.8 + (39.9355 * alpha) - (44.049 * a2);
        double b1 = 30.481 - (117.1505 * alpha) + (129.9978 * a2);
        double b2 = -40.9429 + (234.0486 * alpha) - (300.04 * a2);
        double b3 = 60.7619 - (153.9276 * alpha) + (211.1616 * a2);
        double b = b0 + (x * (b1 + (x * (b2 + (x * b3)))));
        return 0.1 * Math.Exp(-(0.29 * b) - 11.57) * temperatureK * Math.Exp(1000 * b / temperatureK);
    }
}
