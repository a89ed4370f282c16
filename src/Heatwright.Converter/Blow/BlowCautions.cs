// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Chemistry.Slag;
using Heatwright.Converter.Blow.Jet;

namespace Heatwright.Converter.Blow;

/// <summary>What kind of thing a caution is about.</summary>
public enum CautionKind
{
    /// <summary>A formula was used outside the range it was measured in.</summary>
    Range,
    /// <summary>Something about the heat that a crew would want to know.</summary>
    Heat,
}

/// <summary>A visible flag on a result.</summary>
/// <param name="Kind">About the formulas or about the heat.</param>
/// <param name="Text">What was seen, with its numbers. Never a statement that something can't happen.</param>
public sealed record BlowCaution(CautionKind Kind, string Text);

/// <summary>Reads the flags off a result.</summary>
public static class BlowCautions
{
    /// <summary>Least temperature at which the partitions of P and Mn were measured, K (1550 °C).</summary>
    private const double PartitionLeastK = 1823.15;

    /// <summary>Blowing number that the droplet data reach (handbook, chapter 21).</summary>
    private const double MostBlowingNumber = 15;

    /// <summary>Surface tension of the metal in the blowing number, N/m.</summary>
    private const double MetalSurfaceTension = 1.7;

    /// <summary>All flags of a run. The course is looked at as far as it was recorded.</summary>
    public static IReadOnlyList<BlowCaution> Of(HeatInput heat, BlowResult result, PhosphorusModel partition = PhosphorusModel.SuitoInoue1984)
    {
        ArgumentNullException.ThrowIfNull(heat);
        ArgumentNullException.ThrowIfNull(result);
        var cautions = new List<BlowCaution>();
        Ranges(heat, result, partition, cautions);
        Course(heat, result, cautions);
        return cautions;
    }

    private static void Ranges(HeatInput heat, BlowResult result, PhosphorusModel partition, List<BlowCaution> cautions)
    {
        void Flag(string text) => cautions.Add(new BlowCaution(CautionKind.Range, text));
        BlowPoint end = result.End;
        BlowPoint? warm = result.Trajectory.FirstOrDefault(p => p.OxygenPercent > 0 && p.TemperatureK >= PartitionLeastK);
        if (result.Trajectory.Count > 0)
        {
            Flag(warm is null
                ? "The bath never reached 1550 °C: P and Mn partitions are extrapolated throughout."
                : $"P and Mn partitions were measured at 1550 to 1650 °C; before {warm.OxygenPercent:F0} % of the oxygen their courses are a shape, not a prediction.");
        }

        if (end.SlagKg > 100 && end.FeO > 0.5)
        {
            SlagComposition slag = SlagComposition.FromMasses(new Dictionary<Constituent, double>
            {
                [Constituent.CaO] = end.CaO,
                [Constituent.SiO2] = end.SiO2,
                [Constituent.FeO] = end.FeO,
                [Constituent.MgO] = end.MgO,
                [Constituent.MnO] = end.MnO,
                [Constituent.P2O5] = end.P2O5,
                [Constituent.Al2O3] = end.Al2O3,
                [Constituent.TiO2] = end.TiO2,
            });
            double slagK = Math.Clamp(end.TemperatureK, 1473, 2200);
            foreach (RangeNote note in PhosphorusPartition.Of(partition, slag, slagK).OutsideRange)
            {
                Flag($"Phosphorus partition at the end: {note}.");
            }

            foreach (RangeNote note in MgOSaturation.Fitted(slag, slagK).OutsideRange)
            {
                Flag($"MgO saturation at the end: {note}.");
            }
        }

        BlowPoint[] blown = [.. result.Trajectory.Where(p => p.OxygenNm3PerS > 0)];
        if (Array.Find(blown, p => p.LanceOverBathM <= BlowConstants.LeastLanceM) is { } near)
        {
            Flag($"Near {near.OxygenPercent:F0} % of the oxygen the lance is within {BlowConstants.LeastLanceM:F1} m of the bath: the jet is computed as at that distance.");
        }

        if (blown.MaxBy(p => p.CavityM) is { } deep)
        {
            // The pressure that holds the cavity open is that of the metal it displaces.
            double number = Droplets.FromDynamicPressure(VesselShape.SteelKgM3 * Gravity.MPerS2 * deep.CavityM, MetalSurfaceTension, VesselShape.SteelKgM3);
            if (number > MostBlowingNumber)
            {
                Flag($"Blowing number {number:F0} near {deep.OxygenPercent:F0} % of the oxygen: droplet data reach about {MostBlowingNumber:F0}.");
            }
        }

        Vessel v = heat.Vessel;
        double flow = heat.Programme.OxygenFlowNm3PerS.Max(p => p.Value);
        double needed = IsentropicFlow.StagnationPressure(flow / IsentropicFlow.OxygenNm3PerKg / v.NozzleCount, HeatInput.AmbientK, v.NozzleThroatM, 0.97);
        if (needed < LanceNozzle.CriticalPressureRatio * 101_325)
        {
            Flag($"At {flow * 60:F0} Nm3/min the nozzles are not choked: the jet is weaker than computed.");
            return;
        }

        NozzleState nozzle = new LanceNozzle(v.NozzleThroatM, v.NozzleExitM).At(Math.Min(needed, 1e7));
        if (nozzle.PressureToAmbient is < 0.6 or > 1.6)
        {
            Flag($"At {flow * 60:F0} Nm3/min the nozzles end at {nozzle.PressureToAmbient:F2} of ambient pressure ({nozzle.Expansion.ToString().ToLowerInvariant()}, exit Mach {nozzle.ExitMach:F2}): off their design.");
        }
    }

    private static void Course(HeatInput heat, BlowResult result, List<BlowCaution> cautions)
    {
        void Flag(string text) => cautions.Add(new BlowCaution(CautionKind.Heat, text));
        BlowPoint end = result.End;
        double scrap = end.ScrapKg.Sum() + end.ShellKg;
        if (scrap > 50)
        {
            Flag($"{scrap / 1000:F1} t of scrap are not melted at the end: the bath will look hotter and richer in carbon than it will be.");
        }

        if (end.UndissolvedFluxKg > 0.25 * heat.Programme.Additions.Sum(a => a.MassKg) && end.UndissolvedFluxKg > 500)
        {
            Flag($"{end.UndissolvedFluxKg / 1000:F1} t of flux are not dissolved at the end.");
        }

        BlowPoint? foam = result.Trajectory.Count > 0 ? result.Trajectory.MaxBy(p => p.FoamM / Math.Max(p.FreeboardM, 0.1)) : null;
        if (foam is not null && foam.FoamM > 0.8 * foam.FreeboardM)
        {
            Flag($"Slopping likely: foam fills {100 * foam.FoamM / foam.FreeboardM:F0} % of the freeboard near {foam.OxygenPercent:F0} % of the oxygen.");
        }

        BlowPoint? dry = result.Trajectory.Where(p => p.OxygenPercent is > 35 and < 85).MinBy(p => p.FeO);
        if (dry is not null && dry.FeO < 6)
        {
            Flag($"Dry slag likely: iron oxide falls to {dry.FeO:F1} % near {dry.OxygenPercent:F0} % of the oxygen (spitting, lance skull, phosphorus coming back).");
        }

        if (end.FeO > 28)
        {
            Flag($"Over-oxidised: {end.FeO:F0} % iron oxide and {end.OxygenPpm:F0} ppm oxygen at the end.");
        }

        if (end.MgO < end.MgOSaturation - 1)
        {
            Flag($"The slag is {end.MgOSaturation - end.MgO:F1} % MgO short of saturation at the end and takes the rest from the lining.");
        }
    }
}
