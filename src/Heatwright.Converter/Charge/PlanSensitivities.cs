// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Converter.Blow;

namespace Heatwright.Converter.Charge;

/// <summary>What one change does to the end of a heat.</summary>
/// <param name="Change">The change, in words.</param>
/// <param name="Kind">What is changed.</param>
/// <param name="Amount">By how much, in the unit.</param>
/// <param name="Unit">Unit of the amount.</param>
/// <param name="TemperatureK">Change of end temperature, K.</param>
/// <param name="CarbonPercent">Change of carbon, mass %.</param>
/// <param name="PhosphorusPercent">Change of phosphorus, mass %.</param>
/// <param name="ManganesePercent">Change of manganese, mass %.</param>
/// <param name="SlagFeOPercent">Change of FeO in the slag, mass %.</param>
/// <param name="MetalKg">Change of liquid metal, kg.</param>
public sealed record Sensitivity(
    string Change,
    SensitivityKind Kind,
    double Amount,
    string Unit,
    double TemperatureK,
    double CarbonPercent,
    double PhosphorusPercent,
    double ManganesePercent,
    double SlagFeOPercent,
    double MetalKg)
{
    /// <summary>Oxygen that takes the change of carbon back, Nm³.</summary>
    public double OxygenForSameCarbonNm3 { get; init; }

    /// <summary>Change of end temperature when that oxygen is blown too: at the same end carbon, K.</summary>
    public double TemperatureAtSameCarbonK { get; init; }
}

/// <summary>What is changed in a row of the table.</summary>
public enum SensitivityKind
{
    /// <summary>An addition, by 10 kg.</summary>
    Addition,
    /// <summary>Hot-metal temperature, by 10 K.</summary>
    HotMetalTemperature,
    /// <summary>Hot-metal silicon, by 0.1 %.</summary>
    HotMetalSilicon,
    /// <summary>Hot-metal carbon, by 0.1 %.</summary>
    HotMetalCarbon,
    /// <summary>Hot-metal mass, by 1 %.</summary>
    HotMetalMass,
    /// <summary>A scrap class, by 1 t.</summary>
    Scrap,
    /// <summary>Oxygen, by 100 Nm³.</summary>
    Oxygen,
}

/// <summary>
/// Effects of single changes on a given heat, everything else as it is: no lime follows silicon, no oxygen follows carbon.
/// Central differences through the full model in one batched call, scaled to the stated amounts.
/// </summary>
public static class PlanSensitivities
{
    /// <summary>The table for a heat.</summary>
    public static IReadOnlyList<Sensitivity> Of(HeatInput heat, ModelParameters? parameters = null)
    {
        ArgumentNullException.ThrowIfNull(heat);
        (string Name, SensitivityKind Kind, double Amount, string Unit, double Step, Func<double, HeatInput> Change)[] rows = [.. Rows(heat)];
        var heats = new List<HeatInput>(2 * rows.Length);
        foreach (var row in rows)
        {
            heats.Add(row.Change(row.Step));
            heats.Add(row.Change(-row.Step));
        }

        var sets = new ModelParameters[heats.Count];
        Array.Fill(sets, parameters ?? ModelParameters.Default);
        BlowResult[] runs = BlowModel.Run(heats, sets);
        Sensitivity[] plain = [.. rows.Select((r, i) => Difference(r.Name, r.Kind, r.Amount, r.Unit, r.Amount / (2 * r.Step), runs[2 * i].End, runs[(2 * i) + 1].End))];
        Sensitivity oxygen = plain[^1];
        return [.. plain.Select(s => WithOxygen(s, oxygen))];
    }

    private static Sensitivity WithOxygen(Sensitivity s, Sensitivity oxygen)
    {
        double nm3 = -s.CarbonPercent / oxygen.CarbonPercent * oxygen.Amount;
        return s with
        {
            OxygenForSameCarbonNm3 = nm3,
            TemperatureAtSameCarbonK = s.TemperatureK + (nm3 / oxygen.Amount * oxygen.TemperatureK),
        };
    }

    private static Sensitivity Difference(
        string name, SensitivityKind kind, double amount, string unit, double scale, BlowPoint up, BlowPoint down) => new(
        name,
        kind,
        amount,
        unit,
        (up.TemperatureK - down.TemperatureK) * scale,
        (up.C - down.C) * scale,
        (up.P - down.P) * scale,
        (up.Mn - down.Mn) * scale,
        (up.FeO - down.FeO) * scale,
        (up.MetalKg - down.MetalKg) * scale);

    private static IEnumerable<(string, SensitivityKind, double, string, double, Func<double, HeatInput>)> Rows(HeatInput heat)
    {
        HotMetal hm = heat.HotMetal;
        yield return ("hot metal 10 K hotter", SensitivityKind.HotMetalTemperature, 10, "K", 5, d => heat with { HotMetal = hm with { TemperatureK = hm.TemperatureK + d } });
        if (hm.Analysis[Element.Si] >= 0.05)
        {
            yield return ("0.1 % more silicon", SensitivityKind.HotMetalSilicon, 0.1, "mass %", 0.03, d => heat with
            {
                HotMetal = hm with { Analysis = hm.Analysis.With(Element.Si, hm.Analysis[Element.Si] + d) },
            });
        }

        yield return ("0.1 % more carbon", SensitivityKind.HotMetalCarbon, 0.1, "mass %", 0.03, d => heat with
        {
            HotMetal = hm with { Analysis = hm.Analysis.With(Element.C, hm.Analysis[Element.C] + d) },
        });
        yield return ("1 % more hot metal", SensitivityKind.HotMetalMass, 1, "%", 0.3, d => heat with { HotMetal = hm with { MassKg = hm.MassKg * (1 + (d / 100)) } });
        for (int k = 0; k < heat.Scrap.Count; k++)
        {
            int at = k;
            double step = Math.Min(500, heat.Scrap[k].MassKg);
            if (step > 10)
            {
                yield return ($"1 t more {heat.Scrap[k].Material.Name}", SensitivityKind.Scrap, 1000, "kg", step, d => heat with
                {
                    Scrap = [.. heat.Scrap.Select((s, i) => i == at ? s with { MassKg = s.MassKg + d } : s)],
                });
            }
        }

        BlowProgramme p = heat.Programme;
        foreach (FluxMaterial m in p.Additions.Where(a => a.MassKg > 0).Select(a => a.Material).Distinct())
        {
            double total = p.Additions.Where(a => a.Material == m).Sum(a => a.MassKg);
            double step = Math.Min(100, total);
            yield return ($"10 kg more {m.Name}", SensitivityKind.Addition, 10, "kg", step, d => heat with
            {
                Programme = p with { Additions = [.. p.Additions.Select(a => a.Material == m ? a with { MassKg = a.MassKg * (1 + (d / total)) } : a)] },
            });
        }

        yield return ("100 Nm3 more oxygen", SensitivityKind.Oxygen, 100, "Nm3", 50, d => heat with { Programme = p with { OxygenNm3 = p.OxygenNm3 + d } });
    }
}
