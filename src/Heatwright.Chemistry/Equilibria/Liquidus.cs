// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry;

/// <summary>
/// Liquidus temperature of steel and of Fe–C by published equations (Data/liquidus.csv), and its inverse: carbon from the
/// liquidus arrest of a sample. A DSC/DTA assessment of 180 measurements (Metall. Mater. Trans. B 52 (2021) 2821) found the
/// best recent equation good to 2.1 ± 1.6 K; the equations here agree within 4 K below 0.2 % C.
/// </summary>
public static class Liquidus
{
    /// <summary>The equation used when none is named: phosphorus and sulphur terms included, right at the peritectic point.</summary>
    public const string DefaultEquation = "Kawawa1973";

    private static readonly Element[] Elements =
    [
        Element.Si, Element.Mn, Element.P, Element.S, Element.Cu, Element.Ni, Element.Cr, Element.Mo, Element.V, Element.Ti, Element.Al,
        Element.O, Element.N,
    ];

    private static readonly Lazy<LiquidusEquation[]> Table = new(() => [.. DataFile.ReadCsv("liquidus.csv").Select(Read)]);

    /// <summary>All rows; an equation with two carbon ranges has two rows.</summary>
    public static IReadOnlyList<LiquidusEquation> Rows => Table.Value;

    /// <summary>Liquidus temperature, K.</summary>
    /// <exception cref="ChemistryRangeException">Carbon is outside the equation's range.</exception>
    /// <exception cref="KeyNotFoundException">There is no such equation.</exception>
    public static double TemperatureK(IronMelt melt, string equation = DefaultEquation)
    {
        ArgumentNullException.ThrowIfNull(melt);
        LiquidusEquation[] rows = Find(equation);
        double carbon = ChemistryRangeException.Require(
            melt[Element.C], rows[0].FromPercentC, rows[^1].ToPercentC, "mass %", "carbon of liquidus equation " + equation);
        LiquidusEquation row = Array.Find(rows, r => carbon < r.ToPercentC) ?? rows[^1];
        return row.TemperatureK(carbon, melt);
    }

    /// <summary>Carbon, mass-%, whose liquidus is the measured arrest, for the given other elements (the melt's own carbon is
    /// ignored).</summary>
    /// <exception cref="ChemistryRangeException">
    /// The arrest lies outside what the equation spans between its least and greatest carbon; limits in K.
    /// </exception>
    /// <exception cref="KeyNotFoundException">There is no such equation.</exception>
    public static double CarbonFromArrest(double arrestK, IronMelt others, string equation = DefaultEquation)
    {
        ArgumentNullException.ThrowIfNull(others);
        LiquidusEquation[] rows = Find(equation);
        double hottest = rows[0].TemperatureK(rows[0].FromPercentC, others);
        double coldest = rows[^1].TemperatureK(rows[^1].ToPercentC, others);
        ChemistryRangeException.Require(arrestK, coldest, hottest, "K", "liquidus arrest for equation " + equation);

        // An equation in two parts may step where they meet; the first part that holds the arrest is taken.
        LiquidusEquation row = Array.Find(rows, r => arrestK >= r.TemperatureK(r.ToPercentC, others)) ?? rows[^1];
        double a = row.CarbonSquared;
        double b = row.Carbon;
        double c = arrestK - row.TemperatureK(0, others);
        return a == 0 ? -c / b : (-b + Math.Sqrt((b * b) - (4 * a * c))) / (2 * a);
    }

    /// <summary>
    /// Carbon at graphite saturation of hot metal, mass-%: 1.30 + 0.00257 t(°C) − 0.31 Si − 0.33 P − 0.45 S + 0.028 Mn. Chipman;
    /// Neumann; both
    /// from memory. 1150–1650 °C. For Fe–C alone <see cref="GokcenCarbon.SaturationPercent"/> is the published route.
    /// </summary>
    /// <exception cref="ChemistryRangeException">The temperature is outside 1423–1923 K.</exception>
    public static double GraphiteSaturationPercent(double temperatureK, IronMelt others)
    {
        ArgumentNullException.ThrowIfNull(others);
        ChemistryRangeException.Require(temperatureK, 1423.15, 1923.15, "K", "temperature of graphite saturation");
        return 1.30 + (0.00257 * (temperatureK - PhysicalConstants.ZeroCelsiusK))
            - (0.31 * others[Element.Si]) - (0.33 * others[Element.P]) - (0.45 * others[Element.S]) + (0.028 * others[Element.Mn]);
    }

    private static LiquidusEquation[] Find(string equation)
    {
        LiquidusEquation[] rows = [.. Table.Value.Where(r => r.Id == equation)];
        if (rows.Length > 0)
        {
            return rows;
        }

        string known = string.Join(", ", Table.Value.Select(r => r.Id).Distinct(StringComparer.Ordinal));
        throw new KeyNotFoundException($"No liquidus equation '{equation}'. There are: {known}.");
    }

    private static LiquidusEquation Read(DataFile.Row r) => new(
        r.Text("id"),
        r.Number("base_C"),
        r.Number("C"),
        r.Number("C2"),
        [.. Elements.Select(e => (e, r.Number(e.ToString()))).Where(p => p.Item2 != 0)],
        r.Number("from_C"),
        r.Number("to_C"),
        r.Text("mark") == "from memory",
        r.Text("source"),
        r.Text("note"));
}

/// <summary>One liquidus equation t = base − Σ slope × mass-%.</summary>
/// <param name="Id">Name.</param>
/// <param name="BaseC">Liquidus of pure iron in the equation, °C.</param>
/// <param name="Carbon">Slope for carbon, K per mass-%.</param>
/// <param name="CarbonSquared">Slope for carbon squared, K per mass-%².</param>
/// <param name="Slopes">Other elements, K per mass-%.</param>
/// <param name="FromPercentC">Least carbon, mass-%.</param>
/// <param name="ToPercentC">Greatest carbon, mass-%.</param>
/// <param name="FromMemory">True when recalled.</param>
/// <param name="Source">Publication.</param>
/// <param name="Note">Remark, may be empty.</param>
public sealed record LiquidusEquation(
    string Id,
    double BaseC,
    double Carbon,
    double CarbonSquared,
    IReadOnlyList<(Element Element, double Slope)> Slopes,
    double FromPercentC,
    double ToPercentC,
    bool FromMemory,
    string Source,
    string Note)
{
    internal double TemperatureK(double carbon, IronMelt others) =>
        BaseC + PhysicalConstants.ZeroCelsiusK - (Carbon * carbon) - (CarbonSquared * carbon * carbon) - Slopes.Sum(s => s.Slope * others[s.Element]);
}
