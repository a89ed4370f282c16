// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Blow;

namespace Heatwright.Shop.Tests;

/// <summary>The course that every blow must show (common practice, no source), on every example heat as written.</summary>
public sealed class ExampleShapeTests
{
    public static TheoryData<string> Charged =>
        [.. ShopLoader.DemonstrationHeats.Where(n => ShopLoader.LoadDemonstrationHeat(n).ValueOrThrow().Charge is not null)];

    private static BlowPoint[] Course(string name)
    {
        Heat heat = ShopLoader.LoadDemonstrationHeat(name).ValueOrThrow();
        BlowResult result = BlowModel.Run(HeatBuilder.Build(ShopLoader.DemonstrationWorks, heat), new BlowOptions(RecordEveryS: 4));
        return [.. result.Trajectory.Where(p => p.OxygenNm3PerS > 0)];
    }

    [Theory]
    [MemberData(nameof(Charged))]
    public void Silicon_is_gone_by_about_a_third_of_the_oxygen(string name)
    {
        // 0.95 % Si takes a few per cent of the oxygen longer than the rule's ordinary hot metal.
        double limit = name.Contains("high-silicon", StringComparison.Ordinal) ? 45 : name.Contains("high-carbon", StringComparison.Ordinal) ? 40 : 37;
        Assert.InRange(Course(name).First(p => p.Si < 0.05).OxygenPercent, 8, limit);
    }

    [Theory]
    [MemberData(nameof(Charged))]
    public void Carbon_burns_fastest_between_a_third_and_four_fifths(string name)
    {
        BlowPoint[] course = Course(name);
        double peak = course.Max(p => p.CarbonKgPerS);
        Assert.True(course.Where(p => p.OxygenPercent is >= 33 and <= 85).Max(p => p.CarbonKgPerS) >= 0.97 * peak);
        Assert.InRange(course.MaxBy(p => p.CarbonKgPerS)!.OxygenPercent, 33, 90);
    }

    [Theory]
    [MemberData(nameof(Charged))]
    public void Temperature_rises_but_for_coolant(string name)
    {
        BlowPoint[] course = [.. Course(name).Where(p => p.OxygenPercent > 12)];
        double fall = 0;
        double highest = 0;
        foreach (BlowPoint p in course)
        {
            highest = Math.Max(highest, p.TemperatureK);
            fall = Math.Max(fall, highest - p.TemperatureK);
        }

        // Counted from an eighth of the oxygen: before it, much cold scrap may still draw the bath down. Ore and lime batches may
        // hold it for some seconds; they do not turn its course.
        Assert.True(fall < 4, $"{fall:F1} K");
        Assert.True(course[^1].TemperatureK > course[0].TemperatureK + 250);
    }

    [Theory]
    [MemberData(nameof(Charged))]
    public void Iron_oxide_has_its_least_in_the_second_half_and_rises_at_low_carbon(string name)
    {
        BlowPoint[] course = [.. Course(name).Where(p => p.OxygenPercent > 5)];
        BlowPoint least = course.Where(p => p.OxygenPercent > 40).MinBy(p => p.FeO)!;
        Assert.True(course.Where(p => p.OxygenPercent < 45).Max(p => p.FeO) > least.FeO + 1.5);
        if (course[^1].C < 0.1)
        {
            Assert.InRange(least.OxygenPercent, 45, 92);
            Assert.True(course[^1].FeO > least.FeO + 5, $"{least.FeO:F1} to {course[^1].FeO:F1} %");
        }
    }

    [Theory]
    [MemberData(nameof(Charged))]
    public void Manganese_comes_back_in_the_middle(string name)
    {
        BlowPoint[] course = [.. Course(name).Where(p => p.OxygenPercent > 5)];
        double trough = course.Where(p => p.OxygenPercent is > 25 and < 75).Min(p => p.Mn);
        Assert.True(course.Where(p => p.OxygenPercent > 60).Max(p => p.Mn) > 1.1 * trough);
        Assert.True(course[0].Mn > 1.5 * trough);
    }
}
