// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Converter;
using Heatwright.Shop;

namespace Heatwright.Journal.Demo;

/// <summary>The scrap of one heat as it really is.</summary>
internal sealed record YardNow(
    IReadOnlyDictionary<string, ScrapMaterial> Scrap,
    IReadOnlyDictionary<string, double> Scale,
    IReadOnlyDictionary<string, string> Lot,
    double AmbientK,
    bool Rain);

/// <summary>
/// The scrap yard: classes differ from the materials file by a standing bias and from lot to lot; what lies outdoors takes up
/// rain. Weather is a two-state chain by day with wet winters.
/// </summary>
internal sealed class HiddenYard(int seed, Materials materials)
{
    /// <summary>Heats that a lot of a class lasts: what the yard buys at a time over what a heat takes.</summary>
    private const int LotHeats = 45;

    private static readonly Element[] Tramps = [Element.Cu, Element.Sn, Element.Ni, Element.Cr, Element.Mo];

    // Standing bias by class: tramp elements, rust, dirt and thickness over the materials file.
    private static readonly Dictionary<string, (double Tramp, double Rust, double Dirt, double Thickness, bool Outdoors)> Bias = new()
    {
        ["turnings"] = (1.10, 1.5, 1.5, 1, true),
        ["shredded"] = (1.20, 1.3, 1.6, 1, true),
        ["new-cuttings"] = (1.00, 1.0, 1.0, 1, false),
        ["returns"] = (1.00, 1.1, 1.0, 1.15, false),
        ["plate"] = (1.10, 1.4, 1.2, 1.1, true),
        ["heavy"] = (1.15, 1.5, 1.8, 1.2, true),
        ["pit"] = (1.00, 1.0, 1.4, 1, true),
    };

    private readonly Dictionary<(string Class, int Lot), ScrapMaterial> _lots = [];
    private readonly Dictionary<DateOnly, (bool Rain, double AmbientK)> _days = [];
    private DateOnly _last;
    private bool _wet = true;

    public YardNow Next(HeatSlot slot)
    {
        (bool rain, double ambientK) = Weather(DateOnly.FromDateTime(DemoCalendar.Local(slot.ChargeAt)), slot.Season);
        var r = new DemoRandom(seed, "yard", slot.Index);
        var scrap = new Dictionary<string, ScrapMaterial>();
        var scale = new Dictionary<string, double>();
        var lot = new Dictionary<string, string>();
        int place = 0;
        foreach (string id in materials.Scrap.Keys)
        {
            int number = (slot.Index + (7 * place++)) / LotHeats;
            ScrapMaterial material = Lot(id, number);
            bool outdoors = Bias[id].Outdoors;
            double water = material.MoisturePercent + (outdoors && rain ? r.Between(0.2, 1.0) : 0);
            scrap[id] = outdoors && rain ? material with { MoisturePercent = water } : material;
            scale[id] = 1 + (HiddenPlant.ScrapScalePercent / 100) + (r.Kept(0, 0.8) / 100);
            lot[id] = $"{id}-{number + 101}";
        }

        return new YardNow(scrap, scale, lot, ambientK, rain);
    }

    private ScrapMaterial Lot(string id, int number)
    {
        if (_lots.TryGetValue((id, number), out ScrapMaterial? known))
        {
            return known;
        }

        var r = new DemoRandom(seed, "lot-" + id, number);
        ScrapMaterial m = materials.Scrap[id].Material;
        (double tramp, double rust, double dirt, double thickness, _) = Bias[id];
        double factor = r.LogNormal(tramp, 0.18);
        var percent = Enum.GetValues<Element>().Where(e => e != Element.Fe).ToDictionary(e => e, e => m.Analysis[e]);
        foreach (Element e in Tramps)
        {
            percent[e] *= factor;
        }

        percent[Element.C] = r.LogNormal(percent[Element.C], 0.15);
        percent[Element.P] = r.LogNormal(percent[Element.P], 0.15);
        ScrapMaterial made = m with
        {
            Analysis = new MetalAnalysis(percent),
            RustPercent = Math.Min(8, r.LogNormal(m.RustPercent * rust, 0.4)),
            DirtPercent = Math.Min(8, r.LogNormal(m.DirtPercent * dirt, 0.35)),
            HalfThicknessM = Math.Clamp(r.LogNormal(m.HalfThicknessM * thickness, 0.12), 0.001, 0.2),
        };
        _lots[(id, number)] = made;
        return made;
    }

    private (bool Rain, double AmbientK) Weather(DateOnly day, double season)
    {
        if (_days.TryGetValue(day, out (bool, double) known))
        {
            return known;
        }

        // A dry day after a dry one: more often in summer.
        for (DateOnly d = _last == default ? day : _last.AddDays(1); d <= day; d = d.AddDays(1))
        {
            var r = new DemoRandom(seed, "weather", d.DayNumber);
            double winter = 0.5 * (1 + Math.Cos(2 * Math.PI * season));
            _wet = r.Chance(_wet ? 0.45 + (0.25 * winter) : 0.22 + (0.15 * winter));
            _days[d] = (_wet, 273.15 + 10.5 - (6.5 * Math.Cos(2 * Math.PI * (season - 0.06))) + r.Kept(0, 2.5));
            _last = d;
        }

        return _days[day];
    }
}
