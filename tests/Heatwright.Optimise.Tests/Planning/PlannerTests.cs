// SPDX-License-Identifier: Apache-2.0
using CsCheck;
using Heatwright.Converter.Blow;
using Heatwright.Converter.Charge;

namespace Heatwright.Optimise.Tests.Planning;

public sealed class PlannerTests
{
    [Fact]
    public void Plan_keeps_every_limit_in_the_full_model_and_hits_its_aims()
    {
        PlanRequest request = PlanCases.Ordinary();
        PlanFound plan = PlanCases.Found(request);
        BlowPoint end = BlowModel.Run(request.Build(plan.Decision)).End;

        Assert.InRange(end.MetalKg, 159.9e3, 161.7e3);
        Assert.Equal(1655, end.TemperatureC, 1.0);
        Assert.Equal(0.045, end.C, 0.001);
        Assert.True(end.P <= 0.025 * 1.01 && end.Cu <= 0.2 * 1.01 && end.Basicity >= 2.79 && end.MgO >= 5.97);
        Assert.True(end.ScrapKg.Sum() <= 180);
        Assert.Equal(end.TemperatureK, plan.Rows.Single(r => r.Limit.Quantity == PlanQuantity.EndTemperature).Value, 9);
        Assert.All(plan.Rows, r => Assert.True(r.Limit.Quantity is PlanQuantity.TappedMass or PlanQuantity.UnmeltedScrapEnd || Math.Abs(r.Violation) < 0.5));
        Assert.Null(plan.Chances);
    }

    [Fact]
    public void Cost_of_the_plan_is_the_sum_of_its_amounts_at_their_prices()
    {
        PlanRequest r = PlanCases.Ordinary();
        PlanFound plan = PlanCases.Found(r);
        PlanDecision d = plan.Decision;
        double cost = (d.HotMetalKg * r.HotMetal.Price) + (d.OxygenNm3 * r.Oxygen.Price)
            + d.ScrapKg.Zip(r.Scrap, (kg, m) => kg * m.Price).Sum() + d.AdditionsKg.Zip(r.Additions, (kg, m) => kg * m.Price).Sum();
        Assert.Equal(cost, plan.Costs.CostEur, 6);
        Assert.Equal(d.TotalScrapKg, plan.Costs.ScrapKg, 6);
        double carbonKg = plan.Costs.VesselCo2Kg * 12.011 / 44.009;
        Assert.InRange(carbonKg / d.HotMetalKg, 0.03, 0.06);
    }

    /// <summary>No other charge within the limits is cheaper: some thousand drawn around the plan, all of them blown.</summary>
    [Fact]
    public void No_random_feasible_charge_is_cheaper()
    {
        PlanRequest r = PlanCases.Ordinary(aimK: null, aimCarbon: null);
        PlanFound plan = PlanCases.Found(r);
        PlanDecision p = plan.Decision;
        var random = new Random(5);
        double Near(double x, double by, double most) => Math.Clamp(x + (by * ((2 * random.NextDouble()) - 1)), 0, most);
        PlanDecision[] others =
        [
            .. Enumerable.Range(0, 3000).Select(_ => new PlanDecision(
                Near(p.HotMetalKg, 3000, 165e3),
                [Near(p.ScrapKg[0], 3000, 40e3), Near(p.ScrapKg[1], 3000, 40e3)],
                [Near(p.AdditionsKg[0], 800, 15e3), Near(p.AdditionsKg[1], 600, 8e3), Near(p.AdditionsKg[2], 400, 6e3), 0],
                Near(p.OxygenNm3, 250, 12e3))),
        ];
        var sets = new ModelParameters[others.Length];
        Array.Fill(sets, ModelParameters.Default);
        BlowResult[] runs = BlowModel.Run([.. others.Select(r.Build)], sets, new BlowOptions(SnapshotPercents: [90]));
        int feasible = 0;
        for (int i = 0; i < others.Length; i++)
        {
            BlowPoint e = runs[i].End;
            bool kept = e.MetalKg is >= 160e3 and <= 161.6e3 && e.TemperatureC is >= 1640 and <= 1670 && e.C is >= 0.03 and <= 0.06
                && e.P <= 0.025 && e.Cu <= 0.2 && e.Basicity >= 2.8 && e.MgO >= 6 && e.ScrapKg.Sum() < 100 && runs[i].Snapshots[0].ScrapKg.Sum() < 3000
                && (others[i].ScrapKg[0] / 1100) + (others[i].ScrapKg[1] / 1000) <= 60;
            if (kept)
            {
                feasible++;
                double cost = Cost(r, others[i]);
                Assert.True(cost > plan.Costs.CostEur - (1e-3 * cost), $"{cost:F0} EUR, the plan {plan.Costs.CostEur:F0} EUR");
            }
        }

        Assert.True(feasible >= 20, $"{feasible} feasible charges are too few to prove anything");
    }

    [Fact]
    public void Cost_falls_when_a_price_falls() =>
        Gen.Select(Gen.Int[0, 3], Gen.Double[0.03, 0.3]).Sample(
            (which, share) =>
            {
                PlanRequest r = PlanCases.Ordinary();
                PlanFound before = PlanCases.Found(r);
                PlanMaterial Less(PlanMaterial m) => m with { Price = m.Price * (1 - share) };
                PlanRequest cheap = which switch
                {
                    0 => r with { HotMetal = Less(r.HotMetal) },
                    1 => r with { Scrap = [Less(r.Scrap[0]), r.Scrap[1]] },
                    2 => r with { Scrap = [r.Scrap[0], Less(r.Scrap[1])] },
                    _ => r with { Additions = [Less(r.Additions[0]), .. r.Additions.Skip(1)] },
                };
                PlanFound after = PlanCases.Found(cheap);
                Assert.True(after.Costs.CostEur <= Cost(cheap, before.Decision) + 30, "no dearer than the old plan at the new prices");
                Assert.True(after.Costs.CostEur <= before.Costs.CostEur + 30, "and so no dearer than before");
            },
            iter: 6,
            threads: 1);

    [Fact]
    public void Each_objective_is_best_at_its_own()
    {
        // Where nothing is aimed at, each may use the whole window.
        PlanFound cost = PlanCases.Found(PlanCases.Ordinary(aimK: null, aimCarbon: null));
        PlanFound co2 = PlanCases.Found(PlanCases.Ordinary(aimK: null, aimCarbon: null, objective: PlanObjective.Co2));
        PlanFound scrap = PlanCases.Found(PlanCases.Ordinary(aimK: null, aimCarbon: null, objective: PlanObjective.MostScrap));
        Assert.True(co2.Costs.Co2Kg <= cost.Costs.Co2Kg + 50 && co2.Costs.Co2Kg <= scrap.Costs.Co2Kg + 50);
        Assert.True(scrap.Costs.ScrapKg >= cost.Costs.ScrapKg - 50 && scrap.Costs.ScrapKg >= co2.Costs.ScrapKg - 50);
        Assert.True(cost.Costs.CostEur <= co2.Costs.CostEur + 30 && cost.Costs.CostEur <= scrap.Costs.CostEur + 30);
    }

    [Fact]
    public void Confidence_costs_and_is_kept_and_the_same_seed_gives_the_same_plan()
    {
        PlanConfidence Sure(double p) => new(p, Measurement: new PlanMeasurement(), ShiftMembers: 200, Members: 400);
        PlanRequest request = PlanCases.Ordinary(aimK: null, aimCarbon: null, mostPhosphorus: 0.03, confidence: Sure(0.9));
        PlanFound exact = PlanCases.Found(request with { Confidence = null });
        PlanFound likely = PlanCases.Found(request with { Confidence = Sure(0.75) });
        PlanFound sure = PlanCases.Found(request);
        PlanFound again = PlanCases.Found(request);

        Assert.True(exact.Costs.CostEur < likely.Costs.CostEur && likely.Costs.CostEur < sure.Costs.CostEur);
        Assert.All(sure.Chances!.Windows, w => Assert.True(w.Probability >= 0.9, $"{w.Quantity} {w.Probability}"));
        Assert.InRange(sure.Chances.JointWith, sure.Chances.JointWithout, sure.Chances.Windows.Min(w => w.Probability));
        Assert.Equal(sure.Decision.HotMetalKg, again.Decision.HotMetalKg);
        Assert.Equal(sure.Decision.ScrapKg, again.Decision.ScrapKg);
        Assert.Equal(sure.Chances.JointWith, again.Chances!.JointWith);
    }

    /// <summary>
    /// Temperature by charge calculation alone scatters by 12 to 17 K and after an in-blow measurement by 5 to 9 K (from
    /// memory, no source).
    /// </summary>
    [Fact]
    public void Measurement_narrows_what_the_plan_must_allow_for()
    {
        PlanFound plan = PlanCases.Found(PlanCases.Ordinary(
            mostPhosphorus: 0.03, confidence: new PlanConfidence(0.75, Measurement: new PlanMeasurement(), ShiftMembers: 200, Members: 400)));
        PlanChance t = plan.Chances!.Windows.Single(w => w.Quantity == PlanQuantity.EndTemperature);
        Assert.InRange(t.StandardDeviation, 12, 17);
        Assert.InRange(t.StandardDeviationWith, 5, 9.5);
        Assert.True(t.With > t.Without);
    }

    [Fact]
    public void Too_many_classes_and_contradicting_limits_are_refused_by_name()
    {
        PlanRequest r = PlanCases.Ordinary();
        Assert.Contains("scrap classes", Refusal(r with { Scrap = [.. Enumerable.Repeat(r.Scrap[0], 7)] }), StringComparison.Ordinal);
        Assert.Contains("additions", Refusal(r with { Additions = [.. Enumerable.Repeat(r.Additions[0], 9)] }), StringComparison.Ordinal);
        Assert.Contains("limited twice", Refusal(r with { Limits = [.. r.Limits, new PlanLimit(PlanQuantity.Basicity, 3)] }), StringComparison.Ordinal);
        Assert.Contains("lies above the most", Refusal(r with { Limits = [.. r.Limits, new PlanLimit(PlanQuantity.Sulphur, 0.02, 0.01)] }), StringComparison.Ordinal);
        Assert.Contains("outside its own limits", Refusal(r with { Limits = [.. r.Limits, new PlanLimit(PlanQuantity.Sulphur, null, 0.01, 0.02)] }), StringComparison.Ordinal);
        Assert.Contains("neither", Refusal(r with { Limits = [.. r.Limits, new PlanLimit(PlanQuantity.Sulphur)] }), StringComparison.Ordinal);
        Assert.Contains("tapped mass", Refusal(r with { Limits = [.. r.Limits.Skip(1)] }), StringComparison.Ordinal);
    }

    [Fact]
    public void Numbers_out_of_range_are_refused_by_name()
    {
        PlanRequest r = PlanCases.Ordinary();
        Assert.Contains("most lime", OutOfRange(r with { Additions = [r.Additions[0] with { Most = -1 }, .. r.Additions.Skip(1)] }), StringComparison.Ordinal);
        Assert.Contains("price of hot metal", OutOfRange(r with { HotMetal = r.HotMetal with { Price = double.NaN } }), StringComparison.Ordinal);
        Assert.Contains("confidence", OutOfRange(r with { Confidence = new PlanConfidence(1) }), StringComparison.Ordinal);
    }

    private static double Cost(PlanRequest r, PlanDecision d) =>
        (d.HotMetalKg * r.HotMetal.Price) + (d.OxygenNm3 * r.Oxygen.Price)
        + d.ScrapKg.Zip(r.Scrap, (kg, m) => kg * m.Price).Sum() + d.AdditionsKg.Zip(r.Additions, (kg, m) => kg * m.Price).Sum();

    private static string Refusal(PlanRequest r)
    {
        using var solver = new GlopLinearProgram();
        return Assert.Throws<PlanRequestException>(() => Planner.Plan(r, solver)).Message;
    }

    private static string OutOfRange(PlanRequest r)
    {
        using var solver = new GlopLinearProgram();
        return Assert.Throws<ArgumentOutOfRangeException>(() => Planner.Plan(r, solver)).Message;
    }
}
