// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter;
using Heatwright.Shop;

namespace Heatwright.Journal.Demo;

/// <summary>What the crew charges after the plan: what the scales read, what the works believes, and what is there.</summary>
internal sealed class CrewCharge(Works works, DemoOptions options)
{
    // Who loads the wrong class takes from the heap beside: what is taken for what.
    private static readonly Dictionary<string, string> Beside = new()
    {
        ["plate"] = "heavy",
        ["heavy"] = "turnings",
        ["shredded"] = "turnings",
        ["new-cuttings"] = "shredded",
        ["returns"] = "pit",
    };

    /// <summary>The class that was loaded instead of another, or null.</summary>
    public static (string Card, string Loaded)? WrongClass(HeatStory story)
    {
        if (!story.Mishaps.WrongScrapClass)
        {
            return null;
        }

        string card = story.Plan.Charge.ScrapKg.Where(s => s.Value > 0).OrderByDescending(s => s.Value).ThenBy(s => s.Key, StringComparer.Ordinal).First().Key;
        return (card, Beside[card]);
    }

    public void Run(HeatStory story)
    {
        DemoRandom r = story.Random(options, "charge");
        Charge plan = story.Plan.Charge;

        // A ladle is not poured to the kilogram, nor a box loaded to it; what counts is what the scale reads.
        double iron = To(plan.HotMetalKg * (1 + (r.Kept(0, 0.7) / 100)), 100);
        Dictionary<string, double> scrap = plan.ScrapKg.Where(s => s.Value > 0).ToDictionary(s => s.Key, s => To(s.Value * (1 + (r.Kept(0, 2.5) / 100)), 20));
        Dictionary<string, double> additions = plan.AdditionsKg.Where(a => a.Value > 0).ToDictionary(a => a.Key, a => To(a.Value * (1 + (r.Kept(0, 0.6) / 100)), 10));
        var weighed = new Charge(iron, scrap, additions, plan.OxygenNm3);
        HeatInput written = HeatBuilder.Build(works, story.Heat, weighed);
        story.Charge = new ChargeMade(weighed, written, True(story, written, r), plan.OxygenNm3);
    }

    /// <summary>The second lime batch stays in the hopper when someone forgets its gate.</summary>
    public static Addition? NotOpened(HeatStory story, IReadOnlyList<Addition> additions) => story.Mishaps.LimeNotOpened
        ? additions.Where(a => a.Material.Name == "lime" && a.OxygenPercent > 10).FirstOrDefault()
        : null;

    private HeatInput True(HeatStory story, HeatInput written, DemoRandom r)
    {
        HiddenHeat h = story.Hidden;
        (string Card, string Loaded)? wrong = WrongClass(story);
        var scrap = new Dictionary<string, double>();
        foreach (ScrapCharge s in written.Scrap)
        {
            string id = s.Material.Name;
            string real = wrong is { } w && w.Card == id ? w.Loaded : id;
            scrap[real] = scrap.GetValueOrDefault(real) + (s.MassKg / h.ScrapScale[id]);
        }

        var charges = new List<ScrapCharge>(scrap
            .OrderBy(s => works.Materials.Scrap[s.Key].ChargeOrder)
            .Select(s => new ScrapCharge(h.Scrap[s.Key], s.Value, h.AmbientK)));
        if (h.SkullInKg > 0)
        {
            charges.Add(new ScrapCharge(h.Scrap["returns"] with { Name = "skull", RustPercent = 0, DirtPercent = 0, MoisturePercent = 0, HalfThicknessM = 0.05 }, h.SkullInKg, 900));
        }

        double lime = 1 + (HiddenPlant.LimeHopperPercent / 100);
        Addition? missing = NotOpened(story, written.Programme.Additions);
        var additions = written.Programme.Additions.Where(a => a != missing).Select(a => a with
        {
            MassKg = a.MassKg / ((a.Material.Name == "lime" ? lime : 1) * (1 + (r.Kept(0, 0.7) / 100))),
        }).ToArray();

        // Crew C holds the lance a little high: habits differ, and no sheet says so.
        double lance = h.LanceZeroM + (DemoCalendar.Crew(story.Slot.ChargeAt) == 'C' ? 0.05 : 0);
        return written with
        {
            HotMetal = new HotMetal(written.HotMetal.MassKg / h.IronScale, h.IronTemperatureK, h.Iron, h.CarriedSlagKg),
            Scrap = charges,
            RetainedSlag = h.Kept,
            Vessel = written.Vessel with { LiningStartK = h.LiningStartK },
            Programme = written.Programme with
            {
                LanceHeightM = [.. written.Programme.LanceHeightM.Select(p => p with { Value = Math.Clamp(p.Value + lance, 0.8, 4) })],
                Additions = additions,
            },
        };
    }

    private static double To(double value, double step) => Math.Round(value / step) * step;
}
