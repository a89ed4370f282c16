// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;

namespace Heatwright.Journal.Files.Import;

/// <summary>What of a past heat's life is to be written though the file tells nothing of it: that it was blown, tapped and closed.</summary>
internal readonly record struct LifeGaps(bool Blow, bool Tap, bool Close);

/// <summary>Where in <see cref="ImportQuantity.Order"/> the parts of a heat's life begin.</summary>
internal static class LifeOrder
{
    public const int Blow = 160;
    public const int BlowEnd = 300;
    public const int Tap = 400;
    public const int Close = 500;
    public const int Beside = 600;
    public const string BlowSlot = "operation/blow/1";
    public const string TapSlot = "operation/tap/1";
}

/// <summary>Turns the quantities of one place of a heat's record into entries, and puts entries right.</summary>
internal static class SlotEntries
{
    /// <summary>
    /// The entries for the places of a heat that are empty so far, in the order of its life. A blow of known length parts them: what
    /// comes after the blow gets the time of its end.
    /// </summary>
    /// <param name="heat">Heat number.</param>
    /// <param name="values">Quantities whose places are empty.</param>
    /// <param name="time">Time of the row.</param>
    /// <param name="unit">Converter, where the row names it.</param>
    /// <param name="source">Actor and reason.</param>
    /// <param name="gaps">What to write of a past heat's life though nothing of it is known.</param>
    public static List<NewEntry> New(
        string heat, IEnumerable<(ImportQuantity Quantity, WideValue Value)> values, DateTimeOffset time, string? unit, (string Actor, string Reason) source, LifeGaps gaps)
    {
        var entries = new List<NewEntry>();
        DateTimeOffset now = time;
        void Add(string slot, string part, EntryBody body, DateTimeOffset at) =>
            entries.Add(new NewEntry(Id(heat, slot, part), heat, body, at, source.Actor, source.Reason));

        var slots = values.GroupBy(v => v.Quantity.Slot).Select(g => (Slot: g.Key, Values: (IReadOnlyList<(ImportQuantity, WideValue)>)[.. g])).ToList();
        void AddSlots(Func<int, bool> orders)
        {
            foreach ((string slot, IReadOnlyList<(ImportQuantity, WideValue)> of) in slots.Where(s => s.Values[0].Item1 is { EntryKind: not EntryKind.Operation } q && orders(q.Order)).OrderBy(s => s.Values[0].Item1.Order))
            {
                Add(slot, "", Corrected(Empty(of[0].Item1, unit), of), now);
            }
        }

        void AddBlow(HeatOperation operation, string slot, Action within, bool always)
        {
            IReadOnlyList<(ImportQuantity, WideValue)>? of = slots.Find(s => s.Slot == slot).Values;
            bool written = of is not null || always;
            if (written)
            {
                Add(slot, "running", new OperationBody(operation, OperationState.Running, 1, unit), now);
            }

            within();
            if (written)
            {
                // Without a known length it begins and ends at once, which says that none is known.
                now = of is not null && Number(of, QuantityPart.Duration) is { } s ? now.AddMilliseconds(Math.Round(s * 1000)) : now;
                Add(slot, "complete", new OperationBody(operation, OperationState.Complete, 1, unit, of is null ? null : Number(of, QuantityPart.OxygenBlown)), now);
            }
        }

        void AddTap(OperationState state, string part)
        {
            if (gaps.Tap)
            {
                Add(LifeOrder.TapSlot, part, new OperationBody(HeatOperation.Tap, state, 1, unit), now);
            }
        }

        AddSlots(o => o < LifeOrder.Blow);
        AddBlow(HeatOperation.Blow, LifeOrder.BlowSlot, () => AddSlots(o => o is >= LifeOrder.Blow and < LifeOrder.BlowEnd), gaps.Blow);
        AddBlow(HeatOperation.Reblow, "operation/reblow/1", () => { }, always: false);
        AddSlots(o => o is >= LifeOrder.BlowEnd and < LifeOrder.Tap);
        AddTap(OperationState.Running, "running");
        AddSlots(o => o is >= LifeOrder.Tap and < LifeOrder.Close);
        AddTap(OperationState.Complete, "complete");
        AddSlots(o => o >= LifeOrder.Beside);
        AddSlots(o => o is >= LifeOrder.Close and < LifeOrder.Beside);
        if (gaps.Close && !slots.Exists(s => s.Slot == "end"))
        {
            Add("end", "", new EndBody(), now);
        }

        return entries;
    }

    /// <summary>Id of the entry that an import writes into a place of a heat: the same however often it is imported.</summary>
    public static Guid Id(string heat, string slot, string part = "") => EntryId.From("import", heat, slot, part);

    /// <summary>A body with some of its quantities set anew; the others stay.</summary>
    public static EntryBody Corrected(EntryBody body, IReadOnlyList<(ImportQuantity Quantity, WideValue Value)> values)
    {
        foreach ((ImportQuantity q, WideValue v) in values)
        {
            body = Set(body, q, v);
        }

        return body;
    }

    /// <summary>Whether a body can take the quantity at all; the time of a blow stands in the times of two entries.</summary>
    public static bool CanTake(EntryBody body, ImportQuantity q) => body switch
    {
        OperationBody => q.Part is QuantityPart.OxygenBlown or QuantityPart.Converter,
        ChargeBody => q.Part is QuantityPart.Mass or QuantityPart.Temperature,
        _ => q.Part != QuantityPart.Duration,
    };

    private static EntryBody Empty(ImportQuantity q, string? unit)
    {
        string[] at = q.Slot.Split('/', 3);
        return q.EntryKind switch
        {
            EntryKind.Order => new OrderBody(""),
            EntryKind.ChargeWeighed => new ChargeBody(
                at[1] switch { "hot-metal" => ChargeKind.HotMetal, "retained-slag" => ChargeKind.RetainedSlag, _ => ChargeKind.Scrap }, 0, at.Length > 2 ? at[2] : null),
            EntryKind.Addition => new AdditionBody(at[2], 0, at[1] == "ladle" ? AdditionPlace.Ladle : AdditionPlace.Converter),
            EntryKind.Measurement => new MeasurementBody(Point(at[1])),
            EntryKind.Analysis => new AnalysisBody(
                Point(at[1]), at[2].StartsWith("slag", StringComparison.Ordinal) ? SampledMatter.Slag : SampledMatter.Metal, new Dictionary<string, Reading>()),
            EntryKind.End => new EndBody(),
            EntryKind.Equipment => new EquipmentBody(unit ?? "", at[1] == "lance" ? WearPart.Lance : WearPart.Lining, Renewed: false, Counted: true),
            EntryKind.Note => new NoteBody(""),
            _ => throw new ArgumentOutOfRangeException(nameof(q), q.EntryKind, "No quantity makes an entry of this kind."),
        };
    }

    private static HeatPoint Point(string word) => word switch
    {
        "hot-metal" => HeatPoint.HotMetal,
        "in-blow" => HeatPoint.InBlow,
        "end-of-blow" => HeatPoint.EndOfBlow,
        "ladle" => HeatPoint.Ladle,
        _ => HeatPoint.Caster,
    };

    private static EntryBody Set(EntryBody body, ImportQuantity q, WideValue v) => (body, q.Part) switch
    {
        (OrderBody b, QuantityPart.Grade) => b with { Grade = v.Text! },
        (OrderBody b, QuantityPart.Converter) => b with { Converter = v.Text },
        (OrderBody b, QuantityPart.Practice) => b with { Practice = v.Text },
        (OrderBody b, QuantityPart.AimMass) => b with { TappedMassKg = v.Number },
        (OrderBody b, QuantityPart.AimTemperature) => b with { TemperatureK = (b.TemperatureK ?? new Window()) with { Aim = v.Number } },
        (ChargeBody b, QuantityPart.Mass) => b with { MassKg = v.Number },
        (ChargeBody b, QuantityPart.Temperature) => b with { TemperatureK = v.Number },
        (AdditionBody b, _) => b with { MassKg = v.Number },
        (MeasurementBody b, QuantityPart.Temperature) => b with { TemperatureK = v.Number },
        (MeasurementBody b, QuantityPart.Carbon) => b with { CarbonPercent = v.Number },
        (MeasurementBody b, QuantityPart.Oxygen) => b with { OxygenPpm = v.Number },
        (MeasurementBody b, QuantityPart.OxygenBlown) => b with { OxygenNm3 = v.Number },
        (AnalysisBody b, _) => b with { Percent = new Dictionary<string, Reading>(b.Percent, StringComparer.Ordinal) { [q.Key] = new(v.Number, v.Below) } },
        (OperationBody b, QuantityPart.OxygenBlown) => b with { OxygenNm3 = v.Number },
        (OperationBody b, QuantityPart.Converter) => b with { Unit = v.Text },
        (EndBody b, QuantityPart.SteelMass) => b with { SteelKg = v.Number },
        (EndBody b, QuantityPart.SlagMass) => b with { SlagKg = v.Number },
        (EndBody b, QuantityPart.OxygenBlown) => b with { OxygenNm3 = v.Number },
        (EndBody b, QuantityPart.Outcome) => b with { Outcome = v.Text },
        (EquipmentBody b, _) => b with { AgeHeats = v.Number },
        (NoteBody b, _) => b with { Text = v.Text! },
        _ => throw new ArgumentException($"{q.Name} has no place in a {body.Kind.Name()}.", nameof(q)),
    };

    private static double? Number(IReadOnlyList<(ImportQuantity Quantity, WideValue Value)> values, QuantityPart part)
    {
        foreach ((ImportQuantity q, WideValue v) in values)
        {
            if (q.Part == part)
            {
                return v.Number;
            }
        }

        return null;
    }
}
