// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Chemistry.Slag;
using Heatwright.Converter.Blow.Jet;

namespace Heatwright.Learning.Validation;

/// <summary>A published figure beside the same figure computed here.</summary>
/// <param name="Quantity">What.</param>
/// <param name="Unit">Unit.</param>
/// <param name="Here">Computed now.</param>
/// <param name="Published">Published.</param>
/// <param name="Tolerance">Largest distance that counts as agreement.</param>
/// <param name="Source">Publication.</param>
/// <param name="Disagreement">Where sources differ by more than the tolerance: who says what. Otherwise null.</param>
public sealed record PublishedFigure(
    string Quantity, string Unit, double Here, double Published, double Tolerance, string Source, string? Disagreement = null)
{
    /// <summary>True when within the tolerance.</summary>
    public bool Agrees => Math.Abs(Here - Published) <= Tolerance;
}

/// <summary>A cross-section of the published figures that the tests check, computed afresh for the report.</summary>
public static class PublishedFigures
{
    private const string Janaf = "NIST-JANAF Tables, 4th ed. (Chase 1998)";
    private const string If97 = "IAPWS R7-97(2012), verification tables (from memory, reproduced by an independent library)";

    /// <summary>All figures.</summary>
    public static IReadOnlyList<PublishedFigure> All()
    {
        var pure = IronMelt.Pure;
        var slag = new SlagComposition(new Dictionary<Constituent, double>
        {
            [Constituent.CaO] = 47,
            [Constituent.SiO2] = 16,
            [Constituent.FeO] = 22,
            [Constituent.MgO] = 8,
            [Constituent.MnO] = 5,
            [Constituent.P2O5] = 2,
        });
        return
        [
            Content("Fe", 1873, 75.398), Content("C", 1873, 32.355), Content("Si", 1873, 91.300), Content("CO", 1873, 52.152),
            Content("CO2", 1873, 83.799), Content("O2", 1873, 54.401), Content("N2", 1873, 51.582), Content("CaO", 1873, 84.067) with { Disagreement = "NASA-9, used here, is the low one; Berman and Helgeson lie between (82.8–84.1)" },
            Content("MgO", 1873, 79.576), Content("Al2O3", 1873, 192.419), Content("Fe2O3", 1600, 186.397),
            Heat("C + 0.5 O2 = CO", 1873, -117.93), Heat("C + O2 = CO2", 1873, -396.48), Heat("H2 + 0.5 O2 = H2O(g)", 1873, -251.31),
            Constant("CO.BanyaMatoba", 2.619, "Ban-ya & Matoba, Tetsu-to-Hagane 48 (1962)"),
            Constant("H2O.SakaoSano", 0.535, "Sakao & Sano, Trans. JIM 1 (1960)"),
            Constant("SiO2.Jsps", -4.676, "JSPS Steelmaking Data Sourcebook (from memory)"),
            Constant("MnO.Tetsu1963", 0.608, "Tetsu-to-Hagane 1963"),
            new("[O] under liquid iron oxide, 1600 °C", "%", DissolvedOxygen.AtIronOxideSaturation(1873.15), 0.232, 0.003, "oxysulphide-boundary study; Taylor & Chipman 1943: 0.229 (from memory)"),
            new("[C][O] at 0.05 % C, 1600 °C, 1 atm", "%²", DissolvedOxygen.CarbonOxygenProduct(new IronMelt((Element.C, 0.05)), 1873), 0.0025, 0.0003, "0.0020–0.0025 in steelmaking texts (common practice)"),
            new("[N] in iron, 1 atm, 1600 °C", "%", Sieverts.Solubility(Element.N, pure, 1873, 1), 0.0458, 0.001, "Ishii, Ban-ya & Fuwa, ISIJ 1982"),
            new("[H] in iron, 1 atm, 1600 °C", "ppm", 1e4 * Sieverts.Solubility(Element.H, pure, 1873, 1), 25.6, 1.3, "Nozaki et al. 1966"),
            new("carbon at graphite saturation, 1153 °C", "%", GokcenCarbon.SaturationPercent(1426.5), 4.34, 0.15, "stable eutectic, CALPHAD invariants (CompuTherm); Gokcen 1994"),
            new("liquidus at the peritectic, 0.53 % C", "°C", Liquidus.TemperatureK(new IronMelt((Element.C, 0.53)), "Kawawa1973") - 273.15, 1494.6, 1, "CALPHAD invariants (CompuTherm); equation Kawawa 1973"),
            new("CO burnt with air from 25 °C", "K", Flame(), 2398, 10, "NASA TM-4513 (1993) data; about 2394 in general references (from memory)"),
            new("saturated steam, 1 MPa", "K", Steam.SaturationTemperature(1e6), 453.035632, 1e-5, If97),
            new("saturation pressure, 300 K", "Pa", Steam.SaturationPressure(300), 3536.58941, 1e-4, If97),
            new("liquid water, 300 K and 3 MPa: enthalpy", "kJ/kg", Steam.At(3e6, 300).Enthalpy / 1000, 115.331273, 1e-6, If97),
            new("area ratio of a nozzle at Mach 2", "-", IsentropicFlow.AreaRatio(2), 1.6875, 1e-4, "NACA Report 1135 (1953), table II (from memory)"),
            new("pressure ratio of a nozzle at Mach 2", "-", IsentropicFlow.PressureRatio(2), 0.1278, 6e-5, "NACA Report 1135 (1953), table II (from memory)"),
            new("log L_P of an ordinary end slag, 1650 °C (Assis 2015 against Ide & Fruehan 2000)", "-", Partition(slag, PhosphorusModel.Assis2015), Partition(slag, PhosphorusModel.IdeFruehan2000), 0.5, "two correlations beside each other: they differ by a factor of 2–3"),
        ];
    }

    private static double Partition(SlagComposition slag, PhosphorusModel model) => PhosphorusPartition.Of(model, slag, 1923.15).LogPartition;

    private static PublishedFigure Content(string substance, double kelvin, double kJPerMol)
    {
        Substance s = Substances.Get(substance);
        return new($"H({kelvin:F0}) − H(298) of {substance}", "kJ/mol", (s.Enthalpy(kelvin) - s.Enthalpy(298.15)) / 1000, kJPerMol, Math.Max(0.3, 0.005 * kJPerMol), Janaf);
    }

    private static PublishedFigure Heat(string reaction, double kelvin, double kJPerMol) =>
        new($"ΔH of {reaction} at {kelvin:F0} K", "kJ/mol", Reaction.Parse(reaction).Enthalpy(kelvin) / 1000, kJPerMol, 0.3, Janaf);

    private static PublishedFigure Constant(string id, double log10, string source)
    {
        ReactionConstant row = EquilibriumConstants.Get(id);
        return new($"log K of {row.Reaction} at 1873 K", "-", row.Evaluate(1873).Log10K, log10, 0.005, source);
    }

    private static double Flame() => Combustion.Adiabatic(
        [new GasFeed(new GasMixture((GasSpecies.CO, 1)), 1, 298.15), new GasFeed(new GasMixture((GasSpecies.O2, 21), (GasSpecies.N2, 79)), 0.5 / 0.21, 298.15)]).TemperatureK;
}
