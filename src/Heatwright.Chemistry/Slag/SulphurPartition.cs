// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry.Slag;

/// <summary>Sulphide capacity and sulphur partition. In a converter the slag takes little sulphur: a_O is high.</summary>
public static class SulphurPartition
{
    /// <summary>
    /// log C_S = (22 690 − 54 640 Λ)/T + 43.6 Λ − 25.2. D. J. Sosinsky, I. D. Sommerville, Metall. Trans. B 17 (1986) 331–337,
    /// coefficients from memory; 1 400–1 700 °C, fitted on slags poor in iron oxide.
    /// </summary>
    /// <exception cref="ChemistryRangeException">Λ outside 0.5–0.9 or temperature outside 1 673–2 000 K.</exception>
    public static double LogSulphideCapacity(double temperatureK, double opticalBasicity)
    {
        ChemistryRangeException.Require(temperatureK, 1673, 2000, "K", "temperature of the slag");
        ChemistryRangeException.Require(opticalBasicity, 0.5, 0.9, "-", "optical basicity");
        return ((22_690 - (54_640 * opticalBasicity)) / temperatureK) + (43.6 * opticalBasicity) - 25.2;
    }

    /// <summary>
    /// log L_S = log C_S − 935/T + 1.375 + log f_S − log a_O, L_S = (%S)/[%S], a_O in mass %. M. A. T. Andersson, P. G. Jönsson,
    /// M. M. Nzotta, ISIJ Int. 39 (1999) 1140, as carried in lecture notes.
    /// </summary>
    public static double LogPartition(double temperatureK, double logSulphideCapacity, double sulphurActivityCoefficient, double oxygenActivity)
    {
        ChemistryRangeException.Require(temperatureK, 1673, 2000, "K", "temperature of the metal");
        ChemistryRangeException.Require(sulphurActivityCoefficient, 0.01, 100, "-", "activity coefficient of sulphur");
        ChemistryRangeException.Require(oxygenActivity, 1e-6, 1, "mass %", "oxygen activity");
        return logSulphideCapacity - (935 / temperatureK) + 1.375 + Math.Log10(sulphurActivityCoefficient) - Math.Log10(oxygenActivity);
    }

    /// <summary>[S]/[S]₀ = 1/(1 + 0.001 m L_S) with slag m in kg per t of metal; mass balance, slag free of sulphur at the start.</summary>
    public static double MetalShare(double slagKgPerTonne, double partition)
    {
        ChemistryRangeException.Require(slagKgPerTonne, 0, double.MaxValue, "kg/t", "slag mass");
        ChemistryRangeException.Require(partition, 0, double.MaxValue, "-", "sulphur partition");
        return 1 / (1 + (0.001 * slagKgPerTonne * partition));
    }
}
