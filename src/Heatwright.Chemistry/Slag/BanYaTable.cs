// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry.Slag;

/// <summary>Interaction energy of two cations in the quadratic formalism.</summary>
/// <param name="First">One cation.</param>
/// <param name="Second">The other.</param>
/// <param name="JoulePerMole">α, J/mol; the same both ways round.</param>
/// <param name="Trust">Where the number comes from.</param>
public sealed record InteractionEnergy(SlagCation First, SlagCation Second, double JoulePerMole, SourceTrust Trust);

/// <summary>
/// Energy of going from a real standard state to the hypothetical regular-solution one, ΔG = A + B·T in J/mol of oxide as
/// written: RT ln a(real) = ν·RT ln a(regular solution) + ΔG, with ν cations in the oxide as written.
/// </summary>
/// <param name="Name">Short name.</param>
/// <param name="Reaction">The reaction it belongs to.</param>
/// <param name="Cation">Cation whose regular-solution activity is converted.</param>
/// <param name="CationsPerFormula">ν.</param>
/// <param name="A">Temperature-independent part, J/mol.</param>
/// <param name="B">Slope, J/(mol·K).</param>
/// <param name="Trust">Where the numbers come from.</param>
public sealed record ConversionEnergy(string Name, string Reaction, SlagCation Cation, int CationsPerFormula, double A, double B, SourceTrust Trust)
{
    /// <summary>ΔG at the temperature (K), J/mol.</summary>
    public double JoulePerMole(double temperatureK) => A + (B * temperatureK);
}

/// <summary>
/// The numbers of S. Ban-ya, "Mathematical expression of slag–metal reactions in steelmaking process by quadratic
/// formalism based on the regular solution model", ISIJ Int. 33 (1993) 2–11, from memory of its tables of interaction
/// and conversion energies. What supports them without the paper is said in docs/handbook/20-slag.md: the oxygen and
/// phosphorus side agrees with independent partition data, the Ca–Mg and Ca–Mn pairs do not give MgO saturation or the
/// measured Mn partition of limey slags.
/// </summary>
public static class BanYaTable
{
    private const SourceTrust Memory = SourceTrust.FromMemory;

    /// <summary>Pairs with a known energy. A pair that is missing has none published that we know of and counts as zero.</summary>
    public static IReadOnlyList<InteractionEnergy> Interactions { get; } =
    [
        new(SlagCation.Fe2, SlagCation.Fe3, -18_660, Memory),
        new(SlagCation.Fe2, SlagCation.Ca, -31_380, Memory),
        new(SlagCation.Fe2, SlagCation.Mg, 33_470, Memory),
        new(SlagCation.Fe2, SlagCation.Mn, 7_110, Memory),
        new(SlagCation.Fe2, SlagCation.Si, -41_840, Memory),
        new(SlagCation.Fe2, SlagCation.P, -31_380, Memory),
        new(SlagCation.Fe2, SlagCation.Ti, -37_660, Memory),
        new(SlagCation.Fe2, SlagCation.Al, -41_000, Memory),
        new(SlagCation.Fe3, SlagCation.Ca, -95_810, Memory),
        new(SlagCation.Fe3, SlagCation.Mg, -2_930, Memory),
        new(SlagCation.Fe3, SlagCation.Mn, -56_480, Memory),
        new(SlagCation.Fe3, SlagCation.Si, 32_640, Memory),
        new(SlagCation.Fe3, SlagCation.P, 14_640, Memory),
        new(SlagCation.Fe3, SlagCation.Ti, 1_260, Memory),
        new(SlagCation.Fe3, SlagCation.Al, -161_080, Memory),
        new(SlagCation.Ca, SlagCation.Mg, -100_420, Memory),
        new(SlagCation.Ca, SlagCation.Mn, -92_050, Memory),
        new(SlagCation.Ca, SlagCation.Si, -133_890, Memory),
        new(SlagCation.Ca, SlagCation.P, -251_040, Memory),
        new(SlagCation.Ca, SlagCation.Ti, -167_360, Memory),
        new(SlagCation.Ca, SlagCation.Al, -154_810, Memory),
        new(SlagCation.Mg, SlagCation.Mn, 61_920, Memory),
        new(SlagCation.Mg, SlagCation.Si, -66_940, Memory),
        new(SlagCation.Mg, SlagCation.P, -37_660, Memory),
        new(SlagCation.Mg, SlagCation.Al, -71_130, Memory),
        new(SlagCation.Mn, SlagCation.Si, -75_310, Memory),
        new(SlagCation.Mn, SlagCation.P, -84_940, Memory),
        new(SlagCation.Mn, SlagCation.Ti, -66_940, Memory),
        new(SlagCation.Mn, SlagCation.Al, -83_680, Memory),
        new(SlagCation.Si, SlagCation.P, 83_680, Memory),
        new(SlagCation.Si, SlagCation.Ti, 104_600, Memory),
        new(SlagCation.Si, SlagCation.Al, -127_610, Memory),
        new(SlagCation.P, SlagCation.Al, -261_500, Memory),
    ];

    /// <summary>Pairs of the nine cations that are not in the table: zero by want of data, not by measurement.</summary>
    public static IReadOnlyList<(SlagCation First, SlagCation Second)> Missing { get; } =
        [(SlagCation.Mg, SlagCation.Ti), (SlagCation.P, SlagCation.Ti), (SlagCation.Ti, SlagCation.Al)];

    /// <summary>Liquid iron oxide in equilibrium with iron → FeO of the model.</summary>
    public static ConversionEnergy FeOLiquid { get; } =
        new("FetO(l)", "FetO(l) + (1-t)Fe = FeO(R.S.)", SlagCation.Fe2, 1, -8_540, 7.142, Memory);

    /// <summary>Silica as β-cristobalite → SiO2 of the model.</summary>
    public static ConversionEnergy SiO2Cristobalite { get; } =
        new("SiO2(cristobalite)", "SiO2(β-cristobalite) = SiO2(R.S.)", SlagCation.Si, 1, 27_030, -1.983, Memory);

    /// <summary>Liquid MnO → MnO of the model. Differs from the solid by 54.39 kJ/mol, JANAF's heat of fusion of MnO.</summary>
    public static ConversionEnergy MnOLiquid { get; } =
        new("MnO(l)", "MnO(l) = MnO(R.S.)", SlagCation.Mn, 1, -86_860, 51.465, Memory);

    /// <summary>Solid MnO → MnO of the model.</summary>
    public static ConversionEnergy MnOSolid { get; } =
        new("MnO(s)", "MnO(s) = MnO(R.S.)", SlagCation.Mn, 1, -32_470, 26.143, Memory);

    /// <summary>Liquid P2O5 → two PO2.5 of the model.</summary>
    public static ConversionEnergy P2O5Liquid { get; } =
        new("P2O5(l)", "P2O5(l) = 2 PO2.5(R.S.)", SlagCation.P, 2, 52_720, -230.706, Memory);

    /// <summary>Solid lime → CaO of the model.</summary>
    public static ConversionEnergy CaOSolid { get; } =
        new("CaO(s)", "CaO(s) = CaO(R.S.)", SlagCation.Ca, 1, 18_160, -23.309, Memory);

    /// <summary>Liquid lime → CaO of the model.</summary>
    public static ConversionEnergy CaOLiquid { get; } =
        new("CaO(l)", "CaO(l) = CaO(R.S.)", SlagCation.Ca, 1, -40_880, -4.703, Memory);

    /// <summary>Solid magnesia → MgO of the model.</summary>
    public static ConversionEnergy MgOSolid { get; } =
        new("MgO(s)", "MgO(s) = MgO(R.S.)", SlagCation.Mg, 1, 34_350, -16.736, Memory);

    /// <summary>Liquid magnesia → MgO of the model.</summary>
    public static ConversionEnergy MgOLiquid { get; } =
        new("MgO(l)", "MgO(l) = MgO(R.S.)", SlagCation.Mg, 1, -23_300, 1.833, Memory);

    /// <summary>All conversions.</summary>
    public static IReadOnlyList<ConversionEnergy> Conversions { get; } =
        [FeOLiquid, SiO2Cristobalite, MnOLiquid, MnOSolid, P2O5Liquid, CaOSolid, CaOLiquid, MgOSolid, MgOLiquid];
}
