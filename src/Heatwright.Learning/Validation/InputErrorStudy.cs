// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter;
using Heatwright.Converter.Blow;
using Heatwright.Learning.Statistics;

namespace Heatwright.Learning.Validation;

/// <summary>
/// What the balance of a median heat gives when one input is wrong by its usual error. Errors (1 σ) are the defaults of a plant's scales
/// and probes: common practice, from memory.
/// </summary>
public static class InputErrorStudy
{
    /// <summary>The median heat of a set.</summary>
    public static MeasuredHeat Median(IReadOnlyList<MeasuredHeat> heats)
    {
        ArgumentNullException.ThrowIfNull(heats);
        double Of(Func<MeasuredHeat, double> value) => Quantiles.Median(heats.Select(value));
        return new MeasuredHeat(
            0,
            true,
            Of(h => h.HotMetalKg),
            Of(h => h.HotMetalC),
            new RecordedAnalysis(
                Of(h => h.Analysis!.Si), Of(h => h.Analysis!.Mn), Of(h => h.Analysis!.S), Of(h => h.Analysis!.P), Of(h => h.Analysis!.Cr),
                Of(h => h.Analysis!.Ni), Of(h => h.Analysis!.Cu), Of(h => h.Analysis!.V), Of(h => h.Analysis!.Ti)),
            Of(h => h.ScrapKg),
            Of(h => h.LimeKg),
            Of(h => h.MagnesiaKg),
            Of(h => h.BlowS),
            Of(h => h.LiningAgeHeats),
            null,
            Of(h => h.EndC ?? double.NaN),
            Of(h => h.EndCarbonPercent ?? double.NaN));
    }

    /// <summary>Runs the study.</summary>
    public static IReadOnlyList<InputError> Run(IReadOnlyList<MeasuredHeat> heats, AssumedPlant plant, ModelParameters parameters)
    {
        ArgumentNullException.ThrowIfNull(plant);
        MeasuredHeat m = Median(heats);
        RecordedAnalysis a = m.Analysis!;
        double carbon = m.EndCarbonPercent!.Value;
        (string Input, string Error, HeatInput Heat, double Carbon, double Direct)[] cases =
        [
            (string.Empty, string.Empty, plant.ToHeat(m), carbon, 0),
            ("hot metal mass", "0.5 % (0.3–0.8)", plant.ToHeat(m with { HotMetalKg = 1.005 * m.HotMetalKg }), carbon, 0),
            ("scrap mass", "1.5 % (0.5–2)", plant.ToHeat(m with { ScrapKg = 1.015 * m.ScrapKg }), carbon, 0),
            ("lime mass", "200 kg (0.5–1 % of the hopper's range)", plant.ToHeat(m with { LimeKg = m.LimeKg + 200 }), carbon, 0),
            ("hot metal temperature", "8 °C (5–8 and ageing)", plant.ToHeat(m with { HotMetalC = m.HotMetalC + 8 }), carbon, 0),
            ("hot metal Si", "0.03 % (0.02–0.04)", plant.ToHeat(m with { Analysis = a with { Si = a.Si + 0.03 } }), carbon, 0),
            ("hot metal C (not analysed)", "0.15 %, the assumed band", (plant with { CarbonOffsetPercent = plant.CarbonOffsetPercent + HotMetalCarbon.BandPercent }).ToHeat(m), carbon, 0),
            ("scrap rust (not known)", "1 % of the scrap", Rusty(plant.ToHeat(m)), carbon, 0),
            ("end C", "0.0075 % (0.005–0.01)", plant.ToHeat(m), carbon + 0.0075, 0),
            ("end temperature, probe and bath", "6 °C (4–8)", plant.ToHeat(m), carbon, 6),
        ];
        CarbonEndPoint[] ends = CarbonEnd.Find([.. cases.Select(c => c.Heat)], [.. cases.Select(c => c.Carbon)], parameters);
        return [.. Enumerable.Range(1, cases.Length - 1).Select(i => new InputError(
            cases[i].Input, cases[i].Error, ends[i].TemperatureC - ends[0].TemperatureC + cases[i].Direct))];
    }

    private static HeatInput Rusty(HeatInput heat) => heat with
    {
        Scrap = [.. heat.Scrap.Select(s => s with { Material = s.Material with { RustPercent = s.Material.RustPercent + 1 } })],
    };
}
