// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Shop.Files;
using Heatwright.Shop.Shapes;
using Heatwright.Shop.Units;

namespace Heatwright.Shop.Formats;

/// <summary>Checks of a heat against plant, materials, grades and practice. Run once its own fields are good.</summary>
internal static class HeatChecks
{
    // Metal tapped over metal charged lies near 0.90 to 0.94 (common practice, no source); outside these limits a mass is wrong.
    private const double LeastYield = 0.80;
    private const double MostYield = 1.02;

    public static void Run(Heat heat, Works works, BlockValue v, Reading r)
    {
        BlockValue order = v.Block("order")!;
        CheckGrade(heat, order, r, works);
        CheckPractice(heat, v, r, works.Plant);
        if (heat.Charge is { } charge)
        {
            CheckCharge(heat, charge, v.Block("charge")!, v.Block("hotMetal")!, r, works);
        }

        CheckPlan(heat, v, r);
    }

    private static void CheckGrade(Heat heat, BlockValue order, Reading r, Works works)
    {
        IReadOnlyDictionary<Element, Limits> ladle = heat.Order.Grade.LadlePercent;
        if (ladle.TryGetValue(Element.C, out Limits? carbon) && carbon.Most is { } most && heat.Order.CarbonPercent.Most > most)
        {
            r.Add(
                ProblemCode.AimOutsideGrade, order.At("carbon"), "order.carbon", order.Written("carbon"),
                $"{heat.Order.Grade.Id} allows {UnitText.Number(most)} % C in the ladle.", $"at most {UnitText.Number(most)} %",
                $"end the window at {UnitText.Number(most)} % or less, or choose another grade");
        }

        foreach ((Element element, Limits end) in heat.Order.EndPercent)
        {
            if (element is Element.P or Element.S or Element.Cu or Element.Sn or Element.Ni or Element.Mo && ladle.TryGetValue(element, out Limits? limit) && limit.Most is { } l
                && end.Most > l)
            {
                Node at = order.Block("end")!.At(element.ToString());
                r.Add(
                    ProblemCode.AimOutsideGrade, at, $"order.end.{element}", (at as ScalarNode)?.Text,
                    $"{heat.Order.Grade.Id} allows {UnitText.Number(l)} % {element} in the ladle.", $"at most {UnitText.Number(l)} %",
                    $"write max {UnitText.Number(l)} % or less, or choose another grade");
            }
        }
    }

    private static void CheckPractice(Heat heat, BlockValue v, Reading r, Plant plant)
    {
        Node at = v.At("practice");
        foreach (SetLance lance in heat.Practice.Phases.OfType<SetLance>())
        {
            if (!heat.Converter.LanceHeightM.Holds(lance.HeightM))
            {
                r.Add(
                    ProblemCode.OutOfRange, at, "practice", heat.Practice.Id,
                    $"The practice sets the lance to {UnitText.Number(lance.HeightM)} m, which {heat.Converter.Id} does not allow.",
                    $"{Number(heat.Converter.LanceHeightM.Least)} to {Number(heat.Converter.LanceHeightM.Most)} m", "choose another practice or converter");
                break;
            }
        }

        double tonnes = heat.Order.TappedMassKg / 1000;
        double flow = heat.Practice.Phases.OfType<SetOxygen>().Max(o => o.PerTonne ? o.Flow * tonnes : o.Flow);
        if (flow > plant.Oxygen.MostNm3PerS * 1.000001)
        {
            r.Add(
                ProblemCode.OutOfRange, at, "practice", heat.Practice.Id,
                $"The practice asks for {flow * 60:0} Nm3/min of oxygen for this mass.", $"at most {plant.Oxygen.MostNm3PerS * 60:0} Nm3/min",
                "lower the flow in the practice, make the heat smaller, or raise oxygen.mostFlow in the plant file if the main gives more");
        }
    }

    private static void CheckCharge(Heat heat, Charge charge, BlockValue v, BlockValue hotMetal, Reading r, Works works)
    {
        double metal = charge.HotMetalKg + charge.ScrapKg.Values.Sum();
        double yield = heat.Order.TappedMassKg / metal;
        if (yield is < LeastYield or > MostYield)
        {
            r.Add(
                ProblemCode.ChargeDoesNotFitOrder, v.At("hotMetal"), "charge.hotMetal", v.Written("hotMetal"),
                $"Hot metal and scrap are {metal / 1000:0.0} t together for {heat.Order.TappedMassKg / 1000:0.0} t tapped.",
                $"{heat.Order.TappedMassKg / 1000 / MostYield:0.0} to {heat.Order.TappedMassKg / 1000 / LeastYield:0.0} t",
                "check hot metal, scrap and order.tappedMass");
        }

        if (heat.HotMetalSlagKg > 0.05 * charge.HotMetalKg)
        {
            r.Add(
                ProblemCode.OutOfRange, hotMetal.At("slagCarry"), "hotMetal.slagCarry", hotMetal.Written("slagCarry"),
                "More slag is poured than 5 % of the hot metal.", $"0 to {UnitText.Number(Math.Round(0.05 * charge.HotMetalKg / 1000, 3))} t", "check slagCarry; skim first");
        }

        double perTonne = charge.OxygenNm3 / (heat.Order.TappedMassKg / 1000);
        if (perTonne is < 15 or > 90)
        {
            r.Add(
                ProblemCode.ChargeDoesNotFitOrder, v.At("oxygen"), "charge.oxygen", v.Written("oxygen"),
                $"That is {perTonne:0.0} Nm3 of oxygen for each tonne tapped.", "15 to 90 Nm3/t", "check the digits; 45 to 60 Nm3/t is usual");
        }

        double volume = charge.ScrapKg.Sum(s => s.Value / works.Materials.Scrap[s.Key].Material.BulkDensityKgM3);
        double room = heat.Converter.ScrapBoxVolumeM3 * heat.Converter.ScrapBoxes;
        if (volume > room)
        {
            r.Add(
                ProblemCode.BoxTooSmall, v.At("scrap"), "charge.scrap", null, $"The scrap takes {volume:0.0} m3; the boxes hold {room:0.0} m3.", $"{room:0.0} m3",
                "take denser scrap, or less of it");
        }

        foreach (string id in charge.AdditionsKg.Keys)
        {
            if (!HeatBuilder.HasBatch(heat.Practice, works.Materials.Additions[id]))
            {
                Node at = v.At("additions") is BlockNode block && block.TryGet(id, out ScalarNode key, out _) ? key : v.Node;
                r.Add(
                    ProblemCode.NoBatch, at, $"charge.additions.{id}", null, $"Practice '{heat.Practice.Id}' does not say when {id} is added.", null,
                    $"add a batch for material {id} or for role {MaterialsFormat.Word(works.Materials.Additions[id].Role)} to the practice, or take {id} out");
            }
        }
    }

    private static void CheckPlan(Heat heat, BlockValue v, Reading r)
    {
        foreach ((string block, string id, double least, double most) in heat.Plan.Scrap.Select(s => ("scrap", s.Scrap.Id, s.LeastKg, s.MostKg))
            .Concat(heat.Plan.Additions.Select(a => ("additions", a.Addition.Id, a.LeastKg, a.MostKg))))
        {
            if (least > most)
            {
                Node at = v.Block("plan")!.At(block) is BlockNode entries && entries.TryGet(id, out _, out Node value) ? value : v.Node;
                r.Add(
                    ProblemCode.OutOfRange, at, $"plan.{block}.{id}", (at as ScalarNode)?.Text, $"More {id} is asked for than there is on stock.",
                    $"at most {UnitText.Number(most / 1000)} t", "write less, or correct the stock in materials.yaml");
            }
        }
    }

    private static string Number(double? value) => value is { } x ? UnitText.Number(x) : "…";
}
