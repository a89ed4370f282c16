// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry;

/// <summary>
/// Nitrogen and hydrogen in liquid iron under their gas: [%X] f_X = 10^(A/T+B) √p. Sources: N, Ishii, Ban-ya &amp; Fuwa 1982
/// (1853–2003 K); H, Nozaki et al. 1966 (1723–1943 K). Data/sieverts.csv.
/// </summary>
public static class Sieverts
{
    private sealed record Row(Element Solute, double A, double B, double FromK, double ToK);

    private static readonly Lazy<Row[]> Table = new(() => [.. DataFile.ReadCsv("sieverts.csv").Select(r => new Row(
        r.Enumeration<Element>("solute"), r.Number("A_K"), r.Number("B"), r.Number("from_K"), r.Number("to_K")))]);

    /// <summary>Dissolved gas at equilibrium, mass-%.</summary>
    /// <param name="gas"><see cref="Element.N"/> or <see cref="Element.H"/>.</param>
    /// <param name="melt">Composition that sets the activity coefficient.</param>
    /// <param name="temperatureK">Temperature, K.</param>
    /// <param name="pressureAtm">Pressure of N2 or H2, atm.</param>
    /// <param name="options">Activity model.</param>
    /// <exception cref="ChemistryRangeException">The temperature is outside the measured range or the pressure outside 0–100
    /// atm.</exception>
    /// <exception cref="ArgumentException">The element is neither nitrogen nor hydrogen.</exception>
    public static double Solubility(Element gas, IronMelt melt, double temperatureK, double pressureAtm, ActivityOptions options = default)
    {
        Row row = Array.Find(Table.Value, r => r.Solute == gas)
            ?? throw new ArgumentException($"{gas} is not a gas of the table: nitrogen and hydrogen are.", nameof(gas));
        ChemistryRangeException.Require(temperatureK, row.FromK, row.ToK, "K", $"temperature of {gas} solubility");
        ChemistryRangeException.Require(pressureAtm, 0, 100, "atm", $"pressure of {gas}2");
        ArgumentNullException.ThrowIfNull(melt);

        // The melt's own N or H is left out: its self-interaction is zero in the table.
        double f = Math.Pow(10, IronActivity.LogCoefficient(gas, melt.With(gas, 0), temperatureK, options));
        return Math.Pow(10, (row.A / temperatureK) + row.B) * Math.Sqrt(pressureAtm) / f;
    }
}
