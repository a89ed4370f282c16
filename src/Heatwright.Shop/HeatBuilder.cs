// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter;

namespace Heatwright.Shop;

/// <summary>Makes the blow model's input from a heat, its practice and a charge.</summary>
public static class HeatBuilder
{
    /// <summary>The input for the charge that the heat's file gives.</summary>
    /// <exception cref="InvalidOperationException">The heat has no charge; plan one first.</exception>
    public static HeatInput Build(Works works, Heat heat)
    {
        ArgumentNullException.ThrowIfNull(heat);
        return Build(works, heat, heat.Charge ?? throw new InvalidOperationException($"Heat {heat.Id} has no charge; plan one first."));
    }

    /// <summary>The input for a charge, given or planned.</summary>
    /// <exception cref="KeyNotFoundException">The charge names a scrap class or addition that the works does not have.</exception>
    /// <exception cref="InvalidOperationException">The practice has no batch for an addition of the charge.</exception>
    public static HeatInput Build(Works works, Heat heat, Charge charge)
    {
        ArgumentNullException.ThrowIfNull(works);
        ArgumentNullException.ThrowIfNull(heat);
        ArgumentNullException.ThrowIfNull(charge);
        ScrapCharge[] scrap =
        [
            .. charge.ScrapKg.Where(s => s.Value > 0)
                .Select(s => (Scrap: works.Materials.Scrap[s.Key], MassKg: s.Value))
                .OrderBy(s => s.Scrap.ChargeOrder).ThenBy(s => s.Scrap.Id, StringComparer.Ordinal)
                .Select(s => new ScrapCharge(s.Scrap.Material, s.MassKg, works.Plant.AmbientK)),
        ];
        return new HeatInput(
            new HotMetal(charge.HotMetalKg, heat.HotMetalTemperatureK, heat.HotMetalAnalysis, heat.HotMetalSlagKg),
            scrap,
            heat.RetainedSlag,
            heat.Converter.Vessel,
            Programme(works, heat, charge));
    }

    /// <summary>The practice names this addition, or its role.</summary>
    public static bool HasBatch(Practice practice, StockedAddition addition) => Batches(practice, addition).Any();

    private static BlowProgramme Programme(Works works, Heat heat, Charge charge)
    {
        Practice practice = heat.Practice;
        double tonnes = heat.Order.TappedMassKg / 1000;
        double At(Phase p) => practice.OxygenPercent(p.At);
        SetPoint[] skirt = [.. practice.Phases.OfType<SetSkirt>().Select(s => new SetPoint(At(s), s.OpenFraction))];
        StirringSetPoint[] stirring =
        [
            .. practice.Phases.OfType<SetBottomGas>()
                .Select(b => new StirringSetPoint(At(b), b.PerTonne ? b.Flow * tonnes : b.Flow, b.Gas)),
        ];
        AfterStir? after = practice.Phases.OfType<AfterStir>().FirstOrDefault();
        return new BlowProgramme(
            charge.OxygenNm3,
            [.. practice.Phases.OfType<SetOxygen>().Select(o => new SetPoint(At(o), o.PerTonne ? o.Flow * tonnes : o.Flow))],
            [.. practice.Phases.OfType<SetLance>().Select(l => new SetPoint(At(l), l.HeightM))],
            heat.Converter.Vessel.BottomElements == 0 ? [] : stirring,
            skirt.Length == 0 ? [new SetPoint(0, 1)] : skirt,
            [.. Additions(works.Materials, practice, charge)],
            works.Plant.Oxygen.PurityFraction,
            after?.ForS ?? 0,
            after is null || heat.Converter.Vessel.BottomElements == 0 ? 0 : after.PerTonne ? after.Flow * tonnes : after.Flow,
            ChargeToBlowS: practice.ChargeToBlowS);
    }

    private static IEnumerable<Addition> Additions(Materials materials, Practice practice, Charge charge)
    {
        var additions = new List<Addition>();
        foreach ((string id, double massKg) in charge.AdditionsKg.Where(a => a.Value > 0))
        {
            StockedAddition stocked = materials.Additions[id];
            if (!HasBatch(practice, stocked))
            {
                throw new InvalidOperationException($"Practice '{practice.Id}' does not say when {id} is added.");
            }

            additions.AddRange(Batches(practice, stocked)
                .Where(b => b.ShareFraction > 0)
                .Select(b => new Addition(practice.OxygenPercent(b.At), stocked.Material, massKg * b.ShareFraction, b.DosingS)));
        }

        return additions.OrderBy(a => a.OxygenPercent).ThenBy(a => a.Material.Name, StringComparer.Ordinal);
    }

    // A batch that names the material comes before one for its role.
    private static IEnumerable<AddBatch> Batches(Practice practice, StockedAddition addition)
    {
        AddBatch[] named = [.. practice.Phases.OfType<AddBatch>().Where(b => b.Material == addition.Id)];
        return named.Length > 0 ? named : practice.Phases.OfType<AddBatch>().Where(b => b.Role == addition.Role);
    }
}
