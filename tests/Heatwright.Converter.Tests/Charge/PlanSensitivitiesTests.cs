// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Blow;
using Heatwright.Converter.Charge;

namespace Heatwright.Converter.Tests.Charge;

/// <summary>
/// Signs and magnitudes of single changes against the arithmetic that handbooks give (heat of the change over the heat capacity
/// of 100 t steel and 12 t slag, 97.4 MJ/K; chapter 30). Lining and gas losses grow with temperature and are outside that
/// arithmetic: what a shop sees is 10 to 25 % smaller (common practice, no source), and so should the model.
/// </summary>
public sealed class PlanSensitivitiesTests
{
    private static readonly HeatInput Heat = TestHeats.Ordinary(heavyKg: 6e3, lightKg: 28e3, oreKg: 1000);
    private static readonly IReadOnlyList<Sensitivity> Table = PlanSensitivities.Of(Heat);

    // The arithmetic is for 100 t of steel.
    private static readonly double Size = BlowModel.Run(Heat).End.MetalKg / 100e3;

    [Fact]
    public void Ten_kelvin_of_hot_metal_carry_through_less_what_is_lost_on_the_way() =>
        Assert.InRange(Row(SensitivityKind.HotMetalTemperature).TemperatureAtSameCarbonK, 0.55 * 7.8, 1.05 * 7.8);

    /// <summary>0.1 % Si: +27.5 K before the heat of silicate, no lime following (table of chapter 30).</summary>
    [Fact]
    public void Silicon_heats_and_takes_oxygen_and_basicity()
    {
        Sensitivity silicon = Row(SensitivityKind.HotMetalSilicon);
        Assert.InRange(silicon.TemperatureAtSameCarbonK, 0.55 * 27.5, 1.1 * 27.5);
        Assert.True(silicon.OxygenForSameCarbonNm3 > 0);
        Assert.True(silicon.PhosphorusPercent > 0, "more silica with the same lime holds less phosphorus");
    }

    /// <summary>One tonne of scrap: −14.3 K in 100 t.</summary>
    [Fact]
    public void Scrap_cools_by_its_heat_content() =>
        Assert.All(Table.Where(s => s.Kind == SensitivityKind.Scrap), s =>
        {
            Assert.InRange(s.TemperatureAtSameCarbonK, -1.1 * 14.3 / Size, -0.6 * 14.3 / Size);
            Assert.InRange(s.MetalKg, 900, 1010);
        });

    /// <summary>
    /// 1 t of CaO −15.4 K, 1 t of Fe2O3 reduced by carbon −40.9 K in 100 t: 2.9 times scrap. Where ore replaces blown oxygen, as at
    /// the same end carbon, the heat of that carbon (0.226 kg per kg at 9.44 MJ/kg) is no gain: 6.1 MJ/kg, 4.4 times scrap. The
    /// rule of thumb says 3 to 4 (from memory).
    /// </summary>
    [Fact]
    public void Lime_cools_little_and_ore_several_times_as_much_as_scrap()
    {
        double lime = Table.Single(s => s.Change.EndsWith("burnt lime", StringComparison.Ordinal)).TemperatureK;
        double ore = Table.Single(s => s.Change.EndsWith("iron ore", StringComparison.Ordinal)).TemperatureAtSameCarbonK;
        double scrap = Table.Where(s => s.Kind == SensitivityKind.Scrap).Average(s => s.TemperatureAtSameCarbonK) / 100;

        Assert.InRange(lime, -1.3 * 0.154 / Size, -0.4 * 0.154 / Size);
        Assert.InRange(ore / scrap, 2.9, 4.8);
    }

    /// <summary>1 % of hot metal: about +4 K at the same carbon (200 t heat, 0.45 MJ/kg net; derived, no source); less with losses.</summary>
    [Fact]
    public void Hot_metal_brings_more_heat_than_it_takes() =>
        Assert.InRange(Row(SensitivityKind.HotMetalMass).TemperatureAtSameCarbonK, 0.5, 5);

    /// <summary>Oxygen at low carbon oxidises iron: 1 Nm³/t burns 5 kg/t of iron and gives about 20 K when all of it does.</summary>
    [Fact]
    public void Oxygen_at_the_end_costs_iron_and_heats()
    {
        Sensitivity oxygen = Row(SensitivityKind.Oxygen);
        double perNm3PerTonne = 100 / (Size * 100);
        Assert.True(oxygen.CarbonPercent < 0 && oxygen.SlagFeOPercent > 0 && oxygen.MetalKg < 0);
        Assert.InRange(oxygen.TemperatureK, 0.2 * 20 * perNm3PerTonne, 1.3 * 20 * perNm3PerTonne);
        Assert.InRange(-oxygen.MetalKg, 0.3 * 500, 5 * 100 * 1.1);
        Assert.Equal(0, oxygen.TemperatureAtSameCarbonK, 6);
    }

    [Fact]
    public void Carbon_of_the_hot_metal_heats_when_oxygen_follows_it()
    {
        // +9.7 K a tenth of a per cent to CO in 100 t; a part burns on to CO2, gas and losses take some.
        Sensitivity carbon = Row(SensitivityKind.HotMetalCarbon);
        Assert.True(carbon.CarbonPercent > 0);
        Assert.InRange(carbon.TemperatureAtSameCarbonK, 0.4 * 9.7, 1.6 * 9.7);
    }

    private static Sensitivity Row(SensitivityKind kind) => Table.First(s => s.Kind == kind);
}
