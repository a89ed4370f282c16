// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter;
using Heatwright.Converter.Blow;

namespace Heatwright.Reports.Heats;

/// <summary>Something that the crew should look at.</summary>
/// <param name="Code">Stable code in plain words.</param>
/// <param name="Text">What is seen, where, and the usual answer.</param>
public sealed record Caution(string Code, string Text);

/// <summary>
/// What a run of the model gives reason to look at. A list of what was seen in the numbers; silence is no clearance.
/// The thresholds are common practice without a source; they decide what is mentioned, never what is calculated.
/// </summary>
public static class Cautions
{
    /// <summary>What every answer says.</summary>
    public const string Standing =
        "Advice from a model with starting parameters. The crew, the plant's procedures and local codes decide.";

    /// <summary>Cautions of a heat with its trajectory.</summary>
    public static IReadOnlyList<Caution> Of(HeatInput heat, BlowResult result)
    {
        ArgumentNullException.ThrowIfNull(heat);
        ArgumentNullException.ThrowIfNull(result);
        var found = new List<Caution>();
        Foam(result, found);
        Solids(heat, result.End, found);
        Slag(result.End, found);
        Gas(result, found);
        Moisture(heat, found);
        return found;
    }

    private static void Foam(BlowResult result, List<Caution> found)
    {
        BlowPoint? worst = result.Trajectory.Where(p => p.FreeboardM > 0).MaxBy(p => p.FoamM / p.FreeboardM);
        if (worst is null)
        {
            return;
        }

        double used = worst.FoamM / worst.FreeboardM;
        if (used >= 0.8)
        {
            found.Add(new Caution(
                "foam-near-mouth",
                $"slopping is {(used >= 1 ? "likely" : "possible")}: at {worst.OxygenPercent:F0} % oxygen foam stands {worst.FoamM:F1} m over the bath with {worst.FreeboardM:F1} m to the mouth. "
                + "Watch the mouth and the sound; usual answers are a lower lance, less oxygen for a while, and no ore at that moment."));
        }
    }

    private static void Solids(HeatInput heat, BlowPoint end, List<Caution> found)
    {
        double scrap = end.ScrapKg.Sum() + end.ShellKg;
        if (scrap > 50)
        {
            string classes = string.Join(", ", heat.Scrap.Zip(end.ScrapKg).Where(s => s.Second > 25).Select(s => $"{s.First.Material.Name} {s.Second / 1000:F1} t"));
            found.Add(new Caution(
                "scrap-left",
                $"{scrap / 1000:F1} t of scrap is still solid at the end{(classes.Length > 0 ? $" ({classes})" : "")}. The bath is then hotter than the heat really is; charge less heavy scrap or stir."));
        }

        if (end.UndissolvedFluxKg > 500)
        {
            found.Add(new Caution(
                "lime-left",
                $"{end.UndissolvedFluxKg / 1000:F1} t of lime and dolomite has not dissolved. The slag is less basic than the charge says, and dephosphorises less."));
        }
    }

    private static void Slag(BlowPoint end, List<Caution> found)
    {
        if (end.MgO < 0.95 * end.MgOSaturation)
        {
            found.Add(new Caution(
                "magnesia-short",
                $"the slag holds {end.MgO:F1} % MgO and could hold {end.MgOSaturation:F1} %. It takes the rest from the lining; more dolomitic lime is the usual answer."));
        }

        if (end.FeO > 30)
        {
            found.Add(new Caution("slag-over-oxidised", $"the end slag holds {end.FeO:F0} % FeO: iron is lost and the steel is rich in oxygen. Expect a violent reaction if carbon meets this slag."));
        }
    }

    private static void Gas(BlowResult result, List<Caution> found)
    {
        // Past ignition, oxygen beside CO at the mouth: the mixture may ignite further along the gas path.
        BlowPoint? worst = result.Trajectory.Where(p => p.OxygenPercent is > 5 and < 100 && p.GasO2 > 5 && p.GasCO > 12).MaxBy(p => p.GasO2);
        if (worst is not null)
        {
            found.Add(new Caution(
                "oxygen-beside-carbon-monoxide",
                $"at {worst.OxygenPercent:F0} % oxygen the gas holds {worst.GasO2:F0} % O2 beside {worst.GasCO:F0} % CO, which may ignite in the precipitator. Follow the plant's purge procedure."));
        }
    }

    private static void Moisture(HeatInput heat, List<Caution> found)
    {
        string wet = string.Join(", ", heat.Scrap.Where(s => s.Material.MoisturePercent > 0.3).Select(s => $"{s.Material.Name} {s.Material.MoisturePercent:F1} %"));
        if (wet.Length > 0)
        {
            found.Add(new Caution("moist-scrap", $"moist scrap ({wet}): water under hot metal flashes to steam. Drain and dry it, and pour slowly."));
        }
    }
}
