// SPDX-License-Identifier: Apache-2.0
using CsCheck;
using Heatwright.Chemistry;
using Heatwright.Converter.Blow;
using Heatwright.Converter.Charge;

namespace Heatwright.Converter.Tests.Charge;

public sealed class HeatAccountTests
{
    [Fact]
    public void Terms_add_up_to_the_end_temperature_and_the_rest_is_small_whatever_the_heat() =>
        TestHeats.Any.Sample(
            heat =>
            {
                BlowResult run = BlowModel.Run(heat);
                HeatAccount account = HeatAccount.Of(heat, run);
                Assert.Equal(run.End.TemperatureK, account.ZeroK + account.Terms.Sum(t => t.Kelvin), 6);

                // When all is molten, of what is not named only steam, nitrogen and sulphur remain.
                if (run.End.ScrapKg.Sum() + run.End.ShellKg > 0.05 * run.End.MetalKg || heat.Programme.BlownFraction < 0.9)
                {
                    return;
                }

                double rest = account.Terms.Where(t => t.Kind == HeatTermKind.Other).Sum(t => Math.Abs(t.MJ));
                Assert.True(rest < 0.01 * run.Balance.EnergyScaleMJ, $"rest {rest:F0} MJ of {run.Balance.EnergyScaleMJ:F0}");
            },
            iter: 200);

    [Fact]
    public void Oxygen_and_iron_are_all_found()
    {
        HeatInput heat = TestHeats.Ordinary(oreKg: 1500);
        HeatAccount account = HeatAccount.Of(heat, BlowModel.Run(heat));

        Assert.Equal(heat.Programme.OxygenNm3 * heat.Programme.OxygenPurity, account.Oxygen.Sum(o => o.Nm3), 6);
        Assert.Equal(0, account.Iron.Sum(i => i.Kg), 3);
        double other = account.Oxygen.Single(o => o.Name.StartsWith("other", StringComparison.Ordinal)).Nm3;
        Assert.InRange(other, -500, 200);
    }

    /// <summary>
    /// Heats of oxidation by cold oxygen with products at 1600 °C, MJ/kg, computed from JANAF values: C to CO 9.44, C to CO2 30.4,
    /// Si 26.78, Fe to FeO 4.106 (handbook, chapter 30). The account takes products at hot-metal temperature, here 1550 °C, the
    /// hottest allowed.
    /// </summary>
    [Fact]
    public void Oxidation_gives_the_heat_of_the_tables()
    {
        HeatInput heat = TestHeats.Ordinary(hotMetalC: 1549);
        BlowResult run = BlowModel.Run(heat);
        HeatAccount account = HeatAccount.Of(heat, run);
        double MJ(string name) => account.Terms.Single(t => t.Kind == HeatTermKind.Oxidation && t.Name == name).MJ;
        double Nm3(string name) => account.Oxygen.Single(o => o.Name == name).Nm3;
        double carbonKg = Nm3("C to CO") * 2 / 22.414 * 12.011;
        double burntKg = Nm3("CO to CO2") * 2 / 22.414 * 12.011;
        double ironKg = run.Balance.Elements[(int)Element.Fe].SlagKg;

        Assert.InRange(MJ("C to CO") / carbonKg, 0.97 * 9.44, 1.03 * 9.44);
        Assert.InRange(MJ("CO to CO2, kept") / burntKg / ModelParameters.Default.PostCombustionHeatShare, 0.97 * (30.4 - 9.44), 1.03 * (30.4 - 9.44));
        Assert.InRange(MJ("Si") / (Nm3("Si") / 22.414 * 28.085), 0.96 * 26.78, 1.04 * 26.78);
        Assert.True(ironKg > 0 && MJ("Fe to slag") > 0);
        double formedKg = Nm3("Fe to slag") * 2 / 22.414 * 55.845 / (1 + (ModelParameters.Default.FerricShare / 2));
        Assert.InRange(MJ("Fe to slag") / formedKg, 0.9 * 4.106, 1.25 * 4.106);
    }

    /// <summary>Heat that solids take to 1600 °C, MJ/kg: steel scrap 1.395, CaO 1.499, CaCO3 3.458 (same source). Here to 1550 °C.</summary>
    [Fact]
    public void Cold_charge_takes_the_heat_of_the_tables()
    {
        HeatInput heat = TestHeats.Ordinary(hotMetalC: 1549);
        HeatAccount account = HeatAccount.Of(heat, BlowModel.Run(heat));
        double scrapKg = heat.Scrap.Sum(s => s.MassKg);
        Assert.InRange(-account.Terms.Where(t => t.Kind == HeatTermKind.Scrap).Sum(t => t.MJ) / scrapKg, 0.92 * 1.395, 1.06 * 1.395);
        double limeKg = heat.Programme.Additions.Where(a => a.Material == TestHeats.Lime).Sum(a => a.MassKg);
        double lime = -account.Terms.Where(t => t.Name == TestHeats.Lime.Name).Sum(t => t.MJ) / limeKg;

        // Burnt lime with 4 % carbonate left, 1.5 % drawn off with the gas.
        Assert.InRange(lime, 0.9 * 1.499, 1.15 * ((0.96 * 1.499) + (0.04 * 3.458)));
    }

    /// <summary>
    /// What gives and what takes, in the order that every book on the process has (common practice, no source): carbon gives
    /// most, silicon next of the elements, scrap takes most.
    /// </summary>
    [Fact]
    public void An_ordinary_heat_has_the_ordinary_order_of_terms()
    {
        HeatInput heat = TestHeats.Ordinary();
        HeatAccount a = HeatAccount.Of(heat, BlowModel.Run(heat));
        double K(string name) => a.Terms.Single(t => t.Kind == HeatTermKind.Oxidation && t.Name == name).Kelvin;

        Assert.Equal("C to CO", a.Terms.MaxBy(t => t.Kelvin)!.Name);
        Assert.True(K("Si") > K("Mn") && K("Si") > K("P"));
        Assert.True(a.Kelvin(HeatTermKind.Scrap) < a.Kelvin(HeatTermKind.Addition) && a.Kelvin(HeatTermKind.Addition) < 0);
        Assert.True(a.Kelvin(HeatTermKind.SlagFormation) > 0);
        Assert.True(a.Kelvin(HeatTermKind.Loss) < 0 && a.Kelvin(HeatTermKind.Lining) < 0);
    }

    [Fact]
    public void Scrap_left_unmolten_shows_as_heat_not_spent()
    {
        HeatInput heat = TestHeats.Ordinary(heavyHalfM: 0.2, heavyKg: 20e3);
        BlowResult run = BlowModel.Run(heat);
        HeatAccount account = HeatAccount.Of(heat, run);

        Assert.True(run.End.ScrapKg.Sum() > 1000);
        Assert.True(account.Kelvin(HeatTermKind.NotDissolved) > 0);
    }
}
