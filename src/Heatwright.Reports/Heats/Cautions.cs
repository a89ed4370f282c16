// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Converter;
using Heatwright.Converter.Blow;
using Heatwright.Converter.Gas;

namespace Heatwright.Reports.Heats;

/// <summary>Something that the crew should look at.</summary>
/// <param name="Kind">About a formula's range or about the heat.</param>
/// <param name="Text">What is seen, where, and the usual answer.</param>
public sealed record Caution(CautionKind Kind, string Text);

/// <summary>
/// What a run of the model gives reason to look at: the model's own flags, and what follows from charge and gas. A list of what
/// was seen in the numbers; silence is no clearance. The thresholds here are common practice without a source; they decide what
/// is mentioned, never what is calculated.
/// </summary>
public static class Cautions
{
    /// <summary>What every answer says.</summary>
    public const string Standing =
        "Advice from a model with starting parameters. The crew, the plant's procedures and local codes decide.";

    /// <summary>Cautions of a heat with its trajectory: those about the heat first.</summary>
    public static IReadOnlyList<Caution> Of(HeatInput heat, BlowResult result)
    {
        ArgumentNullException.ThrowIfNull(heat);
        ArgumentNullException.ThrowIfNull(result);
        var found = new List<Caution>(BlowCautions.Of(heat, result).Select(c => new Caution(c.Kind, c.Text)));
        Gas(heat, result, found);
        Moisture(heat, found);
        return [.. found.OrderByDescending(c => c.Kind)];
    }

    private static void Gas(HeatInput heat, BlowResult result, List<Caution> found)
    {
        // Past ignition, oxygen beside fuel behind the hood: the mixture may ignite further along the gas path.
        (BlowPoint Point, HoodGas Gas)[] mixed =
            [.. result.Trajectory.Where(p => p.OxygenPercent is > 5 and < 100 && p.OxygenNm3PerS > 0).Select(p => (p, HoodCourse.At(heat, p))).Where(x => x.Item2.FuelWithOxygen)];
        if (mixed.Length > 0)
        {
            (BlowPoint point, HoodGas gas) = mixed.MaxBy(x => x.Gas.DryPercent(GasSpecies.O2));
            found.Add(new Caution(
                CautionKind.Heat,
                $"At {point.OxygenPercent:F0} % oxygen the gas behind the hood holds {gas.DryPercent(GasSpecies.O2):F0} % O2 beside {gas.DryPercent(GasSpecies.CO):F0} % CO, which may ignite in the precipitator. Follow the plant's purge procedure."));
        }
    }

    private static void Moisture(HeatInput heat, List<Caution> found)
    {
        string wet = string.Join(", ", heat.Scrap.Where(s => s.Material.MoisturePercent > 0.3).Select(s => $"{s.Material.Name} {s.Material.MoisturePercent:F1} %"));
        if (wet.Length > 0)
        {
            found.Add(new Caution(CautionKind.Heat, $"Moist scrap ({wet}): water under hot metal flashes to steam. Drain and dry it, and pour slowly."));
        }
    }
}
