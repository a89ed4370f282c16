// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Lifecycle;

namespace Heatwright.Journal.Views;

/// <summary>A value that was measured or analysed.</summary>
/// <param name="Value">Value, in the unit that its name says.</param>
/// <param name="Below">All that is known is that it lies below.</param>
/// <param name="Entry">Entry that it comes from.</param>
public sealed record EndValue(double Value, bool Below, Guid Entry);

/// <summary>What the order allows a quantity at the end (<see cref="ResultQuantity"/>, or <see cref="EndValues.QuantityOf"/> an element).</summary>
internal static class OrderLimits
{
    /// <summary>Windows with a limit, by quantity.</summary>
    public static IReadOnlyDictionary<string, Window> Of(OrderBody? order)
    {
        var limits = new Dictionary<string, Window>(StringComparer.Ordinal);
        foreach ((string element, Window window) in order?.EndPercent ?? new Dictionary<string, Window>())
        {
            Add(EndValues.QuantityOf(element), window);
        }

        Add(ResultQuantity.TemperatureK, order?.TemperatureK);
        Add(ResultQuantity.CarbonPercent, order?.CarbonPercent);
        return limits;

        void Add(string quantity, Window? window)
        {
            if (window is { Least: not null } or { Most: not null })
            {
                limits[quantity] = window;
            }
        }
    }

    /// <summary>Whether a value lies inside; null when all that is known is that it lies below a limit of detection, and that does not decide.</summary>
    public static bool? Holds(Window window, EndValue value) => value.Below
        ? value.Value <= window.Least ? false : window.Least is null or <= 0 && !(value.Value > window.Most) ? true : null
        : !(value.Value < window.Least) && !(value.Value > window.Most);
}

/// <summary>
/// What the heat came to at the end of blow, by quantity (<see cref="ResultQuantity"/>): the laboratory before the probe, the last
/// before the first. Doubted readings count, bad ones do not.
/// </summary>
public static class EndValues
{
    /// <summary>Slag poured off, kg: weighed or estimated when it was, and not the slag that the model reckons with at the end.</summary>
    public const string SlagPouredKg = "slagPouredKg";

    private static readonly string[] Usual = ["C", "P", "Mn", "S"];

    /// <summary>The quantity under which an element of the steel is found.</summary>
    public static string QuantityOf(string element) => element switch
    {
        "C" => ResultQuantity.CarbonPercent,
        "P" => ResultQuantity.PhosphorusPercent,
        "Mn" => ResultQuantity.ManganesePercent,
        "S" => ResultQuantity.SulphurPercent,
        _ => element + "Percent",
    };

    /// <summary>Values at the end of the last blow.</summary>
    public static IReadOnlyDictionary<string, EndValue> Of(HeatRecord record)
    {
        ArgumentNullException.ThrowIfNull(record);

        // What was read before a reblow says nothing about where the reblow led.
        OperationRun[] blows = [.. record.Life.Blows];
        return Of(record, blows.Length > 1 ? blows[^1].Began ?? DateTimeOffset.MinValue : DateTimeOffset.MinValue, DateTimeOffset.MaxValue);
    }

    /// <summary>Values at the end of the first blow, before any reblow began.</summary>
    public static IReadOnlyDictionary<string, EndValue> OfFirst(HeatRecord record)
    {
        ArgumentNullException.ThrowIfNull(record);
        DateTimeOffset reblow = record.Life.Blows.Skip(1).Select(b => b.Began ?? b.Ended ?? DateTimeOffset.MaxValue).DefaultIfEmpty(DateTimeOffset.MaxValue).Min();
        return Of(record, DateTimeOffset.MinValue, reblow);
    }

    /// <summary>Oxygen of all blows, Nm³: as the blows say, else as the end says; null when neither does.</summary>
    public static double? BlownNm3(HeatRecord record)
    {
        ArgumentNullException.ThrowIfNull(record);
        double[] blown = [.. record.Life.Blows.Select(b => b.OxygenNm3).OfType<double>()];
        return blown.Length > 0 && blown.Length == record.Life.Blows.Count() ? blown.Sum() : record.End?.Body.OxygenNm3 ?? (blown.Length > 0 ? blown.Sum() : null);
    }

    /// <summary>Temperature of the hot metal, K: the mean by mass of what was weighed in with a temperature, else the last reading.</summary>
    public static (double? TemperatureK, IReadOnlyList<Guid> From) HotMetalTemperatureK(HeatRecord record)
    {
        ArgumentNullException.ThrowIfNull(record);
        var poured = record.Charges.Where(c => c.Body.What == ChargeKind.HotMetal).ToList();
        if (poured.Count > 0 && poured.TrueForAll(c => c.Body.TemperatureK is not null) && poured.Sum(c => c.Body.MassKg) is > 0 and double kg)
        {
            return (poured.Sum(c => c.Body.TemperatureK!.Value * c.Body.MassKg) / kg, [.. poured.Select(c => c.Id)]);
        }

        var read = record.Measurements.LastOrDefault(m => m.Body is { Point: HeatPoint.HotMetal, Status: not ReadingStatus.Bad, TemperatureK: not null });
        return (read?.Body.TemperatureK, read is null ? [] : [read.Id]);
    }

    private static Dictionary<string, EndValue> Of(HeatRecord record, DateTimeOffset after, DateTimeOffset before)
    {
        var values = new Dictionary<string, EndValue>(StringComparer.Ordinal);
        foreach (Fact<MeasurementBody> m in record.Measurements.Where(m => m.Time >= after && m.Time < before && m.Body is { Point: HeatPoint.EndOfBlow, Status: not ReadingStatus.Bad }))
        {
            Set(values, ResultQuantity.TemperatureK, m.Body.TemperatureK, m.Id);
            Set(values, ResultQuantity.CarbonPercent, m.Body.CarbonPercent, m.Id);
            Set(values, ResultQuantity.OxygenPpm, m.Body.OxygenPpm, m.Id);
        }

        // Of the other elements those that the order limits: the heat is judged on them.
        (string Element, string Quantity)[] metal = [.. Usual.Union(record.Order?.Body.EndPercent?.Keys ?? []).Select(e => (e, QuantityOf(e)))];
        foreach (Fact<AnalysisBody> a in record.Analyses.Where(a => a.Time >= after && a.Time < before && a.Body.Point == HeatPoint.EndOfBlow))
        {
            foreach ((string element, string quantity) in a.Body.Matter == SampledMatter.Metal ? metal : [("FeO", ResultQuantity.SlagFeoPercent)])
            {
                if (a.Body.Percent.TryGetValue(element, out Reading reading))
                {
                    values[quantity] = new EndValue(reading.Value, reading.Below, a.Id);
                }
            }
        }

        if (before == DateTimeOffset.MaxValue)
        {
            Fact<EndBody>? end = record.End;
            Set(values, ResultQuantity.SteelKg, end?.Body.SteelKg, end?.Id ?? default);
            Set(values, SlagPouredKg, end?.Body.SlagKg, end?.Id ?? default);
            TimeSpan?[] blows = [.. record.Life.Blows.Select(b => b.Duration)];
            if (blows.Length > 0 && Array.TrueForAll(blows, b => b is not null))
            {
                Set(values, ResultQuantity.BlowS, blows.Sum(b => b!.Value.TotalSeconds), record.Life.Blows.First().Facts[0].Id);
            }

            Set(values, ResultQuantity.OxygenNm3, BlownNm3(record), record.Life.Blows.LastOrDefault()?.Facts[^1].Id ?? end?.Id ?? default);
        }

        return values;
    }

    private static void Set(Dictionary<string, EndValue> values, string quantity, double? value, Guid entry)
    {
        if (value is { } v)
        {
            values[quantity] = new EndValue(v, Below: false, entry);
        }
    }
}
