// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry;

/// <summary>Coefficients of IAPWS-IF97 from Data/if97.csv.</summary>
internal sealed class If97Tables
{
    private static readonly Lazy<If97Tables> Loaded = new(() => new If97Tables());

    private If97Tables()
    {
        ILookup<string, Term> terms = DataFile.ReadCsv("if97.csv").ToLookup(
            r => r.Text("region"), r => new Term((int)(r.OptionalNumber("I") ?? 0), (int)(r.OptionalNumber("J") ?? 0), r.Number("n")));
        Region1 = [.. terms["1"]];
        Region2Ideal = [.. terms["2o"]];
        Region2Residual = [.. terms["2r"]];
        Region3 = [.. terms["3"]];
        Region4 = [.. terms["4"].Select(t => t.N)];
        Boundary23 = [.. terms["B23"].Select(t => t.N)];
    }

    public static If97Tables Instance => Loaded.Value;

    public Term[] Region1 { get; }

    public Term[] Region2Ideal { get; }

    public Term[] Region2Residual { get; }

    /// <summary>The first term is that of ln δ.</summary>
    public Term[] Region3 { get; }

    public double[] Region4 { get; }

    public double[] Boundary23 { get; }

    public readonly record struct Term(int I, int J, double N);
}
