// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Blow;

namespace Heatwright.Converter.Charge;

/// <summary>What a plan can limit.</summary>
public enum PlanQuantity
{
    /// <summary>Liquid metal at the end, kg.</summary>
    TappedMass,
    /// <summary>End temperature, K.</summary>
    EndTemperature,
    /// <summary>Carbon at the end, mass %.</summary>
    Carbon,
    /// <summary>Phosphorus at the end, mass %.</summary>
    Phosphorus,
    /// <summary>Sulphur at the end, mass %.</summary>
    Sulphur,
    /// <summary>Manganese at the end, mass %.</summary>
    Manganese,
    /// <summary>Copper at the end, mass %.</summary>
    Copper,
    /// <summary>Tin at the end, mass %.</summary>
    Tin,
    /// <summary>Nickel at the end, mass %.</summary>
    Nickel,
    /// <summary>Chromium at the end, mass %.</summary>
    Chromium,
    /// <summary>Molybdenum at the end, mass %.</summary>
    Molybdenum,
    /// <summary>CaO/SiO2 of the liquid end slag, by mass.</summary>
    Basicity,
    /// <summary>MgO in the liquid end slag, mass %.</summary>
    SlagMgO,
    /// <summary>MgO in the end slag over what it could hold; 1 = saturated.</summary>
    MgOSaturation,
    /// <summary>Iron oxide in the end slag counted as FeO, mass %.</summary>
    SlagFeO,
    /// <summary>Scrap not molten when the blow is over, kg.</summary>
    UnmeltedScrapEnd,
    /// <summary>Scrap not molten late in the blow, kg (see <see cref="PlanRequest.ScrapMoltenByPercent"/>).</summary>
    UnmeltedScrapLate,
    /// <summary>Scrap as it lies in the boxes, m³.</summary>
    ScrapVolume,
}

/// <summary>Names, units and scales of what a plan limits.</summary>
public static class PlanQuantities
{
    /// <summary>All of them in order.</summary>
    public static IReadOnlyList<PlanQuantity> All { get; } = Enum.GetValues<PlanQuantity>();

    /// <summary>Unit.</summary>
    public static string Unit(PlanQuantity q) => q switch
    {
        PlanQuantity.TappedMass or PlanQuantity.UnmeltedScrapEnd or PlanQuantity.UnmeltedScrapLate => "kg",
        PlanQuantity.EndTemperature => "K",
        PlanQuantity.Basicity or PlanQuantity.MgOSaturation => "",
        PlanQuantity.ScrapVolume => "m3",
        _ => "mass %",
    };

    /// <summary>Name in a sentence.</summary>
    public static string Name(PlanQuantity q) => q switch
    {
        PlanQuantity.TappedMass => "tapped mass",
        PlanQuantity.EndTemperature => "end temperature",
        PlanQuantity.Carbon => "end carbon",
        PlanQuantity.Phosphorus => "end phosphorus",
        PlanQuantity.Sulphur => "end sulphur",
        PlanQuantity.Manganese => "end manganese",
        PlanQuantity.Copper => "end copper",
        PlanQuantity.Tin => "end tin",
        PlanQuantity.Nickel => "end nickel",
        PlanQuantity.Chromium => "end chromium",
        PlanQuantity.Molybdenum => "end molybdenum",
        PlanQuantity.Basicity => "slag basicity",
        PlanQuantity.SlagMgO => "slag MgO",
        PlanQuantity.MgOSaturation => "MgO saturation of the slag",
        PlanQuantity.SlagFeO => "slag FeO",
        PlanQuantity.UnmeltedScrapEnd => "scrap unmolten at the end",
        PlanQuantity.UnmeltedScrapLate => "scrap unmolten late in the blow",
        PlanQuantity.ScrapVolume => "scrap volume",
        _ => q.ToString(),
    };

    /// <summary>A window on it is met with a probability when the plan has a confidence.</summary>
    public static bool HasChance(PlanQuantity q) => q is >= PlanQuantity.EndTemperature and <= PlanQuantity.Molybdenum;

    /// <summary>Analyses are planned in the logarithm: they fall exponentially with oxygen and partition.</summary>
    internal static bool IsLogarithmic(PlanQuantity q) => q is >= PlanQuantity.Carbon and <= PlanQuantity.Molybdenum;

    internal static double Inner(PlanQuantity q, double value) => IsLogarithmic(q) ? Math.Log(Math.Max(value, 1e-7)) : value;

    internal static double Outer(PlanQuantity q, double inner) => IsLogarithmic(q) ? Math.Exp(inner) : inner;

    /// <summary>What counts as met, in the inner unit: the model repeats itself to about a tenth of it.</summary>
    internal static double Tolerance(PlanQuantity q, double tappedKg) => q switch
    {
        PlanQuantity.TappedMass => tappedKg * 5e-4,
        PlanQuantity.EndTemperature => 0.5,
        PlanQuantity.Basicity => 0.01,
        PlanQuantity.SlagMgO or PlanQuantity.SlagFeO => 0.03,
        PlanQuantity.MgOSaturation => 0.005,
        PlanQuantity.UnmeltedScrapEnd or PlanQuantity.UnmeltedScrapLate => tappedKg * 5e-4,
        PlanQuantity.ScrapVolume => 0.05,
        _ => 0.01,
    };

    /// <summary>Reads a run, in the inner unit.</summary>
    internal static double[] Read(BlowResult run, double scrapVolumeM3, double latePercent)
    {
        BlowPoint e = run.End;
        double[] y = new double[All.Count];
        foreach (PlanQuantity q in All)
        {
            y[(int)q] = Inner(q, q switch
            {
                PlanQuantity.TappedMass => e.MetalKg,
                PlanQuantity.EndTemperature => e.TemperatureK,
                PlanQuantity.Carbon => e.C,
                PlanQuantity.Phosphorus => e.P,
                PlanQuantity.Sulphur => e.S,
                PlanQuantity.Manganese => e.Mn,
                PlanQuantity.Copper => e.Cu,
                PlanQuantity.Tin => e.Sn,
                PlanQuantity.Nickel => e.Ni,
                PlanQuantity.Chromium => e.Cr,
                PlanQuantity.Molybdenum => e.Mo,
                PlanQuantity.Basicity => e.Basicity,
                PlanQuantity.SlagMgO => e.MgO,
                PlanQuantity.MgOSaturation => e.MgO / Math.Max(e.MgOSaturation, 0.1),
                PlanQuantity.SlagFeO => e.FeO,
                PlanQuantity.UnmeltedScrapEnd => e.ScrapKg.Sum() + e.ShellKg,
                PlanQuantity.UnmeltedScrapLate => Late(run, latePercent),
                PlanQuantity.ScrapVolume => scrapVolumeM3,
                _ => 0,
            });
        }

        return y;
    }

    // Points are kept at the end of a step; a line through two of them takes the length of a step out of the reading.
    private static double Late(BlowResult run, double percent)
    {
        BlowPoint a = run.Snapshots[^2];
        BlowPoint b = run.Snapshots[^1];
        double span = b.OxygenPercent - a.OxygenPercent;
        double first = a.ScrapKg.Sum() + a.ShellKg;
        double second = b.ScrapKg.Sum() + b.ShellKg;
        return span <= 1e-6 ? second : Math.Max(0, first + ((second - first) * (percent - a.OxygenPercent) / span));
    }
}
