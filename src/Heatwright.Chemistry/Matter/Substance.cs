// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry;

/// <summary>A change of phase: the temperature, K, and the heat taken up on heating, J/mol.</summary>
/// <param name="AtK">Temperature of the change, K.</param>
/// <param name="HeatJPerMol">Enthalpy of the higher phase less that of the lower, J/mol, from the two sets.</param>
/// <param name="From">Phase below.</param>
/// <param name="To">Phase above.</param>
public readonly record struct Transition(double AtK, double HeatJPerMol, PhaseSet From, PhaseSet To);

/// <summary>
/// A pure substance as a sequence of phases, each stable from its transition to the next. All values are per mole of
/// <see cref="Formula"/> at 1 bar; enthalpy is absolute (stable elements at 298.15 K are zero). A temperature outside
/// the data throws; nothing is extrapolated.
/// </summary>
public sealed class Substance
{
    private readonly PhaseSet[] _phases;
    private readonly double[] _startsK;

    internal Substance(string id, string name, PhaseSet[] phases, double[] transitionsK, bool undercooled)
    {
        Id = id;
        Name = name;
        _phases = phases;
        MinimumK = undercooled ? phases[0].UndercooledToK : phases[0].MinimumK;
        MaximumK = phases[^1].MaximumK;
        _startsK = [MinimumK, .. transitionsK];
        Atoms = ChemicalFormula.Parse(phases[0].Formula);
        foreach ((Element element, double atoms) in Atoms)
        {
            MolarMassGPerMol += atoms * AtomicWeights.Of(element);
        }
    }

    /// <summary>Identifier, for example <c>Fe</c>, <c>CaO</c>, <c>H2O(g)</c> or <c>SiO2(l)</c>.</summary>
    public string Id { get; }

    /// <summary>Name in words.</summary>
    public string Name { get; }

    /// <summary>Chemical formula; a mole is a mole of it.</summary>
    public string Formula => _phases[0].Formula;

    /// <summary>Atoms per formula unit.</summary>
    public IReadOnlyList<(Element Element, double Atoms)> Atoms { get; }

    /// <summary>Molar mass, g/mol, by <see cref="AtomicWeights"/>.</summary>
    public double MolarMassGPerMol { get; }

    /// <summary>Phases in order of rising temperature.</summary>
    public IReadOnlyList<PhaseSet> Phases => _phases;

    /// <summary>Lowest temperature accepted, K.</summary>
    public double MinimumK { get; }

    /// <summary>Highest temperature accepted, K.</summary>
    public double MaximumK { get; }

    /// <summary>Changes of phase, with their heats as the two sets give them.</summary>
    public IEnumerable<Transition> Transitions =>
        Enumerable.Range(1, _phases.Length - 1).Select(i => new Transition(
            _startsK[i], _phases[i].Enthalpy(_startsK[i]) - _phases[i - 1].Enthalpy(_startsK[i]), _phases[i - 1], _phases[i]));

    /// <summary>The stable phase. At a transition temperature it is the higher phase.</summary>
    /// <exception cref="ChemistryRangeException">The temperature is outside [<see cref="MinimumK"/>, <see cref="MaximumK"/>].</exception>
    public PhaseSet PhaseAt(double temperatureK) => _phases[IndexAt(temperatureK)];

    /// <summary>Absolute molar enthalpy, J/mol.</summary>
    /// <exception cref="ChemistryRangeException">As for <see cref="PhaseAt"/>.</exception>
    public double Enthalpy(double temperatureK) => RangeAt(temperatureK).Enthalpy(temperatureK);

    /// <summary>Molar heat capacity at constant pressure, J/mol.K.</summary>
    /// <exception cref="ChemistryRangeException">As for <see cref="PhaseAt"/>.</exception>
    public double HeatCapacity(double temperatureK) => RangeAt(temperatureK).HeatCapacity(temperatureK);

    /// <summary>Absolute molar entropy at 1 bar, J/mol.K.</summary>
    /// <exception cref="ChemistryRangeException">As for <see cref="PhaseAt"/>.</exception>
    /// <exception cref="NotSupportedException">The source gives no entropy.</exception>
    public double Entropy(double temperatureK)
    {
        PhaseAt(temperatureK).RequireEntropy();
        return RangeAt(temperatureK).Entropy(temperatureK);
    }

    /// <summary>Molar Gibbs energy H − T S at 1 bar, J/mol.</summary>
    /// <exception cref="ChemistryRangeException">As for <see cref="PhaseAt"/>.</exception>
    /// <exception cref="NotSupportedException">The source gives no entropy.</exception>
    public double Gibbs(double temperatureK) => Enthalpy(temperatureK) - (temperatureK * Entropy(temperatureK));

    /// <summary>Heat to bring one kilogram from one temperature to another, J/kg, transitions included.</summary>
    /// <exception cref="ChemistryRangeException">As for <see cref="PhaseAt"/>.</exception>
    public double HeatContentPerKg(double fromK, double toK) => (Enthalpy(toK) - Enthalpy(fromK)) / (MolarMassGPerMol * 1e-3);

    /// <inheritdoc/>
    public override string ToString() => Id;

    private ThermalRange RangeAt(double temperatureK)
    {
        int i = IndexAt(temperatureK);
        return _phases[i].RangeAt(temperatureK, i == 0 ? MinimumK : _phases[i].MinimumK);
    }

    private int IndexAt(double temperatureK)
    {
        if (!(temperatureK >= MinimumK && temperatureK <= MaximumK))
        {
            throw new ChemistryRangeException("temperature of " + Id, temperatureK, MinimumK, MaximumK, "K");
        }

        int i = 0;
        while (i < _phases.Length - 1 && temperatureK >= _startsK[i + 1])
        {
            i++;
        }

        return i;
    }
}
