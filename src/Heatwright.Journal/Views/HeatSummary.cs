// SPDX-License-Identifier: Apache-2.0
using System.Text.Json;
using System.Text.Json.Serialization;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Lifecycle;
using Heatwright.Journal.Store;

namespace Heatwright.Journal.Views;

/// <summary>Figures of a heat for lists, shifts, campaigns and sums of material: what <see cref="HeatRow.Summary"/> holds as JSON.</summary>
/// <param name="Mark">Layout of this summary and plan of shifts: rows with another mark are made anew.</param>
/// <param name="Version">Version of the heat that it was made from.</param>
/// <param name="BlowBegan">When oxygen first came on.</param>
/// <param name="HotMetalKg">Hot metal as weighed, kg.</param>
/// <param name="ScrapKg">Scrap as weighed, kg.</param>
/// <param name="SteelKg">Steel in the ladle, kg.</param>
/// <param name="OxygenNm3">Oxygen of all blows, Nm³.</param>
/// <param name="EndTemperatureK">Temperature at the end of the last blow, K.</param>
/// <param name="EndCarbonPercent">Carbon there, mass %.</param>
/// <param name="EndPhosphorusPercent">Phosphorus there, mass %.</param>
/// <param name="EndManganesePercent">Manganese there, mass %.</param>
/// <param name="BlowMinutes">Oxygen on, all blows, min.</param>
/// <param name="Reblows">Repeats of the blow.</param>
/// <param name="FirstHit">
/// Temperature, carbon and every other ordered element that was analysed lay inside the order at the first end; null where temperature or
/// carbon was not ordered or measured, or a limit of detection does not decide.
/// </param>
/// <param name="Hit">Those of the last end did.</param>
/// <param name="Missed">Quantities that lay outside the order at the last end (<see cref="ResultQuantity"/>), also where the heat as a whole is not judged.</param>
/// <param name="Outcome">What became of it in the works' words: "cast", "downgraded" or the like; null while no one has said.</param>
/// <param name="DelayMinutes">Finished delays by reason code, min.</param>
/// <param name="OpenDelays">Delays that still last.</param>
/// <param name="Planned">Planned masses by material (<see cref="MaterialKey"/>), kg.</param>
/// <param name="Actual">Weighed masses by material, kg.</param>
/// <param name="CountedAges">Ages of parts that the works wrote down with the heat, heats.</param>
/// <param name="Irregularities">Number of things that do not fit.</param>
/// <param name="Late">Number of late facts.</param>
public sealed record HeatSummary(
    string Mark,
    int Version,
    DateTimeOffset? BlowBegan,
    double? HotMetalKg,
    double? ScrapKg,
    double? SteelKg,
    double? OxygenNm3,
    double? EndTemperatureK,
    double? EndCarbonPercent,
    double? EndPhosphorusPercent,
    double? EndManganesePercent,
    double? BlowMinutes,
    int Reblows,
    bool? FirstHit,
    bool? Hit,
    IReadOnlyList<string> Missed,
    string? Outcome,
    IReadOnlyDictionary<string, double> DelayMinutes,
    int OpenDelays,
    IReadOnlyDictionary<string, double> Planned,
    IReadOnlyDictionary<string, double> Actual,
    IReadOnlyDictionary<WearPart, double> CountedAges,
    int Irregularities,
    int Late)
{
    /// <summary>Goes up when the figures or the way they are made change, so that cached rows are made anew.</summary>
    internal const int Layout = 3;

    /// <summary>The mark of rows made by this program under a plan of shifts.</summary>
    public static string MarkOf(ShiftPlan shifts)
    {
        ArgumentNullException.ThrowIfNull(shifts);
        return FormattableString.Invariant($"{Layout} {shifts.Mark}");
    }

    /// <summary>An outcome other than that the heat was cast as ordered: "downgraded", "returned" or whatever the works calls it.</summary>
    public static bool IsUnwanted(string? outcome) => !string.IsNullOrWhiteSpace(outcome) && !outcome.Equals("cast", StringComparison.OrdinalIgnoreCase);

    /// <summary>The row of a heat.</summary>
    public static HeatRow RowOf(HeatRecord record, ShiftPlan shifts)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(shifts);
        HeatSummary summary = Of(record, shifts);
        DateTimeOffset opened = record.Facts.Entries[0].SourceTime;
        WorkedShift shift = shifts.At(summary.BlowBegan ?? opened);
        return new HeatRow(
            record.Heat, opened, record.Stage.Name(), record.Order?.Body.Grade ?? "", record.Unit ?? "", shift.DateText, shift.Name, record.OpenStale, summary.ToJson());
    }

    /// <summary>The figures of a heat.</summary>
    public static HeatSummary Of(HeatRecord record, ShiftPlan shifts)
    {
        ArgumentNullException.ThrowIfNull(record);
        IReadOnlyDictionary<string, EndValue> last = EndValues.Of(record);
        double? Last(string quantity) => last.GetValueOrDefault(quantity)?.Value;
        SortedDictionary<string, double> actual = MaterialKey.Actual(record);
        SortedDictionary<string, double> delays = new(StringComparer.Ordinal);
        foreach (DelayBody delay in record.Delays.Select(d => d.Body).Where(d => d.Until is not null))
        {
            delays[delay.Code] = delays.GetValueOrDefault(delay.Code) + (delay.Until!.Value - delay.From).TotalMinutes;
        }

        double[] scrap = [.. record.Charges.Where(c => c.Body.What == ChargeKind.Scrap).Select(c => c.Body.MassKg)];
        return new HeatSummary(
            MarkOf(shifts),
            record.Version,
            record.Life.Blows.Select(b => b.Began ?? b.Ended).FirstOrDefault(t => t is not null),
            actual.TryGetValue(MaterialKey.HotMetal, out double hotMetal) ? hotMetal : null,
            scrap.Length > 0 ? scrap.Sum() : null,
            Last(ResultQuantity.SteelKg),
            EndValues.BlownNm3(record),
            Last(ResultQuantity.TemperatureK),
            Last(ResultQuantity.CarbonPercent),
            Last(ResultQuantity.PhosphorusPercent),
            Last(ResultQuantity.ManganesePercent),
            Last(ResultQuantity.BlowS) / 60,
            record.Life.Reblows,
            HitBy(record.Order?.Body, EndValues.OfFirst(record)),
            HitBy(record.Order?.Body, last),
            [.. OrderLimits.Of(record.Order?.Body).Where(l => last.TryGetValue(l.Key, out EndValue? v) && OrderLimits.Holds(l.Value, v) == false).Select(l => l.Key).Order(StringComparer.Ordinal)],
            record.End?.Body.Outcome,
            delays,
            record.Delays.Count(d => d.Body.Until is null),
            MaterialKey.Planned(record),
            actual,
            Counted(record),
            record.Irregularities.Count,
            record.Late.Count());
    }

    /// <summary>Text as rows keep it.</summary>
    public string ToJson() => JsonSerializer.Serialize(this, SummaryJson.Default.HeatSummary);

    /// <summary>The summary of a row.</summary>
    public static HeatSummary Of(HeatRow row)
    {
        ArgumentNullException.ThrowIfNull(row);
        return JsonSerializer.Deserialize(row.Summary, SummaryJson.Default.HeatSummary)
            ?? throw new JsonException($"The row of heat {row.Heat} has no summary.");
    }

    /// <summary>The mark of a row, also of one that this program did not make.</summary>
    internal static string MarkOf(HeatRow row)
    {
        try
        {
            using JsonDocument json = JsonDocument.Parse(row.Summary);
            return json.RootElement.TryGetProperty("mark", out JsonElement mark) ? mark.GetString() ?? "" : "";
        }
        catch (JsonException)
        {
            return "";
        }
    }

    /// <summary>Layout that a mark speaks of; 0 when it cannot be read.</summary>
    internal static int LayoutOf(string mark) =>
        int.TryParse(mark.AsSpan(0, Math.Max(0, mark.IndexOf(' ', StringComparison.Ordinal))), System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out int layout) ? layout : 0;

    /// <summary>The same row by another plan of shifts; null when its figures are of another layout and must be made from the entries.</summary>
    internal static HeatRow? Under(HeatRow row, ShiftPlan shifts)
    {
        if (LayoutOf(MarkOf(row)) != Layout)
        {
            return null;
        }

        HeatSummary summary = Of(row) with { Mark = MarkOf(shifts) };
        WorkedShift shift = shifts.At(summary.BlowBegan ?? row.Opened);
        return row with { ShiftDate = shift.DateText, Shift = shift.Name, Summary = summary.ToJson() };
    }

    private static SortedDictionary<WearPart, double> Counted(HeatRecord record)
    {
        var ages = new SortedDictionary<WearPart, double>();
        foreach (EquipmentBody counted in record.Facts.Of<EquipmentBody>().Select(e => e.Body).Where(e => e is { Counted: true, AgeHeats: not null }))
        {
            ages[counted.Part] = counted.AgeHeats!.Value;
        }

        return ages;
    }

    // Temperature and carbon must both have been ordered and found: half a window is no hit.
    private static bool? HitBy(OrderBody? order, IReadOnlyDictionary<string, EndValue> end)
    {
        IReadOnlyDictionary<string, Window> limits = OrderLimits.Of(order);
        string[] needed = [ResultQuantity.TemperatureK, ResultQuantity.CarbonPercent];
        if (!needed.All(q => limits.ContainsKey(q) && end.ContainsKey(q)))
        {
            return null;
        }

        bool?[] each = [.. limits.Where(l => end.ContainsKey(l.Key)).Select(l => OrderLimits.Holds(l.Value, end[l.Key]))];
        return each.Contains(false) ? false : each.Contains(null) ? null : true;
    }
}

/// <summary>Names of materials in sums: "hot metal", "scrap/heavy", "addition/lime", "ladle/ferromanganese", "retained slag".</summary>
public static class MaterialKey
{
    /// <summary>Hot metal.</summary>
    public const string HotMetal = "hot metal";

    /// <summary>Slag kept from the heat before.</summary>
    public const string RetainedSlag = "retained slag";

    /// <summary>A scrap class.</summary>
    public static string Scrap(string? material) => "scrap/" + (material ?? "");

    /// <summary>An addition.</summary>
    public static string Addition(AdditionPlace place, string material) => (place == AdditionPlace.Ladle ? "ladle/" : "addition/") + material;

    /// <summary>What was weighed, by material, kg.</summary>
    internal static SortedDictionary<string, double> Actual(HeatRecord record)
    {
        var sums = new SortedDictionary<string, double>(StringComparer.Ordinal);
        foreach (ChargeBody charge in record.Charges.Select(c => c.Body))
        {
            Add(sums, charge.What switch { ChargeKind.HotMetal => HotMetal, ChargeKind.Scrap => Scrap(charge.Material), _ => RetainedSlag }, charge.MassKg);
        }

        foreach (AdditionBody addition in record.Additions.Select(a => a.Body))
        {
            Add(sums, Addition(addition.Place, addition.Material), addition.MassKg);
        }

        return sums;
    }

    /// <summary>What the plan in force says, by material, kg.</summary>
    internal static SortedDictionary<string, double> Planned(HeatRecord record)
    {
        var sums = new SortedDictionary<string, double>(StringComparer.Ordinal);
        if (record.Plan?.Fact.Body is { } plan)
        {
            if (plan.HotMetalKg is { } hotMetal)
            {
                sums[HotMetal] = hotMetal;
            }

            foreach ((string material, double kg) in plan.ScrapKg)
            {
                sums[Scrap(material)] = kg;
            }

            foreach ((string material, double kg) in plan.AdditionsKg)
            {
                sums[Addition(AdditionPlace.Converter, material)] = kg;
            }
        }

        return sums;
    }

    private static void Add(SortedDictionary<string, double> sums, string key, double kg) => sums[key] = sums.GetValueOrDefault(key) + kg;
}

[JsonSerializable(typeof(HeatSummary))]
[JsonSerializable(typeof(string))]
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    UseStringEnumConverter = true,
    NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals)]
internal sealed partial class SummaryJson : JsonSerializerContext;
