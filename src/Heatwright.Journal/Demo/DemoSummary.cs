// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using System.Text;
using Heatwright.Journal.Entries;

namespace Heatwright.Journal.Demo;

/// <summary>One quantity over the year.</summary>
/// <param name="Name">Quantity with its unit.</param>
/// <param name="Count">Heats that have it.</param>
/// <param name="Mean">Mean.</param>
/// <param name="Deviation">Standard deviation.</param>
/// <param name="P5">5th percentile.</param>
/// <param name="P50">Median.</param>
/// <param name="P95">95th percentile.</param>
public sealed record DemoSpread(string Name, int Count, double Mean, double Deviation, double P5, double P50, double P95)
{
    /// <summary>The spread of values; zeros without any.</summary>
    public static DemoSpread Of(string name, IEnumerable<double> values)
    {
        double[] v = [.. values.Order()];
        if (v.Length == 0)
        {
            return new DemoSpread(name, 0, 0, 0, 0, 0, 0);
        }

        double mean = v.Average();
        double At(double share) => v[(int)Math.Min(v.Length - 1, share * v.Length)];
        return new DemoSpread(name, v.Length, mean, Math.Sqrt(v.Average(x => (x - mean) * (x - mean))), At(0.05), At(0.5), At(0.95));
    }
}

/// <summary>
/// The year in a few figures, read from the entries alone: what the handbook's chapter 95 prints and what a reader can hold
/// against published ranges. Corrections are applied.
/// </summary>
/// <param name="Heats">Heats.</param>
/// <param name="ReblownShare">Share of heats blown again.</param>
/// <param name="TemperatureHit">Share with the first end temperature in its window.</param>
/// <param name="CarbonHit">Share with the last end carbon of the laboratory in its window.</param>
/// <param name="JointHit">Both.</param>
/// <param name="PhosphorusHit">Share with the last end phosphorus at most its limit.</param>
/// <param name="Spreads">Quantities.</param>
public sealed record DemoSummary(
    int Heats, double ReblownShare, double TemperatureHit, double CarbonHit, double JointHit, double PhosphorusHit, IReadOnlyList<DemoSpread> Spreads)
{
    /// <summary>The summary of heats in their order.</summary>
    public static DemoSummary Of(IEnumerable<DemoHeat> heats)
    {
        ArgumentNullException.ThrowIfNull(heats);
        Row[] rows = [.. heats.Select(h => Row.Of([.. h.Entries.Select(e => e.Entry)]))];
        double Share(Func<Row, bool> hit) => rows.Count(hit) / (double)rows.Length;
        bool T(Row r) => r.EndK >= r.Order.TemperatureK!.Least && r.EndK <= r.Order.TemperatureK.Most;
        bool C(Row r) => r.EndC >= r.Order.CarbonPercent!.Least && r.EndC <= r.Order.CarbonPercent.Most;
        double[] toTap = [.. rows.GroupBy(r => r.Order.Converter).SelectMany(u => u.Zip(u.Skip(1), (a, b) => (b.TapFrom - a.TapFrom).TotalMinutes)).Where(m => m < 180)];
        Row[] low = [.. rows.Where(r => r.Order.CarbonPercent!.Most < 0.1)];
        return new DemoSummary(
            rows.Length,
            Share(r => r.Blows > 1),
            Share(T),
            Share(C),
            Share(r => T(r) && C(r)),
            Share(r => r.EndP <= r.Order.EndPercent!["P"].Most),
            [
                DemoSpread.Of("end temperature less aim, K", rows.Select(r => r.EndK - r.Order.TemperatureK!.Aim!.Value)),
                DemoSpread.Of("the same, measured in the blow, K", rows.Where(r => r.Probed).Select(r => r.EndK - r.Order.TemperatureK!.Aim!.Value)),
                DemoSpread.Of("the same, not measured, K", rows.Where(r => !r.Probed).Select(r => r.EndK - r.Order.TemperatureK!.Aim!.Value)),
                DemoSpread.Of("end carbon, low-carbon grades, mass %", low.Select(r => r.EndC)),
                DemoSpread.Of("end carbon less aim, low-carbon grades, mass %", low.Select(r => r.EndC - r.Order.CarbonPercent!.Aim!.Value)),
                DemoSpread.Of("end phosphorus, mass %", rows.Select(r => r.EndP)),
                DemoSpread.Of("end manganese, mass %", rows.Select(r => r.EndMn)),
                DemoSpread.Of("dissolved oxygen, low-carbon grades, ppm", low.Select(r => r.EndO)),
                DemoSpread.Of("FeO in the end slag, mass %", rows.Where(r => r.FeO > 0).Select(r => r.FeO)),
                DemoSpread.Of("CaO/SiO2 of the end slag", rows.Where(r => r.FeO > 0).Select(r => r.Basicity)),
                DemoSpread.Of("blow, oxygen on, min", rows.Select(r => r.BlowMin)),
                DemoSpread.Of("oxygen, Nm³/t steel", rows.Select(r => 1000 * r.OxygenNm3 / r.SteelKg)),
                DemoSpread.Of("hot metal, kg/t steel", rows.Select(r => 1000 * r.IronKg / r.SteelKg)),
                DemoSpread.Of("lime, kg/t steel", rows.Select(r => 1000 * r.LimeKg / r.SteelKg)),
                DemoSpread.Of("charge to slag off, min", rows.Select(r => r.CycleMin)),
                DemoSpread.Of("tap to tap of a vessel within a sequence, min", toTap),
                DemoSpread.Of("tap, min", rows.Where(r => r.TapMin > 0).Select(r => r.TapMin)),
                DemoSpread.Of("steel in the ladle, t", rows.Select(r => r.SteelKg / 1000)),
            ]);
    }

    /// <summary>As a Markdown table.</summary>
    public override string ToString()
    {
        var text = new StringBuilder();
        text.AppendLine(CultureInfo.InvariantCulture, $"{Heats} heats; blown again {ReblownShare:P1}; in window: T {TemperatureHit:P1}, C {CarbonHit:P1}, both {JointHit:P1}, P {PhosphorusHit:P1}");
        text.AppendLine();
        text.AppendLine("| quantity | n | mean | SD | 5 % | 50 % | 95 % |");
        text.AppendLine("| --- | --- | --- | --- | --- | --- | --- |");
        foreach (DemoSpread s in Spreads)
        {
            string f = s.Deviation < 0.1 ? "F4" : s.Deviation < 1 ? "F2" : "F1";
            string N(double v) => v.ToString(f, CultureInfo.InvariantCulture);
            text.AppendLine($"| {s.Name} | {s.Count} | {N(s.Mean)} | {N(s.Deviation)} | {N(s.P5)} | {N(s.P50)} | {N(s.P95)} |");
        }

        return text.ToString();
    }

    private sealed record Row(
        OrderBody Order, int Blows, bool Probed, double EndK, double EndC, double EndP, double EndMn, double EndO, double FeO, double Basicity,
        double BlowMin, double OxygenNm3, double SteelKg, double IronKg, double LimeKg, double CycleMin, double TapMin, DateTimeOffset TapFrom)
    {
        public static Row Of(NewEntry[] said)
        {
            var right = said.Select(e => e.Body).OfType<CorrectionBody>().Where(c => c.Replacement is not null).ToDictionary(c => c.Corrects, c => c.Replacement!);
            NewEntry[] entries = [.. said.Select(e => right.TryGetValue(e.Id, out EntryBody? body) ? e with { Body = body } : e)];
            IEnumerable<(NewEntry Entry, T Body)> All<T>()
                where T : EntryBody => entries.Where(e => e.Body is T).Select(e => (e, (T)e.Body));
            DateTimeOffset At(HeatOperation o, OperationState s) => All<OperationBody>().First(x => x.Body.Operation == o && x.Body.State == s).Entry.SourceTime;
            MeasurementBody end = All<MeasurementBody>().First(m => m.Body.Point == HeatPoint.EndOfBlow).Body;
            AnalysisBody[] ends = [.. All<AnalysisBody>().Select(a => a.Body).Where(a => a.Point == HeatPoint.EndOfBlow)];
            AnalysisBody steel = ends.Last(a => a.Matter == SampledMatter.Metal);
            AnalysisBody? slag = ends.LastOrDefault(a => a.Matter == SampledMatter.Slag);
            DateTimeOffset tap = At(HeatOperation.Tap, OperationState.Running);
            double tapMin = All<OperationBody>().Any(x => x.Body is { Operation: HeatOperation.Tap, State: OperationState.Complete })
                ? (At(HeatOperation.Tap, OperationState.Complete) - tap).TotalMinutes
                : 0;
            EndBody closed = All<EndBody>().Single().Body;
            OperationBody[] blows = [.. All<OperationBody>().Select(o => o.Body).Where(o => o.Operation is HeatOperation.Blow or HeatOperation.Reblow && o.State == OperationState.Complete)];
            double held = All<OperationBody>().Any(x => x.Body.State == OperationState.Held) ? HeatClock.HoldMin : 0;
            return new Row(
                All<OrderBody>().Single().Body,
                blows.Length,
                All<MeasurementBody>().Any(m => m.Body is { Point: HeatPoint.InBlow, Status: ReadingStatus.Good }),
                end.TemperatureK!.Value,
                steel.Percent["C"].Value,
                steel.Percent["P"].Value,
                steel.Percent["Mn"].Value,
                end.OxygenPpm!.Value,
                slag?.Percent["FeO"].Value ?? 0,
                slag is null ? 0 : slag.Percent["CaO"].Value / slag.Percent["SiO2"].Value,
                (At(HeatOperation.Blow, OperationState.Complete) - At(HeatOperation.Blow, OperationState.Running)).TotalMinutes - held,
                blows.Sum(b => b.OxygenNm3 ?? 0),
                closed.SteelKg!.Value,
                All<ChargeBody>().First(c => c.Body.What == ChargeKind.HotMetal).Body.MassKg,
                All<AdditionBody>().Where(a => a.Body is { Material: "lime", Place: AdditionPlace.Converter }).Sum(a => a.Body.MassKg),
                (At(HeatOperation.SlagOff, OperationState.Complete) - At(HeatOperation.ChargeScrap, OperationState.Running)).TotalMinutes,
                tapMin,
                tap);
        }
    }
}
