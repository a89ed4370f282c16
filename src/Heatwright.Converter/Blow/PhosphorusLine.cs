// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry.Slag;

namespace Heatwright.Converter.Blow;

/// <summary>
/// A phosphorus partition of the common form log10 L_P = Σ aᵢ(%i) + b/T + c + n·log10(%T.Fe), as a line of numbers for the blow.
/// The numbers are read off the published functions of <see cref="PhosphorusCorrelations"/>, so there is one copy of them.
/// </summary>
internal sealed class PhosphorusLine
{
    private readonly double[] _coefficients;

    private PhosphorusLine(Func<double, double, double, double, double, double, double, double, double> logLp)
    {
        // Arguments: T, CaO, MgO, P2O5, MnO, SiO2, Al2O3, T.Fe. Differences of a linear function are its coefficients.
        const double t1 = 1800, t2 = 1900;
        double zero = logLp(t1, 0, 0, 0, 0, 0, 0, 1);
        double inverse = (logLp(t2, 0, 0, 0, 0, 0, 0, 1) - zero) / ((1 / t2) - (1 / t1));
        _coefficients =
        [
            logLp(t1, 1, 0, 0, 0, 0, 0, 1) - zero,
            logLp(t1, 0, 1, 0, 0, 0, 0, 1) - zero,
            logLp(t1, 0, 0, 1, 0, 0, 0, 1) - zero,
            logLp(t1, 0, 0, 0, 1, 0, 0, 1) - zero,
            logLp(t1, 0, 0, 0, 0, 1, 0, 1) - zero,
            logLp(t1, 0, 0, 0, 0, 0, 1, 1) - zero,
            inverse,
            zero - (inverse / t1),
            logLp(t1, 0, 0, 0, 0, 0, 0, 10) - zero,
        ];
    }

    /// <summary>CaO, MgO, P2O5, MnO, SiO2, Al2O3 (per mass %), 1/T, constant, log10(%T.Fe).</summary>
    public ReadOnlySpan<double> Coefficients => _coefficients;

    /// <exception cref="ArgumentOutOfRangeException">The partition is not of the common form.</exception>
    public static PhosphorusLine Of(PhosphorusModel model) => model switch
    {
        PhosphorusModel.Healy1970 => new((t, ca, _, _, _, _, _, fe) => PhosphorusCorrelations.LogLpHealy1970(t, ca, fe)),
        PhosphorusModel.SuitoInoue1984 => new((t, ca, mg, p, mn, _, _, fe) => PhosphorusCorrelations.LogLpSuitoInoue1984(t, ca, mg, p, mn, fe)),
        PhosphorusModel.Tetsu1986 => new((t, ca, mg, _, _, _, _, fe) => PhosphorusCorrelations.LogLpTetsu1986(t, ca, mg, fe)),
        PhosphorusModel.IdeFruehan2000 => new((t, ca, mg, p, mn, _, _, fe) => PhosphorusCorrelations.LogLpIdeFruehan2000(t, ca, mg, p, mn, fe)),
        PhosphorusModel.Assis2015 => new((t, ca, mg, p, _, si, al, fe) => PhosphorusCorrelations.LogLpAssis2015(t, ca, mg, p, si, al, fe)),
        _ => throw new ArgumentOutOfRangeException(nameof(model), model, $"The blow takes a partition in %T.Fe and slag analysis; {model} is not one. Choose Healy1970, SuitoInoue1984, Tetsu1986, IdeFruehan2000 or Assis2015."),
    };
}
