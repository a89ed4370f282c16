// SPDX-License-Identifier: Apache-2.0
using CsCheck;
using Heatwright.Chemistry;
using Heatwright.Converter.Blow;
using Heatwright.Converter.Charge;

namespace Heatwright.Converter.Tests.Charge;

public sealed class EnsembleDrawTests
{
    [Fact]
    public void Same_seed_draws_the_same_members_and_another_seed_others()
    {
        var one = new EnsembleDraw(50, 7);
        var same = new EnsembleDraw(50, 7);
        var other = new EnsembleDraw(50, 8);
        HeatInput heat = TestHeats.Ordinary();

        Assert.Equal(one.Sets, same.Sets);
        Assert.Equal(one.Truth(heat, 13).HotMetal.MassKg, same.Truth(heat, 13).HotMetal.MassKg);
        Assert.NotEqual(one.Sets, other.Sets);
    }

    [Fact]
    public void Without_spread_the_truth_is_what_was_written()
    {
        var draw = new EnsembleDraw(3, 1, ParameterSpread.None, InputSpread.None);
        HeatInput heat = TestHeats.Ordinary();

        BlowPoint written = BlowModel.Run(heat).End;
        Assert.All(draw.Run(heat), r => Assert.Equal(written.TemperatureK, r.End.TemperatureK));
        Assert.All(draw.Sets, s => Assert.Equal(ModelParameters.Default, s));
    }

    /// <summary>A stratified sample of a normal distribution has its mean and its standard deviation almost exactly.</summary>
    [Fact]
    public void Members_have_the_mean_and_the_standard_deviation_they_are_drawn_with()
    {
        var inputs = InputSpread.Default with { HotMetalTemperatureK = 9, HotMetalMassPercent = 0.7 };
        var draw = new EnsembleDraw(1000, 3, inputs: inputs);
        HeatInput heat = TestHeats.Ordinary();
        double[] kelvin = [.. Enumerable.Range(0, draw.Count).Select(i => draw.Truth(heat, i).HotMetal.TemperatureK - heat.HotMetal.TemperatureK)];
        double[] mass = [.. Enumerable.Range(0, draw.Count).Select(i => (draw.Truth(heat, i).HotMetal.MassKg / heat.HotMetal.MassKg) - 1)];

        Assert.Equal(0, kelvin.Average(), 0.02);
        Assert.Equal(9, Deviation(kelvin), 0.1);
        Assert.Equal(0.007, Deviation(mass), 1e-4);
        Assert.Equal(0, Correlation(kelvin, mass), 0.1);
        Assert.Equal(ParameterSpread.Default.HeatLossScale, Deviation([.. draw.Sets.Select(s => Math.Log(s.HeatLossScale))]), 1e-3);
    }

    /// <summary>
    /// The trade quotes 12 to 17 °C for the standard deviation of the end temperature by charge calculation alone, and some
    /// 0.01 % of carbon for low-carbon heats (from memory, no source).
    /// </summary>
    [Fact]
    public void Default_spreads_scatter_the_end_of_a_heat_as_charge_calculation_alone_does()
    {
        BlowResult[] runs = new EnsembleDraw(400, 1).Run(Low());

        Assert.InRange(Deviation([.. runs.Select(r => r.End.TemperatureK)]), 12, 17);
        Assert.InRange(Deviation([.. runs.Select(r => r.End.C)]), 0.004, 0.02);
    }

    [Fact]
    public void Members_of_any_heat_can_be_blown_and_balance() =>
        Gen.Select(TestHeats.Any, Gen.Int[0, 1000]).Sample(
            (heat, seed) =>
            {
                foreach (BlowResult r in new EnsembleDraw(4, seed).Run(heat))
                {
                    Assert.True(r.Balance.WorstElementResidual < 1e-9, $"element residual {r.Balance.WorstElementResidual:G3}");
                    Assert.True(Math.Abs(r.Balance.EnergyResidual) < 1e-9, $"energy residual {r.Balance.EnergyResidual:G3}");
                }
            },
            iter: 50);

    [Fact]
    public void Written_zero_stays_zero_and_residuals_of_scrap_move_together()
    {
        var draw = new EnsembleDraw(20, 5);
        HeatInput heat = TestHeats.Ordinary();
        for (int i = 0; i < draw.Count; i++)
        {
            HeatInput truth = draw.Truth(heat, i);
            Assert.Equal(0, truth.HotMetal.Analysis[Element.Al]);
            MetalAnalysis was = heat.Scrap[0].Material.Analysis, now = truth.Scrap[0].Material.Analysis;
            Assert.Equal(now[Element.Cu] / was[Element.Cu], now[Element.Ni] / was[Element.Ni], 12);
        }
    }

    [Fact]
    public void Batches_of_one_material_err_together()
    {
        var draw = new EnsembleDraw(5, 2);
        HeatInput heat = TestHeats.Ordinary();
        IReadOnlyList<Addition> was = heat.Programme.Additions, now = draw.Truth(heat, 0).Programme.Additions;
        double[] lime = [.. was.Zip(now).Where(p => p.First.Material == TestHeats.Lime).Select(p => p.Second.MassKg / p.First.MassKg)];

        Assert.Equal(3, lime.Length);
        Assert.All(lime, x => Assert.Equal(lime[0], x, 12));
        Assert.NotEqual(1, lime[0]);
    }

    [Fact]
    public void Count_outside_its_range_is_refused() =>
        Assert.Contains("size of the ensemble", Assert.Throws<ArgumentOutOfRangeException>(() => new EnsembleDraw(0, 1)).Message, StringComparison.Ordinal);

    /// <summary>Quantiles as tabulated in any table of the normal distribution (e.g. NIST/SEMATECH e-Handbook, table 1.3.6.7.1).</summary>
    [Theory]
    [InlineData(0.5, 0)]
    [InlineData(0.9, 1.281552)]
    [InlineData(0.975, 1.959964)]
    [InlineData(0.999, 3.090232)]
    [InlineData(0.001, -3.090232)]
    [InlineData(0.01, -2.326348)]
    public void Normal_quantiles_are_those_of_the_tables(double p, double z)
    {
        Assert.Equal(z, NormalDistribution.Quantile(p), 6);
        Assert.Equal(Math.Abs(1 - (2 * p)), NormalDistribution.TwoSided(z), 6);
    }

    /// <summary>An ordinary heat with little heavy scrap, blown to low carbon.</summary>
    internal static HeatInput Low() => TestHeats.Ordinary(heavyKg: 6e3, lightKg: 28e3);

    internal static double Deviation(double[] x)
    {
        double mean = x.Average();
        return Math.Sqrt(x.Sum(v => (v - mean) * (v - mean)) / (x.Length - 1));
    }

    private static double Correlation(double[] x, double[] y)
    {
        double a = x.Average(), b = y.Average();
        return x.Zip(y, (u, v) => (u - a) * (v - b)).Sum() / (x.Length - 1) / Deviation(x) / Deviation(y);
    }
}
