// SPDX-License-Identifier: Apache-2.0
using System.Text;
using Heatwright.Chemistry;
using Heatwright.Shop.Files;

namespace Heatwright.Shop.Tests;

public sealed class RoundTripTests
{
    public static TheoryData<string> Heats => [.. ShopLoader.DemonstrationHeats];

    [Theory]
    [MemberData(nameof(Heats))]
    public void A_heat_that_was_written_reads_back_the_same(string name)
    {
        Works works = ShopLoader.DemonstrationWorks;
        Heat heat = ShopLoader.LoadDemonstrationHeat(name).ValueOrThrow();
        Charge charge = heat.Charge ?? new Charge(141_234.5, new Dictionary<string, double> { ["returns"] = 30_000.1 }, new Dictionary<string, double> { ["lime"] = 6123.4 }, 8456.7);

        Loaded<Heat> loaded = ShopLoader.ReadHeat(Encoding.UTF8.GetBytes(HeatWriter.Write(heat, charge)), "written.yaml", works);

        Assert.Empty(loaded.Problems);
        Heat read = loaded.ValueOrThrow();
        Assert.Equal((heat.Id, heat.Title, heat.Note, heat.Converter.Id, heat.Practice.Id), (read.Id, read.Title, read.Note, read.Converter.Id, read.Practice.Id));
        Near(charge.HotMetalKg, read.Charge!.HotMetalKg);
        Near(charge.OxygenNm3, read.Charge.OxygenNm3);
        NearAll(charge.ScrapKg, read.Charge.ScrapKg);
        NearAll(charge.AdditionsKg, read.Charge.AdditionsKg);
        Near(heat.HotMetalTemperatureK, read.HotMetalTemperatureK);
        Assert.All(Enum.GetValues<Element>(), e => Near(heat.HotMetalAnalysis[e], read.HotMetalAnalysis[e]));
        Assert.All(Enum.GetValues<Constituent>(), c => Near(heat.RetainedSlag.Analysis[c], read.RetainedSlag.Analysis[c]));
        Near(heat.Order.TemperatureAimK, read.Order.TemperatureAimK);
        Near(heat.Order.CarbonAimPercent, read.Order.CarbonAimPercent);
        Near(heat.Order.Confidence, read.Order.Confidence);
        Assert.Equal(heat.Order.SlagMgoPercent, read.Order.SlagMgoPercent);
        Assert.Equal(heat.Order.EndPercent.OrderBy(p => p.Key), read.Order.EndPercent.OrderBy(p => p.Key));
        Assert.Equal(heat.Plan.Objective, read.Plan.Objective);
        Assert.Equal(heat.Plan.Scrap.Select(s => (s.Scrap.Id, s.LeastKg, s.MostKg)), read.Plan.Scrap.Select(s => (s.Scrap.Id, s.LeastKg, s.MostKg)));
        Assert.Equal(heat.Plan.Additions.Select(a => (a.Addition.Id, a.LeastKg, a.MostKg)), read.Plan.Additions.Select(a => (a.Addition.Id, a.LeastKg, a.MostKg)));
    }

    [Fact]
    public void Text_that_looks_like_something_else_comes_back_as_it_was()
    {
        Heat heat = ShopLoader.LoadDemonstrationHeat("heats/ordinary.yaml").ValueOrThrow();
        Heat odd = heat with { Id = "0012", Title = "null: #1 \"quoted\" – 5 °C", Note = "two\nlines" };

        Heat read = ShopLoader.ReadHeat(Encoding.UTF8.GetBytes(HeatWriter.Write(odd, heat.Charge!)), "written.yaml", ShopLoader.DemonstrationWorks).ValueOrThrow();

        Assert.Equal((odd.Id, odd.Title, odd.Note), (read.Id, read.Title, read.Note));
    }

    private static void NearAll(IReadOnlyDictionary<string, double> expected, IReadOnlyDictionary<string, double> actual)
    {
        Assert.Equal(expected.Keys, actual.Keys);
        Assert.All(expected, p => Near(p.Value, actual[p.Key]));
    }

    private static void Near(double expected, double actual) => Assert.Equal(expected, actual, 1e-11 * Math.Max(1, Math.Abs(expected)));
}
