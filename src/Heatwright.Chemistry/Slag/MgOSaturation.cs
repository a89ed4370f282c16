// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry.Slag;

/// <summary>MgO at saturation with what lies outside the range.</summary>
/// <param name="MassPercent">MgO at saturation, mass %.</param>
/// <param name="OutsideRange">Values outside; each was held at the end of its range.</param>
public sealed record MgOSaturationResult(double MassPercent, IReadOnlyList<RangeNote> OutsideRange);

/// <summary>
/// How much MgO a slag takes before it is saturated (with magnesia or magnesiowüstite). No closed formula could be confirmed;
/// two are offered, both resting on remembered magnitudes, and the first is the default because it behaves better: see
/// docs/handbook/20-slag.md.
/// </summary>
public static class MgOSaturation
{
    /// <summary>
    /// Ca–Mg interaction (J/mol) that brings Ban-ya's MgO activity to one at the remembered saturation of limey slags. The
    /// published −100 420 J/mol never reaches saturation in a converter slag. For MgO alone; the other activities keep the published value.
    /// </summary>
    public const double RefittedCalciumMagnesium = 30_000;

    /// <summary>
    /// MgO_sat = 9.0 · (B/3)^−0.95 · (FetO/20)^−0.15 · exp[−6 000(1/T − 1/1873.15)], B = CaO/SiO2 by mass, FetO in mass %,
    /// T in K. A fit to magnitudes from memory: 8–10 % at B 3 and FeO 20 %, 15–20 % at B 1.5 (1 600 °C); falling with FetO and
    /// with B is the finding of Jung, Min and Rhee, ISIJ Int. 47 (2007) 1718 (abstract). Range B 1–4, FetO 8–35 %, 1 773–1 973 K;
    /// outside, the value at the end of the range is given and noted. Expect ±2 % MgO.
    /// </summary>
    public static MgOSaturationResult Fitted(SlagComposition slag, double temperatureK)
    {
        ArgumentNullException.ThrowIfNull(slag);
        ChemistryRangeException.Require(temperatureK, BanYa.LeastK, BanYa.MostK, "K", "temperature of the slag");
        double basicity = slag.Basicity;
        double fetO = slag.TotalIronAsFeO;
        IReadOnlyList<RangeNote> notes = RangeNote.Collect(
            RangeNote.Of("CaO/SiO2", basicity, 1, 4, "-"), RangeNote.Of("FetO", fetO, 8, 35, "mass %"), RangeNote.Of("temperature", temperatureK, 1773, 1973.15, "K"));
        return new MgOSaturationResult(
            FittedMassPercent(double.IsNaN(basicity) ? 4 : Math.Clamp(basicity, 1, 4), Math.Clamp(fetO, 8, 35), Math.Clamp(temperatureK, 1773, 1973.15)), notes);
    }

    /// <summary>The bare formula of <see cref="Fitted"/>; no range is checked.</summary>
    public static double FittedMassPercent(double basicity, double fetO, double temperatureK) =>
        9.0 * Math.Pow(basicity / 3, -0.95) * Math.Pow(fetO / 20, -0.15) * Math.Exp(-6000 * ((1 / temperatureK) - (1 / 1873.15)));

    /// <summary>
    /// Activity of MgO against the solid by Ban-ya's form with <see cref="RefittedCalciumMagnesium"/> in the place of the published
    /// Ca–Mg energy.
    /// </summary>
    public static double RefittedActivity(SlagComposition slag, double temperatureK)
    {
        ArgumentNullException.ThrowIfNull(slag);
        double x = slag.CationFraction(SlagCation.Mg);
        double ca = slag.CationFraction(SlagCation.Ca);
        double change = (RefittedCalciumMagnesium - BanYa.Interaction(SlagCation.Ca, SlagCation.Mg)) * ca * (1 - x);
        return new SlagActivities(slag, temperatureK).MgO * Math.Exp(change / (BanYa.GasConstant * temperatureK));
    }

    /// <summary>
    /// MgO (mass %) at which <see cref="RefittedActivity"/> reaches one with the other constituents in proportion, or null when it
    /// does not below 60 %. Useful above about CaO/SiO2 2 near 1 600 °C; below that the root runs off (see the handbook).
    /// </summary>
    public static double? Refitted(SlagComposition slag, double temperatureK) => Root(slag, temperatureK, RefittedActivity);

    /// <summary>The same with the published Ca–Mg energy; for comparison. Null in ordinary converter slags.</summary>
    public static double? AsPublished(SlagComposition slag, double temperatureK) => Root(slag, temperatureK, (s, t) => new SlagActivities(s, t).MgO);

    private static double? Root(SlagComposition slag, double temperatureK, Func<SlagComposition, double, double> activity)
    {
        ArgumentNullException.ThrowIfNull(slag);
        const double most = 60;
        // The activity can pass a maximum, so the first crossing is looked for from below.
        double low = 0.01;
        for (double high = 1; high <= most; high += 1)
        {
            if (activity(slag.With(Constituent.MgO, high), temperatureK) >= 1)
            {
                for (int i = 0; i < 60; i++)
                {
                    double middle = 0.5 * (low + high);
                    if (activity(slag.With(Constituent.MgO, middle), temperatureK) >= 1)
                    {
                        high = middle;
                    }
                    else
                    {
                        low = middle;
                    }
                }

                return 0.5 * (low + high);
            }

            low = high;
        }

        return null;
    }
}
