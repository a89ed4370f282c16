// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter;
using Heatwright.Shop.Files;
using Heatwright.Shop.Shapes;
using Heatwright.Shop.Units;

namespace Heatwright.Shop.Formats;

/// <summary>practices/*.yaml.</summary>
internal static class PracticeFormat
{
    private static readonly PointShape SetPointAt = new(BlowEvent.Ignition, BlowEvent.Measurement);
    private static readonly PointShape BatchAt = new(BlowEvent.BeforeBlow, BlowEvent.Ignition, BlowEvent.Measurement);
    private static readonly PointShape MeasureAt = new(BlowEvent.Measurement);
    private static readonly PointShape AfterAt = new(BlowEvent.EndOfBlow);

    private static readonly QuantityShape OxygenFlow = new(
        new QuantityLimit(Kinds.SpecificGasFlow, 0.5 / 60, 8.0 / 60), new QuantityLimit(Kinds.GasFlow, 0.2, 40));

    private static readonly QuantityShape BottomFlow = new(
        new QuantityLimit(Kinds.SpecificGasFlow, 0, 0.5 / 60, "0.05 Nm3/(t min)"), new QuantityLimit(Kinds.GasFlow, 0, 4, "8 Nm3/min"));

    private static readonly VariantShape PhaseShape = new(
        "phase",
        ("set lance", Phase("set lance", SetPointAt, new Field("height", new QuantityShape(Kinds.Length, 0.5, 5), "lance height over the quiet bath"))),
        ("set oxygen", Phase("set oxygen", SetPointAt, new Field("flow", OxygenFlow, "oxygen flow, by tonne of steel to be tapped or as such"))),
        ("set bottom gas", Phase(
            "set bottom gas", SetPointAt, new Field("flow", BottomFlow, "flow of all elements together"), new Field("gas", new WordShape("nitrogen", "argon"), "gas"))),
        ("set skirt", Phase("set skirt", SetPointAt, new Field("open", new QuantityShape(Kinds.Share, 0, 100, "100 %"), "0 % down on the mouth, 100 % up"))),
        ("add", Phase(
            "add", BatchAt,
            [
                new Field(
                    "material", new NameShape("flux, coolant, heating agent or alloy", ProblemCode.UnknownAddition, r => r.Additions, "lime"), "material; or give role",
                    Required: false),
                new Field("role", new WordShape(MaterialsFormat.RoleWords), "all materials of a role that no batch names; or give material", Required: false),
                new Field("share", new QuantityShape(Kinds.Share, 0, 100, "60 %"), "share of what the charge holds of it"),
                new Field("over", new QuantityShape(Kinds.Time, 1, 900, "20 s"), "how long it takes to fall; 20 s when not written", Required: false),
            ],
            OneOfMaterialAndRole)),
        ("measure", Phase("measure", MeasureAt)),
        ("stir", Phase(
            "stir", AfterAt, new Field("flow", BottomFlow, "flow of all elements together"),
            new Field("for", new QuantityShape(Kinds.Time, 1, 1200, "90 s"), "how long"))));

    private static readonly BlockShape OperationShape = new(
        "an operation",
        new("operation", new WordShape("scrap charging", "hot-metal charging", "ignition", "main blow", "in-blow measurement", "end blow", "after-stir"), "operation"),
        new("phases", new ListShape(PhaseShape, 1, 60), "phases in order"));

    private static readonly BlockShape UnitProcedureShape = new(
        "a unit procedure",
        new("unitProcedure", new WordShape("charge", "blow"), "unit procedure"),
        new("operations", new ListShape(OperationShape, 1, 20), "operations in order"));

    public static readonly FileFormat Format = new("practice", "How a heat is blown, by % of planned oxygen and by events", new BlockShape(
        "practice",
        [
            .. FileFormat.Head("practice"),
            new("practice", new TextShape(NamedShape.LongestName, "ordinary"), "name"),
            new("title", new TextShape(120, "Ordinary low-carbon heat"), "name for people", Required: false),
            new("version", new NumberShape(1, 9999, whole: true, "1"), "version, raised with each change"),
            new("measurement", new QuantityShape(Kinds.Share, 30, 99, "82 %"), "in-blow measurement, % of the planned oxygen; leave out when there is none", Required: false),
            new("chargeToBlow", new QuantityShape(Kinds.Time, 0, 3600, "2 min"), "from hot metal on the scrap to ignition; 2 min when not written", Required: false),
            new("procedure", new ListShape(UnitProcedureShape, 1, 4), "unit procedures in order"),
        ])
    {
        Across = CheckPractice,
    });

    public static Practice Map(BlockValue v) => new(
        v.Text("practice")!,
        v.Text("title") ?? v.Text("practice")!,
        (int)v.Number("version")!.Value,
        v.Number("measurement"),
        v.Number("chargeToBlow", 120),
        [.. v.Blocks("procedure").Select(u => new UnitProcedure(
            u.Text("unitProcedure")!,
            [.. u.Blocks("operations").Select(o => new Operation(o.Text("operation")!, [.. o.Blocks("phases").Select(MapPhase)]))]))],
        v.Text("note"));

    private static Phase MapPhase(BlockValue v)
    {
        var at = (PracticePoint)v.Get("at")!;
        return v.Text("phase") switch
        {
            "set lance" => new SetLance(at, v.Number("height")!.Value),
            "set oxygen" => new SetOxygen(at, v.Number("flow")!.Value, PerTonne(v)),
            "set bottom gas" => new SetBottomGas(
                at, v.Number("flow")!.Value, PerTonne(v), v.Text("gas") == "argon" ? StirringGas.Argon : StirringGas.Nitrogen),
            "set skirt" => new SetSkirt(at, v.Number("open")!.Value / 100),
            "add" => new AddBatch(
                at, v.Text("material"), v.Text("role") is { } role ? MaterialsFormat.Role(role) : null, v.Number("share")!.Value / 100, v.Number("over", 20)),
            "measure" => new Measure(at),
            _ => new AfterStir(at, v.Number("flow")!.Value, PerTonne(v), v.Number("for")!.Value),
        };
    }

    private static bool PerTonne(BlockValue v) => v.Get("flow") is Quantity q && q.Kind == Kinds.SpecificGasFlow;

    private static BlockShape Phase(string word, PointShape at, params Field[] fields) => Phase(word, at, fields, null);

    private static BlockShape Phase(string word, PointShape at, Field[] fields, Action<BlockValue, Reading, string>? across) =>
        new($"phase: {word}", [new Field("phase", new WordShape(word), "act"), new Field("at", at, "when"), .. fields]) { Across = across };

    private static void OneOfMaterialAndRole(BlockValue v, Reading r, string field)
    {
        bool material = v.Node.TryGet("material", out _, out _);
        if (material == v.Node.TryGet("role", out _, out _))
        {
            r.Add(
                ProblemCode.MissingField, v.Node, field + ".material", null, material ? "A batch names both material and role." : "A batch names neither material nor role.",
                "one of the two", material ? "delete one of the two" : "add material: lime, or role: flux");
        }
    }

    private static void CheckPractice(BlockValue v, Reading r, string field)
    {
        double? measurement = v.Number("measurement");
        bool hasMeasurement = v.Node.TryGet("measurement", out _, out _);
        var last = new Dictionary<string, double>(StringComparer.Ordinal);
        var shares = new Dictionary<string, (double Sum, Node At, string Field)>(StringComparer.Ordinal);
        foreach ((BlockValue phase, string path) in Phases(v))
        {
            string word = phase.Text("phase") ?? "";
            if (phase.Get("at") is not PracticePoint at)
            {
                continue;
            }

            if (at.Event == BlowEvent.Measurement && !hasMeasurement)
            {
                r.Add(
                    ProblemCode.NoMeasurement, phase.At("at"), path + ".at", phase.Written("at"), "The practice has no in-blow measurement.", null,
                    "add measurement: 82 % near the top, or write a % of the planned oxygen");
                continue;
            }

            double percent = at.Event switch
            {
                BlowEvent.Oxygen => at.Percent,
                BlowEvent.Measurement => measurement ?? double.NaN,
                BlowEvent.EndOfBlow => 100,
                _ => 0,
            };
            if (word == "add")
            {
                CollectShare(phase, path, shares);
                continue;
            }

            if (last.TryGetValue(word, out double before) && percent <= before)
            {
                r.Add(
                    ProblemCode.StepsOutOfOrder, phase.At("at"), path + ".at", phase.Written("at"), $"This '{word}' does not come after the one before it.",
                    $"more than {UnitText.Number(before)} %", "put the phases in order, each later than the one before");
            }

            if (!last.ContainsKey(word) && word is "set lance" or "set oxygen" && percent > 0 && !last.ContainsKey(word))
            {
                r.Add(
                    ProblemCode.NoStartSetPoint, phase.At("at"), path + ".at", phase.Written("at"), $"The first '{word}' comes after the start of the blow.",
                    "at: ignition", "write at: ignition for the first one");
            }

            last[word] = percent;
        }

        foreach (string needed in (string[])["set lance", "set oxygen"])
        {
            if (v.Get("procedure") is not null && !last.ContainsKey(needed))
            {
                r.Add(
                    ProblemCode.NoStartSetPoint, v.At("procedure"), "procedure", null, $"No phase '{needed}' stands in the practice.", "at least one, at ignition",
                    $"add phase: {needed} with at: ignition");
            }
        }

        foreach ((string what, (double sum, Node at, string path)) in shares)
        {
            if (Math.Abs(sum - 100) > 0.1)
            {
                r.Add(
                    ProblemCode.SharesNot100, at, path, UnitText.Number(sum) + " %", $"The batches of {what} add up to {UnitText.Number(Math.Round(sum, 4))} %.", "100 %",
                    "change the shares so that they add up to 100 %");
            }
        }
    }

    private static void CollectShare(BlockValue phase, string path, Dictionary<string, (double Sum, Node At, string Field)> shares)
    {
        string? what = phase.Text("material") ?? (phase.Text("role") is { } role ? "role " + role : null);
        if (what is not null && phase.Number("share") is { } share)
        {
            double sum = shares.TryGetValue(what, out (double Sum, Node, string) old) ? old.Sum + share : share;
            shares[what] = (sum, phase.At("share"), path + ".share");
        }
    }

    private static IEnumerable<(BlockValue Phase, string Path)> Phases(BlockValue v)
    {
        IReadOnlyList<BlockValue> units = v.Blocks("procedure");
        for (int i = 0; i < units.Count; i++)
        {
            IReadOnlyList<BlockValue> operations = units[i].Blocks("operations");
            for (int j = 0; j < operations.Count; j++)
            {
                IReadOnlyList<BlockValue> phases = operations[j].Blocks("phases");
                for (int k = 0; k < phases.Count; k++)
                {
                    yield return (phases[k], $"procedure[{i}].operations[{j}].phases[{k}]");
                }
            }
        }
    }
}
