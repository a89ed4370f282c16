// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry;

/// <summary>Choice of the activity model in liquid iron.</summary>
/// <param name="Set">First-order coefficients.</param>
/// <param name="CarbonSelf">Effect of carbon on its own activity.</param>
/// <param name="AluminiumSecondOrder">
/// Adds the second-order Al–O terms of Zhang et al. 2015, which belong to the aluminium constant <c>Al2O3.Itoh</c> only.
/// </param>
public readonly record struct ActivityOptions(
    InteractionSet Set = InteractionSet.Jsps,
    CarbonSelfInteraction CarbonSelf = CarbonSelfInteraction.Gokcen,
    bool AluminiumSecondOrder = false);

/// <summary>
/// Henrian activities in liquid iron, 1 mass-% state: h_i = f_i [%i], log10 f_i = Σ e_i^j [%j] + Σ r_i^(j,k) [%j][%k].
/// Sources: Data/interactions.csv and interactions2.csv, one per row. The coefficients are measured near 1873 K and accepted here
/// between 1400 and 2300 K: outside their measured temperature they are scaled by 1/T or by the printed form.
/// </summary>
public static class IronActivity
{
    /// <summary>Least temperature accepted, K.</summary>
    public const double MinimumK = 1400;

    /// <summary>Greatest temperature accepted, K.</summary>
    public const double MaximumK = 2300;

    /// <summary>First-order coefficient e_i^j, per mass-%, 0 where the table lists none.</summary>
    /// <exception cref="ChemistryRangeException">The temperature is outside 1400–2300 K.</exception>
    public static double Coefficient(Element solute, Element by, double temperatureK, InteractionSet set = InteractionSet.Jsps) =>
        InteractionTable.Of(set).Coefficient((int)solute, (int)by, RequireK(temperatureK));

    /// <summary>True when the table lists e_i^j.</summary>
    public static bool IsListed(Element solute, Element by, InteractionSet set = InteractionSet.Jsps) =>
        InteractionTable.Of(set).IsListed(solute, by);

    /// <summary>log10 of the Henrian activity coefficient.</summary>
    /// <param name="solute">Dissolved element.</param>
    /// <param name="massPercent">Mass % by element in the order of <see cref="Element"/>.</param>
    /// <param name="temperatureK">Temperature, K.</param>
    /// <param name="options">Choice of the tables.</param>
    /// <exception cref="ChemistryRangeException">The temperature is outside 1400–2300 K.</exception>
    public static double LogCoefficient(Element solute, ReadOnlySpan<double> massPercent, double temperatureK, ActivityOptions options = default)
    {
        RequireK(temperatureK);
        InteractionTable table = InteractionTable.Of(options.Set);
        int i = (int)solute;
        double log = 0;
        for (int j = 0; j < massPercent.Length; j++)
        {
            if (massPercent[j] != 0)
            {
                log += table.Coefficient(i, j, temperatureK) * massPercent[j];
            }
        }

        if (solute == Element.C && options.CarbonSelf == CarbonSelfInteraction.Gokcen)
        {
            double carbon = massPercent[(int)Element.C];
            log += GokcenCarbon.LogHenrianCoefficient(carbon, temperatureK)
                - (table.Coefficient(i, (int)Element.C, temperatureK) * carbon);
        }

        log += Sum(table.SecondOrder, solute, massPercent, temperatureK);
        return options.AluminiumSecondOrder ? log + Sum(table.AluminiumOxygen, solute, massPercent, temperatureK) : log;
    }

    /// <summary>log10 of the Henrian activity coefficient in a melt.</summary>
    /// <exception cref="ChemistryRangeException">The temperature is outside 1400–2300 K.</exception>
    public static double LogCoefficient(Element solute, IronMelt melt, double temperatureK, ActivityOptions options = default)
    {
        ArgumentNullException.ThrowIfNull(melt);
        return LogCoefficient(solute, melt.MassPercent, temperatureK, options);
    }

    /// <summary>Henrian activity h_i = f_i [%i], mass-%.</summary>
    /// <exception cref="ChemistryRangeException">The temperature is outside 1400–2300 K.</exception>
    public static double Henrian(Element solute, IronMelt melt, double temperatureK, ActivityOptions options = default)
    {
        ArgumentNullException.ThrowIfNull(melt);
        return melt[solute] * Math.Pow(10, LogCoefficient(solute, melt.MassPercent, temperatureK, options));
    }

    private static double Sum(List<SecondOrderTerm> terms, Element solute, ReadOnlySpan<double> massPercent, double temperatureK)
    {
        double sum = 0;
        foreach (SecondOrderTerm term in terms)
        {
            if (term.Solute == solute)
            {
                sum += ((term.A / temperatureK) + term.B) * massPercent[(int)term.By] * massPercent[(int)term.And];
            }
        }

        return sum;
    }

    private static double RequireK(double temperatureK) =>
        ChemistryRangeException.Require(temperatureK, MinimumK, MaximumK, "K", "temperature of activities in liquid iron");
}
