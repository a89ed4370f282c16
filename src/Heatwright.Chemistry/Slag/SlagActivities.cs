// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry.Slag;

/// <summary>Oxide activities of a slag by Ban-ya's quadratic formalism at one temperature.</summary>
public sealed class SlagActivities
{
    private readonly double[] _lnGamma = new double[BanYa.CationCount];
    private readonly SlagComposition _slag;

    /// <param name="slag">The slag.</param>
    /// <param name="temperatureK">Temperature, K; <see cref="BanYa.LeastK"/> to <see cref="BanYa.MostK"/>.</param>
    /// <exception cref="ChemistryRangeException">Temperature out of range.</exception>
    public SlagActivities(SlagComposition slag, double temperatureK)
    {
        ArgumentNullException.ThrowIfNull(slag);
        _slag = slag;
        TemperatureK = temperatureK;
        BanYa.LnGamma(slag.CationFractions, temperatureK, _lnGamma);
    }

    /// <summary>Temperature, K.</summary>
    public double TemperatureK { get; }

    /// <summary>
    /// True when the temperature lies in 1573–1973 K, about where the formalism was fitted (span from memory), and at least 97 % of the
    /// cations are known to it.
    /// </summary>
    public bool InFittedRange => TemperatureK is >= 1573 and <= 1973 && _slag.CationCoverage >= 0.97;

    /// <summary>γ against the regular-solution standard state.</summary>
    public double RegularSolutionGamma(SlagCation cation) => Math.Exp(_lnGamma[(int)cation]);

    /// <summary>γX against the regular-solution standard state.</summary>
    public double RegularSolutionActivity(SlagCation cation) => _slag.CationFraction(cation) * RegularSolutionGamma(cation);

    /// <summary>Activity against a real standard state of <see cref="BanYaTable"/>.</summary>
    public double Against(ConversionEnergy conversion)
    {
        ArgumentNullException.ThrowIfNull(conversion);
        return BanYa.Convert(conversion, RegularSolutionActivity(conversion.Cation), TemperatureK);
    }

    /// <summary>FeO against liquid iron oxide saturated with iron.</summary>
    public double FeO => Against(BanYaTable.FeOLiquid);

    /// <summary>SiO2 against β-cristobalite.</summary>
    public double SiO2 => Against(BanYaTable.SiO2Cristobalite);

    /// <summary>MnO against liquid MnO. Too low in limey slags: see <see cref="BanYaTable"/>.</summary>
    public double MnO => Against(BanYaTable.MnOLiquid);

    /// <summary>P2O5 against liquid P2O5.</summary>
    public double P2O5 => Against(BanYaTable.P2O5Liquid);

    /// <summary>PO2.5 against its regular-solution standard state.</summary>
    public double PO25 => RegularSolutionActivity(SlagCation.P);

    /// <summary>CaO against solid lime.</summary>
    public double CaO => Against(BanYaTable.CaOSolid);

    /// <summary>MgO against solid magnesia. Too low in limey slags: see <see cref="BanYaTable"/>.</summary>
    public double MgO => Against(BanYaTable.MgOSolid);
}
