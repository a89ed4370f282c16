// SPDX-License-Identifier: Apache-2.0
using Heatwright.Shop.Units;

namespace Heatwright.Journal.Entries;

/// <summary>A value that cannot be: what, and the mend.</summary>
public sealed record ImpossibleValue(string Text, string Mend);

/// <summary>
/// What the numbers of an entry can be, and what they usually are. Impossible is below zero, above 100 %, below absolute zero and the
/// like: never entered by hand. Unusual lies outside what a converter shop sees (common practice, no source): most likely a slip of unit or of a
/// digit, and entered only when it was so. Facts from signals are not asked: a wrong reading is a fact too.
/// </summary>
public static class BodyLimits
{
    private sealed record Figure(string Name, double? Value, string Unit, double Least, double Most, double UsualLeast, double UsualMost, double Offset = 0);

    /// <summary>The first number that cannot be, or null.</summary>
    public static ImpossibleValue? Impossible(EntryBody body)
    {
        Figure? bad = Figures(body).FirstOrDefault(f => f.Value is { } v && !(v >= f.Least && v <= f.Most));
        return bad is null ? null : new ImpossibleValue(
            $"{bad.Name}: {Text(bad.Value!.Value, bad)} is impossible; limits {Text(bad.Least, bad)} to {Text(bad.Most, bad)}.", "check the number and its unit");
    }

    /// <summary>The first number that a shop hardly sees, in words with the mend, or null.</summary>
    public static string? Unusual(EntryBody body)
    {
        Figure? odd = Figures(body).FirstOrDefault(f => f.Value is { } v && !(v >= f.UsualLeast && v <= f.UsualMost));
        return odd is null ? null : $"{odd.Name}: {Text(odd.Value!.Value, odd)} lies outside {Text(odd.UsualLeast, odd)} to {Text(odd.UsualMost, odd)}, what a shop usually sees. Mend: check the number and its unit";
    }

    private static IEnumerable<Figure> Figures(EntryBody body) => body switch
    {
        CorrectionBody { Replacement: { } replacement } => Figures(replacement),
        ChargeBody c =>
        [
            Mass("mass", c.MassKg, c.What == ChargeKind.HotMetal ? 5e3 : 100, c.What == ChargeKind.RetainedSlag ? 5e4 : 5e5),
            c.What == ChargeKind.HotMetal ? Kelvin("temperature", c.TemperatureK, 1373.15, 1823.15) : Kelvin("temperature", c.TemperatureK, 223.15, 1923.15),
            Mass("slag", c.SlagKg, 0, 2e4),
        ],
        AdditionBody a => [Mass("mass", a.MassKg, 0, 4e4), Gas("oxygen", a.OxygenNm3, 0)],
        MeasurementBody m =>
        [
            m.Point == HeatPoint.HotMetal ? Kelvin("temperature", m.TemperatureK, 1373.15, 1823.15) : Kelvin("temperature", m.TemperatureK, 1573.15, 2123.15),
            new("carbon", m.CarbonPercent, "mass %", 0, 100, 0, m.Point is HeatPoint.HotMetal ? 6 : m.Point == HeatPoint.InBlow ? 4.5 : 2),
            new("dissolved oxygen", m.OxygenPpm, "ppm", 0, 1e6, 0, 3000),
            new("bath level", m.BathLevelM, "m", -50, 50, -20, 20),
            Gas("oxygen", m.OxygenNm3, 0),
        ],
        AnalysisBody a => a.Percent.Select(p => new Figure(
            p.Key, p.Value.Value, "mass %", 0, 100, 0, a.Matter == SampledMatter.Slag ? 80 : p.Key == "C" ? 6 : p.Key is "Cr" or "Ni" or "Mn" ? 20 : 3)),
        OperationBody o => [Gas("oxygen", o.OxygenNm3, o is { Operation: HeatOperation.Blow, State: OperationState.Complete } ? 1000 : 0)],
        EndBody e => [Mass("steel", e.SteelKg, 5e3, 5e5), Mass("slag", e.SlagKg, 0, 1e5), Gas("oxygen", e.OxygenNm3, 0)],
        EquipmentBody e => [new("age", e.AgeHeats, "heats", 0, 1e6, 0, 3e4)],
        PlanBody p => [.. p.ScrapKg.Concat(p.AdditionsKg).Select(m => Mass(m.Key, m.Value, 0, 5e5)), Mass("hot metal", p.HotMetalKg, 0, 5e5), Gas("oxygen", p.OxygenNm3, 0)],
        _ => [],
    };

    private static Figure Mass(string name, double? kg, double usualLeast, double usualMost) => new(name, kg, "kg", 0, 1e7, usualLeast, usualMost);

    private static Figure Gas(string name, double? nm3, double usualLeast) => new(name, nm3, "Nm3", 0, 1e7, usualLeast, 5e4);

    private static Figure Kelvin(string name, double? kelvin, double usualLeast, double usualMost) => new(name, kelvin, "°C", 0, 6000, usualLeast, usualMost, -273.15);

    private static string Text(double value, Figure f) => UnitText.Number(Math.Round(value + f.Offset, 6)) + " " + f.Unit;
}
