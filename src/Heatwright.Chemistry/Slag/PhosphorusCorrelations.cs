// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry.Slag;

/// <summary>
/// Phosphorus correlations as bare formulas: log10, temperature in K, slag in mass %, metal in mass %. T.Fe is all iron of
/// the slag as Fe, FetO all iron as FeO. L_P = (%P)/[%P]; k_P = (%P2O5)/([%P]²·(%FetO)⁵). No range is checked here;
/// <see cref="PhosphorusPartition"/> does that.
/// </summary>
public static class PhosphorusCorrelations
{
    /// <summary>
    /// log L_P = 22 350/T − 16.0 + 0.08 CaO + 2.5 log T.Fe. G. W. Healy, J. Iron Steel Inst. 208 (1970) 664–668, from memory; CaO &gt;
    /// 24 %, 1 550–1 700 °C.
    /// </summary>
    public static double LogLpHealy1970(double temperatureK, double caO, double totalIron) =>
        (22_350 / temperatureK) - 16.0 + (0.08 * caO) + (2.5 * Math.Log10(totalIron));

    /// <summary>
    /// log L_P = 0.0720(CaO + 0.3 MgO + 0.6 P2O5 + 0.6 MnO) + 11 570/T − 10.520 + 2.5 log T.Fe. H. Suito, R. Inoue, Tetsu-to-Hagané 70
    /// (1984) 186–193, abstract, eq. iii; MgO-saturated, 1 550–1 650 °C.
    /// </summary>
    public static double LogLpSuitoInoue1984(double temperatureK, double caO, double mgO, double p2O5, double mnO, double totalIron) =>
        (0.0720 * (caO + (0.3 * mgO) + (0.6 * p2O5) + (0.6 * mnO))) + (11_570 / temperatureK) - 10.520 + (2.5 * Math.Log10(totalIron));

    /// <summary>
    /// log k_P = 0.145(CaO + 0.3 MgO − 0.5 P2O5 + 0.6 MnO) + 22 810/T − 20.506. Suito and Inoue 1984, abstract, eq. i; same range. Not
    /// for very limey slags: above about 45 % it runs away from eq. ii.
    /// </summary>
    public static double LogKpSuitoInoue1984Linear(double temperatureK, double caO, double mgO, double p2O5, double mnO) =>
        (0.145 * (caO + (0.3 * mgO) - (0.5 * p2O5) + (0.6 * mnO))) + (22_810 / temperatureK) - 20.506;

    /// <summary>
    /// log k_P = 7.87 log(CaO + 0.3 MgO − 0.05 FetO − 0.5 P2O5 + 0.6 MnO) + 22 240/T − 27.124. Suito and Inoue 1984, abstract, eq. ii;
    /// same range.
    /// </summary>
    public static double LogKpSuitoInoue1984Logarithmic(double temperatureK, double caO, double mgO, double fetO, double p2O5, double mnO) =>
        (7.87 * Math.Log10(caO + (0.3 * mgO) - (0.05 * fetO) - (0.5 * p2O5) + (0.6 * mnO))) + (22_240 / temperatureK) - 27.124;

    /// <summary>
    /// log k_P = 0.156(CaO + CaF2 + 0.3 MgO) + 20 730/T − 19.48 with CaF2 1–4 %. H. Suito, R. Inoue, Trans. ISIJ 22 (1982) 869–877,
    /// abstract; 1 550–1 650 °C.
    /// </summary>
    public static double LogKpSuitoInoue1982Fluorspar(double temperatureK, double caO, double caF2, double mgO) =>
        (0.156 * (caO + caF2 + (0.3 * mgO))) + (20_730 / temperatureK) - 19.48;

    /// <summary>
    /// log γ(P2O5) = −1.02(23 N_CaO + 17 N_MgO + 8 N_FetO − 26 N_P2O5 + 13 N_MnO) − 22 990/T + 9.490, mole fractions. Suito and Inoue
    /// 1984, abstract; same range.
    /// </summary>
    public static double LogGammaP2O5SuitoInoue1984(double temperatureK, double nCaO, double nMgO, double nFetO, double nP2O5, double nMnO) =>
        (-1.02 * ((23 * nCaO) + (17 * nMgO) + (8 * nFetO) - (26 * nP2O5) + (13 * nMnO))) - (22_990 / temperatureK) + 9.490;

    /// <summary>
    /// log L_P = 0.065(CaO + 0.55 MgO) + 12 230/T − 10.08 + 2.5 log T.Fe. Tetsu-to-Hagané 72 (1986) 225, abstract (authors not shown in
    /// the copy read); 1 550 and 1 600 °C, unsaturated slags too.
    /// </summary>
    public static double LogLpTetsu1986(double temperatureK, double caO, double mgO, double totalIron) =>
        (0.065 * (caO + (0.55 * mgO))) + (12_230 / temperatureK) - 10.08 + (2.5 * Math.Log10(totalIron));

    /// <summary>
    /// log L_P = 0.072(CaO + 0.15 MgO + 0.6 P2O5 + 0.6 MnO) + 11 570/T − 10.52 + 2.5 log T.Fe. K. Ide, R. J. Fruehan, Iron &amp;
    /// Steelmaker 27 (12) (2000) 65–70, coefficients from memory.
    /// </summary>
    public static double LogLpIdeFruehan2000(double temperatureK, double caO, double mgO, double p2O5, double mnO, double totalIron) =>
        (0.072 * (caO + (0.15 * mgO) + (0.6 * p2O5) + (0.6 * mnO))) + (11_570 / temperatureK) - 10.52 + (2.5 * Math.Log10(totalIron));

    /// <summary>
    /// log L_P = 0.073(CaO + 0.148 MgO + 0.96 P2O5 + 0.144 SiO2 + 0.22 Al2O3) + 11 570/T − 10.46 + 2.5 log T.Fe (±0.1). A. N. Assis and
    /// others, Metall. Mater. Trans. B 46 (2015) 2255–2263, coefficients from memory.
    /// </summary>
    public static double LogLpAssis2015(double temperatureK, double caO, double mgO, double p2O5, double siO2, double al2O3, double totalIron) =>
        (0.073 * (caO + (0.148 * mgO) + (0.96 * p2O5) + (0.144 * siO2) + (0.22 * al2O3))) + (11_570 / temperatureK) - 10.46
        + (2.5 * Math.Log10(totalIron));

    /// <summary>
    /// log{L_P/[%O]^2.5} = 21 740/T − 9.87 + 0.071(CaO + 0.3 MgO), [%O] dissolved in the metal. E. T. Turkdogan, Fundamentals of
    /// Steelmaking (1996), from memory; basic slags.
    /// </summary>
    public static double LogLpTurkdogan1996(double temperatureK, double caO, double mgO, double metalOxygen) =>
        (21_740 / temperatureK) - 9.87 + (0.071 * (caO + (0.3 * mgO))) + (2.5 * Math.Log10(metalOxygen));

    /// <summary>
    /// log K of 2[P] + 5[O] = P2O5(l), 1 mass % states: (704 418 − 556.43·T)/(2.3026·R·T). E. T. Turkdogan and J. Pearson 1953, from
    /// memory.
    /// </summary>
    public static double LogKP2O5(double temperatureK) =>
        (704_418 - (556.43 * temperatureK)) / (Math.Log(10) * BanYa.GasConstant * temperatureK);

    /// <summary>
    /// Slag that takes phosphorus from one level to another at equilibrium, kg per t of metal: 1 000 (P₀ − P₁)/(L_P·P₁). Slag free of
    /// phosphorus at the start.
    /// </summary>
    public static double SlagKgPerTonne(double startPercent, double endPercent, double partition)
    {
        ChemistryRangeException.Require(endPercent, double.Epsilon, startPercent, "mass %", "end phosphorus");
        ChemistryRangeException.Require(partition, double.Epsilon, double.MaxValue, "-", "phosphorus partition");
        return 1000 * (startPercent - endPercent) / (partition * endPercent);
    }

    /// <summary>Phosphorus left in the metal, mass %, with slag in kg per t and the partition: P₀/(1 + 0.001 m L_P).</summary>
    public static double EndPhosphorus(double startPercent, double slagKgPerTonne, double partition)
    {
        ChemistryRangeException.Require(startPercent, 0, 100, "mass %", "start phosphorus");
        ChemistryRangeException.Require(slagKgPerTonne, 0, double.MaxValue, "kg/t", "slag mass");
        return startPercent / (1 + (0.001 * slagKgPerTonne * partition));
    }
}
