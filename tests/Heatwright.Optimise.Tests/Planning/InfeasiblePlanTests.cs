// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Charge;

namespace Heatwright.Optimise.Tests.Planning;

/// <summary>What cannot be met is said by name, and what is proposed to free it does free it.</summary>
public sealed class InfeasiblePlanTests
{
    [Fact]
    public void Cold_hot_metal_names_heat_and_what_would_bring_it()
    {
        // All hot metal that fits and no scrap stock to speak of would still be too cold for this window.
        PlanRequest r = PlanCases.Ordinary(hotMetalC: 1200, mostHotMetalKg: 140e3, aimK: null, aimCarbon: null);
        PlanInfeasible plan = PlanCases.Infeasible(r);

        Assert.Contains(plan.Because, b => b.What is "end temperature" or "tapped mass" or "end carbon" && b.Violation != 0);
        Assert.Contains(plan.Because, b => b.What == "hot metal");
        PlanRelief hotter = plan.Reliefs.Single(f => f.What == "hot metal temperature");
        Assert.InRange(hotter.Amount, 5, 120);
        PlanCases.Found(r.With(hotterK: hotter.Amount));
    }

    [Fact]
    public void Heating_agent_at_hand_but_not_allowed_is_proposed()
    {
        PlanRequest r = PlanCases.Ordinary(hotMetalC: 1230, mostHotMetalKg: 136e3, aimK: null, aimCarbon: null);
        PlanInfeasible plan = PlanCases.Infeasible(r);
        PlanRelief allow = plan.Reliefs.Single(f => f.What == "ferrosilicon");
        Assert.StartsWith("allow", allow.Text, StringComparison.Ordinal);
        PlanFound freed = PlanCases.Found(r with { Additions = [.. r.Additions.Take(3), r.Additions[3] with { Most = allow.Amount * 1.001 }] });
        Assert.True(freed.Decision.AdditionsKg[3] > 0.5 * allow.Amount);
    }

    [Fact]
    public void Too_little_stock_names_the_mass_and_the_stock()
    {
        PlanRequest r = PlanCases.Ordinary(mostHotMetalKg: 120e3, mostScrapKg: 8e3, aimK: null, aimCarbon: null);
        PlanInfeasible plan = PlanCases.Infeasible(r);

        PlanConflict mass = plan.Because.First(b => b.What == "tapped mass");
        Assert.True(mass.Violation < -10e3, $"{mass.Violation:F0} kg");
        Assert.Contains(plan.Because, b => b.What == "hot metal" && b.Text.Contains("120.00 t", StringComparison.Ordinal));
        PlanRelief more = plan.Reliefs.First(f => f.What == "hot metal");
        PlanCases.Found(r with { HotMetal = r.HotMetal with { Most = r.HotMetal.Most + more.Amount } });
    }

    [Fact]
    public void Impossible_phosphorus_is_named_with_its_amount()
    {
        PlanRequest r = PlanCases.Ordinary(mostPhosphorus: 0.0012, aimK: null, aimCarbon: null);
        PlanInfeasible plan = PlanCases.Infeasible(r);

        PlanConflict first = plan.Because.First(b => b.Violation != 0);
        Assert.Equal("end phosphorus", first.What);
        Assert.True(first.Violation > 0.0005);
        PlanRelief wider = plan.Reliefs.First(f => f.What == "end phosphorus");
        PlanCases.Found(PlanCases.Ordinary(mostPhosphorus: 1.2 * 0.0012 * Math.Exp(wider.Amount), aimK: null, aimCarbon: null));
    }

    [Fact]
    public void Nearest_miss_is_never_passed_off_as_a_plan()
    {
        PlanInfeasible plan = PlanCases.Infeasible(PlanCases.Ordinary(mostHotMetalKg: 100e3, mostScrapKg: 5e3));
        Assert.NotEmpty(plan.Because);
        Assert.Contains(plan.Rows, row => row.Violation != 0);
    }

    [Fact]
    public void Window_narrower_than_the_spread_is_named_with_the_odds_it_has()
    {
        PlanRequest r = PlanCases.Ordinary(
            leastC: 1650, mostC: 1660, mostPhosphorus: 0.05, confidence: new PlanConfidence(0.9, ShiftMembers: 100, Members: 100));
        PlanInfeasible plan = PlanCases.Infeasible(r);

        Assert.Contains(plan.Because, b => b.What == "end temperature" && b.Unit == "probability");
        Assert.Contains(plan.Reliefs, f => f.What == "in-blow measurement");
        Assert.Contains(plan.Reliefs, f => f.What == "confidence");
        PlanRelief wider = plan.Reliefs.Single(f => f.What == "end temperature");
        Assert.True(wider.Amount > 10);
        Assert.NotNull(plan.Chances);
    }
}
