// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry.Slag;

/// <summary>Solids that a limey slag throws out.</summary>
public enum LimeSolid
{
    /// <summary>Dicalcium silicate, 2CaO·SiO2.</summary>
    DicalciumSilicate,
    /// <summary>Lime, CaO.</summary>
    Lime,
}

/// <summary>
/// Saturation of a slag with lime and with dicalcium silicate, from Ban-ya activities scaled to remembered boundaries.
/// <para>Ban-ya's CaO activity is right in slope but not in level where lime is solid: along the liquidus of CaO–SiO2–FetO at
/// 1 600 °C (points from memory of the published diagrams, see <see cref="Boundary"/>) a(CaO) comes out as 0.06–0.07 where it
/// should be 1, and a(CaO)²·a(SiO2)·K as 0.23–0.49 where it should be 1. Being nearly constant, these are taken as the level:
/// index = value/level. Magnesium and manganese count as Fe²⁺ here, because Ca–Mg and Ca–Mn as published pull a(CaO)
/// down in a way that converter slags do not show. For the silicate, phosphorus counts as silicon: the solid takes phosphate up as
/// 2CaO·SiO2–3CaO·P2O5 solid solution, so that phosphate does not keep it in solution.</para>
/// </summary>
public static class LimeSaturation
{
    /// <summary>a(CaO)²·a(SiO2)·K on the remembered dicalcium-silicate boundary at 1 600 °C: geometric mean of its points.</summary>
    public const double DicalciumSilicateLevel = 0.30;

    /// <summary>a(CaO) on the remembered lime boundary at 1 600 °C: geometric mean of its points.</summary>
    public const double LimeLevel = 0.066;

    /// <summary>
    /// Heat of dissolving solid lime, J/mol: the 59 kJ between the two CaO rows of <see cref="BanYaTable"/> less about 17 kJ of mixing
    /// in converter slags. Ban-ya's CaO(s) row alone gives none, so that saturation would not move with temperature.
    /// </summary>
    public const double LimeSolutionHeat = 42_000;

    /// <summary>
    /// Points of the liquidus of CaO–SiO2–FetO under iron at 1 600 °C (mass %), from memory of the published diagrams, ±3 %.
    /// The level constants rest on these alone.
    /// </summary>
    public static IReadOnlyList<(LimeSolid Solid, double CaO, double SiO2, double FeO)> Boundary { get; } =
    [
        (LimeSolid.DicalciumSilicate, 55.5, 44.5, 0),
        (LimeSolid.DicalciumSilicate, 54, 26, 20),
        (LimeSolid.DicalciumSilicate, 46, 25, 29),
        (LimeSolid.DicalciumSilicate, 42, 30, 28),
        (LimeSolid.DicalciumSilicate, 58, 16, 26),
        (LimeSolid.Lime, 56, 11, 33),
        (LimeSolid.Lime, 45, 0, 55),
    ];

    /// <summary>ΔG of 2CaO(s) + SiO2(s) = 2CaO·SiO2(s), J/mol: −118 800 − 11.3·T. Textbook value, from memory; 298–2 400 K.</summary>
    public static double DicalciumSilicateEnergy(double temperatureK) => -118_800 - (11.3 * temperatureK);

    /// <summary>Saturation index: below 1 the solid dissolves, above 1 the slag throws it out. Uncertain by a factor of two.</summary>
    public static double Index(LimeSolid solid, SlagComposition slag, double temperatureK)
    {
        ArgumentNullException.ThrowIfNull(slag);
        Span<double> x = stackalloc double[BanYa.CationCount];
        slag.CationFractions.CopyTo(x);
        return Index(solid, x, temperatureK);
    }

    /// <summary>The index from cation fractions, which are overwritten.</summary>
    internal static double Index(LimeSolid solid, Span<double> cationFraction, double temperatureK)
    {
        cationFraction[(int)SlagCation.Fe2] += cationFraction[(int)SlagCation.Mg] + cationFraction[(int)SlagCation.Mn];
        cationFraction[(int)SlagCation.Mg] = 0;
        cationFraction[(int)SlagCation.Mn] = 0;
        if (solid == LimeSolid.DicalciumSilicate)
        {
            cationFraction[(int)SlagCation.Si] += cationFraction[(int)SlagCation.P];
            cationFraction[(int)SlagCation.P] = 0;
        }

        Span<double> lnGamma = stackalloc double[BanYa.CationCount];
        BanYa.LnGamma(cationFraction, temperatureK, lnGamma);
        double lime = BanYa.Convert(BanYaTable.CaOSolid, cationFraction[(int)SlagCation.Ca] * Math.Exp(lnGamma[(int)SlagCation.Ca]), temperatureK);
        if (solid == LimeSolid.Lime)
        {
            return lime / LimeLevel * Math.Exp(LimeSolutionHeat / BanYa.GasConstant * ((1 / temperatureK) - (1 / 1873.15)));
        }

        double silica = BanYa.Convert(BanYaTable.SiO2Cristobalite, cationFraction[(int)SlagCation.Si] * Math.Exp(lnGamma[(int)SlagCation.Si]), temperatureK);
        return lime * lime * silica * Math.Exp(-DicalciumSilicateEnergy(temperatureK) / (BanYa.GasConstant * temperatureK)) / DicalciumSilicateLevel;
    }

    /// <summary>
    /// CaO (mass %) at which the index reaches one as lime is added to the slag, the rest in proportion; null when it never does.
    /// </summary>
    public static double? CaOMassPercent(LimeSolid solid, SlagComposition slag, double temperatureK)
    {
        ArgumentNullException.ThrowIfNull(slag);
        double low = 0;
        for (double high = 2; high <= 90; high += 2)
        {
            if (Index(solid, slag.With(Constituent.CaO, high), temperatureK) >= 1)
            {
                for (int i = 0; i < 50; i++)
                {
                    double middle = 0.5 * (low + high);
                    (low, high) = Index(solid, slag.With(Constituent.CaO, middle), temperatureK) >= 1 ? (low, middle) : (middle, high);
                }

                return 0.5 * (low + high);
            }

            low = high;
        }

        return null;
    }
}
