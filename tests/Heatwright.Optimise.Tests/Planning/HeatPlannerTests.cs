// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter;
using Heatwright.Converter.Blow;
using Heatwright.Converter.Charge;
using Heatwright.Shop;
using Heatwright.Shop.Planning;

namespace Heatwright.Optimise.Tests.Planning;

/// <summary>Heat files to plans and back.</summary>
public sealed class HeatPlannerTests
{
    public static TheoryData<string> Heats => [.. ShopLoader.DemonstrationHeats];

    [Theory]
    [MemberData(nameof(Heats))]
    public void Each_demonstration_heat_is_planned_or_says_why_not(string name)
    {
        Works works = ShopLoader.DemonstrationWorks;
        Heat heat = ShopLoader.LoadDemonstrationHeat(name).ValueOrThrow();
        PlanRequest request = HeatPlanner.Request(works, heat, members: 0);
        using var solver = new GlopLinearProgram();
        switch (Planner.Plan(request, solver))
        {
            case PlanFound found:
                Charge charge = HeatPlanner.Charge(works, heat, found.Decision);
                BlowPoint end = BlowModel.Run(HeatBuilder.Build(works, heat, charge)).End;
                Assert.True(heat.Order.TemperatureK.Holds(end.TemperatureK));
                Assert.True(heat.Order.CarbonPercent.Holds(end.C));
                Assert.InRange(end.MetalKg, 0.999 * heat.Order.TappedMassKg, 1.011 * heat.Order.TappedMassKg);
                Assert.All(heat.Plan.Scrap, s => Assert.InRange(charge.ScrapKg[s.Scrap.Id], s.LeastKg, s.MostKg + 1e-6));
                break;
            case PlanInfeasible infeasible:
                Assert.Contains(infeasible.Because, b => b.Violation != 0);
                break;
        }
    }

    [Fact]
    public void Ordinary_heat_is_planned_with_the_confidence_it_asks_for()
    {
        Heat heat = ShopLoader.LoadDemonstrationHeat("heats/ordinary.yaml").ValueOrThrow();
        using var solver = new GlopLinearProgram();
        PlanFound plan = Assert.IsType<PlanFound>(Planner.Plan(HeatPlanner.Request(ShopLoader.DemonstrationWorks, heat, members: 300), solver));

        Assert.All(plan.Chances!.Windows, w => Assert.True(w.Probability >= heat.Order.Confidence));
        Assert.True(plan.Chances.JointWith > plan.Chances.JointWithout);
        Assert.True(plan.Heat.Programme.OxygenNm3 > 0);
    }

    [Fact]
    public void Heating_agents_of_the_works_stand_by_at_zero()
    {
        Heat heat = ShopLoader.LoadDemonstrationHeat("heats/ordinary.yaml").ValueOrThrow();
        PlanRequest request = HeatPlanner.Request(ShopLoader.DemonstrationWorks, heat);

        Assert.Contains(request.Additions, a => a.Name == "ferrosilicon" && a.Most == 0);
        Assert.True(request.Additions.Count <= HeatInput.MaxFluxes);
        Assert.Equal(heat.Practice.MeasurementPercent, request.Confidence!.Measurement!.OxygenPercent);
    }
}
