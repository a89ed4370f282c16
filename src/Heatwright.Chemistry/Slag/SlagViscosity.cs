// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry.Slag;

/// <summary>
/// Viscosity of liquid slag, Pa·s. On one converter slag Riboud and Urbain differ by a factor of nine; Urbain is the default.
/// </summary>
public static class SlagViscosity
{
    /// <summary>Least and highest temperature evaluated, K.</summary>
    private const double LeastK = 1473, MostK = 2200;

    /// <summary>
    /// η = A·T·exp(B/T) in Pa·s, A = exp(−19.81 + 1.73 X_b + 5.82 X_CaF2 − 35.76 X_Al2O3), B = 31 140 − 23 896 X_b − 46 356 X_CaF2 +
    /// 68 833 X_Al2O3, X_b = CaO + MgO + FeO + MnO + Fe2O3, mole fractions. P. V. Riboud and others, Fachber. Hüttenprax.
    /// Metallweiterverarb.
    /// 19 (1981) 859, coefficients as in K. C. Mills (2011). The −19.81 is the constant for Pa·s: with it CaSiO3 at 1 600 °C is 0.31 Pa·s
    /// (about 0.2–0.3 accepted). Made for mould fluxes; far too thin for converter slags.
    /// </summary>
    public static double Riboud(SlagComposition slag, double temperatureK)
    {
        ArgumentNullException.ThrowIfNull(slag);
        ChemistryRangeException.Require(temperatureK, LeastK, MostK, "K", "temperature of the slag");
        double basic = slag.MoleFraction(Constituent.CaO) + slag.MoleFraction(Constituent.MgO) + slag.MoleFraction(Constituent.FeO)
            + slag.MoleFraction(Constituent.MnO) + slag.MoleFraction(Constituent.Fe2O3);
        double fluorspar = slag.MoleFraction(Constituent.CaF2);
        double alumina = slag.MoleFraction(Constituent.Al2O3);
        double lnA = -19.81 + (1.73 * basic) + (5.82 * fluorspar) - (35.76 * alumina);
        double b = 31_140 - (23_896 * basic) - (46_356 * fluorspar) + (68_833 * alumina);
        return Math.Exp(lnA + (b / temperatureK)) * temperatureK;
    }

    /// <summary>
    /// η = 0.1·A·T·exp(1000 B/T) in Pa·s with −ln A = 0.29 B + 11.57 and B = ΣBᵢ X_gⁱ. X_g glass formers (SiO2, P2O5), modifiers CaO,
    /// MgO, FeO,
    /// MnO, 3 CaF2, 2 TiO2, amphoterics Al2O3, Fe2O3, Cr2O3, V2O3; α = X_m/(X_m + X_a). G. Urbain, Steel Res. 58 (1987) 111,
    /// coefficients as in K. C. Mills
    /// (2011); weights of CaF2 and TiO2 and the place of P2O5, Cr2O3 and V2O3 from memory. Expect ±50 % on converter slags.
    /// </summary>
    public static double Urbain(SlagComposition slag, double temperatureK)
    {
        ArgumentNullException.ThrowIfNull(slag);
        ChemistryRangeException.Require(temperatureK, LeastK, MostK, "K", "temperature of the slag");
        double glass = slag.MoleFraction(Constituent.SiO2) + slag.MoleFraction(Constituent.P2O5);
        double modifier = slag.MoleFraction(Constituent.CaO) + slag.MoleFraction(Constituent.MgO) + slag.MoleFraction(Constituent.FeO)
            + slag.MoleFraction(Constituent.MnO) + (3 * slag.MoleFraction(Constituent.CaF2)) + (2 * slag.MoleFraction(Constituent.TiO2));
        double amphoteric = slag.MoleFraction(Constituent.Al2O3) + slag.MoleFraction(Constituent.Fe2O3)
            + slag.MoleFraction(Constituent.Cr2O3) + slag.MoleFraction(Constituent.V2O3);
        double sum = glass + modifier + amphoteric;
        return UrbainFromGroups(glass / sum, modifier / sum, amphoteric / sum, temperatureK);
    }

    /// <summary>
    /// The bare formula of <see cref="Urbain"/> from the shares of glass formers, modifiers and amphoterics (summing to 1), Pa·s.
    /// </summary>
    public static double UrbainFromGroups(double glass, double modifier, double amphoteric, double temperatureK)
    {
        double alpha = modifier + amphoteric > 0 ? modifier / (modifier + amphoteric) : 0;
        double alpha2 = alpha * alpha;
        double b = 13.8 + (39.9355 * alpha) - (44.049 * alpha2)
            + (glass * (30.481 - (117.1505 * alpha) + (129.9978 * alpha2)))
            + (glass * glass * (-40.9429 + (234.0486 * alpha) - (300.04 * alpha2)))
            + (glass * glass * glass * (60.7619 - (153.9276 * alpha) + (211.1616 * alpha2)));
        return 0.1 * temperatureK * Math.Exp(-(0.29 * b) - 11.57 + (1000 * b / temperatureK));
    }

    /// <summary>
    /// Viscosity with suspended solids: η = η₀(1 − 1.35 f)^−2.5, f the volume fraction of solids. R. Roscoe, Brit. J. Appl. Phys. 3
    /// (1952) 267, from memory.
    /// </summary>
    /// <exception cref="ChemistryRangeException">f outside 0–0.70: near 0.74 the formula has a pole and the slag is no liquid.</exception>
    public static double WithSolids(double liquidPaS, double solidVolumeFraction)
    {
        ChemistryRangeException.Require(liquidPaS, 0, double.MaxValue, "Pa·s", "viscosity of the liquid");
        ChemistryRangeException.Require(solidVolumeFraction, 0, 0.70, "m³/m³", "solid fraction");
        return liquidPaS * Math.Pow(1 - (1.35 * solidVolumeFraction), -2.5);
    }
}
