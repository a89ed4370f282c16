// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry.Slag;

/// <summary>
/// Ban-ya's quadratic formalism: RT ln γᵢ = Σⱼ αᵢⱼ Xⱼ − Σⱼ Σₖ&gt;ⱼ αⱼₖ Xⱼ Xₖ over cation fractions X, with αᵢᵢ = 0 and
/// hypothetical regular-solution standard states. S. Ban-ya, ISIJ Int. 33 (1993) 2–11; numbers in <see cref="BanYaTable"/>.
/// </summary>
public static class BanYa
{
    /// <summary>Number of cations.</summary>
    public const int CationCount = (int)SlagCation.Al + 1;

    /// <summary>Molar gas constant, J/(mol·K).</summary>
    public const double GasConstant = PhysicalConstants.GasConstant;

    /// <summary>Least temperature taken, K. Below about 1500 K converter slag is not liquid.</summary>
    public const double LeastK = 1473;

    /// <summary>Highest temperature taken, K.</summary>
    public const double MostK = 2200;

    private static readonly double[] Alpha = CreateAlpha();

    /// <summary>α in J/mol, row by row over <see cref="SlagCation"/>: element i·9 + j. Symmetric, zero on the diagonal.</summary>
    public static ReadOnlySpan<double> InteractionRowMajor => Alpha;

    /// <summary>α of two cations, J/mol.</summary>
    public static double Interaction(SlagCation i, SlagCation j) => Alpha[((int)i * CationCount) + (int)j];

    /// <summary>
    /// RT ln γ of every cation's oxide against its regular-solution standard state, J/mol. Independent of temperature by the model.
    /// </summary>
    /// <param name="cationFraction">Cation fractions, summing to 1, in the order of <see cref="SlagCation"/>.</param>
    /// <param name="result">Receives RT ln γ, J/mol.</param>
    public static void ExcessEnergies(ReadOnlySpan<double> cationFraction, Span<double> result)
    {
        double twice = 0;
        for (int i = 0; i < CationCount; i++)
        {
            double sum = 0;
            for (int j = 0; j < CationCount; j++)
            {
                sum += Alpha[(i * CationCount) + j] * cationFraction[j];
            }

            result[i] = sum;
            twice += sum * cationFraction[i];
        }

        // Every pair stands twice in Σᵢ Xᵢ Σⱼ αᵢⱼ Xⱼ.
        for (int i = 0; i < CationCount; i++)
        {
            result[i] -= 0.5 * twice;
        }
    }

    /// <summary>ln γ against the regular-solution standard state.</summary>
    /// <param name="cationFraction">Cation fractions, summing to 1.</param>
    /// <param name="temperatureK">Temperature, K.</param>
    /// <param name="result">Receives ln γ.</param>
    /// <exception cref="ChemistryRangeException">Temperature outside <see cref="LeastK"/> to <see cref="MostK"/>.</exception>
    public static void LnGamma(ReadOnlySpan<double> cationFraction, double temperatureK, Span<double> result)
    {
        RequireTemperature(temperatureK);
        ExcessEnergies(cationFraction, result);
        for (int i = 0; i < CationCount; i++)
        {
            result[i] /= GasConstant * temperatureK;
        }
    }

    /// <summary>Activity against a real standard state from the regular-solution one: a = (γX)^ν · exp(ΔG/RT).</summary>
    /// <param name="conversion">Which standard state.</param>
    /// <param name="regularSolutionActivity">γX of the cation's oxide.</param>
    /// <param name="temperatureK">Temperature, K.</param>
    public static double Convert(ConversionEnergy conversion, double regularSolutionActivity, double temperatureK)
    {
        ArgumentNullException.ThrowIfNull(conversion);
        RequireTemperature(temperatureK);
        double power = conversion.CationsPerFormula == 2 ? regularSolutionActivity * regularSolutionActivity : regularSolutionActivity;
        return power * Math.Exp(conversion.JoulePerMole(temperatureK) / (GasConstant * temperatureK));
    }

    /// <summary>
    /// Regular-solution activity of FeO1.5 over that of FeO at an oxygen pressure (atm):
    /// FeO(R.S.) + ¼ O2 = FeO1.5(R.S.), ΔG = −126 820 + 53.01·T J/mol (Ban-ya 1993, from memory).
    /// </summary>
    public static double FerricToFerrousActivity(double oxygenAtm, double temperatureK)
    {
        RequireTemperature(temperatureK);
        ChemistryRangeException.Require(oxygenAtm, 0, 10, "atm", "oxygen pressure");
        return Math.Exp(-(-126_820 + (53.01 * temperatureK)) / (GasConstant * temperatureK)) * Math.Pow(oxygenAtm, 0.25);
    }

    private static void RequireTemperature(double temperatureK) =>
        ChemistryRangeException.Require(temperatureK, LeastK, MostK, "K", "temperature of the slag");

    private static double[] CreateAlpha()
    {
        double[] alpha = new double[CationCount * CationCount];
        foreach (InteractionEnergy pair in BanYaTable.Interactions)
        {
            alpha[((int)pair.First * CationCount) + (int)pair.Second] = pair.JoulePerMole;
            alpha[((int)pair.Second * CationCount) + (int)pair.First] = pair.JoulePerMole;
        }

        return alpha;
    }
}
