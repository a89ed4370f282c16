// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry;

/// <summary>State of matter of a phase set.</summary>
public enum StateOfMatter
{
    /// <summary>Solid.</summary>
    Solid,
    /// <summary>Liquid.</summary>
    Liquid,
    /// <summary>Ideal gas at 1 bar.</summary>
    Gas,
}

/// <summary>
/// Enthalpy, heat capacity and entropy of one phase of a pure substance between two temperatures, per mole of its
/// formula, with the source of its coefficients. Enthalpy is absolute: stable elements at 298.15 K and 1 bar are zero.
/// </summary>
public sealed class PhaseSet
{
    private readonly ThermalRange[] _ranges;
    private readonly bool _hasEntropy;

    internal PhaseSet(PhaseRecord record, double gasConstant)
    {
        Id = record.Id;
        Formula = record.Formula;
        Description = record.Phase;
        State = record.State;
        Source = record.Source;
        Note = record.Note;
        Model = record.Model;
        _hasEntropy = Model != ThermalModel.CpPower || record.EntropyJPerMolK is not null;
        _ranges = Build(record, Model, gasConstant);
        FittedMinimumK = record.Ranges[0].FromK;
        MinimumK = record.ColdToK ?? FittedMinimumK;
        MaximumK = _ranges[^1].ToK;
        UndercooledToK = record.UndercooledToK ?? MinimumK;
        InternalTransitions = Array.ConvertAll(
            Array.FindAll(record.Ranges, r => r.HeatOnEntryJPerMol is not null), r => (r.FromK, r.HeatOnEntryJPerMol!.Value));
    }

    /// <summary>Name of the set in Data/species.json.</summary>
    public string Id { get; }

    /// <summary>Chemical formula; a mole is a mole of this formula.</summary>
    public string Formula { get; }

    /// <summary>The phase in words.</summary>
    public string Description { get; }

    /// <summary>Solid, liquid or gas.</summary>
    public StateOfMatter State { get; }

    /// <summary>Form of the equation.</summary>
    public ThermalModel Model { get; }

    /// <summary>Where the coefficients come from.</summary>
    public string Source { get; }

    /// <summary>Remark of the data file, or null.</summary>
    public string? Note { get; }

    /// <summary>Lowest temperature of the source's own fit, K.</summary>
    public double FittedMinimumK { get; }

    /// <summary>Lowest temperature accepted, K. Below <see cref="FittedMinimumK"/> Cp is held (see <c>cold_to_K</c> in the data
    /// file).</summary>
    public double MinimumK { get; }

    /// <summary>Highest temperature accepted, K.</summary>
    public double MaximumK { get; }

    /// <summary>Lowest temperature accepted as undercooled liquid, K; equals <see cref="MinimumK"/> where the set has none.</summary>
    public double UndercooledToK { get; }

    /// <summary>False where the source gives no entropy; then <see cref="Entropy"/> and <see cref="Gibbs"/> throw.</summary>
    public bool HasEntropy => _hasEntropy;

    /// <summary>Temperatures inside the set at which one range ends and the next begins, K.</summary>
    public IEnumerable<double> JointsK => _ranges.Skip(1).Select(r => r.FromK);

    /// <summary>Changes of form inside the set (temperature, K, and heat, J/mol) that its source describes as one sequence.</summary>
    public IReadOnlyList<(double AtK, double HeatJPerMol)> InternalTransitions { get; }

    /// <summary>Absolute molar enthalpy, J/mol.</summary>
    /// <exception cref="ChemistryRangeException">The temperature is outside [<see cref="MinimumK"/>, <see cref="MaximumK"/>].</exception>
    public double Enthalpy(double temperatureK) => RangeAt(temperatureK, MinimumK).Enthalpy(temperatureK);

    /// <summary>Molar heat capacity at constant pressure, J/mol.K.</summary>
    /// <exception cref="ChemistryRangeException">As for <see cref="Enthalpy"/>.</exception>
    public double HeatCapacity(double temperatureK) => RangeAt(temperatureK, MinimumK).HeatCapacity(temperatureK);

    /// <summary>Absolute molar entropy at 1 bar, J/mol.K.</summary>
    /// <exception cref="ChemistryRangeException">As for <see cref="Enthalpy"/>.</exception>
    /// <exception cref="NotSupportedException">The source gives no entropy.</exception>
    public double Entropy(double temperatureK)
    {
        RequireEntropy();
        return RangeAt(temperatureK, MinimumK).Entropy(temperatureK);
    }

    /// <summary>Molar Gibbs energy H − T S at 1 bar, J/mol.</summary>
    /// <exception cref="ChemistryRangeException">As for <see cref="Enthalpy"/>.</exception>
    /// <exception cref="NotSupportedException">The source gives no entropy.</exception>
    public double Gibbs(double temperatureK)
    {
        RequireEntropy();
        ThermalRange range = RangeAt(temperatureK, MinimumK);
        return range.Enthalpy(temperatureK) - (temperatureK * range.Entropy(temperatureK));
    }

    internal ThermalRange RangeAt(double temperatureK, double leastK)
    {
        // Written so that NaN fails too.
        if (!(temperatureK >= leastK && temperatureK <= MaximumK))
        {
            throw new ChemistryRangeException("temperature of " + Id, temperatureK, leastK, MaximumK, "K");
        }

        int i = 0;
        while (i < _ranges.Length - 1 && temperatureK >= _ranges[i + 1].FromK)
        {
            i++;
        }

        return _ranges[i];
    }

    internal void RequireEntropy()
    {
        if (!_hasEntropy)
        {
            throw new NotSupportedException($"{Id} has no entropy: its source gives enthalpy only ({Source}).");
        }
    }

    private static ThermalRange[] Build(PhaseRecord record, ThermalModel model, double gasConstant)
    {
        var ranges = new List<ThermalRange>(record.Ranges.Length + 1);
        if (model != ThermalModel.CpPower)
        {
            foreach (RangeRecord r in record.Ranges)
            {
                ranges.Add(new ThermalRange(model, r.FromK, r.ToK, r.Coefficients, gasConstant));
            }
        }
        else
        {
            double atK = record.ReferenceK ?? throw Missing(record, "reference_K");
            double h = record.EnthalpyJPerMol ?? throw Missing(record, "enthalpy_J_mol");
            double s = record.EntropyJPerMolK ?? double.NaN;
            foreach (RangeRecord r in record.Ranges)
            {
                if (ranges.Count > 0)
                {
                    atK = r.FromK;
                    h = ranges[^1].Enthalpy(atK) + (r.HeatOnEntryJPerMol ?? 0);
                    s = ranges[^1].Entropy(atK) + ((r.HeatOnEntryJPerMol ?? 0) / atK);
                }

                ranges.Add(new ThermalRange(r.FromK, r.ToK, r.Powers ?? throw Missing(record, "powers"), r.Coefficients, atK, h, s));
            }
        }

        double first = record.Ranges[0].FromK;
        if (record.ColdToK is double coldK)
        {
            ThermalRange r = ranges[0];
            ranges.Insert(0, new ThermalRange(coldK, first, [0], [r.HeatCapacity(first)], first, r.Enthalpy(first), r.Entropy(first)));
        }

        return [.. ranges];
    }

    private static InvalidDataException Missing(PhaseRecord record, string field) =>
        new($"Data/species.json: phase {record.Id} lacks '{field}'.");
}
