// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Lifecycle;

namespace Heatwright.Journal.Files.Import;

/// <summary>A quantity of a heat and the entries that say it; a sum has several.</summary>
/// <param name="Value">The value.</param>
/// <param name="From">Ids of the entries.</param>
public readonly record struct WideFact(WideValue Value, IReadOnlyList<Guid> From);

/// <summary>
/// One heat as a row of the table of heats, from its entries with corrections applied. Where something was measured, sampled or
/// said more than once, the last one that gives a quantity stands; what was weighed in parts is added up; bad readings are left out.
/// </summary>
public sealed class WideHeat
{
    private readonly Dictionary<string, WideFact> _facts = new(StringComparer.Ordinal);
    private readonly Dictionary<string, List<Guid>> _slots = new(StringComparer.Ordinal);
    private readonly Dictionary<Guid, EntryBody> _bodies = [];
    private readonly HashSet<Guid> _withdrawn = [];

    private WideHeat(string heat) => Heat = heat;

    /// <summary>Heat number.</summary>
    public string Heat { get; }

    /// <summary>Earliest source time of what holds, corrections apart.</summary>
    public DateTimeOffset Time { get; private set; } = DateTimeOffset.MaxValue;

    /// <summary>Quantities by name (<see cref="ImportQuantity"/>).</summary>
    public IReadOnlyDictionary<string, WideFact> Facts => _facts;

    /// <summary>Entries that stand in a place of the record (<see cref="ImportQuantity.Slot"/>), in order.</summary>
    internal IReadOnlyList<Guid> In(string slot) => _slots.GetValueOrDefault(slot) ?? [];

    /// <summary>The body that holds for an entry now.</summary>
    internal EntryBody? Holds(Guid id) => _bodies.GetValueOrDefault(id);

    /// <summary>The entry is there and was withdrawn.</summary>
    internal bool Withdrawn(Guid id) => _withdrawn.Contains(id);

    /// <summary>Makes the row.</summary>
    /// <param name="heat">Heat number.</param>
    /// <param name="entries">Its entries; signal blocks do not matter.</param>
    public static WideHeat Of(string heat, IEnumerable<Entry> entries)
    {
        ArgumentNullException.ThrowIfNull(entries);
        var wide = new WideHeat(heat);
        HeatFacts facts = HeatFacts.Of(heat, entries);
        wide._withdrawn.UnionWith(facts.Withdrawn.Select(f => f.Id));
        foreach (Fact<EntryBody> fact in facts.All)
        {
            wide.Time = fact.Time < wide.Time ? fact.Time : wide.Time;
            wide._bodies[fact.Id] = fact.Body;
        }

        // Stable: a later sample of one point stands above an earlier one, whenever its answer came.
        foreach (Fact<EntryBody> fact in facts.All.OrderBy(f => f.Body is MeasurementBody m ? m.Index : f.Body is AnalysisBody a ? a.Index : 0))
        {
            wide.Take(fact.Entry, fact.Body);
        }

        wide.TakeBlows(facts, HeatOperation.Blow, "blow");
        wide.TakeBlows(facts, HeatOperation.Reblow, "reblow");

        // A sum beyond any number is no value; no table and no entry could hold it.
        foreach (string name in wide._facts.Where(f => !double.IsFinite(f.Value.Value.Number)).Select(f => f.Key).ToArray())
        {
            wide._facts.Remove(name);
        }

        return wide;
    }

    private void Take(Entry e, EntryBody body)
    {
        switch (body)
        {
            case OrderBody o:
                Text(e, "order", "order.grade", o.Grade);
                Text(e, "order", "practice", o.Practice);
                Text(e, "order", "unit", o.Converter, onlyFirst: true);
                Last(e, "order", "order.mass", o.TappedMassKg);
                Last(e, "order", "order.temperature", o.TemperatureK?.Aim);
                break;
            case ChargeBody { What: ChargeKind.HotMetal } c:
                Add(e, "charge/hot-metal", "hot-metal.mass", c.MassKg);
                if (!_facts.ContainsKey("hot-metal.temperature"))
                {
                    Last(e, "measurement/hot-metal/1", "hot-metal.temperature", c.TemperatureK);
                }

                break;
            case ChargeBody { What: ChargeKind.RetainedSlag } c:
                Add(e, "charge/retained-slag", "retained-slag.mass", c.MassKg);
                break;
            case ChargeBody c:
                Add(e, "charge/scrap/" + c.Material, $"scrap.{c.Material}.mass", c.MassKg);
                break;
            case AdditionBody { Place: AdditionPlace.Converter } a:
                Add(e, "addition/converter/" + a.Material, $"addition.{a.Material}.mass", a.MassKg);
                break;
            case AdditionBody a:
                Add(e, "addition/ladle/" + a.Material, $"ladle.{a.Material}.mass", a.MassKg);
                break;
            case MeasurementBody { Status: not ReadingStatus.Bad } m:
                Take(e, m);
                break;
            case AnalysisBody a:
                Take(e, a);
                break;
            case EndBody end:
                Last(e, "end", "steel.mass", end.SteelKg);
                Last(e, "end", "slag-poured.mass", end.SlagKg);
                Last(e, "end", "oxygen.total", end.OxygenNm3);
                Text(e, "end", "outcome", end.Outcome);
                Stand(e, "end");
                break;
            case EquipmentBody { Counted: true, Part: WearPart.Lining } q:
                Last(e, "equipment/lining", "lining.age", q.AgeHeats);
                break;
            case EquipmentBody { Counted: true, Part: WearPart.Lance } q:
                Last(e, "equipment/lance", "lance.age", q.AgeHeats);
                break;
            case NoteBody n:
                Join(e, n.Text);
                break;
            case OperationBody o:
                // Where it was made stands above where it was to be made.
                Text(e, "unit", "unit", o.Unit);
                if (o.Operation == HeatOperation.Tap)
                {
                    Stand(e, LifeOrder.TapSlot);
                }

                break;
            default:
                break;
        }
    }

    private void Take(Entry e, MeasurementBody m)
    {
        (string name, string slot) = m.Point switch
        {
            HeatPoint.HotMetal => ("hot-metal", "measurement/hot-metal/1"),
            HeatPoint.InBlow => ("in-blow", "measurement/in-blow/1"),
            HeatPoint.EndOfBlow => ("end", "measurement/end-of-blow/1"),
            _ => ("ladle", "measurement/ladle/1"),
        };
        if (m.Point == HeatPoint.Caster)
        {
            return;
        }

        Last(e, slot, name + ".temperature", m.TemperatureK);
        if (m.Point is HeatPoint.InBlow or HeatPoint.EndOfBlow)
        {
            Last(e, slot, name + ".carbon", m.CarbonPercent);
            Last(e, slot, name + ".oxygen", m.OxygenPpm);
        }

        if (m.Point == HeatPoint.InBlow)
        {
            Last(e, slot, "in-blow.oxygen-blown", m.OxygenNm3);
        }
    }

    private void Take(Entry e, AnalysisBody a)
    {
        (string prefix, string slot) = (a.Point, a.Matter) switch
        {
            (HeatPoint.HotMetal, SampledMatter.Metal) => ("hot-metal.analysis.", "analysis/hot-metal/metal/1"),
            (HeatPoint.InBlow, SampledMatter.Metal) => ("in-blow.analysis.", "analysis/in-blow/metal/1"),
            (HeatPoint.EndOfBlow, SampledMatter.Metal) => ("analysis.end.", "analysis/end-of-blow/metal/1"),
            (HeatPoint.Ladle, SampledMatter.Metal) => ("analysis.ladle.", "analysis/ladle/metal/1"),
            (HeatPoint.Caster, SampledMatter.Metal) => ("analysis.caster.", "analysis/caster/metal/1"),
            (HeatPoint.EndOfBlow, SampledMatter.Slag) => ("slag.", "analysis/end-of-blow/slag/1"),
            _ => ("", ""),
        };
        if (prefix.Length == 0)
        {
            return;
        }

        foreach ((string key, Reading reading) in a.Percent)
        {
            Put(e, slot, prefix + key, new WideValue(reading.Value, reading.Below));
        }
    }

    // A blow's time is from its first start to its last end; several reblows are added up.
    private void TakeBlows(HeatFacts facts, HeatOperation operation, string name)
    {
        string slot = $"operation/{name}/1";
        var started = new Dictionary<int, DateTimeOffset>();
        long? ms = null;
        foreach (Fact<OperationBody> fact in facts.Of<OperationBody>())
        {
            (Entry e, OperationBody o) = (fact.Entry, fact.Body);
            if (o.Operation != operation)
            {
                continue;
            }

            Stand(e, slot);
            if (o.State == OperationState.Running)
            {
                started.TryAdd(o.Index, e.SourceTime);
            }
            else if (o.State is OperationState.Complete or OperationState.Aborted)
            {
                if (o.OxygenNm3 is { } oxygen)
                {
                    Add(e, slot, name + ".oxygen", oxygen);
                }

                // One that begins and ends at once is of unknown length.
                if (started.Remove(o.Index, out DateTimeOffset from) && e.SourceTime > from)
                {
                    ms = (ms ?? 0) + (e.SourceTime.ToUnixTimeMilliseconds() - from.ToUnixTimeMilliseconds());
                    Put(e, slot, name + ".duration", new WideValue(ms.Value / 1000.0));
                }
            }
        }
    }

    private void Last(Entry e, string slot, string name, double? value)
    {
        if (value is { } number)
        {
            Put(e, slot, name, new WideValue(number));
        }
    }

    private void Text(Entry e, string slot, string name, string? value, bool onlyFirst = false)
    {
        if (!string.IsNullOrEmpty(value) && !(onlyFirst && _facts.ContainsKey(name)))
        {
            Put(e, slot, name, WideValue.Of(value));
        }
    }

    private void Add(Entry e, string slot, string name, double value)
    {
        if (_facts.TryGetValue(name, out WideFact before))
        {
            _facts[name] = new WideFact(new WideValue(before.Value.Number + value), [.. before.From, e.Id]);
            Stand(e, slot);
        }
        else
        {
            Put(e, slot, name, new WideValue(value));
        }
    }

    private void Join(Entry e, string text)
    {
        if (_facts.TryGetValue("note", out WideFact before))
        {
            _facts["note"] = new WideFact(WideValue.Of(before.Value.Text + "\n" + text), [.. before.From, e.Id]);
            Stand(e, "note");
        }
        else
        {
            Text(e, "note", "note", text);
        }
    }

    private void Put(Entry e, string slot, string name, WideValue value)
    {
        _facts[name] = new WideFact(value, [e.Id]);
        Stand(e, slot);
    }

    private void Stand(Entry e, string slot)
    {
        if (!_slots.TryGetValue(slot, out List<Guid>? ids))
        {
            _slots[slot] = ids = [];
        }

        if (!ids.Contains(e.Id))
        {
            ids.Add(e.Id);
        }
    }
}
