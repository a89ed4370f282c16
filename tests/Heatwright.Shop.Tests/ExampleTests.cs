// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter;
using Heatwright.Converter.Blow;
using Heatwright.Shop.Files;

namespace Heatwright.Shop.Tests;

public sealed class ExampleTests
{
    public static TheoryData<string> Heats => [.. ShopLoader.DemonstrationHeats];

    [Fact]
    public void The_demonstration_works_loads_with_the_promised_variety()
    {
        Works works = ShopLoader.DemonstrationWorks;

        Assert.Equal("Larkmoor Works", works.Plant.Name);
        Assert.Equal(2, works.Plant.Converters.Count);
        Assert.All(works.Plant.Converters.Values, c => Assert.Equal(160_000, c.TappedMassKg));
        Assert.True(works.Materials.Scrap.Count >= 6);
        Assert.True(works.Materials.Additions.Count >= 10);
        Assert.True(works.Grades.Count >= 12);
        Assert.True(works.Practices.Count >= 3);
        Assert.True(ShopLoader.DemonstrationHeats.Count >= 6);
    }

    [Theory]
    [MemberData(nameof(Heats))]
    public void Each_example_heat_loads(string name)
    {
        Loaded<Heat> loaded = ShopLoader.LoadDemonstrationHeat(name);

        Assert.Empty(loaded.Problems);
        Assert.NotNull(loaded.Value);
    }

    [Theory]
    [MemberData(nameof(Heats))]
    public void Each_example_heat_with_a_charge_is_sensible_for_a_converter_of_this_size(string name)
    {
        Heat heat = ShopLoader.LoadDemonstrationHeat(name).ValueOrThrow();
        if (heat.Charge is not { } charge)
        {
            return;
        }

        double scrapKg = charge.ScrapKg.Values.Sum();
        double tonnes = heat.Order.TappedMassKg / 1000;

        // Ranges of ordinary practice, from memory, no source.
        Assert.InRange(charge.HotMetalKg / (charge.HotMetalKg + scrapKg), 0.70, 0.90);
        Assert.InRange(heat.Order.TappedMassKg / (charge.HotMetalKg + scrapKg), 0.88, 0.95);
        // Anthracite (88 % C) takes its own oxygen: 0.933 Nm3 for each kg of carbon burnt to CO.
        double burntNm3 = 0.933 * 0.88 * charge.AdditionsKg.GetValueOrDefault("anthracite");
        Assert.InRange((charge.OxygenNm3 - burntNm3) / tonnes, 42, 58);
    }

    [Theory]
    [MemberData(nameof(Heats))]
    public void Each_example_heat_builds_an_input_that_holds_the_whole_charge(string name)
    {
        Works works = ShopLoader.DemonstrationWorks;
        Heat heat = ShopLoader.LoadDemonstrationHeat(name).ValueOrThrow();
        if (heat.Charge is not { } charge)
        {
            return;
        }

        HeatInput input = HeatBuilder.Build(works, heat);

        Assert.Equal(charge.HotMetalKg, input.HotMetal.MassKg);
        Assert.Equal(charge.ScrapKg.Values.Sum(), input.Scrap.Sum(s => s.MassKg), 6);
        foreach ((string id, double massKg) in charge.AdditionsKg)
        {
            Assert.Equal(massKg, input.Programme.Additions.Where(a => a.Material.Name == id).Sum(a => a.MassKg), 6);
        }

        Assert.Equal(0, input.Programme.LanceHeightM[0].OxygenPercent);
        Assert.Equal(0, input.Programme.OxygenFlowNm3PerS[0].OxygenPercent);
        Assert.Equal(charge.OxygenNm3, input.Programme.OxygenNm3);
    }

    [Theory]
    [MemberData(nameof(Heats))]
    public void Each_example_heat_can_be_blown_and_comes_near_its_order(string name)
    {
        Heat heat = ShopLoader.LoadDemonstrationHeat(name).ValueOrThrow();
        if (heat.Charge is null)
        {
            return;
        }

        BlowPoint end = BlowModel.Run(HeatBuilder.Build(ShopLoader.DemonstrationWorks, heat)).End;

        // Wide: the examples are charges that a shop would make, not fits to one set of parameters.
        Assert.InRange(end.TemperatureK, heat.Order.TemperatureAimK - 50, heat.Order.TemperatureAimK + 50);
        Assert.InRange(end.MetalKg, 0.96 * heat.Order.TappedMassKg, 1.05 * heat.Order.TappedMassKg);
        Assert.InRange(end.C, 0.5 * heat.Order.CarbonAimPercent, (2 * heat.Order.CarbonAimPercent) + 0.02);
    }

    [Fact]
    public void The_ordinary_practice_becomes_the_programme_that_is_written()
    {
        Works works = ShopLoader.DemonstrationWorks;
        Heat heat = ShopLoader.LoadDemonstrationHeat("heats/ordinary.yaml").ValueOrThrow();

        BlowProgramme programme = HeatBuilder.Build(works, heat).Programme;

        // 3.3 Nm3/(t min) of 160 t is 528 Nm3/min, 8.8 Nm3/s.
        Assert.Equal(new SetPoint(3, 8.8), programme.OxygenFlowNm3PerS[1] with { Value = Math.Round(programme.OxygenFlowNm3PerS[1].Value, 9) });
        Assert.Equal(new SetPoint(0, 2.3), programme.LanceHeightM[0]);
        Assert.Equal(StirringGas.Argon, programme.Stirring[^1].Gas);
        Assert.Equal(60, programme.AfterStirS);
        Assert.Equal(0.995, programme.OxygenPurity);
        Addition first = programme.Additions[0];
        Assert.Equal((0.0, "lime"), (first.OxygenPercent, first.Material.Name));
        Assert.Equal(0.15 * 5900, first.MassKg, 9);
        Assert.Equal(heat.Practice.MeasurementPercent, 82);
    }

    [Fact]
    public void What_the_order_does_not_limit_comes_from_the_grade_less_the_ladle_pick_up()
    {
        Heat heat = ShopLoader.LoadDemonstrationHeat("heats/ordinary.yaml").ValueOrThrow();

        Assert.Equal(0.018, heat.Order.EndPercent[Chemistry.Element.P].Most);
        Assert.Equal(0.55, heat.Order.EndPercent[Chemistry.Element.Cu].Most);
        Assert.Equal(1.4, heat.Order.EndPercent[Chemistry.Element.Mn].Most);
    }

    [Fact]
    public void Planning_may_choose_only_what_the_heat_opens()
    {
        Heat heat = ShopLoader.LoadDemonstrationHeat("heats/low-phosphorus.yaml").ValueOrThrow();

        Assert.Equal(["new-cuttings", "returns", "shredded"], heat.Plan.Scrap.Select(s => s.Scrap.Id).Order(StringComparer.Ordinal));
        Assert.Equal(24_000, heat.Plan.Scrap.Single(s => s.Scrap.Id == "new-cuttings").MostKg);
        Assert.Equal(76, heat.Plan.ScrapVolumeM3);
        Assert.Equal(115_000, heat.Plan.HotMetalKg.Least);
    }
}
