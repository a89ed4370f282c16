// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry.Slag;

/// <summary>Solids standing in a slag of given overall composition, as shares of its mass.</summary>
/// <param name="DicalciumSilicate">2CaO·SiO2, kg/kg.</param>
/// <param name="Lime">CaO, kg/kg.</param>
/// <param name="Magnesia">MgO above saturation, kg/kg (the iron of a magnesiowüstite is not counted).</param>
/// <param name="Liquid">The liquid left.</param>
public sealed record SlagSolidsResult(double DicalciumSilicate, double Lime, double Magnesia, SlagComposition Liquid)
{
    /// <summary>Solid share of the mass, kg/kg.</summary>
    public double MassFraction => DicalciumSilicate + Lime + Magnesia;

    /// <summary>
    /// Solid share of the volume, m³/m³, with 3 300 kg/m³ for all three solids against 3 200 kg/m³ of the liquid: near enough the mass
    /// share.
    /// </summary>
    public double VolumeFraction => MassFraction / 3300 / ((MassFraction / 3300) + ((1 - MassFraction) / 3200));
}

/// <summary>
/// How much of a slag is solid: what lies above saturation with 2CaO·SiO2, CaO (<see cref="LimeSaturation"/>) and MgO
/// (<see cref="MgOSaturation.Fitted"/>) is taken out until each index is one. An indication, as good as those levels: ±10 points.
/// </summary>
public static class SlagSolids
{
    /// <summary>Solids at a temperature (K).</summary>
    public static SlagSolidsResult Of(SlagComposition slag, double temperatureK)
    {
        ArgumentNullException.ThrowIfNull(slag);
        double[] mass = new double[SlagComposition.Count];
        for (int i = 0; i < mass.Length; i++)
        {
            mass[i] = slag[(Constituent)i];
        }

        double silicate = 0;
        double lime = 0;
        double magnesia = 0;
        // The three saturations move each other little; a few rounds settle them.
        for (int round = 0; round < 6; round++)
        {
            silicate += Take(mass, temperatureK, LimeSolid.DicalciumSilicate);
            lime += Take(mass, temperatureK, LimeSolid.Lime);
            SlagComposition now = Compose(mass);
            double excess = now[Constituent.MgO] - MgOSaturation.Fitted(now, temperatureK).MassPercent;
            if (excess > 0 && now[Constituent.SiO2] > 0)
            {
                double total = mass.Sum();
                double saturation = (now[Constituent.MgO] - excess) / 100;
                double taken = (mass[(int)Constituent.MgO] - (saturation * total)) / (1 - saturation);
                mass[(int)Constituent.MgO] -= taken;
                magnesia += taken;
            }
        }

        return new SlagSolidsResult(silicate / 100, lime / 100, magnesia / 100, Compose(mass));
    }

    /// <summary>
    /// Lowest temperature (K) at which the slag is wholly liquid by the same indices, to 1 K, within 1 573–2 150 K; null when solids
    /// remain at 2 150 K.
    /// </summary>
    public static double? LiquidusK(SlagComposition slag)
    {
        ArgumentNullException.ThrowIfNull(slag);
        double low = 1573;
        double high = 2150;
        if (!IsLiquid(slag, high))
        {
            return null;
        }

        if (IsLiquid(slag, low))
        {
            return low;
        }

        while (high - low > 0.5)
        {
            double middle = 0.5 * (low + high);
            (low, high) = IsLiquid(slag, middle) ? (low, middle) : (middle, high);
        }

        return high;
    }

    private static bool IsLiquid(SlagComposition slag, double temperatureK) =>
        LimeSaturation.Index(LimeSolid.DicalciumSilicate, slag, temperatureK) <= 1
        && LimeSaturation.Index(LimeSolid.Lime, slag, temperatureK) <= 1
        && slag[Constituent.MgO] <= MgOSaturation.Fitted(slag, temperatureK).MassPercent;

    private static SlagComposition Compose(double[] mass)
    {
        var parts = new Dictionary<Constituent, double>(mass.Length);
        for (int i = 0; i < mass.Length; i++)
        {
            parts[(Constituent)i] = mass[i];
        }

        return SlagComposition.FromMasses(parts);
    }

    // Takes the solid out of the masses until its index is one; returns the mass taken.
    private static double Take(double[] mass, double temperatureK, LimeSolid solid)
    {
        double caOPart = solid == LimeSolid.Lime
            ? 1
            : 2 * Constituents.MolarMass(Constituent.CaO) / ((2 * Constituents.MolarMass(Constituent.CaO)) + Constituents.MolarMass(Constituent.SiO2));
        double most = mass[(int)Constituent.CaO] / caOPart;
        if (solid == LimeSolid.DicalciumSilicate)
        {
            most = Math.Min(most, mass[(int)Constituent.SiO2] / (1 - caOPart));
        }

        double[] left = (double[])mass.Clone();
        double IndexAfter(double taken)
        {
            left[(int)Constituent.CaO] = mass[(int)Constituent.CaO] - (taken * caOPart);
            left[(int)Constituent.SiO2] = mass[(int)Constituent.SiO2] - (taken * (1 - caOPart));
            return LimeSaturation.Index(solid, Compose(left), temperatureK);
        }

        if (!(IndexAfter(0) > 1))
        {
            return 0;
        }

        double low = 0;
        double high = most * (1 - 1e-9);
        for (int i = 0; i < 50; i++)
        {
            double middle = 0.5 * (low + high);
            (low, high) = IndexAfter(middle) > 1 ? (middle, high) : (low, middle);
        }

        IndexAfter(high);
        left.CopyTo(mass, 0);
        return high;
    }
}
