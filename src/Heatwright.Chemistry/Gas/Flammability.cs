// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry;

/// <summary>
/// Limits of flammability of gas mixtures in air at room temperature by Le Chatelier's rule. Limits of the pure gases: Zabetakis,
/// Bureau of Mines
/// Bulletin 627 (1965), from memory (Data/flammability.csv). The limits widen with temperature and with oxygen, and diluents are only
/// counted as
/// volume: this describes the gas, it does not clear a situation. Local codes and the plant's procedures decide.
/// </summary>
public static class Flammability
{
    private sealed record Limits(GasSpecies Gas, double Lower, double Upper, double LeastOxygen);

    private static readonly Lazy<Limits[]> Table = new(() => [.. DataFile.ReadCsv("flammability.csv").Select(r => new Limits(
        r.Enumeration<GasSpecies>("gas"), r.Number("lower"), r.Number("upper"), r.Number("least_oxygen")))]);

    /// <summary>Volume % of this gas in air at the lower limit, or null when it holds nothing that burns or is too dilute to reach
    /// it.</summary>
    public static double? LowerLimitPercentInAir(GasMixture gas) => Limit(gas, l => l.Lower);

    /// <summary>Volume % of this gas in air at the upper limit, or null as for the lower limit.</summary>
    public static double? UpperLimitPercentInAir(GasMixture gas) => Limit(gas, l => l.Upper);

    /// <summary>
    /// Least oxygen, volume %, for a flame when nitrogen is the diluent: weighted over the burnable gases as the limits are (common
    /// practice, no
    /// source for mixtures). Null when nothing burns.
    /// </summary>
    public static double? LeastOxygenPercent(GasMixture gas)
    {
        (double burnable, double sum) = Sum(gas, l => l.LeastOxygen);
        return burnable > 0 ? burnable / sum : null;
    }

    /// <summary>Fraction of the gas that burns, mol/mol.</summary>
    public static double BurnableFraction(GasMixture gas) => Sum(gas, _ => 1).Burnable;

    private static double? Limit(GasMixture gas, Func<Limits, double> limit)
    {
        // 100 Σy/Σ(y/L) is the limit of the burnable part; dividing by its share gives that of the whole gas.
        (double burnable, double sum) = Sum(gas, limit);
        if (burnable == 0)
        {
            return null;
        }

        double percent = 1 / sum;
        return percent <= 100 ? percent : null;
    }

    private static (double Burnable, double Sum) Sum(GasMixture gas, Func<Limits, double> limit)
    {
        ArgumentNullException.ThrowIfNull(gas);
        double burnable = 0;
        double sum = 0;
        foreach (Limits row in Table.Value)
        {
            burnable += gas[row.Gas];
            sum += gas[row.Gas] / limit(row);
        }

        return (burnable, sum);
    }
}
