// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Store;

namespace Heatwright.Journal.Views;

/// <summary>A material over many heats.</summary>
/// <param name="Material">Name (<see cref="MaterialKey"/>).</param>
/// <param name="PlannedKg">Sum of the plans in force, kg; of the heats that have one.</param>
/// <param name="ActualKg">Sum of what was weighed, kg.</param>
/// <param name="PlannedHeats">Heats whose plan names it.</param>
/// <param name="ActualHeats">Heats into which it went.</param>
public sealed record MaterialLine(string Material, double PlannedKg, double ActualKg, int PlannedHeats, int ActualHeats)
{
    /// <summary>Actual less planned, kg.</summary>
    public double DifferenceKg => ActualKg - PlannedKg;
}

/// <summary>Material planned and used over a range of shift dates.</summary>
/// <param name="From">First date, as shifts carry it.</param>
/// <param name="To">Last date.</param>
/// <param name="Heats">Heats in the range.</param>
/// <param name="SteelKg">Steel of those that say it, kg.</param>
/// <param name="Lines">Materials by name.</param>
public sealed record MaterialUse(DateOnly From, DateOnly To, int Heats, double SteelKg, IReadOnlyList<MaterialLine> Lines)
{
    /// <summary>Material use of the heats that belong to the shift dates from one to another, both included.</summary>
    public static MaterialUse Of(HeatList list, DateOnly from, DateOnly to)
    {
        ArgumentNullException.ThrowIfNull(list);
        var planned = new Sums();
        var actual = new Sums();
        int heats = 0;
        double steelKg = 0;
        string Text(DateOnly date) => date.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);
        foreach (HeatRow row in list.All(new HeatFilter(FromShiftDate: Text(from), ToShiftDate: Text(to), Order: HeatOrder.Oldest)))
        {
            HeatSummary summary = HeatSummary.Of(row);
            heats++;
            steelKg += summary.SteelKg ?? 0;
            planned.Add(summary.Planned);
            actual.Add(summary.Actual);
        }

        return new MaterialUse(
            from,
            to,
            heats,
            steelKg,
            [
                .. planned.Kg.Keys.Union(actual.Kg.Keys).Order(StringComparer.Ordinal)
                    .Select(m => new MaterialLine(m, planned.Of(m).Kg, actual.Of(m).Kg, planned.Of(m).Heats, actual.Of(m).Heats)),
            ]);
    }

    private sealed class Sums
    {
        public Dictionary<string, (double Kg, int Heats)> Kg { get; } = new(StringComparer.Ordinal);

        public (double Kg, int Heats) Of(string material) => Kg.GetValueOrDefault(material);

        public void Add(IReadOnlyDictionary<string, double> masses)
        {
            foreach ((string material, double kg) in masses)
            {
                (double sum, int heats) = Of(material);
                Kg[material] = (sum + kg, heats + 1);
            }
        }
    }
}
