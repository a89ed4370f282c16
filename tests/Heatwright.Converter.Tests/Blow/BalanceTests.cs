// SPDX-License-Identifier: Apache-2.0
using CsCheck;
using Heatwright.Chemistry;
using Heatwright.Converter.Blow;

namespace Heatwright.Converter.Tests.Blow;

/// <summary>Nothing is lost, whatever is charged and however it is blown.</summary>
public sealed class BalanceTests
{
    [Fact]
    public void Every_element_and_the_energy_close_to_1e_9_over_ten_thousand_random_heats_and_no_mass_goes_negative()
    {
        HeatInput[] heats = TestHeats.Draw(10_000, "0000Hx9aB2c5");
        foreach (HeatInput[] batch in heats.Chunk(500))
        {
            AssertClosed(batch, [.. batch.Select(_ => ModelParameters.Default)]);
        }
    }

    private static void AssertClosed(HeatInput[] heats, ModelParameters[] parameters)
    {
        BlowResult[] results = BlowModel.Run(heats, parameters);
        Assert.Equal(heats.Length, results.Length);
        foreach (BlowResult r in results)
        {
            Assert.True(r.Balance.WorstElementResidual < 1e-9, $"{r.Balance.Elements.MaxBy(e => Math.Abs(e.Residual))}");
            Assert.True(Math.Abs(r.Balance.EnergyResidual) < 1e-9, $"energy residual {r.Balance.EnergyResidual:E2}, {r.Balance.Account}, {r.End}");

            // Rounding alone: a part in 1e10 of what was charged.
            Assert.True(r.Balance.LeastMassKg >= -1e-10 * r.Balance.Elements.Sum(e => e.InKg), $"least mass {r.Balance.LeastMassKg:E2} kg");
            Assert.True(r.End.TemperatureK is > 1000.5 and < 3499, $"{r.End.TemperatureK:F1} K");
            Assert.True(double.IsFinite(r.End.C) && double.IsFinite(r.End.FeO) && double.IsFinite(r.End.P));
        }
    }

    [Fact]
    public void Random_parameters_leave_the_balances_closed()
    {
        Gen<ModelParameters> parameters =
            from a in Gen.Double[0.3, 3].Array[8]
            from b in Gen.Double[0, 1].Array[4]
            select new ModelParameters(
                HeatLossScale: a[0],
                OxygenUse: 0.8 + (0.2 * b[0]),
                PostCombustion: 0.2 * b[1],
                IronOxidationShare: b[2],
                JetTransfer: a[1],
                DropletBirth: 30 * a[2],
                SlagReduction: a[3],
                Interface: a[4],
                LimeDissolution: a[5],
                ScrapTransfer: a[6],
                DustScale: a[7],
                FerricShare: 0.4 * b[3]);
        AssertClosed(TestHeats.Draw(1000, "0000Kd7eF1g3"), parameters.Array[1000].Single(_ => true, "0000Kd7eF1g3"));
    }

    [Fact]
    public void A_gram_in_a_tonne_is_more_than_the_residual_allows()
    {
        // A row with one gram per tonne missing must fail the 1e-9 test.
        var row = new Heatwright.Converter.Charge.ElementRow(Element.P, 100, 60, 39.9999, 0, 0, 0);
        Assert.True(Math.Abs(row.Residual) > 1e-9);
    }

    [Fact]
    public void Every_element_charged_has_its_row()
    {
        BlowResult r = BlowModel.Run(TestHeats.Ordinary());
        foreach (Element e in (Element[])[Element.Fe, Element.C, Element.Si, Element.Mn, Element.P, Element.S, Element.Ti, Element.V, Element.Cr, Element.Ni, Element.Cu, Element.Al, Element.Ca, Element.Mg, Element.O, Element.N, Element.H])
        {
            Assert.True(r.Balance.Elements[(int)e].InKg > 0, $"{e}");
        }
    }
}
