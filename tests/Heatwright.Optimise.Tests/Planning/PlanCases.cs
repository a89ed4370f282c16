// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Converter;
using Heatwright.Converter.Charge;
using Heatwright.Converter.Tests;

namespace Heatwright.Optimise.Tests.Planning;

/// <summary>An invented order for a 160 t converter, planned from scratch; ordinary unless a knob is turned.</summary>
internal static class PlanCases
{
    private static readonly FluxMaterial[] Fluxes = [TestHeats.Lime, TestHeats.DolomiticLime, TestHeats.Ore, TestHeats.Ferrosilicon];
    private static readonly ScrapMaterial[] Scrap = [TestHeats.Scrap("light", 0.006), TestHeats.Scrap("medium", 0.02)];

    public static PlanRequest Ordinary(
        double hotMetalC = 1350,
        double mostHotMetalKg = 165e3,
        double mostScrapKg = 40e3,
        double ferrosiliconKg = 0,
        double mostPhosphorus = 0.025,
        double? aimK = 1655 + 273.15,
        double? aimCarbon = 0.045,
        double leastC = 1640,
        double mostC = 1670,
        PlanObjective objective = PlanObjective.Cost,
        PlanConfidence? confidence = null)
    {
        HeatInput pattern = TestHeats.Ordinary(hotMetalC: hotMetalC);
        return new PlanRequest
        {
            HotMetal = new PlanMaterial("hot metal", 90e3, mostHotMetalKg, 0.335, 1.48),
            Scrap =
            [
                new PlanMaterial("light", 0, mostScrapKg, 0.32, 0.03, 1100),
                new PlanMaterial("medium", 0, mostScrapKg, 0.3, 0.02, 1000),
            ],
            Additions =
            [
                new PlanMaterial("lime", 0, 15e3, 0.125, 1.05, Start: 6500),
                new PlanMaterial("dolomitic lime", 0, 8e3, 0.14, 1.08, Start: 2500),
                new PlanMaterial("ore", 0, 6e3, 0.115, 0.02),
                new PlanMaterial("ferrosilicon", 0, ferrosiliconKg, 1.45, 5.2),
            ],
            Oxygen = new PlanMaterial("oxygen", 5000, 12_000, 0.085, 0.2),
            Build = d => Build(pattern, d),
            Limits =
            [
                new PlanLimit(PlanQuantity.TappedMass, 160e3, 161.6e3),
                new PlanLimit(PlanQuantity.EndTemperature, leastC + 273.15, mostC + 273.15, aimK),
                new PlanLimit(PlanQuantity.Carbon, 0.03, 0.06, aimCarbon),
                new PlanLimit(PlanQuantity.Phosphorus, null, mostPhosphorus),
                new PlanLimit(PlanQuantity.Copper, null, 0.2),
                new PlanLimit(PlanQuantity.Basicity, 2.8),
                new PlanLimit(PlanQuantity.SlagMgO, 6),
                new PlanLimit(PlanQuantity.UnmeltedScrapLate, null, 3000),
                new PlanLimit(PlanQuantity.UnmeltedScrapEnd, null, 100),
                new PlanLimit(PlanQuantity.ScrapVolume, null, 60),
            ],
            Objective = objective,
            Confidence = confidence,
        };
    }

    public static PlanFound Found(PlanRequest request)
    {
        using var solver = new GlopLinearProgram();
        PlanResult result = Planner.Plan(request, solver);
        return Assert.IsType<PlanFound>(result);
    }

    public static PlanInfeasible Infeasible(PlanRequest request)
    {
        using var solver = new GlopLinearProgram();
        PlanResult result = Planner.Plan(request, solver);
        return Assert.IsType<PlanInfeasible>(result);
    }

    private static HeatInput Build(HeatInput pattern, PlanDecision d)
    {
        double lime = d.AdditionsKg[0];
        return pattern with
        {
            HotMetal = pattern.HotMetal with { MassKg = d.HotMetalKg },
            Scrap = [.. Scrap.Zip(d.ScrapKg, (m, kg) => new ScrapCharge(m, kg))],
            Programme = pattern.Programme with
            {
                OxygenNm3 = d.OxygenNm3,
                Additions =
                [
                    new Addition(1, Fluxes[0], 0.55 * lime, 30), new Addition(2, Fluxes[1], d.AdditionsKg[1], 30), new Addition(6, Fluxes[3], d.AdditionsKg[3]),
                    new Addition(15, Fluxes[0], 0.25 * lime), new Addition(27, Fluxes[0], 0.2 * lime), new Addition(40, Fluxes[2], d.AdditionsKg[2], 60),
                ],
            },
        };
    }

    /// <summary>Hot metal hotter or with another phosphorus than written.</summary>
    public static PlanRequest With(this PlanRequest request, double hotterK = 0, double lessPhosphorus = 0) => request with
    {
        Build = d =>
        {
            HeatInput h = request.Build(d);
            MetalAnalysis a = h.HotMetal.Analysis;
            return h with
            {
                HotMetal = h.HotMetal with
                {
                    TemperatureK = h.HotMetal.TemperatureK + hotterK,
                    Analysis = a.With(Element.P, a[Element.P] - lessPhosphorus),
                },
            };
        },
    };
}
