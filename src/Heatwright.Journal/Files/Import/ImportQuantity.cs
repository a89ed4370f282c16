// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Journal.Entries;
using Heatwright.Shop.Units;

namespace Heatwright.Journal.Files.Import;

/// <summary>What a quantity is within its entry.</summary>
internal enum QuantityPart
{
    Grade, Converter, Practice, AimMass, AimTemperature, Mass, Temperature, Carbon, Oxygen, OxygenBlown, Percent, Duration, Age, SteelMass, SlagMass, Outcome, Text,
}

/// <summary>
/// A quantity of a heat that a table can hold in one column: what a mapping names and what the table of heats is made of. Plausible
/// limits are wide enough for any converter shop (common practice, no source): a wrong unit is what they find.
/// </summary>
public sealed class ImportQuantity
{
    internal ImportQuantity(
        string name, string slot, QuantityPart part, string meaning, QuantityKind? kind, Unit? stored, Unit? shown, double least, double most, EntryKind entry, string key, int order)
    {
        Name = name;
        Slot = slot;
        Part = part;
        Meaning = meaning;
        Kind = kind;
        StoredUnit = stored;
        ShownUnit = shown;
        Least = least;
        Most = most;
        EntryKind = entry;
        Key = key;
        Order = order;
    }

    /// <summary>Name in mappings and headers, e.g. "hot-metal.analysis.Si".</summary>
    public string Name { get; }

    /// <summary>Place in the record that it fills; quantities of one place make one entry.</summary>
    public string Slot { get; }

    /// <summary>Kind of that entry.</summary>
    public EntryKind EntryKind { get; }

    /// <summary>What it means.</summary>
    public string Meaning { get; }

    /// <summary>What it measures; null for text.</summary>
    public QuantityKind? Kind { get; }

    /// <summary>Unit in which entries hold it; null for text.</summary>
    public Unit? StoredUnit { get; }

    /// <summary>Unit in which tables show it; null for text.</summary>
    public Unit? ShownUnit { get; }

    /// <summary>Least plausible value, in <see cref="StoredUnit"/>.</summary>
    public double Least { get; }

    /// <summary>Largest plausible value, in <see cref="StoredUnit"/>.</summary>
    public double Most { get; }

    /// <summary>Text, not a number.</summary>
    public bool IsText => Kind is null;

    internal QuantityPart Part { get; }

    /// <summary>Scrap or an addition: given to a heat or not, so that 0 means that none was.</summary>
    internal bool GivenOrNot => EntryKind == EntryKind.Addition || (EntryKind == EntryKind.ChargeWeighed && Slot.StartsWith("charge/scrap/", StringComparison.Ordinal));

    /// <summary>Element, constituent, class or material; empty where there is none.</summary>
    internal string Key { get; }

    internal int Order { get; }

    /// <summary>The quantity of this name, or null.</summary>
    /// <param name="name">As in <see cref="Name"/>.</param>
    /// <param name="anyKey">True: any name of an element or constituent, as the journal itself may hold; false: those of a laboratory.</param>
    public static ImportQuantity? Find(string name, bool anyKey = false) => QuantityCatalogue.Find(name, anyKey);

    /// <summary>Every name, with a part in angle brackets where it is free, what it means and a unit as one would write it.</summary>
    public static IReadOnlyList<(string Name, string Meaning, string Units)> Describe() => QuantityCatalogue.Describe();

    /// <summary>The number in the stored unit. A number that is in it already stays as it is, to the last bit.</summary>
    public double ToStored(double number, Unit unit)
    {
        ArgumentNullException.ThrowIfNull(unit);
        return unit.Symbol == StoredUnit!.Symbol ? number : StoredUnit.FromBase(unit.ToBase(number));
    }

    /// <summary>No blow lasts a day.</summary>
    internal const double LongestSeconds = 86_400;

    /// <summary>No shop can have it: below zero, above 100 %, below absolute zero.</summary>
    internal bool IsImpossible(double stored) =>
        stored < 0 || (Kind == Kinds.MassPercent && StoredUnit!.ToBase(stored) > 100) || (Part == QuantityPart.Duration && stored is 0 or > LongestSeconds);

    /// <inheritdoc/>
    public override string ToString() => Name;
}

/// <summary>The list of quantities and of families of them.</summary>
internal static class QuantityCatalogue
{
    private const double Tonne = 1000;

    /// <summary>Symbols that laboratories report of metal beside the elements that a heat accounts for.</summary>
    private static readonly string[] MetalKeys =
    [
        .. Enum.GetNames<Element>().Where(e => e is not ("Fe" or "Ar")), "B", "Nb", "W", "Co", "As", "Sb", "Zn", "Pb", "Zr", "Ce", "Al-soluble", "Al-total",
    ];

    private static readonly string[] SlagKeys =
        [.. Enum.GetNames<Constituent>().Where(c => c is not ("C" or "Si" or "Mn" or "Al" or "P" or "H2O")), "FeTotal", "P", "V2O5", "Na2O", "K2O", "SO3"];

    private sealed record Family(
        string Prefix, string Suffix, string Slot, string Free, string Meaning, QuantityPart Part, EntryKind Entry, QuantityKind Kind, double Least, double Most, int Order,
        string[]? Keys = null, IReadOnlyDictionary<string, (double Least, double Most)>? Limits = null);

    private static readonly Dictionary<string, ImportQuantity> Single = MakeSingle().ToDictionary(q => q.Name, StringComparer.Ordinal);

    private static readonly Family[] Families =
    [
        new("hot-metal.analysis.", "", "analysis/hot-metal/metal/1", "El", "hot metal analysis", QuantityPart.Percent, EntryKind.Analysis, Kinds.MassPercent, 0, 2, 130, MetalKeys,
            Windows(("C", 3, 5.5), ("Si", 0.05, 2.5), ("Mn", 0.02, 3), ("P", 0.01, 0.5), ("S", 0.001, 0.3))),
        new("scrap.", ".mass", "charge/scrap/", "class", "scrap of a class, as weighed", QuantityPart.Mass, EntryKind.ChargeWeighed, Kinds.Mass, 0, 200 * Tonne, 150),
        new("addition.", ".mass", "addition/converter/", "material", "flux, coolant or heating agent into the converter, all of it together", QuantityPart.Mass, EntryKind.Addition, Kinds.Mass, 0, 60 * Tonne, 160),
        new("in-blow.analysis.", "", "analysis/in-blow/metal/1", "El", "analysis of the in-blow sample", QuantityPart.Percent, EntryKind.Analysis, Kinds.MassPercent, 0, 5, 220, MetalKeys),
        new("analysis.end.", "", "analysis/end-of-blow/metal/1", "El", "steel analysis at the end of the blow", QuantityPart.Percent, EntryKind.Analysis, Kinds.MassPercent, 0, 2, 320, MetalKeys,
            Windows(("C", 0.01, 1.2), ("P", 0.001, 0.15), ("S", 0.001, 0.15))),
        new("slag.", "", "analysis/end-of-blow/slag/1", "constituent", "slag analysis at the end of the blow", QuantityPart.Percent, EntryKind.Analysis, Kinds.MassPercent, 0, 75, 330, SlagKeys),
        new("ladle.", ".mass", "addition/ladle/", "material", "alloy or deoxidiser into the ladle, all of it together", QuantityPart.Mass, EntryKind.Addition, Kinds.Mass, 0, 20 * Tonne, 410),
        new("analysis.ladle.", "", "analysis/ladle/metal/1", "El", "steel analysis in the ladle", QuantityPart.Percent, EntryKind.Analysis, Kinds.MassPercent, 0, 30, 420, MetalKeys),
        new("analysis.caster.", "", "analysis/caster/metal/1", "El", "analysis of the cast steel", QuantityPart.Percent, EntryKind.Analysis, Kinds.MassPercent, 0, 30, 430, MetalKeys,
            Windows(("C", 0.0005, 1.5), ("P", 0.001, 0.15), ("S", 0.0002, 0.15))),
    ];

    public static IEnumerable<string> KnownNames =>
        Single.Keys.Concat(Families.SelectMany(f => f.Keys is null ? [f.Prefix + f.Free + f.Suffix] : f.Keys.Select(k => f.Prefix + k + f.Suffix)));

    public static ImportQuantity? Find(string name, bool anyKey)
    {
        if (Single.TryGetValue(name, out ImportQuantity? single))
        {
            return single;
        }

        // The longest prefix wins: "analysis.ladle.C" is no addition to the ladle.
        foreach (Family f in Families.OrderByDescending(f => f.Prefix.Length))
        {
            if (name.Length >= f.Prefix.Length + f.Suffix.Length && name.StartsWith(f.Prefix, StringComparison.Ordinal) && name.EndsWith(f.Suffix, StringComparison.Ordinal))
            {
                string key = name[f.Prefix.Length..^f.Suffix.Length];
                bool known = f.Keys is null ? anyKey || IsPlainName(key) : anyKey || f.Keys.Contains(key);
                return known ? Make(f, name, key) : null;
            }
        }

        return null;
    }

    public static IReadOnlyList<(string Name, string Meaning, string Units)> Describe() =>
    [
        .. Single.Values.Select(q => (q.Name, q.Meaning, q.Kind?.UnitList() ?? "text", q.Order))
            .Concat(Families.Select(f => ($"{f.Prefix}<{f.Free}>{f.Suffix}", f.Meaning, f.Kind.UnitList(), f.Order)))
            .OrderBy(q => q.Order).Select(q => (q.Item1, q.Item2, q.Item3)),
    ];

    private static bool IsPlainName(string key) =>
        key.Length is > 0 and <= 60 && key.Trim() == key && !key.Any(char.IsControl);

    private static ImportQuantity Make(Family f, string name, string key)
    {
        (double least, double most) = f.Limits is not null && f.Limits.TryGetValue(key, out (double, double) own) ? own : (f.Least, f.Most);
        Unit unit = f.Kind == Kinds.Mass ? Kg : Percent;
        return new ImportQuantity(
            name, f.Keys is null ? f.Slot + key : f.Slot, f.Part, $"{f.Meaning}: {key}", f.Kind, unit, unit, least, most, f.Entry, key, f.Order);
    }

    private static Unit Kg => Kinds.Mass.Find("kg")!;

    private static Unit Percent => Kinds.MassPercent.Find("%")!;

    private static Dictionary<string, (double, double)> Windows(params (string Key, double Least, double Most)[] windows) =>
        windows.ToDictionary(w => w.Key, w => (w.Least, w.Most), StringComparer.Ordinal);

    private static IEnumerable<ImportQuantity> MakeSingle()
    {
        Unit kelvin = Kinds.Temperature.Find("K")!;
        Unit celsius = Kinds.Temperature.Find("°C")!;
        Unit gas = Kinds.GasVolume.Units[0];
        Unit ppm = Kinds.MassPercent.Find("ppm")!;
        Unit second = Kinds.Time.Find("s")!;
        Unit heats = Kinds.Heats.Units[0];
        ImportQuantity Text(string name, string slot, QuantityPart part, EntryKind entry, int order, string meaning) =>
            new(name, slot, part, meaning, null, null, null, 0, 0, entry, "", order);
        ImportQuantity Mass(string name, string slot, QuantityPart part, EntryKind entry, int order, double mostT, string meaning) =>
            new(name, slot, part, meaning, Kinds.Mass, Kg, Kg, mostT == 60 ? 0 : 5 * Tonne, mostT * Tonne, entry, "", order);
        ImportQuantity Heat(string name, string slot, QuantityPart part, EntryKind entry, int order, double leastC, double mostC, string meaning) =>
            new(name, slot, part, meaning, Kinds.Temperature, kelvin, celsius, celsius.ToBase(leastC), celsius.ToBase(mostC), entry, "", order);
        ImportQuantity Gas(string name, string slot, QuantityPart part, EntryKind entry, int order, double least, string meaning) =>
            new(name, slot, part, meaning, Kinds.GasVolume, gas, gas, least, 40_000, entry, "", order);
        ImportQuantity Carbon(string name, string slot, int order, string meaning) =>
            new(name, slot, QuantityPart.Carbon, meaning, Kinds.MassPercent, Percent, Percent, 0.005, 4.5, EntryKind.Measurement, "", order);
        ImportQuantity Oxygen(string name, string slot, int order, string meaning) =>
            new(name, slot, QuantityPart.Oxygen, meaning, Kinds.MassPercent, ppm, ppm, 1, 2_500, EntryKind.Measurement, "", order);
        ImportQuantity Seconds(string name, string slot, int order, double least, string meaning) =>
            new(name, slot, QuantityPart.Duration, meaning, Kinds.Time, second, second, least, 3_600, EntryKind.Operation, "", order);
        ImportQuantity Age(string name, string slot, int order, string meaning) =>
            new(name, slot, QuantityPart.Age, meaning, Kinds.Heats, heats, heats, 0, 60_000, EntryKind.Equipment, "", order);

        yield return Text("unit", "order", QuantityPart.Converter, EntryKind.Order, 100, "converter that made the heat");
        yield return Text("order.grade", "order", QuantityPart.Grade, EntryKind.Order, 101, "grade");
        yield return Text("practice", "order", QuantityPart.Practice, EntryKind.Order, 102, "practice (master recipe)");
        yield return Mass("order.mass", "order", QuantityPart.AimMass, EntryKind.Order, 103, 500, "steel that was ordered");
        yield return Heat("order.temperature", "order", QuantityPart.AimTemperature, EntryKind.Order, 104, 1500, 1800, "end temperature that was aimed at");
        yield return Mass("hot-metal.mass", "charge/hot-metal", QuantityPart.Mass, EntryKind.ChargeWeighed, 110, 500, "hot metal, as weighed");
        yield return Heat("hot-metal.temperature", "measurement/hot-metal/1", QuantityPart.Temperature, EntryKind.Measurement, 120, 1150, 1550, "hot metal temperature before charging");
        yield return Mass("retained-slag.mass", "charge/retained-slag", QuantityPart.Mass, EntryKind.ChargeWeighed, 140, 60, "slag kept from the heat before");
        yield return Heat("in-blow.temperature", "measurement/in-blow/1", QuantityPart.Temperature, EntryKind.Measurement, 200, 1300, 1750, "bath temperature during the blow");
        yield return Carbon("in-blow.carbon", "measurement/in-blow/1", 201, "bath carbon during the blow");
        yield return Oxygen("in-blow.oxygen", "measurement/in-blow/1", 202, "dissolved oxygen during the blow");
        yield return Gas("in-blow.oxygen-blown", "measurement/in-blow/1", QuantityPart.OxygenBlown, EntryKind.Measurement, 203, 0, "oxygen blown when the bath was measured");
        yield return Gas("blow.oxygen", "operation/blow/1", QuantityPart.OxygenBlown, EntryKind.Operation, 230, 500, "oxygen of the blow");
        yield return Seconds("blow.duration", "operation/blow/1", 231, 180, "blow, from ignition to oxygen off");
        yield return Gas("reblow.oxygen", "operation/reblow/1", QuantityPart.OxygenBlown, EntryKind.Operation, 240, 0, "oxygen of all reblows");
        yield return Seconds("reblow.duration", "operation/reblow/1", 241, 0, "all reblows together");
        yield return Heat("end.temperature", "measurement/end-of-blow/1", QuantityPart.Temperature, EntryKind.Measurement, 300, 1500, 1800, "steel temperature at the end of the blow, before the tap");
        yield return Carbon("end.carbon", "measurement/end-of-blow/1", 301, "steel carbon by probe at the end of the blow");
        yield return Oxygen("end.oxygen", "measurement/end-of-blow/1", 302, "dissolved oxygen at the end of the blow");
        yield return Heat("ladle.temperature", "measurement/ladle/1", QuantityPart.Temperature, EntryKind.Measurement, 400, 1450, 1780, "steel temperature in the ladle");
        yield return Mass("steel.mass", "end", QuantityPart.SteelMass, EntryKind.End, 500, 500, "steel in the ladle");
        yield return Mass("slag-poured.mass", "end", QuantityPart.SlagMass, EntryKind.End, 501, 60, "slag poured off");
        yield return Gas("oxygen.total", "end", QuantityPart.OxygenBlown, EntryKind.End, 502, 500, "oxygen of all blows");
        yield return Text("outcome", "end", QuantityPart.Outcome, EntryKind.End, 503, "what became of the heat: cast, returned, downgraded");
        yield return Age("lining.age", "equipment/lining", 600, "heats on the lining, by the works' own count");
        yield return Age("lance.age", "equipment/lance", 601, "heats on the lance head, by the works' own count");
        yield return Text("note", "note", QuantityPart.Text, EntryKind.Note, 700, "remark");
    }
}
