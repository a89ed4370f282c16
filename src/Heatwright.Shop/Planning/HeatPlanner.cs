// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Converter;
using Heatwright.Converter.Blow;
using Heatwright.Converter.Charge;

namespace Heatwright.Shop.Planning;

/// <summary>Hands a heat of the shop to the planner, and its answer back.</summary>
public static class HeatPlanner
{
    private static readonly (Element Element, PlanQuantity Quantity)[] Analysis =
    [
        (Element.P, PlanQuantity.Phosphorus), (Element.S, PlanQuantity.Sulphur), (Element.Mn, PlanQuantity.Manganese),
        (Element.Cu, PlanQuantity.Copper), (Element.Sn, PlanQuantity.Tin), (Element.Ni, PlanQuantity.Nickel),
        (Element.Cr, PlanQuantity.Chromium), (Element.Mo, PlanQuantity.Molybdenum),
    ];

    /// <summary>Most that the tapped mass may exceed the order, as a share: what the ladle's freeboard usually takes (common practice, no source).</summary>
    public const double TappedMassSpare = 0.01;

    /// <summary>Scrap not molten at <see cref="PlanRequest.ScrapMoltenByPercent"/>, as a share of the tapped mass, at most (common practice, no source).</summary>
    public const double UnmeltedLateShare = 0.02;

    /// <summary>Scrap not molten at the end, as a share of the tapped mass: none, but for what the model cannot tell from none.</summary>
    public const double UnmeltedEndShare = 0.0005;

    /// <summary>MgO in the slag over saturation at the end, at least: a slag that takes little from the lining (common practice, no source).</summary>
    public const double LeastMgOSaturation = 0.9;

    /// <summary>The request for a heat.</summary>
    /// <param name="works">The works.</param>
    /// <param name="heat">The heat.</param>
    /// <param name="parameters">Parameters of the model.</param>
    /// <param name="spread">Spread of the parameters.</param>
    /// <param name="seed">Seed of the ensemble.</param>
    /// <param name="members">Members of the ensemble that checks the plan; zero plans without confidence.</param>
    public static PlanRequest Request(
        Works works, Heat heat, ModelParameters? parameters = null, ParameterSpread? spread = null, int seed = 1, int members = 1000)
    {
        ArgumentNullException.ThrowIfNull(works);
        ArgumentNullException.ThrowIfNull(heat);
        AvailableAddition[] additions = [.. Additions(works, heat)];
        double tonnes = heat.Order.TappedMassKg / 1000;
        OxygenSupply oxygen = works.Plant.Oxygen;
        return new PlanRequest
        {
            HotMetal = new PlanMaterial(
                "hot metal",
                heat.Plan.HotMetalKg.Least ?? 0,
                heat.Plan.HotMetalKg.Most ?? 1.2 * heat.Order.TappedMassKg,
                works.Materials.HotMetal.PriceEurPerKg,
                works.Materials.HotMetal.Co2KgPerKg),
            Scrap =
            [
                .. heat.Plan.Scrap.Select(s => new PlanMaterial(
                    s.Scrap.Id, s.LeastKg, s.MostKg, s.Scrap.Account.PriceEurPerKg, s.Scrap.Account.Co2KgPerKg, s.Scrap.Material.BulkDensityKgM3)),
            ],
            Additions =
            [
                .. additions.Select(a => new PlanMaterial(
                    a.Addition.Id, a.LeastKg, a.MostKg, a.Addition.Account.PriceEurPerKg, a.Addition.Account.Co2KgPerKg, Start: Start(a, tonnes))),
            ],
            Oxygen = new PlanMaterial("oxygen", 30 * tonnes, 80 * tonnes, oxygen.Gas.PriceEurPerNm3, oxygen.Gas.Co2KgPerNm3),
            Build = decision => HeatBuilder.Build(works, heat, Charge(heat, additions, decision)),
            Limits = [.. Limits(heat)],
            Objective = heat.Plan.Objective switch
            {
                Objective.Co2 => PlanObjective.Co2,
                Objective.MostScrap => PlanObjective.MostScrap,
                _ => PlanObjective.Cost,
            },
            Confidence = members == 0 ? null : Confidence(works, heat, spread, seed, members),
            Parameters = parameters ?? ModelParameters.Default,
        };
    }

    /// <summary>The charge that a decision stands for.</summary>
    public static Charge Charge(Works works, Heat heat, PlanDecision decision)
    {
        ArgumentNullException.ThrowIfNull(works);
        ArgumentNullException.ThrowIfNull(heat);
        ArgumentNullException.ThrowIfNull(decision);
        return Charge(heat, [.. Additions(works, heat)], decision);
    }

    /// <summary>What the plant's uncertainties mean for the ensemble.</summary>
    public static InputSpread Inputs(MeasurementUncertainty u)
    {
        ArgumentNullException.ThrowIfNull(u);
        return InputSpread.Default with
        {
            HotMetalMassPercent = u.HotMetalMassPercent,
            HotMetalTemperatureK = u.HotMetalTemperatureK,
            HotMetalCarbonPercent = u.HotMetalCarbonPercent,
            HotMetalSiliconPercent = u.HotMetalSiliconPercent,
            HotMetalManganesePercent = u.HotMetalManganesePercent,
            HotMetalPhosphorusPercent = u.HotMetalPhosphorusPercent,
            ScrapMassPercent = u.ScrapMassPercent,
            AdditionMassPercent = u.AdditionMassPercent,
            OxygenPercent = u.OxygenPercent,
            LanceHeightM = u.LanceHeightM,
            RetainedSlagPercent = u.RetainedSlagPercent,
        };
    }

    private static PlanConfidence Confidence(Works works, Heat heat, ParameterSpread? spread, int seed, int members)
    {
        MeasurementUncertainty u = works.Plant.Measurement;
        PlanMeasurement? measurement = heat.Practice.MeasurementPercent is { } percent
            ? new PlanMeasurement(percent, u.InBlowTemperatureK, u.InBlowCarbonPercent)
            : null;
        return new PlanConfidence(Math.Clamp(heat.Order.Confidence, 0.5, 0.999), spread, Inputs(u), measurement, seed, Members: members);
    }

    private static IEnumerable<PlanLimit> Limits(Heat heat)
    {
        Order order = heat.Order;
        yield return new PlanLimit(PlanQuantity.TappedMass, order.TappedMassKg, order.TappedMassKg * (1 + TappedMassSpare));
        yield return new PlanLimit(PlanQuantity.EndTemperature, order.TemperatureK.Least, order.TemperatureK.Most, order.TemperatureAimK);
        yield return new PlanLimit(PlanQuantity.Carbon, order.CarbonPercent.Least, order.CarbonPercent.Most, order.CarbonAimPercent);
        foreach ((Element element, PlanQuantity quantity) in Analysis)
        {
            if (order.EndPercent.TryGetValue(element, out Limits? limit) && (limit.Least is not null || limit.Most is not null))
            {
                yield return new PlanLimit(quantity, limit.Least, limit.Most);
            }
        }

        yield return new PlanLimit(PlanQuantity.Basicity, order.Basicity, null);
        yield return order.SlagMgoPercent is { } mgo
            ? new PlanLimit(PlanQuantity.SlagMgO, mgo, null)
            : new PlanLimit(PlanQuantity.MgOSaturation, LeastMgOSaturation, null);
        yield return new PlanLimit(PlanQuantity.UnmeltedScrapLate, null, UnmeltedLateShare * order.TappedMassKg);
        yield return new PlanLimit(PlanQuantity.UnmeltedScrapEnd, null, UnmeltedEndShare * order.TappedMassKg);
        yield return new PlanLimit(PlanQuantity.ScrapVolume, null, heat.Plan.ScrapVolumeM3);
    }

    /// <summary>
    /// What the heat may use, and at zero what the works has besides and the practice has a place for: so that an infeasible
    /// plan can say that it would help.
    /// </summary>
    private static IEnumerable<AvailableAddition> Additions(Works works, Heat heat)
    {
        int room = HeatInput.MaxFluxes - heat.Plan.Additions.Count;
        IEnumerable<AvailableAddition> others = works.Materials.Additions.Values
            .Where(a => a.Role is AdditionRole.HeatingAgent or AdditionRole.Coolant or AdditionRole.Flux
                && heat.Plan.Additions.All(h => h.Addition.Id != a.Id)
                && HeatBuilder.HasBatch(heat.Practice, a))
            .OrderByDescending(a => a.Role).ThenBy(a => a.Account.PriceEurPerKg).ThenBy(a => a.Id, StringComparer.Ordinal)
            .Take(Math.Max(0, room))
            .Select(a => new AvailableAddition(a, 0, 0));
        return [.. heat.Plan.Additions, .. others];
    }

    private static Charge Charge(Heat heat, AvailableAddition[] additions, PlanDecision decision) => new(
        decision.HotMetalKg,
        heat.Plan.Scrap.Zip(decision.ScrapKg).ToDictionary(s => s.First.Scrap.Id, s => s.Second),
        additions.Zip(decision.AdditionsKg).ToDictionary(a => a.First.Addition.Id, a => a.Second),
        decision.OxygenNm3);

    // Ordinary shares to start from (from memory, no source): 40 kg burnt lime and 15 kg dolomitic lime a tonne of steel.
    private static double? Start(AvailableAddition a, double tonnes)
    {
        SolidAnalysis analysis = a.Addition.Material.Analysis;
        return analysis[Constituent.CaO] > 75 ? 40 * tonnes : analysis[Constituent.MgO] > 25 && analysis[Constituent.CaO] > 40 ? 15 * tonnes : null;
    }
}
