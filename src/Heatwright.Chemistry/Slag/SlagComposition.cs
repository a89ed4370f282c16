// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry.Slag;

/// <summary>
/// Composition of a liquid slag over CaO, SiO2, MgO, FeO, Fe2O3, MnO, P2O5, Al2O3, TiO2, V2O3, Cr2O3, CaF2 and CaS.
/// Immutable; mass % are scaled to 100.
/// </summary>
public sealed class SlagComposition
{
    /// <summary>Number of slag constituents: the first of <see cref="Constituent"/>, up to CaS.</summary>
    public const int Count = (int)Constituent.CaS + 1;

    /// <summary>
    /// Largest distance of the given sum from 100 %. Laboratories report 97–102 %; further off, something is missing or in another
    /// unit.
    /// </summary>
    public const double SumToleranceMassPercent = 5;

    private readonly double[] _massPercent;
    private readonly double[] _moleFraction;
    private readonly double[] _cationFraction;

    /// <param name="massPercent">
    /// Mass % by constituent; what is not named is zero. The sum must lie within 5 % of 100; it is scaled to 100.
    /// </param>
    /// <exception cref="ChemistryRangeException">A value is negative or not finite, or the sum is off.</exception>
    /// <exception cref="ArgumentException">A constituent is not one of a slag.</exception>
    public SlagComposition(IReadOnlyDictionary<Constituent, double> massPercent)
        : this(Collect(massPercent), 100 - SumToleranceMassPercent, 100 + SumToleranceMassPercent)
    {
    }

    private SlagComposition(double[] parts, double leastSum, double mostSum)
    {
        double sum = parts.Sum();
        ChemistryRangeException.Require(sum, leastSum, mostSum, "mass %", "sum of the slag analysis");
        _massPercent = new double[Count];
        _moleFraction = new double[Count];
        double moles = 0;
        for (int i = 0; i < Count; i++)
        {
            _massPercent[i] = parts[i] * 100 / sum;
            _moleFraction[i] = _massPercent[i] / Constituents.MolarMass((Constituent)i);
            moles += _moleFraction[i];
        }

        for (int i = 0; i < Count; i++)
        {
            _moleFraction[i] /= moles;
        }

        _cationFraction = new double[BanYa.CationCount];
        double covered = 0;
        double all = 0;
        foreach ((Constituent constituent, SlagCation? cation, int atoms) in CationMap)
        {
            double n = _moleFraction[(int)constituent] * atoms;
            all += n;
            if (cation is { } c)
            {
                _cationFraction[(int)c] += n;
                covered += n;
            }
        }

        CationCoverage = covered / all;
        CationMolesPer100G = covered * moles;
        for (int i = 0; i < _cationFraction.Length; i++)
        {
            // A slag of fluorspar alone has no cation of the formalism; it keeps zeros.
            _cationFraction[i] = covered > 0 ? _cationFraction[i] / covered : 0;
        }
    }

    // V, Cr and the calcium of fluorspar and sulphide have no place in the quadratic formalism.
    private static readonly (Constituent Constituent, SlagCation? Cation, int Atoms)[] CationMap =
    [
        (Constituent.CaO, SlagCation.Ca, 1), (Constituent.MgO, SlagCation.Mg, 1), (Constituent.SiO2, SlagCation.Si, 1),
        (Constituent.Al2O3, SlagCation.Al, 2), (Constituent.FeO, SlagCation.Fe2, 1), (Constituent.Fe2O3, SlagCation.Fe3, 2),
        (Constituent.MnO, SlagCation.Mn, 1), (Constituent.P2O5, SlagCation.P, 2), (Constituent.TiO2, SlagCation.Ti, 1),
        (Constituent.V2O3, null, 2), (Constituent.Cr2O3, null, 2), (Constituent.CaF2, null, 1), (Constituent.CaS, null, 1),
    ];

    /// <summary>A composition from parts by mass (for example kg) of any total above zero.</summary>
    public static SlagComposition FromMasses(IReadOnlyDictionary<Constituent, double> massKg)
    {
        double[] parts = Collect(massKg);
        ChemistryRangeException.Require(parts.Sum(), double.Epsilon, double.MaxValue, "kg", "mass of the slag");
        return new SlagComposition(parts, 0, double.MaxValue);
    }

    /// <summary>A composition from parts by mole (for example mole fractions) of any total above zero.</summary>
    public static SlagComposition FromMoles(IReadOnlyDictionary<Constituent, double> moles)
    {
        double[] parts = Collect(moles);
        for (int i = 0; i < Count; i++)
        {
            parts[i] *= Constituents.MolarMass((Constituent)i);
        }

        ChemistryRangeException.Require(parts.Sum(), double.Epsilon, double.MaxValue, "g", "mass of the slag");
        return new SlagComposition(parts, 0, double.MaxValue);
    }

    /// <summary>Mass %.</summary>
    public double this[Constituent constituent] => (int)constituent < Count ? _massPercent[(int)constituent] : 0;

    /// <summary>Mole fraction of the oxide as written (P2O5, Al2O3, Fe2O3 count once).</summary>
    public double MoleFraction(Constituent constituent) => (int)constituent < Count ? _moleFraction[(int)constituent] : 0;

    /// <summary>Cation fraction over the nine cations of the quadratic formalism.</summary>
    public double CationFraction(SlagCation cation) => _cationFraction[(int)cation];

    /// <summary>Cation fractions in the order of <see cref="SlagCation"/>.</summary>
    public ReadOnlySpan<double> CationFractions => _cationFraction;

    /// <summary>
    /// Share of all cations that the quadratic formalism knows (V, Cr and the calcium of CaF2 and CaS are outside). Below about 0.97
    /// read its activities with doubt.
    /// </summary>
    public double CationCoverage { get; }

    /// <summary>Moles of the formalism's cations in 100 g of slag.</summary>
    public double CationMolesPer100G { get; }

    /// <summary>Total iron, mass % (as Fe).</summary>
    public double TotalIron =>
        (this[Constituent.FeO] * Constituents.MassFraction(Constituent.FeO, Element.Fe))
        + (this[Constituent.Fe2O3] * Constituents.MassFraction(Constituent.Fe2O3, Element.Fe));

    /// <summary>All iron counted as FeO ("FetO"), mass %.</summary>
    public double TotalIronAsFeO => TotalIron / Constituents.MassFraction(Constituent.FeO, Element.Fe);

    /// <summary>Phosphorus, mass % (as P).</summary>
    public double Phosphorus => this[Constituent.P2O5] * Constituents.MassFraction(Constituent.P2O5, Element.P);

    /// <summary>CaO/SiO2 by mass; infinite without silica.</summary>
    public double Basicity => this[Constituent.CaO] / this[Constituent.SiO2];

    /// <summary>(CaO + MgO)/(SiO2 + Al2O3) by mass.</summary>
    public double FourComponentBasicity =>
        (this[Constituent.CaO] + this[Constituent.MgO]) / (this[Constituent.SiO2] + this[Constituent.Al2O3]);

    /// <summary>CaO/(SiO2 + P2O5) by mass.</summary>
    public double PhosphorusBasicity => this[Constituent.CaO] / (this[Constituent.SiO2] + this[Constituent.P2O5]);

    /// <summary>A copy with one constituent set; the others keep their proportions.</summary>
    /// <param name="constituent">Which.</param>
    /// <param name="massPercent">Its new share, mass %.</param>
    public SlagComposition With(Constituent constituent, double massPercent)
    {
        ChemistryRangeException.Require(massPercent, 0, 100, "mass %", constituent.ToString());
        RequireSlag(constituent);
        double rest = 100 - this[constituent];
        if (rest <= 0 && massPercent < 100)
        {
            throw new ArgumentException($"The slag is {constituent} alone; there is nothing to fill the rest with.", nameof(massPercent));
        }

        double[] parts = new double[Count];
        for (int i = 0; i < Count; i++)
        {
            parts[i] = i == (int)constituent ? massPercent : (rest > 0 ? _massPercent[i] * (100 - massPercent) / rest : 0);
        }

        return new SlagComposition(parts, 0, double.MaxValue);
    }

    private static double[] Collect(IReadOnlyDictionary<Constituent, double> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        double[] parts = new double[Count];
        foreach ((Constituent constituent, double value) in values)
        {
            RequireSlag(constituent);
            parts[(int)constituent] = ChemistryRangeException.Require(value, 0, double.MaxValue, "parts", constituent.ToString());
        }

        return parts;
    }

    private static void RequireSlag(Constituent constituent)
    {
        if ((int)constituent is < 0 or >= Count)
        {
            throw new ArgumentException(
                $"{constituent} is no constituent of a liquid slag; give its oxide ({nameof(Constituent.CaO)} to {nameof(Constituent.CaS)}).",
                nameof(constituent));
        }
    }
}
