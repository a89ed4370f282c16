// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Converter;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Views;
using Heatwright.Shop;

namespace Heatwright.Journal.Lifecycle;

/// <summary>A question to the model cannot be asked from this record. The message says what is missing and the mend.</summary>
internal sealed class CannotAskException(string message) : Exception(message);

/// <summary>
/// A heat of the record as the blow model takes it: what was weighed and analysed, and what the plan says where nothing was. Every
/// value taken from the plan, and every other assumption, is said in the notes.
/// </summary>
internal sealed class ChargedHeat
{
    // What the model follows in metal (BlowPoint); anything else a laboratory reports is left out and said.
    private static readonly Element[] Followed =
    [
        Element.C, Element.Si, Element.Mn, Element.P, Element.S, Element.Ti, Element.V, Element.Cr, Element.Cu, Element.Ni, Element.Mo, Element.Sn,
    ];

    private readonly HashSet<Guid> _inputs = [];
    private readonly List<string> _notes = [];

    private ChargedHeat(HeatRecord record, Works works)
    {
        Record = record;
        Works = works;
        Order = Use(record.Order)?.Body;
        Plan = Use(record.Plan?.Fact)?.Body;
        Converter = Named(works.Plant.Converters, record.Unit, "converter", "an order or an operation that names it");
        Practice = Named(works.Practices, Plan?.Practice ?? Order?.Practice, "practice", "a plan or an order that names it");
        if (Plan?.PracticeVersion is { } version && version != Practice.Version)
        {
            Note($"The plan follows version {version} of practice {Practice.Id}; the files of the works hold version {Practice.Version}.");
        }

        Blow = record.Life.Blows.FirstOrDefault();
        foreach (Fact<OperationBody> fact in Blow?.Facts ?? [])
        {
            Use(fact);
        }

        PlannedNm3 = OxygenNm3();
        HotMetalKg = HotMetalMass();
        ScrapKg = Scrap();
        Heat = new Heat(
            record.Heat,
            null,
            null,
            Converter,
            Practice,
            ShopOrder(),
            HotMetalTemperature(),
            HotMetalAnalysis(),
            record.Charges.Sum(c => c.Body.SlagKg ?? 0),
            RetainedSlag(),
            null,
            new PlanScope(Objective.Cost, new Limits(null, null), [], [], 0));
    }

    public HeatRecord Record { get; }

    public Works Works { get; }

    public OrderBody? Order { get; }

    public PlanBody? Plan { get; }

    public ConverterUnit Converter { get; }

    public Practice Practice { get; }

    /// <summary>The first blow, when it has begun.</summary>
    public OperationRun? Blow { get; }

    /// <summary>100 % of the axis of oxygen, Nm³.</summary>
    public double PlannedNm3 { get; }

    public double HotMetalKg { get; }

    public IReadOnlyDictionary<string, double> ScrapKg { get; }

    public Heat Heat { get; }

    /// <summary>Entries that were read, and the corrections that made them what they are.</summary>
    public IReadOnlyList<Guid> Inputs => [.. Record.Facts.Entries.Select(e => e.Id).Where(_inputs.Contains)];

    /// <summary>What was taken from elsewhere than a reading, in words.</summary>
    public IReadOnlyList<string> Notes => _notes;

    /// <exception cref="CannotAskException">Something is missing or unknown to the works.</exception>
    public static ChargedHeat Of(HeatRecord record, Works works) => new(record, works);

    public Fact<T>? Use<T>(Fact<T>? fact)
        where T : EntryBody
    {
        if (fact is not null)
        {
            _inputs.Add(fact.Id);
            foreach (Change change in fact.Changes)
            {
                _inputs.Add(change.Correction.Id);
            }
        }

        return fact;
    }

    public void Note(string text) => _notes.Add(text);

    private static T Named<T>(IReadOnlyDictionary<string, T> known, string? name, string what, string mend) =>
        name is null ? throw new CannotAskException($"The record names no {what}. Mend: enter {mend}.")
        : known.TryGetValue(name, out T? found) ? found
        : throw new CannotAskException($"The works has no {what} '{name}'; it has {string.Join(", ", known.Keys)}. Mend: correct the entry, or use the files of the works that have it.");

    private double OxygenNm3()
    {
        if (Plan?.OxygenNm3 is { } planned)
        {
            return planned;
        }

        double blown = Blow?.OxygenNm3
            ?? throw new CannotAskException("Neither a plan nor the end of the blow says how much oxygen is blown. Mend: enter a plan with oxygen.");
        Note("Oxygen as blown: no plan says how much was meant.");
        return blown;
    }

    private double HotMetalMass()
    {
        Fact<ChargeBody>[] poured = [.. Record.Charges.Where(c => c.Body.What == ChargeKind.HotMetal)];
        Array.ForEach(poured, p => Use(p));
        if (poured.Length > 0)
        {
            return poured.Sum(p => p.Body.MassKg);
        }

        double planned = Plan?.HotMetalKg ?? throw new CannotAskException("Hot metal is neither weighed nor planned. Mend: enter its weight.");
        Note("Hot metal as planned: none is weighed.");
        return planned;
    }

    private double HotMetalTemperature()
    {
        (double? temperatureK, IReadOnlyList<Guid> from) = EndValues.HotMetalTemperatureK(Record);
        foreach (Guid id in from)
        {
            Use(Record.Facts.All.First(f => f.Id == id));
        }

        if (temperatureK is { } read)
        {
            return read;
        }

        double planned = Plan?.HotMetalTemperatureK
            ?? throw new CannotAskException("Hot metal temperature is neither measured nor planned. Mend: enter a measurement at hot metal, or the temperature with its weight.");
        Note("Hot metal temperature as planned: none is measured.");
        return planned;
    }

    private MetalAnalysis HotMetalAnalysis()
    {
        Fact<AnalysisBody>? sample = Use(Record.Analyses.LastOrDefault(a => a.Body is { Point: HeatPoint.HotMetal, Matter: SampledMatter.Metal }));
        var percent = new Dictionary<Element, double>();
        var ignored = new List<string>();
        foreach ((string name, Reading reading) in sample?.Body.Percent ?? new Dictionary<string, Reading>())
        {
            if (Known(name) is not { } element)
            {
                ignored.Add(name);
                continue;
            }

            percent[element] = reading.Below ? reading.Value / 2 : reading.Value;
            if (reading.Below)
            {
                Note($"Hot metal {name} is below {reading.Value} %: half of that is taken (common practice).");
            }
        }

        if (ignored.Count > 0)
        {
            Note($"Not followed in hot metal: {string.Join(", ", ignored)}.");
        }

        string[] planned = [.. (Plan?.HotMetalPercent ?? new Dictionary<string, double>()).Where(p => Known(p.Key) is { } e && percent.TryAdd(e, p.Value)).Select(p => p.Key)];
        if (planned.Length > 0)
        {
            Note(sample is null ? "Hot metal analysis as planned: none has come from the laboratory." : $"Hot metal {string.Join(", ", planned)} as planned: not in the laboratory's answer.");
        }

        return percent.ContainsKey(Element.C) && percent.ContainsKey(Element.Si)
            ? new MetalAnalysis(percent)
            : throw new CannotAskException("There is no hot metal analysis with carbon and silicon, measured or planned. Mend: enter the laboratory's answer.");
    }

    private Dictionary<string, double> Scrap()
    {
        var weighed = new Dictionary<string, double>(StringComparer.Ordinal);
        foreach (Fact<ChargeBody> scrap in Record.Charges.Where(c => c.Body.What == ChargeKind.Scrap))
        {
            Use(scrap);
            string name = scrap.Body.Material ?? throw new CannotAskException($"{scrap.Body.MassKg:F0} kg of scrap carry no class. Mend: correct the entry and name the class.");
            weighed[name] = weighed.GetValueOrDefault(name) + scrap.Body.MassKg;
        }

        Dictionary<string, double> kg = weighed;
        if (weighed.Count == 0 && Plan?.ScrapKg.Values.Any(v => v > 0) == true)
        {
            Note("Scrap as planned: none is weighed.");
            kg = new Dictionary<string, double>(Plan.ScrapKg, StringComparer.Ordinal);
        }

        string[] unknown = [.. kg.Keys.Where(k => !Works.Materials.Scrap.ContainsKey(k))];
        return unknown.Length == 0
            ? kg
            : throw new CannotAskException($"The works has no scrap class '{string.Join("', '", unknown)}'; it has {string.Join(", ", Works.Materials.Scrap.Keys)}. Mend: correct the entry, or use the files of the works that have it.");
    }

    private RetainedSlag RetainedSlag()
    {
        Fact<ChargeBody>[] kept = [.. Record.Charges.Where(c => c.Body.What == ChargeKind.RetainedSlag)];
        Array.ForEach(kept, k => Use(k));
        return kept.Length == 0 ? Converter.RetainedSlag : Converter.RetainedSlag with { MassKg = kept.Sum(k => k.Body.MassKg) };
    }

    private Order ShopOrder()
    {
        var none = new Dictionary<Element, Limits>();
        Grade grade = Order is { } order && Works.Grades.TryGetValue(order.Grade, out Grade? known)
            ? known
            : new Grade(Order?.Grade ?? "", "", null, "", GradeStatus.Memory, none, null);
        var end = (Order?.EndPercent ?? new Dictionary<string, Window>()).Where(w => Known(w.Key) is not null)
            .ToDictionary(w => Known(w.Key)!.Value, w => new Limits(w.Value.Least, w.Value.Most));
        return new Order(
            grade,
            Order?.TappedMassKg ?? Converter.TappedMassKg,
            new Limits(Order?.TemperatureK?.Least, Order?.TemperatureK?.Most),
            Order?.TemperatureK?.Aim ?? double.NaN,
            new Limits(Order?.CarbonPercent?.Least, Order?.CarbonPercent?.Most),
            Order?.CarbonPercent?.Aim ?? double.NaN,
            end,
            Order?.Basicity ?? double.NaN,
            Order?.SlagMgoPercent,
            Order?.Confidence ?? 0.9);
    }

    private static Element? Known(string name) => Enum.TryParse(name, out Element element) && Followed.Contains(element) ? element : null;
}
