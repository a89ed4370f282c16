// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Converter.Blow;

/// <summary>
/// A phosphorus partition of the common form log10 L_P = Σ aᵢ(%i) + b/T + c + n·log10(%T.Fe), as a line of numbers for the blow.
/// </summary>
internal sealed class PhosphorusLine
{
    private readonly double[] _coefficients;

    private PhosphorusLine(double caO, double mgO, double p2O5, double mnO, double siO2, double al2O3, double inverseT, double constant, double logIron) =>
        _coefficients = [caO, mgO, p2O5, mnO, siO2, al2O3, inverseT, constant, logIron];

    /// <summary>CaO, MgO, P2O5, MnO, SiO2, Al2O3 (per mass %), 1/T, constant, log10(%T.Fe).</summary>
    public ReadOnlySpan<double> Coefficients => _coefficients;

    public static PhosphorusLine Of(PhosphorusPartitionChoice choice) => choice switch
    {
        PhosphorusPartitionChoice.Healy => new(0.08, 0, 0, 0, 0, 0, 22350, -16.0, 2.5),
        PhosphorusPartitionChoice.SuitoInoue => new(0.072, 0.072 * 0.3, 0.072 * 0.6, 0.072 * 0.6, 0, 0, 11570, -10.520, 2.5),
        PhosphorusPartitionChoice.IdeFruehan => new(0.072, 0.072 * 0.15, 0.072 * 0.6, 0.072 * 0.6, 0, 0, 11570, -10.52, 2.5),
        _ => new(0.073, 0.073 * 0.148, 0.073 * 0.96, 0, 0.073 * 0.144, 0.073 * 0.22, 11570, -10.46, 2.5),
    };
}

/// <summary>Which published phosphorus partition the blow uses. They differ by a factor of two to three; see the handbook, chapter 20.</summary>
public enum PhosphorusPartitionChoice
{
    /// <summary>Assis et al., Metall. Mater. Trans. B 46 (2015) 2255 (coefficients from memory). The default.</summary>
    Assis,
    /// <summary>Healy, J. Iron Steel Inst. 208 (1970) 664 (from memory).</summary>
    Healy,
    /// <summary>Suito &amp; Inoue, Tetsu-to-Hagane 70 (1984) 186, equation iii (abstract).</summary>
    SuitoInoue,
    /// <summary>Ide &amp; Fruehan, Iron &amp; Steelmaker 27(12) (2000) 65 (from memory).</summary>
    IdeFruehan,
}
