// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using Heatwright.Journal.Entries;
using Heatwright.Shop.Units;

namespace Heatwright.Journal.Views;

/// <summary>An entry in one line of words, with units as a shop says them. For lists and messages; machines read the body.</summary>
public static class EntryWords
{
    /// <summary>The line for a body: "hot metal 142.7 t, at 1350 °C".</summary>
    public static string Of(EntryBody body)
    {
        ArgumentNullException.ThrowIfNull(body);
        return body switch
        {
            OrderBody o => Join(o.Grade, Mass(o.TappedMassKg), Between("", o.TemperatureK, " °C", -273.15, 0), Between("C ", o.CarbonPercent, " %", 0, 4), o.Practice is null ? null : "practice " + o.Practice),
            PlanBody p => Join(
                Named("hot metal", p.HotMetalKg), Sum("scrap", p.ScrapKg), Sum("additions", p.AdditionsKg), Gas("oxygen", p.OxygenNm3), Ends(p.Expected)),
            ChargeBody c => Join(Plain(c.What) + (c.Material is null ? "" : " " + c.Material) + " " + Mass(c.MassKg), Celsius(c.TemperatureK, "at "), c.Lot is null ? null : "lot " + c.Lot),
            SignalBlockBody s => $"signals, {Number(s.Packed.Length / 1024.0, 1)} kB",
            AdditionBody a => Join($"{a.Material} {Mass(a.MassKg)}", a.Place == AdditionPlace.Ladle ? "into the ladle" : null, Gas("at", a.OxygenNm3)),
            MeasurementBody m => Join(
                Plain(m.Point), Celsius(m.TemperatureK), Percent("C", m.CarbonPercent), m.OxygenPpm is { } o ? $"O {Number(o, 0)} ppm" : null,
                Gas("at", m.OxygenNm3), m.BathLevelM is { } l ? $"bath level {Number(l, 2)} m" : null, m.Status == ReadingStatus.Good ? null : Plain(m.Status) + " reading"),
            AnalysisBody a => Join([Plain(a.Point) + (a.Matter == SampledMatter.Slag ? " slag" : ""), .. a.Percent.Select(p => $"{p.Key} {(p.Value.Below ? "below " : "")}{Number(p.Value.Value, 4)} %")]),
            DecisionBody d => $"{d.Question}: {d.Chosen}",
            NoteBody n => n.Text,
            CorrectionBody { Replacement: null } c => $"entry {c.Corrects} is withdrawn",
            CorrectionBody c => $"put right: {Of(c.Replacement!)}",
            DelayBody d => Join(d.Code, d.Unit, d.Until is { } until ? $"{Number((until - d.From).TotalMinutes, 0)} min" : "still waiting", d.Text),
            OperationBody o => Join(Plain(o.Operation) + (o.Index > 1 ? " " + o.Index.ToString(CultureInfo.InvariantCulture) : "") + (o.State == OperationState.Running ? " began" : " " + Plain(o.State)), o.Unit, Gas("", o.OxygenNm3)),
            EndBody e => Join(e.Outcome, Named("steel", e.SteelKg), Named("slag", e.SlagKg), Gas("oxygen", e.OxygenNm3)),
            ResultBody r => Join(Plain(r.Question), Ends(r.Values), r.Replaces is null ? null : "replaces an earlier one"),
            EquipmentBody e => Join($"{e.Unit}: {Plain(e.Part)} {(e.Counted == true ? "counted" : e.Renewed ? "renewed" : "mended")}", e.AgeHeats is { } age ? $"{(e.Counted == true ? "at" : "after")} {Number(age, 0)} heats" : null, e.Serial),
            WorksBody w => $"files of {w.Name}: {string.Join(", ", w.Files.Keys)}",
            ImportBody i => $"{i.File} by mapping {i.Mapping}: {i.Rows} rows, {i.Heats} heats, {i.Rejected.Count} left out",
            _ => body.Kind.Name(),
        };
    }

    /// <summary>The words of an enumeration's name: "EndOfBlow" is "end of blow".</summary>
    public static string Plain(Enum value) => StoredName.Words(value);

    private static string Join(params string?[] parts) => string.Join(", ", parts.Where(p => !string.IsNullOrEmpty(p)));

    private static string Number(double value, int decimals) => UnitText.Number(Math.Round(value, decimals));

    private static string? Mass(double? kg) => kg is { } m ? Math.Abs(m) >= 1000 ? Number(m / 1000, 3) + " t" : Number(m, 1) + " kg" : null;

    private static string? Named(string name, double? kg) => kg is null ? null : name + " " + Mass(kg);

    private static string? Sum(string name, IReadOnlyDictionary<string, double> kg) => kg.Count == 0 ? null : Named(name, kg.Values.Sum());

    private static string? Gas(string name, double? nm3) => nm3 is { } v ? (name.Length == 0 ? "" : name + " ") + Number(v, 0) + " Nm3" : null;

    private static string? Celsius(double? kelvin, string before = "") => kelvin is { } t ? before + Number(t - 273.15, 1) + " °C" : null;

    private static string? Percent(string name, double? percent) => percent is { } p ? $"{name} {Number(p, 4)} %" : null;

    private static string? Between(string name, Window? window, string unit, double offset, int decimals) => window switch
    {
        { Least: { } least, Most: { } most } => $"{name}{Number(least + offset, decimals)} to {Number(most + offset, decimals)}{unit}",
        { Most: { } most } => $"{name}max {Number(most + offset, decimals)}{unit}",
        { Least: { } least } => $"{name}min {Number(least + offset, decimals)}{unit}",
        { Aim: { } aim } => $"{name}{Number(aim + offset, decimals)}{unit}",
        _ => null,
    };

    private static string? Ends(IReadOnlyDictionary<string, Expected>? values)
    {
        string? Value(string name, string unit, double offset, int decimals) =>
            values is not null && values.TryGetValue(name, out Expected? e) ? Number(e.Value + offset, decimals) + unit : null;
        string text = Join(Value(ResultQuantity.TemperatureK, " °C", -273.15, 0), Value(ResultQuantity.CarbonPercent, " % C", 0, 3));
        return text.Length == 0 ? null : "expected " + text;
    }
}
