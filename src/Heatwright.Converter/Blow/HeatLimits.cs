// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;

namespace Heatwright.Converter.Blow;

/// <summary>What the model takes. Outside it: an error that names the field, the value and the limit.</summary>
internal static class HeatLimits
{
    // What a metal may hold: everything else would be charged and never found again.
    private static readonly bool[] InMetal = Known<Element>([.. BlowState.MetalElements, .. BlowState.InertElements]);
    private static readonly bool[] InSlag = Known<Constituent>([.. BlowState.SlagConstituents, Constituent.Fe2O3]);

    public static void Validate(HeatInput heat)
    {
        ArgumentNullException.ThrowIfNull(heat);
        HotMetal hm = heat.HotMetal;
        Check.InRange(hm.MassKg, 1000, 600e3, "kg", "hot metal mass");
        Check.InRange(hm.TemperatureK, 1423, 1823, "K", "hot metal temperature");
        Check.InRange(hm.Analysis[Element.C], 2.5, 5.2, "mass %", "hot metal carbon");
        Check.InRange(hm.Analysis[Element.Si], 0, 2.5, "mass %", "hot metal silicon");
        Check.InRange(hm.Analysis[Element.P], 0, 0.5, "mass %", "hot metal phosphorus");
        Check.InRange(hm.Analysis[Element.Mn], 0, 3, "mass %", "hot metal manganese");
        Followed(hm.Analysis, "hot metal");
        Check.InRange(hm.SlagCarryKg, 0, 0.05 * hm.MassKg, "kg", "slag carried over with hot metal");
        if (heat.Scrap.Count > HeatInput.MaxScrapClasses)
        {
            throw new ArgumentException($"The box holds {heat.Scrap.Count} scrap classes; at most {HeatInput.MaxScrapClasses} are possible. Merge classes of like thickness.", nameof(heat));
        }

        foreach (ScrapCharge s in heat.Scrap)
        {
            Check.InRange(s.MassKg, 0, 300e3, "kg", $"scrap mass of {s.Material.Name}");
            Check.InRange(s.TemperatureK, 230, 1300, "K", $"scrap temperature of {s.Material.Name}");
            Followed(s.Material.Analysis, s.Material.Name);
            Check.InRange(s.Material.HalfThicknessM, 1e-3, 0.5, "m", $"half thickness of {s.Material.Name}");
            Check.InRange(s.Material.RustPercent + s.Material.DirtPercent + s.Material.MoisturePercent, 0, 30, "mass %", $"rust, dirt and moisture of {s.Material.Name}");
        }

        Check.InRange(heat.RetainedSlag.MassKg, 0, 60e3, "kg", "retained slag");
        Check.InRange(heat.RetainedSlag.TemperatureK, 290, 2000, "K", "retained slag temperature");
        Followed(heat.RetainedSlag, "retained slag");
        ValidateVessel(heat.Vessel);
        ValidateProgramme(heat.Programme);
        if (heat.Vessel.BottomElements == 0 && (heat.Programme.Stirring.Any(s => s.FlowNm3PerS > 0) || heat.Programme.AfterStirNm3PerS > 0))
        {
            throw new ArgumentException("The programme blows bottom gas and the vessel has no bottom elements; set the bottom gas to zero, or the number of elements.", nameof(heat));
        }
    }

    /// <summary>Scales at zero would divide by zero where they stand for transport; the rest may be switched off.</summary>
    public static void Validate(ModelParameters p)
    {
        ArgumentNullException.ThrowIfNull(p);
        Check.InRange(p.HeatLossScale, 0, 100, "", nameof(p.HeatLossScale));
        Check.InRange(p.OxygenUse, 0.2, 2, "of the metered oxygen", nameof(p.OxygenUse));
        Check.InRange(p.PostCombustion, 0, 1, "of the oxygen", nameof(p.PostCombustion));
        Check.InRange(p.PostCombustionHeatShare, 0, 1, "", nameof(p.PostCombustionHeatShare));
        Check.InRange(p.IronOxidationShare, 0, 1, "", nameof(p.IronOxidationShare));
        Check.InRange(p.JetTransfer, 0, 100, "", nameof(p.JetTransfer));
        Check.InRange(p.DropletBirth, 1e-3, 1e5, "", nameof(p.DropletBirth));
        Check.InRange(p.SlagReduction, 0, 100, "", nameof(p.SlagReduction));
        Check.InRange(p.Interface, 1e-3, 100, "", nameof(p.Interface));
        Check.InRange(p.LimeDissolution, 0, 100, "", nameof(p.LimeDissolution));
        Check.InRange(p.ScrapTransfer, 1e-3, 100, "", nameof(p.ScrapTransfer));
        Check.InRange(p.PhosphorusOffset, -5, 5, "", nameof(p.PhosphorusOffset));
        Check.InRange(p.ManganeseOffset, -5, 5, "", nameof(p.ManganeseOffset));
        Check.InRange(p.FoamScale, 0, 1000, "", nameof(p.FoamScale));
        Check.InRange(p.DustScale, 0, 100, "", nameof(p.DustScale));
        Check.InRange(p.FerricShare, 0, 0.95, "of the iron in slag", nameof(p.FerricShare));
        Check.InRange(p.BathCoPressure, 0.01, 20, "atm", nameof(p.BathCoPressure));
        Check.InRange(p.LiningWear, 0, 1000, "", nameof(p.LiningWear));
    }

    public static void Validate(BlowOptions o)
    {
        Check.InRange(o.StepS, 1e-3, 30, "s", "time step");
        Check.InRange(o.RecordEveryS, 0, 1e5, "s", "spacing of trajectory points");
        Check.InRange(o.Workers, 0, 1024, "threads", "workers");
        double before = 0;
        foreach (double percent in o.SnapshotPercents ?? [])
        {
            // The recorder waits for one after the other: out of order it would keep the wrong moment in silence.
            before = Check.InRange(percent, before, 150, "% of planned oxygen", "snapshot (in rising order)");
        }
    }

    private static bool[] Known<T>(IReadOnlyList<T> followed)
        where T : struct, Enum
    {
        T[] all = Enum.GetValues<T>();
        return [.. all.Select(followed.Contains)];
    }

    private static void Followed(MetalAnalysis analysis, string name)
    {
        for (int e = 0; e < InMetal.Length; e++)
        {
            if (!InMetal[e] && analysis[(Element)e] > 0)
            {
                throw new ArgumentOutOfRangeException(
                    name, analysis[(Element)e], $"{name} holds {analysis[(Element)e]:G4} % {(Element)e}, which the model does not follow in metal; leave it out.");
            }
        }
    }

    private static void Followed(RetainedSlag slag, string name)
    {
        for (int c = 0; c < InSlag.Length && slag.MassKg > 0; c++)
        {
            if (!InSlag[c] && slag.Analysis[(Constituent)c] > 0)
            {
                throw new ArgumentOutOfRangeException(
                    name,
                    slag.Analysis[(Constituent)c],
                    $"{name} holds {slag.Analysis[(Constituent)c]:G4} % {(Constituent)c}, which the model does not follow in slag; give it as oxides, CaF2 and CaS.");
            }
        }
    }

    private static void ValidateVessel(Vessel v)
    {
        Check.InRange(v.InnerDiameterM, 0.8, 10, "m", "inner diameter of the vessel");
        Check.InRange(v.InnerHeightM, 1.5, 15, "m", "inner height of the vessel");
        Check.InRange(v.NozzleCount, 1, 12, "", "number of lance nozzles");
        Check.InRange(v.NozzleThroatM, 0.008, 0.08, "m", "nozzle throat");
        Check.InRange(v.NozzleExitM, v.NozzleThroatM, 2 * v.NozzleThroatM, "m", "nozzle exit");
        Check.InRange(v.NozzleAngleDegrees, 0, 30, "degrees", "nozzle angle");
        Check.InRange(v.LiningStartK, 300, 1900, "K", "lining temperature at charging");
        Check.InRange(v.LiningAgeHeats, 0, 10000, "heats", "lining age");
        Check.InRange(v.LiningMgoPercent, 0, 100, "mass %", "MgO of the lining");
        Check.InRange(v.BottomElements, 0, 40, "", "number of bottom elements");
    }

    private static void ValidateProgramme(BlowProgramme p)
    {
        Check.InRange(p.OxygenNm3, 10, 60e3, "Nm3", "planned oxygen");
        Check.InRange(p.OxygenPurity, 0.9, 1, "mole fraction", "oxygen purity");
        Check.InRange(p.BlownFraction, 0.01, 1.5, "of plan", "oxygen blown");
        Check.InRange(p.AfterStirS, 0, 1800, "s", "after-stir");
        Check.InRange(p.ChargeToBlowS, 0, 3600, "s", "time from charging to ignition");
        Programme(p.OxygenFlowNm3PerS, 0.1, 60, "Nm3/s", "oxygen flow");
        Programme(p.LanceHeightM, 0.5, 5, "m", "lance height");
        Programme(p.SkirtOpenFraction, 0, 1, "of full opening", "skirt");
        foreach (StirringSetPoint s in p.Stirring)
        {
            Check.InRange(s.FlowNm3PerS, 0, 5, "Nm3/s", "bottom gas");
        }

        foreach (Addition a in p.Additions)
        {
            Check.InRange(a.MassKg, 0, 60e3, "kg", $"addition of {a.Material.Name}");
            Check.InRange(a.OxygenPercent, -1000, 150, "%", $"moment of the addition of {a.Material.Name}");
            Check.InRange(a.DosingS, 0, 1200, "s", $"dosing time of {a.Material.Name}");
            Check.InRange(a.Material.ParticleDiameterM, 1e-4, 0.2, "m", $"lump size of {a.Material.Name}");
            Check.InRange(a.Material.FinesLossPercent, 0, 20, "%", $"fines of {a.Material.Name}");
        }
    }

    private static void Programme(IReadOnlyList<SetPoint> points, double least, double most, string unit, string name)
    {
        if (points.Count == 0)
        {
            throw new ArgumentException($"The programme has no {name}; give at least one set point at 0 % oxygen.", name);
        }

        double before = double.NegativeInfinity;
        foreach (SetPoint s in points)
        {
            Check.InRange(s.Value, least, most, unit, name);
            Check.InRange(s.OxygenPercent, -1000, 150, "% of planned oxygen", $"moment of {name}");
            if (s.OxygenPercent < before)
            {
                throw new ArgumentException($"The {name} set point at {s.OxygenPercent:G4} % stands after one at {before:G4} %; order them by oxygen.", name);
            }

            before = s.OxygenPercent;
        }
    }
}
