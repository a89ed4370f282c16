// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry.Slag;

/// <summary>Published manganese partitions to choose from.</summary>
public enum ManganeseModel
{
    /// <summary>Park and Dzo's regression. The default: it meets what converters show.</summary>
    ParkDzo,
    /// <summary>Equilibrium of 1963 with activities of Ban-ya 1993. Far too high in limey slags.</summary>
    BanYa1993,
}

/// <summary>A manganese partition with what lies outside the correlation's range.</summary>
/// <param name="Model">Which.</param>
/// <param name="LogK">log10 of k_Mn = (%MnO)/([%Mn]·(%FetO)).</param>
/// <param name="OutsideRange">Values outside the fit; empty inside.</param>
public sealed record ManganesePartitionResult(ManganeseModel Model, double LogK, IReadOnlyList<RangeNote> OutsideRange)
{
    /// <summary>k_Mn = (%MnO)/([%Mn]·(%FetO)), 1/mass %.</summary>
    public double K => Math.Pow(10, LogK);

    /// <summary>Manganese of the metal in equilibrium, mass %.</summary>
    public double MetalManganesePercent(double mnO, double fetO) => mnO / (K * ChemistryRangeException.Require(fetO, 0.1, 100, "mass %", "FetO of the slag"));
}

/// <summary>Equilibrium of manganese between slag and iron, FeO + [Mn] = MnO + Fe.</summary>
public static class ManganesePartition
{
    /// <summary>
    /// log k_Mn = 0.001(−1.651 CaO + 39.13 MgO + 4.64 FetO + 5.133 MnO + 11.86 SiO2 − 99.7 P2O5) + 8 086/T − 4.262, mass %, T in K.
    /// J. M. Park, M. H. Dzo, J. Korean Inst. Met. Mater., abstract (the P2O5 coefficient looks large but stands so); 1 823–1 973 K,
    /// MnO 2–30 %, MgO-saturated.
    /// </summary>
    public static double LogKParkDzo(double temperatureK, double caO, double mgO, double fetO, double mnO, double siO2, double p2O5) =>
        (0.001 * ((-1.651 * caO) + (39.13 * mgO) + (4.64 * fetO) + (5.133 * mnO) + (11.86 * siO2) - (99.7 * p2O5))) + (8086 / temperatureK) - 4.262;

    /// <summary>log γ(MnO) = −1.079(N_MnO + 0.9 N_FetO) + 0.6394, mole fractions. Park and Dzo, abstract; same range.</summary>
    public static double LogGammaMnOParkDzo(double nMnO, double nFetO) => (-1.079 * (nMnO + (0.9 * nFetO))) + 0.6394;

    /// <summary>
    /// log K of FeO(l) + [Mn] = MnO(l) + Fe(l), [Mn] in mass %: 6 440/T − 2.83. Tetsu-to-Hagané 49 (1963) 756, abstract; 1 550–1 663
    /// °C.
    /// </summary>
    public static double LogKEquilibrium1963(double temperatureK) => (6440 / temperatureK) - 2.83;

    /// <summary>k_Mn of a slag.</summary>
    /// <param name="model">Which.</param>
    /// <param name="slag">Slag with iron oxide.</param>
    /// <param name="temperatureK">Temperature, K; 1 473–2 200 K is evaluated, the range of the fit is noted.</param>
    public static ManganesePartitionResult Of(ManganeseModel model, SlagComposition slag, double temperatureK)
    {
        ArgumentNullException.ThrowIfNull(slag);
        ChemistryRangeException.Require(temperatureK, BanYa.LeastK, BanYa.MostK, "K", "temperature of the slag");
        double fetO = ChemistryRangeException.Require(slag.TotalIronAsFeO, 0.1, 100, "mass %", "FetO of the slag");
        double log = model switch
        {
            ManganeseModel.ParkDzo => LogKParkDzo(
                temperatureK, slag[Constituent.CaO], slag[Constituent.MgO], fetO, slag[Constituent.MnO], slag[Constituent.SiO2], slag[Constituent.P2O5]),
            ManganeseModel.BanYa1993 => LogKBanYa(slag, temperatureK, fetO),
            _ => throw new ArgumentOutOfRangeException(nameof(model), model, "No such manganese model."),
        };
        bool park = model == ManganeseModel.ParkDzo;
        return new ManganesePartitionResult(model, log, RangeNote.Collect(
            park ? RangeNote.Of("temperature", temperatureK, 1823, 1973.15, "K") : RangeNote.Of("temperature", temperatureK, 1573.15, 1973.15, "K"),
            park ? RangeNote.Of("MnO", slag[Constituent.MnO], 2, 30, "mass %") : null,
            park ? RangeNote.Of("MgO", slag[Constituent.MgO], 0.7 * MgOSaturation.Fitted(slag, temperatureK).MassPercent, 100, "mass %") : null));
    }

    // MnO itself drops out: a(MnO) and %MnO both go with the cation fraction.
    private static double LogKBanYa(SlagComposition slag, double temperatureK, double fetO)
    {
        var activities = new SlagActivities(slag, temperatureK);
        double activityPerFraction = BanYa.Convert(BanYaTable.MnOLiquid, activities.RegularSolutionGamma(SlagCation.Mn), temperatureK);
        double percentPerFraction = slag.CationMolesPer100G * Constituents.MolarMass(Constituent.MnO);
        return LogKEquilibrium1963(temperatureK) + Math.Log10(activities.FeO * percentPerFraction / (activityPerFraction * fetO));
    }
}
