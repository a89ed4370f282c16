// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry;

/// <summary>
/// Activity of carbon in liquid Fe–C from dilute to graphite saturation. Source: Gokcen, steel research 65 (1994) 125:
/// R T ln γ_C = 130330 − 32.19 T − (108330 − 15.47 T) x_Fe² − (344000 − 220.4 T) x_Fe² x_C + (512500 − 380.3 T) x_Fe² x_C²,
/// J/mol, graphite reference, mole fractions. Saturation by it: 4.23 / 4.76 / 5.45 % C at 1153 / 1350 / 1600 °C.
/// Accepted 1400–2300 K and up to 7 % C.
/// </summary>
public static class GokcenCarbon
{
    private const double MaximumPercent = 7;

    /// <summary>Raoultian activity coefficient γ_C (graphite = 1) in Fe–C.</summary>
    /// <exception cref="ChemistryRangeException">Carbon is outside 0–7 % or the temperature outside 1400–2300 K.</exception>
    public static double Coefficient(double carbonPercent, double temperatureK) =>
        Math.Exp(LogGamma(MoleFraction(carbonPercent), RequireK(temperatureK)));

    /// <summary>Activity of carbon relative to graphite in Fe–C.</summary>
    /// <exception cref="ChemistryRangeException">As for <see cref="Coefficient"/>.</exception>
    public static double ActivityOverGraphite(double carbonPercent, double temperatureK) =>
        MoleFraction(carbonPercent) * Coefficient(carbonPercent, temperatureK);

    /// <summary>log10 of the Henrian (1 mass-%) activity coefficient f_C in Fe–C; zero at infinite dilution.</summary>
    /// <exception cref="ChemistryRangeException">As for <see cref="Coefficient"/>.</exception>
    public static double LogHenrianCoefficient(double carbonPercent, double temperatureK)
    {
        double x = MoleFraction(carbonPercent);

        // Ratio of mole fraction to mass-%, against its limit at infinite dilution.
        double iron = (100 - carbonPercent) / AtomicWeights.Of(Element.Fe);
        double dilution = (100 / AtomicWeights.Of(Element.Fe)) / (iron + (carbonPercent / AtomicWeights.Of(Element.C)));
        return ((LogGamma(x, RequireK(temperatureK)) - LogGamma(0, temperatureK)) / Math.Log(10)) + Math.Log10(dilution);
    }

    /// <summary>Mass-% C of liquid Fe–C in equilibrium with graphite (activity 1), by root search.</summary>
    /// <exception cref="ChemistryRangeException">The temperature is outside 1400–2300 K.</exception>
    public static double SaturationPercent(double temperatureK)
    {
        RequireK(temperatureK);
        return RootSearch.Increasing(c => ActivityOverGraphite(c, temperatureK) - 1, 1, MaximumPercent);
    }

    private static double MoleFraction(double carbonPercent)
    {
        ChemistryRangeException.Require(carbonPercent, 0, MaximumPercent, "mass %", "carbon in liquid Fe-C");
        double carbon = carbonPercent / AtomicWeights.Of(Element.C);
        return carbon / (carbon + ((100 - carbonPercent) / AtomicWeights.Of(Element.Fe)));
    }

    private static double LogGamma(double x, double t)
    {
        double iron2 = (1 - x) * (1 - x);
        return (130_330 - (32.19 * t) - ((108_330 - (15.47 * t)) * iron2) - ((344_000 - (220.4 * t)) * iron2 * x)
            + ((512_500 - (380.3 * t)) * iron2 * x * x)) / (PhysicalConstants.GasConstant * t);
    }

    private static double RequireK(double temperatureK) => ChemistryRangeException.Require(
        temperatureK, IronActivity.MinimumK, IronActivity.MaximumK, "K", "temperature of carbon activity");
}
