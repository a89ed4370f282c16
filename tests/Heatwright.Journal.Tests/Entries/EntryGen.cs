// SPDX-License-Identifier: Apache-2.0
using CsCheck;
using Heatwright.Journal.Entries;

namespace Heatwright.Journal.Tests.Entries;

/// <summary>Random entries of every kind, with text and numbers that break careless code.</summary>
public static class EntryGen
{
    private static readonly string[] Nasty =
    [
        "", " ", "=1+1", "+49", "-5.2", "@x", "\t", "'", "''=", "\"", "a,b;c", "line\nline", "0012", "1e5", "NULL", "<0.002", "Ünïcödé °C", "漢字", "😀", "\u00a0",
    ];

    public static readonly Gen<double> Number = Gen.OneOf(
        Gen.Double[-1e4, 1e4],
        Gen.Double[0, 1],
        Gen.OneOf(0d, -0d, 0.1 + 0.2, double.Epsilon, double.MaxValue, 1e-300, 273.15, 142_700));

    public static readonly Gen<string> Text = Gen.OneOf(Gen.OneOf(Nasty), Gen.String[Gen.Char[' ', '~'], 0, 20]);

    /// <summary>A heat number that the journal takes.</summary>
    public static readonly Gen<string> Heat = Gen.OneOf("L-1001", "0012", "1e5", "=A1", "Ü 7");

    /// <summary>Milliseconds are kept, so nothing finer is made.</summary>
    public static readonly Gen<DateTimeOffset> Time = Gen.Long[631_152_000_000, 4_102_444_800_000].Select(DateTimeOffset.FromUnixTimeMilliseconds);

    private static readonly Gen<double?> Maybe = Optional(Number);

    private static readonly Gen<Guid> Id = Gen.Guid;

    private static readonly Gen<Expected> Band = Gen.Select(Number, Maybe, Maybe, (v, l, h) => new Expected(v, l, h));

    private static readonly Gen<Window> Window = Gen.Select(Maybe, Maybe, Maybe, (a, b, c) => new Window(a, b, c));

    private static readonly Gen<Reading> Reading = Gen.Select(Number, Gen.Bool, (v, b) => new Reading(v, b));

    private static readonly Gen<Basis> Basis = Gen.Select(
        Text, OptionalOf(Id), Gen.Int[0, 9], Map(Number), Id.Array[0, 3], (m, w, s, p, i) => new Basis(m, w, s, 100, p, i));

    /// <summary>A body of any kind but a correction.</summary>
    public static readonly Gen<EntryBody> Plain = Gen.OneOf(
        Gen.Select(Text, Window, Map(Window), Maybe, OptionalOf(Time), (g, t, e, m, due) =>
            (EntryBody)new OrderBody(g, "North", "ordinary", m, t, t, e, m, null, 0.9, due)),
        Gen.Select(Map(Number), Map(Number), Maybe, Map(Band), Basis, (s, a, h, e, b) =>
            (EntryBody)new PlanBody(s, a, "ordinary", 2, h, 1623.15, s, 8240, e, h, 0.91, b)),
        Gen.Select(Gen.Enum<ChargeKind>(), Number, Text, Maybe, (k, m, t, x) => (EntryBody)new ChargeBody(k, m, t, x, x, t, t)),
        Gen.Byte.Array[0, 40].Select(b => (EntryBody)new SignalBlockBody(b)),
        Gen.Select(Text, Number, Gen.Enum<AdditionPlace>(), Maybe, (t, m, p, o) => (EntryBody)new AdditionBody(t, m, p, o, t)),
        Gen.Select(Gen.Enum<HeatPoint>(), Maybe, Maybe, Gen.Enum<ReadingStatus>(), Gen.Int[1, 3], (p, a, b, s, i) =>
            (EntryBody)new MeasurementBody(p, a, b, a, b, a, s, i, "probe")),
        Gen.Select(Gen.Enum<HeatPoint>(), Gen.Enum<SampledMatter>(), Map(Reading), Text, (p, m, r, t) => (EntryBody)new AnalysisBody(p, m, r, t)),
        Gen.Select(Text, Text, Text.Array[0, 3], Id.Array[0, 3], (q, c, o, b) => (EntryBody)new DecisionBody(q, c, o, b)),
        Text.Select(t => (EntryBody)new NoteBody(t)),
        Gen.Select(Text, Time, OptionalOf(Time), Text, (c, f, u, t) => (EntryBody)new DelayBody(c, f, u, t, t)),
        Gen.Select(Gen.Enum<HeatOperation>(), Gen.Enum<OperationState>(), Gen.Int[1, 4], Maybe, (o, s, i, x) =>
            (EntryBody)new OperationBody(o, s, i, "North", x)),
        Gen.Select(Maybe, Maybe, Maybe, Text, (a, b, c, t) => (EntryBody)new EndBody(a, b, c, t)),
        Gen.Select(Gen.Enum<ResultQuestion>(), Map(Band), Basis, Text.Array[0, 3], OptionalOf(Id), (q, v, b, r, i) =>
            (EntryBody)new ResultBody(q, v, b, r, i, 1e-14)),
        Gen.Select(Text, Gen.Enum<WearPart>(), Gen.Bool, Maybe, (u, p, r, a) => (EntryBody)new EquipmentBody(u, p, r, a, u)),
        Gen.Select(Text, Map(Text), (n, f) => (EntryBody)new WorksBody(n, f)),
        Gen.Select(Text, Text, Gen.Int[0, 9], Text.Array[0, 3], (f, m, r, x) => (EntryBody)new ImportBody(f, "00", m, m, r, r, x)));

    /// <summary>A body of any kind. Corrections point at nothing that is there: a store refuses them unless their target is.</summary>
    public static readonly Gen<EntryBody> Body = Gen.Frequency(
        (9, Plain),
        (1, Gen.Select(Id, OptionalOfClass(Plain.Where(b => b is not SignalBlockBody)), (id, b) => (EntryBody)new CorrectionBody(id, b))));

    public static Gen<Dictionary<string, T>> Map<T>(Gen<T> value) =>
        Gen.Select(Text, value).Array[0, 4].Select(pairs => pairs.GroupBy(p => p.Item1).ToDictionary(p => p.Key, p => p.First().Item2));

    private static Gen<double?> Optional(Gen<double> gen) => Gen.Frequency((1, Gen.Const((double?)null)), (3, gen.Select(v => (double?)v)));

    private static Gen<T?> OptionalOf<T>(Gen<T> gen)
        where T : struct =>
        Gen.Frequency((1, Gen.Const((T?)null)), (3, gen.Select(v => (T?)v)));

    private static Gen<T?> OptionalOfClass<T>(Gen<T> gen)
        where T : class =>
        Gen.Frequency((1, Gen.Const((T?)null)), (3, gen.Select(v => (T?)v)));
}
