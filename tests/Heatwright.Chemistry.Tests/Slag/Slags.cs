// SPDX-License-Identifier: Apache-2.0
using CsCheck;
using Heatwright.Chemistry.Slag;

namespace Heatwright.Chemistry.Tests.Slag;

/// <summary>Slags that several tests share.</summary>
internal static class Slags
{
    /// <summary>A chosen converter slag, CaO/SiO2 3.4, no measured one.</summary>
    public static SlagComposition Converter { get; } = Of(caO: 48, siO2: 14, mgO: 8, feO: 22, mnO: 4, p2O5: 1.5, al2O3: 1.5, exact: false);

    public static SlagComposition Of(
        double caO, double siO2, double mgO = 0, double feO = 0, double mnO = 0, double p2O5 = 0, double al2O3 = 0, double fe2O3 = 0, bool exact = true)
    {
        var parts = new Dictionary<Constituent, double>
        {
            [Constituent.CaO] = caO,
            [Constituent.SiO2] = siO2,
            [Constituent.MgO] = mgO,
            [Constituent.FeO] = feO,
            [Constituent.MnO] = mnO,
            [Constituent.P2O5] = p2O5,
            [Constituent.Al2O3] = al2O3,
            [Constituent.Fe2O3] = fe2O3,
        };
        return exact ? new SlagComposition(parts) : SlagComposition.FromMasses(parts);
    }

    /// <summary>Random slags from acid and early to limey and late.</summary>
    public static Gen<SlagComposition> Random { get; } =
        Gen.Select(
            Gen.Double[25, 55], Gen.Double[8, 35], Gen.Double[2, 14], Gen.Double[8, 35], Gen.Double[1, 12], Gen.Double[0.3, 4], Gen.Double[0.3, 5], Gen.Double[0, 6],
            (caO, siO2, mgO, feO, mnO, p2O5, al2O3, fe2O3) => Of(caO, siO2, mgO, feO, mnO, p2O5, al2O3, fe2O3, exact: false));
}
