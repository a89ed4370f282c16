// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry.Slag;

/// <summary>Published phosphorus partitions to choose from.</summary>
public enum PhosphorusModel
{
    /// <summary>Healy 1970.</summary>
    Healy1970,
    /// <summary>Suito and Inoue 1984, eq. i (k_P, linear). Depends on P2O5 of the slag.</summary>
    SuitoInoue1984Linear,
    /// <summary>Suito and Inoue 1984, eq. ii (k_P, logarithmic). Depends on P2O5 of the slag.</summary>
    SuitoInoue1984Logarithmic,
    /// <summary>Suito and Inoue 1984, eq. iii (L_P). The default.</summary>
    SuitoInoue1984,
    /// <summary>The 1986 set, also for slags not saturated with MgO.</summary>
    Tetsu1986,
    /// <summary>Ide and Fruehan 2000.</summary>
    IdeFruehan2000,
    /// <summary>Assis and others 2015.</summary>
    Assis2015,
    /// <summary>Turkdogan 1996, by the oxygen of the metal.</summary>
    Turkdogan1996,
    /// <summary>Activities of Ban-ya 1993 with the equilibrium 2[P] + 5[O] = P2O5(l).</summary>
    BanYa1993,
}

/// <summary>A phosphorus partition with what lies outside the correlation's range.</summary>
/// <param name="Model">Which correlation.</param>
/// <param name="LogPartition">log10 of L_P = (%P)/[%P] at equilibrium.</param>
/// <param name="OutsideRange">Values outside the fit; empty inside.</param>
public sealed record PhosphorusPartitionResult(PhosphorusModel Model, double LogPartition, IReadOnlyList<RangeNote> OutsideRange)
{
    /// <summary>L_P = (%P)/[%P].</summary>
    public double Partition => Math.Pow(10, LogPartition);
}

/// <summary>
/// Equilibrium phosphorus partition of a slag by a chosen correlation. The correlations differ by a factor of two to three on
/// one slag (docs/handbook/20-slag.md), so the choice is a parameter with a spread; a converter ends below equilibrium.
/// </summary>
public static class PhosphorusPartition
{
    /// <summary>The trust that a correlation's coefficients deserve.</summary>
    public static SourceTrust Trust(PhosphorusModel model) => model switch
    {
        PhosphorusModel.SuitoInoue1984 or PhosphorusModel.SuitoInoue1984Linear or PhosphorusModel.SuitoInoue1984Logarithmic
            or PhosphorusModel.Tetsu1986 => SourceTrust.Published,
        _ => SourceTrust.FromMemory,
    };

    /// <summary>L_P of a slag.</summary>
    /// <param name="model">Which correlation.</param>
    /// <param name="slag">Slag; iron oxide at least 0.1 % T.Fe.</param>
    /// <param name="temperatureK">Temperature, K; 1 473–2 200 K is evaluated, the range of the fit is flagged.</param>
    /// <param name="metalOxygenPercent">
    /// Dissolved oxygen, mass %, for Turkdogan and Ban-ya; null takes the oxygen in equilibrium with the slag's FeO (Ban-ya) by Taylor
    /// and Chipman's saturation.
    /// </param>
    /// <exception cref="ChemistryRangeException">No iron oxide, no P2O5 where k_P needs it, or temperature far outside.</exception>
    public static PhosphorusPartitionResult Of(PhosphorusModel model, SlagComposition slag, double temperatureK, double? metalOxygenPercent = null)
    {
        ArgumentNullException.ThrowIfNull(slag);
        ChemistryRangeException.Require(temperatureK, BanYa.LeastK, BanYa.MostK, "K", "temperature of the slag");
        ChemistryRangeException.Require(slag.TotalIron, 0.1, 100, "mass %", "total iron of the slag");
        double caO = slag[Constituent.CaO];
        double mgO = slag[Constituent.MgO];
        double mnO = slag[Constituent.MnO];
        double p2O5 = slag[Constituent.P2O5];
        double iron = slag.TotalIron;
        double fetO = slag.TotalIronAsFeO;
        double log = model switch
        {
            PhosphorusModel.Healy1970 => PhosphorusCorrelations.LogLpHealy1970(temperatureK, caO, iron),
            PhosphorusModel.SuitoInoue1984 => PhosphorusCorrelations.LogLpSuitoInoue1984(temperatureK, caO, mgO, p2O5, mnO, iron),
            PhosphorusModel.SuitoInoue1984Linear => FromKp(PhosphorusCorrelations.LogKpSuitoInoue1984Linear(temperatureK, caO, mgO, p2O5, mnO), p2O5, fetO),
            PhosphorusModel.SuitoInoue1984Logarithmic => FromKp(
                PhosphorusCorrelations.LogKpSuitoInoue1984Logarithmic(temperatureK, caO, mgO, fetO, p2O5, mnO), p2O5, fetO),
            PhosphorusModel.Tetsu1986 => PhosphorusCorrelations.LogLpTetsu1986(temperatureK, caO, mgO, iron),
            PhosphorusModel.IdeFruehan2000 => PhosphorusCorrelations.LogLpIdeFruehan2000(temperatureK, caO, mgO, p2O5, mnO, iron),
            PhosphorusModel.Assis2015 => PhosphorusCorrelations.LogLpAssis2015(
                temperatureK, caO, mgO, p2O5, slag[Constituent.SiO2], slag[Constituent.Al2O3], iron),
            PhosphorusModel.Turkdogan1996 => PhosphorusCorrelations.LogLpTurkdogan1996(temperatureK, caO, mgO, Oxygen(slag, temperatureK, metalOxygenPercent)),
            PhosphorusModel.BanYa1993 => LogLpBanYa(slag, temperatureK, Oxygen(slag, temperatureK, metalOxygenPercent)),
            _ => throw new ArgumentOutOfRangeException(nameof(model), model, "No such phosphorus model."),
        };
        return new PhosphorusPartitionResult(model, log, Notes(model, slag, temperatureK));
    }

    /// <summary>
    /// Saturation oxygen of liquid iron under its oxide, mass %: log = −6 320/T + 2.734 (C. R. Taylor, J. Chipman 1943, coefficients
    /// from memory; 0.23 % at 1 600 °C).
    /// </summary>
    public static double SaturationOxygenPercent(double temperatureK) => Math.Pow(10, (-6320 / temperatureK) + 2.734);

    private static double Oxygen(SlagComposition slag, double temperatureK, double? metalOxygenPercent) =>
        metalOxygenPercent is { } given
            ? ChemistryRangeException.Require(given, 1e-5, 0.5, "mass %", "dissolved oxygen")
            : new SlagActivities(slag, temperatureK).FeO * SaturationOxygenPercent(temperatureK);

    private static double FromKp(double logKp, double p2O5, double fetO)
    {
        ChemistryRangeException.Require(p2O5, 1e-3, 50, "mass %", "P2O5 of the slag");
        double logMetal = 0.5 * (Math.Log10(p2O5) - logKp - (5 * Math.Log10(fetO)));
        return Math.Log10(p2O5 * Constituents.MassFraction(Constituent.P2O5, Element.P)) - logMetal;
    }

    // a(P2O5) goes with the square of X(PO2.5), so L_P needs γ and the size of a mole of cations only, not P2O5 itself.
    private static double LogLpBanYa(SlagComposition slag, double temperatureK, double oxygenPercent)
    {
        var activities = new SlagActivities(slag, temperatureK);
        double rt = BanYa.GasConstant * temperatureK;
        double logActivityPerFraction = Math.Log10(activities.RegularSolutionGamma(SlagCation.P))
            + (BanYaTable.P2O5Liquid.JoulePerMole(temperatureK) / (2 * rt * Math.Log(10)));
        double logMetalPerFraction = logActivityPerFraction - (0.5 * PhosphorusCorrelations.LogKP2O5(temperatureK)) - (2.5 * Math.Log10(oxygenPercent));
        return Math.Log10(slag.CationMolesPer100G * AtomicWeights.Of(Element.P)) - logMetalPerFraction;
    }

    private static IReadOnlyList<RangeNote> Notes(PhosphorusModel model, SlagComposition slag, double temperatureK)
    {
        (double least, double most) = model switch
        {
            PhosphorusModel.SuitoInoue1984 or PhosphorusModel.SuitoInoue1984Linear or PhosphorusModel.SuitoInoue1984Logarithmic => (1823.15, 1923.15),
            PhosphorusModel.Tetsu1986 => (1823.15, 1873.15),
            PhosphorusModel.BanYa1993 => (1573.15, 1973.15),
            _ => (1823.15, 1973.15),
        };
        bool saturated = model is PhosphorusModel.SuitoInoue1984 or PhosphorusModel.SuitoInoue1984Linear or PhosphorusModel.SuitoInoue1984Logarithmic;
        bool basic = model is PhosphorusModel.Turkdogan1996;
        // The coefficients were fitted on MgO-saturated slags; a slag well below saturation is outside.
        double saturationMgO = saturated ? MgOSaturation.Fitted(slag, temperatureK).MassPercent : 0;
        return RangeNote.Collect(
            RangeNote.Of("temperature", temperatureK, least - 1e-6, most + 1e-6, "K"),
            model is PhosphorusModel.Healy1970 ? RangeNote.Of("CaO", slag[Constituent.CaO], 24, 100, "mass %") : null,
            saturated ? RangeNote.Of("MgO", slag[Constituent.MgO], 0.7 * saturationMgO, 100, "mass %") : null,
            basic ? RangeNote.Of("CaO/SiO2", slag.Basicity, 1.5, double.MaxValue, "-") : null,
            model is PhosphorusModel.BanYa1993 ? RangeNote.Of("share of cations known", slag.CationCoverage, 0.97, 1.0000001, "-") : null);
    }
}
