// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry;

/// <summary>Dissolved oxygen found by root search.</summary>
/// <param name="MassPercent">Mass-% of dissolved oxygen.</param>
/// <param name="BelowIronOxideSaturation">
/// False when the value exceeds what iron holds against liquid iron oxide: liquid FeO forms first and the value cannot be reached.
/// </param>
/// <param name="InRange">False when a constant was carried beyond its measured temperatures or composition.</param>
public readonly record struct OxygenResult(double MassPercent, bool BelowIronOxideSaturation, bool InRange);

/// <summary>
/// Dissolved oxygen in liquid iron in equilibrium with carbon and CO, with pure or slag-held oxides, and with liquid iron oxide.
/// Constants: Data/equilibria.csv. All other elements act through the activity coefficients of <see cref="IronActivity"/>.
/// </summary>
public static class DissolvedOxygen
{
    private const double LeastPercent = 1e-9;
    private const double MostPercent = 0.9;
    private const double MostCarbonOfLinearInteraction = 1;

    /// <summary>
    /// [O] in equilibrium with the melt's carbon at a CO pressure: K = p_CO/(h_C h_O). Good up to about 1 % C: beyond it the linear e_O^C
    /// makes oxygen too high, ten times at 2 % C, and the result is flagged out of range; <see cref="WithHighCarbon"/> is for hot metal.
    /// </summary>
    /// <param name="melt">Composition; its own oxygen is ignored.</param>
    /// <param name="temperatureK">Temperature, K.</param>
    /// <param name="carbonMonoxideAtm">CO pressure, atm.</param>
    /// <param name="constantId">Row of the constant.</param>
    /// <param name="options">Activity model.</param>
    /// <exception cref="ChemistryRangeException">Carbon or the pressure is not positive, or the temperature outside 1400–2300
    /// K.</exception>
    public static OxygenResult WithCarbon(
        IronMelt melt, double temperatureK, double carbonMonoxideAtm = 1, string constantId = "CO.BanyaMatoba", ActivityOptions options = default)
    {
        ArgumentNullException.ThrowIfNull(melt);
        ChemistryRangeException.Require(melt[Element.C], 1e-6, 7, "mass %", "carbon in equilibrium with oxygen");
        ChemistryRangeException.Require(carbonMonoxideAtm, 1e-9, 1000, "atm", "CO pressure");
        ConstantValue k = EquilibriumConstants.Get(constantId).Evaluate(temperatureK);
        bool inRange = k.InRange && melt[Element.C] <= MostCarbonOfLinearInteraction;
        return Solve(melt, temperatureK, Element.C, 1, 1, Math.Log10(carbonMonoxideAtm) - k.Log10K, inRange, options);
    }

    /// <summary>
    /// [O] against carbon of 1–4.5 %: log10(p_CO/[%C][%O]) = log10 K(T) + 0.28 [%C], K of Ban-ya &amp; Matoba. The slope is a fit made
    /// here to three
    /// figures stated in the abstract of the Tohoku University high-pressure CO study at 1500 °C (500 at low carbon, 1700 at 2 %, 3000 at
    /// 3 % C), which it meets within 10 %. In range: 1.5–3 % C at 1450–1550 °C; elsewhere a guide.
    /// </summary>
    /// <exception cref="ChemistryRangeException">Carbon is outside 1–4.5 %, the pressure not positive or the temperature outside
    /// 1400–2300 K.</exception>
    public static OxygenResult WithHighCarbon(double carbonPercent, double temperatureK, double carbonMonoxideAtm = 1)
    {
        ChemistryRangeException.Require(carbonPercent, 1, 4.5, "mass %", "carbon of hot metal in equilibrium with oxygen");
        ChemistryRangeException.Require(carbonMonoxideAtm, 1e-9, 1000, "atm", "CO pressure");
        double logK = EquilibriumConstants.Get("CO.BanyaMatoba").Evaluate(temperatureK).Log10K + (0.28 * carbonPercent);
        bool inRange = carbonPercent is >= 1.5 and <= 3 && temperatureK is >= 1723.15 and <= 1823.15;
        double oxygen = carbonMonoxideAtm / (Math.Pow(10, logK) * carbonPercent);
        return new OxygenResult(oxygen, oxygen <= Math.Pow(10, EquilibriumConstants.Get("FeO.Oxysulphide").Evaluate(temperatureK).Log10K), inRange);
    }

    /// <summary>
    /// [O] in equilibrium with the melt's Si, Al, Cr, Ti … and its oxide at an activity: K = h_M^m h_O^n / a_oxide.
    /// </summary>
    /// <param name="constantId">Row such as <c>SiO2.Jsps</c> that names a metal.</param>
    /// <param name="melt">Composition; its own oxygen is ignored.</param>
    /// <param name="temperatureK">Temperature, K.</param>
    /// <param name="oxideActivity">Activity of the oxide over the pure solid.</param>
    /// <param name="options">Activity model; <c>Al2O3.Itoh</c> needs <see cref="ActivityOptions.AluminiumSecondOrder"/>.</param>
    /// <exception cref="ArgumentException">The row is not a metal–oxygen equilibrium.</exception>
    /// <exception cref="ChemistryRangeException">The metal or the activity is not positive, or the temperature outside 1400–2300
    /// K.</exception>
    public static OxygenResult WithOxide(
        string constantId, IronMelt melt, double temperatureK, double oxideActivity = 1, ActivityOptions options = default)
    {
        ArgumentNullException.ThrowIfNull(melt);
        ReactionConstant row = EquilibriumConstants.Get(constantId);
        if (row.Metal is not Element metal)
        {
            throw new ArgumentException($"'{constantId}' ({row.Reaction}) is not the dissolution of a pure oxide.", nameof(constantId));
        }

        ChemistryRangeException.Require(melt[metal], 1e-6, 100, "mass %", $"{metal} in equilibrium with oxygen");
        ChemistryRangeException.Require(oxideActivity, 1e-12, 1, "-", "activity of the oxide");
        ConstantValue k = row.Evaluate(temperatureK);
        return Solve(melt, temperatureK, metal, row.MetalAtoms, row.OxygenAtoms, k.Log10K + Math.Log10(oxideActivity), k.InRange, options);
    }

    /// <summary>[O] in mass-% of pure iron under liquid iron oxide.</summary>
    /// <exception cref="ChemistryRangeException">The temperature is outside the row's range.</exception>
    public static double AtIronOxideSaturation(double temperatureK, string constantId = "FeO.Oxysulphide") =>
        Math.Pow(10, EquilibriumConstants.Get(constantId).Log10K(temperatureK));

    /// <summary>
    /// Henrian oxygen activity h_O at a FeO activity (over pure liquid iron oxide): h_O = a_FeO × h_O at saturation. This is Fe + [O] = FeO
    /// with the measured saturation in place of a Gibbs energy: the JANAF FeO(l) would give half the measured oxygen.
    /// </summary>
    /// <exception cref="ChemistryRangeException">a_FeO is outside 0–1 or the temperature outside the row's range.</exception>
    public static double ActivityUnderIronOxide(double ironOxideActivity, double temperatureK, string constantId = "FeO.Oxysulphide")
    {
        ChemistryRangeException.Require(ironOxideActivity, 0, 1, "-", "activity of FeO");
        double saturation = AtIronOxideSaturation(temperatureK, constantId);
        return ironOxideActivity * saturation * Math.Pow(10, IronActivity.Coefficient(Element.O, Element.O, temperatureK) * saturation);
    }

    /// <summary>[O] mass-% in a melt at a Henrian oxygen activity (such as a probe reads), by root search over f_O.</summary>
    /// <exception cref="ChemistryRangeException">The activity is not in 0–0.5 % or the temperature outside 1400–2300 K.</exception>
    public static double FromActivity(double oxygenActivity, IronMelt melt, double temperatureK, ActivityOptions options = default)
    {
        ArgumentNullException.ThrowIfNull(melt);
        ChemistryRangeException.Require(oxygenActivity, 1e-9, 0.5, "mass %", "oxygen activity");
        return Solve(melt, temperatureK, Element.O, 0, 1, Math.Log10(oxygenActivity), inRange: true, options).MassPercent;
    }

    /// <summary>The product [%C][%O] at equilibrium with CO.</summary>
    /// <exception cref="ChemistryRangeException">As for <see cref="WithCarbon"/>.</exception>
    public static double CarbonOxygenProduct(IronMelt melt, double temperatureK, double carbonMonoxideAtm = 1, ActivityOptions options = default)
    {
        ArgumentNullException.ThrowIfNull(melt);
        return melt[Element.C] * WithCarbon(melt, temperatureK, carbonMonoxideAtm, options: options).MassPercent;
    }

    // Finds [O] with m log h_M + n log h_O = target. The left side rises with [O] as long as the interaction of oxygen does not outweigh
    // its own amount; where it does (aluminium above some 0.1 % O) the search stays on the rising branch.
    private static OxygenResult Solve(
        IronMelt melt, double t, Element metal, int metalAtoms, int oxygenAtoms, double target, bool inRange, ActivityOptions options)
    {
        double[] x = melt.MassPercent.ToArray();
        double Residual(double logOxygen)
        {
            double oxygen = Math.Pow(10, logOxygen);
            x[(int)Element.O] = oxygen;
            double sum = oxygenAtoms * (logOxygen + IronActivity.LogCoefficient(Element.O, x, t, options));
            if (metalAtoms > 0)
            {
                sum += metalAtoms * (Math.Log10(x[(int)metal]) + IronActivity.LogCoefficient(metal, x, t, options));
            }

            return sum - target;
        }

        double high = Math.Log10(LeastPercent);
        double last = Residual(high);
        const double Step = 0.25;
        while (last < 0 && high + Step <= Math.Log10(MostPercent))
        {
            double next = Residual(high + Step);
            if (next < last)
            {
                break;
            }

            high += Step;
            last = next;
        }

        double saturation = Math.Pow(10, EquilibriumConstants.Get("FeO.Oxysulphide").Evaluate(t).Log10K);
        if (last < 0)
        {
            // No solution on the rising branch: more oxygen than iron can hold.
            return new OxygenResult(double.PositiveInfinity, BelowIronOxideSaturation: false, inRange);
        }

        double root = Math.Pow(10, RootSearch.Increasing(Residual, high - Step, high));
        return new OxygenResult(root, root <= saturation, inRange);
    }
}
