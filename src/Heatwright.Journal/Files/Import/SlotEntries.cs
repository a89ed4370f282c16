// SPDX-License-Identifier: Apache-2.0
using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;
using Heatwright.Journal.Entries;

namespace Heatwright.Journal.Files.Import;

/// <summary>Turns the quantities of one place of a heat's record into entries, and puts entries right.</summary>
internal static class SlotEntries
{
    /// <summary>The entries for a place that is empty so far.</summary>
    /// <param name="heat">Heat number.</param>
    /// <param name="values">Quantities of the place.</param>
    /// <param name="time">Source time.</param>
    /// <param name="unit">Converter, where the row names it.</param>
    /// <param name="actor">Who says it.</param>
    /// <param name="reason">Why, and where from.</param>
    public static IEnumerable<NewEntry> New(
        string heat, IReadOnlyList<(ImportQuantity Quantity, WideValue Value)> values, DateTimeOffset time, string? unit, string actor, string reason)
    {
        ImportQuantity first = values[0].Quantity;
        string slot = first.Slot;
        NewEntry Make(string part, EntryBody body, DateTimeOffset at) => new(Id("entry", heat, slot, part), heat, body, at, actor, reason);
        if (first.EntryKind == EntryKind.Operation)
        {
            HeatOperation operation = slot.StartsWith("operation/reblow", StringComparison.Ordinal) ? HeatOperation.Reblow : HeatOperation.Blow;
            DateTimeOffset end = time;
            if (Number(values, QuantityPart.Duration) is { } seconds)
            {
                yield return Make("running", new OperationBody(operation, OperationState.Running, 1, unit), time);
                end = time.AddMilliseconds(Math.Round(seconds * 1000));
            }

            yield return Make("complete", new OperationBody(operation, OperationState.Complete, 1, unit, Number(values, QuantityPart.OxygenBlown)), end);
            yield break;
        }

        yield return Make("", Corrected(Empty(first, unit), values), time);
    }

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

    /// <summary>An id of version 8 (RFC 9562) that is the same whenever the same thing is said: the first bits of a SHA-256.</summary>
    public static Guid Id(params ReadOnlySpan<string> parts)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        hash.AppendData("heatwright import 1\n"u8);
        Span<byte> length = stackalloc byte[4];
        foreach (string part in parts)
        {
            byte[] bytes = Encoding.UTF8.GetBytes(part);
            BinaryPrimitives.WriteInt32BigEndian(length, bytes.Length);
            hash.AppendData(length);
            hash.AppendData(bytes);
        }

        Span<byte> id = hash.GetHashAndReset().AsSpan(0, 16);
        id[6] = (byte)(0x80 | (id[6] & 0x0F));
        id[8] = (byte)(0x80 | (id[8] & 0x3F));
        return new Guid(id, bigEndian: true);
    }

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
