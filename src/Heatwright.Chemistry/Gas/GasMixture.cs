// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry;

/// <summary>Gases that a vessel, a hood and a gas main hold.</summary>
public enum GasSpecies
{
    /// <summary>Carbon monoxide.</summary>
    CO,
    /// <summary>Carbon dioxide.</summary>
    CO2,
    /// <summary>Hydrogen.</summary>
    H2,
    /// <summary>Water vapour.</summary>
    H2O,
    /// <summary>Oxygen.</summary>
    O2,
    /// <summary>Nitrogen.</summary>
    N2,
    /// <summary>Argon.</summary>
    Ar,
    /// <summary>Methane.</summary>
    CH4,
    /// <summary>Sulphur dioxide.</summary>
    SO2,
    /// <summary>Hydroxyl, only in flames.</summary>
    OH,
}

/// <summary>
/// An ideal gas mixture in mole fractions (= volume fractions). Enthalpy is absolute and molar (elements at 298.15 K = 0), so the heat
/// of combustion is the difference between two mixtures. Data: NASA-9, Data/species.json. Valid 200–6000 K. Immutable.
/// </summary>
public sealed class GasMixture
{
    /// <summary>Number of species.</summary>
    public const int Count = (int)GasSpecies.OH + 1;

    private static readonly Lazy<Substance[]> Pure = new(() => [.. Enum.GetValues<GasSpecies>().Select(s =>
        Substances.Get(s == GasSpecies.H2O ? "H2O(g)" : s.ToString()))]);

    private readonly double[] _fractions;

    /// <param name="moles">Moles, volumes or volume % by species in any unit; they are scaled to 1.</param>
    /// <exception cref="ChemistryRangeException">A value is negative or not finite, or all are zero.</exception>
    public GasMixture(params IEnumerable<(GasSpecies Species, double Moles)> moles)
    {
        ArgumentNullException.ThrowIfNull(moles);
        _fractions = new double[Count];
        foreach ((GasSpecies species, double n) in moles)
        {
            _fractions[(int)species] += ChemistryRangeException.Require(n, 0, double.MaxValue, "mol", species.ToString());
        }

        double sum = ChemistryRangeException.Require(_fractions.Sum(), double.Epsilon, double.MaxValue, "mol", "sum of the gas");
        for (int i = 0; i < Count; i++)
        {
            _fractions[i] /= sum;
        }
    }

    /// <summary>Dry air: N2 78.084, O2 20.946, Ar 0.934, CO2 0.036 % by volume. Source: U.S. Standard Atmosphere 1976, from memory;
    /// rest rounded.</summary>
    public static GasMixture DryAir { get; } = new((GasSpecies.N2, 78.084), (GasSpecies.O2, 20.946), (GasSpecies.Ar, 0.934), (GasSpecies.CO2, 0.036));

    /// <summary>Mole fraction of the species.</summary>
    public double this[GasSpecies species] => _fractions[(int)species];

    /// <summary>Mean molar mass, g/mol.</summary>
    public double MolarMassGPerMol => Sum(s => s.MolarMassGPerMol);

    /// <summary>Density at 0 °C and 101.325 kPa, kg per normal cubic metre.</summary>
    public double NormalDensity => MolarMassGPerMol * 1e-3 / PhysicalConstants.NormalMolarVolume;

    /// <summary>Molar absolute enthalpy, J/mol.</summary>
    /// <exception cref="ChemistryRangeException">The temperature is outside 200–6000 K.</exception>
    public double Enthalpy(double temperatureK) => Sum(s => s.Enthalpy(temperatureK));

    /// <summary>Molar heat capacity, J/mol.K.</summary>
    /// <exception cref="ChemistryRangeException">The temperature is outside 200–6000 K.</exception>
    public double HeatCapacity(double temperatureK) => Sum(s => s.HeatCapacity(temperatureK));

    /// <summary>Sensible heat above 0 °C, J per normal cubic metre.</summary>
    /// <exception cref="ChemistryRangeException">The temperature is outside 200–6000 K.</exception>
    public double SensibleHeatPerNm3(double temperatureK) =>
        (Enthalpy(temperatureK) - Enthalpy(PhysicalConstants.ZeroCelsiusK)) / PhysicalConstants.NormalMolarVolume;

    /// <summary>Density, kg/m³, as an ideal gas.</summary>
    /// <exception cref="ChemistryRangeException">The temperature or pressure is not positive.</exception>
    public double Density(double temperatureK, double pressurePa)
    {
        ChemistryRangeException.Require(temperatureK, 1, 10_000, "K", "gas temperature");
        ChemistryRangeException.Require(pressurePa, 1e-3, 1e8, "Pa", "gas pressure");
        return MolarMassGPerMol * 1e-3 * pressurePa / (PhysicalConstants.GasConstant * temperatureK);
    }

    /// <summary>Temperature, K, at which the mixture has the given molar enthalpy, composition unchanged.</summary>
    /// <exception cref="ChemistryRangeException">The enthalpy is outside what 200–6000 K span.</exception>
    public double TemperatureAt(double enthalpyJPerMol)
    {
        const double Least = 200;
        const double Most = 6000;
        ChemistryRangeException.Require(enthalpyJPerMol, Enthalpy(Least), Enthalpy(Most), "J/mol", "gas enthalpy");
        return RootSearch.Increasing(t => Enthalpy(t) - enthalpyJPerMol, Least, Most);
    }

    /// <summary>
    /// The mixture of streams, each with its moles.
    /// </summary>
    /// <exception cref="ChemistryRangeException">Moles are negative or all zero.</exception>
    public static GasMixture Mix(params IEnumerable<(GasMixture Gas, double Moles)> streams)
    {
        ArgumentNullException.ThrowIfNull(streams);
        return new GasMixture(streams.SelectMany(s => Enum.GetValues<GasSpecies>().Select(g => (g, s.Gas[g] * s.Moles))));
    }

    /// <summary>The substance behind a species.</summary>
    public static Substance SubstanceOf(GasSpecies species) => Pure.Value[(int)species];

    private double Sum(Func<Substance, double> value)
    {
        double sum = 0;
        for (int i = 0; i < Count; i++)
        {
            if (_fractions[i] != 0)
            {
                sum += _fractions[i] * value(Pure.Value[i]);
            }
        }

        return sum;
    }
}
