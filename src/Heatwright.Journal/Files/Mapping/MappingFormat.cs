// SPDX-License-Identifier: Apache-2.0
using System.Text;
using System.Text.Json.Nodes;
using Heatwright.Journal.Files.Import;
using Heatwright.Journal.Files.Tables;
using Heatwright.Journal.Store.Append;
using Heatwright.Shop.Files;
using Heatwright.Shop.Formats;
using Heatwright.Shop.Shapes;
using Heatwright.Shop.Units;
using ShapeReading = Heatwright.Shop.Files.Reading;

namespace Heatwright.Journal.Files.Mapping;

/// <summary>Reads and checks mapping files (kind: mapping), as the files of a works are read and checked.</summary>
public static class MappingFormat
{
    private const string DefaultActor = "program:import";

    private static readonly BlockShape TableShape = new(
        "where the table stands",
        new("sheet", new TextShape(100, "Heats"), "sheet of a workbook; without it the first", Required: false),
        new("headerRow", new NumberShape(1, 10_000, whole: true, "3"), "row (line) of the column names; without it the first that is not blank and no remark", Required: false),
        new("firstRow", new NumberShape(2, 1_000_000, whole: true, "5"), "row of the first heat; without it the one after the names", Required: false),
        new("comment", new SignShape("\"#\"", "#;%!"), "sign with which remark lines begin; without it #", Required: false),
        new("delimiter", new SignShape("\";\"", ",;|"), "sign between the cells of a text file; without it found from the first lines", Required: false),
        new("decimal", new WordShape("point", "comma"), "decimal sign of all numbers that are text, and it holds: a cell that cannot be read with it is rejected; without it each column must show its own", Required: false),
        new("merged", new WordShape("first", "repeat"), "`repeat`: a merged area holds its value in each of its cells; without it only in the first", Required: false))
    {
        Across = (v, r, f) =>
        {
            if (v.Number("headerRow") is { } header && v.Number("firstRow") is { } first && first <= header)
            {
                r.Add(ProblemCode.OutOfRange, v.At("firstRow"), f + ".firstRow", v.Written("firstRow"), "The heats begin above the column names.", $"at least {header + 1}", $"write firstRow: {header + 1}");
            }
        },
    };

    private static readonly BlockShape TimeShape = new(
        "where the time of a heat comes from",
        new("column", new TextShape(200, "start"), "column of date and time", Required: false),
        new("columns", new ListShape(new TextShape(200, "date"), 1, 4), "columns of date and time, when there are several", Required: false),
        new("pattern", new TextShape(60, "dd.MM.yyyy HH:mm"), "how they are written: d M y H h m s f t as in dd.MM.yyyy HH:mm, or `iso`; not needed for typed dates of a workbook", Required: false),
        new("zone", new ZoneShape(), "time zone of the file's clock; in the hour that comes twice in autumn the earlier is meant"),
        new("assume", new LocalTimeShape(), "when the file has no times: time of the first heat; each next heat gets one minute more, so that the order is kept", Required: false))
    {
        Across = (v, r, f) =>
        {
            int given = new[] { "column", "columns", "assume" }.Count(n => v.Get(n) is not null);
            if (given != 1)
            {
                r.Add(
                    ProblemCode.WrongCount, v.Node, f, null, $"{given} of column, columns and assume are given.", "exactly one",
                    given == 0 ? "write column: with the name of the time column, or assume: 2021-01-01 00:00 when the file has none" : "take the others out");
            }

            if (v.Get("assume") is not null && v.Text("pattern") is not null)
            {
                r.Add(ProblemCode.UnknownField, v.At("pattern"), f + ".pattern", v.Text("pattern"), "An assumed time has no pattern.", null, "delete it");
            }
            else if (v.Text("pattern") is { } pattern && TimePattern.Fault(pattern) is { } fault)
            {
                r.Add(ProblemCode.UnknownWord, v.At("pattern"), f + ".pattern", pattern, fault.Message, "dd.MM.yyyy HH:mm and the like, or iso", fault.Mend);
            }
        },
    };

    private static readonly BlockShape ColumnShape = new(
        "what a column holds",
        new("quantity", new QuantityNameShape(), "quantity of the heat"),
        new("unit", new TextShape(30, "kg"), "unit of the numbers; none for text", Required: false),
        new("scale", new NumberShape(-1e9, 1e9, whole: false, "100"), "the numbers are multiplied by this first: 100 for mass fractions in %", Required: false),
        new("missing", new ListShape(new AnyTextShape(), 1, 50), "what stands for nothing in this column; blank always does", Required: false),
        new("zero", new WordShape("keep", "missing"), "`missing`: a zero stands for nothing; one of scrap or an addition makes no entry in any case", Required: false),
        new("impossible", new WordShape("reject", "missing"), "`missing`: a value that no heat can have (below zero, above 100 %) stands for nothing; otherwise its row is rejected", Required: false),
        new("decimal", new WordShape("point", "comma"), "decimal sign of the column, in place of the table's", Required: false))
    {
        Across = CheckUnit,
    };

    internal static readonly FileFormat Format = new("mapping", "How a file of past heats is read", new BlockShape(
        "mapping",
        [
            .. FileFormat.Head("mapping"),
            new("name", new TextShape(100, "Converter log 2021"), "name of the mapping"),
            new("source", new TextShape(1000, "Plant records, 2021"), "where such files come from", Required: false),
            new("table", TableShape, "where the table stands in the file", Required: false),
            new("heat", new TextShape(200, "heat_no"), "column of the heat number"),
            new("time", TimeShape, "where the time of a heat comes from"),
            new("actor", new TextShape(EntryCheck.ActorLength, DefaultActor), "person or program that says what the file says; without it " + DefaultActor, Required: false),
            new("missing", new ListShape(new AnyTextShape(), 1, 50), "what stands for nothing; without it n/a, -, NULL and the like; blank always does", Required: false),
            new("sameHeat", new WordShape("reject", "first", "last", "merge"), "a heat in several rows; without it `reject`", Required: false),
            new("past", new WordShape("yes", "no"), "`yes`, and without it: the heats are past, each was blown, tapped and closed", Required: false),
            new("columns", new ColumnsShape(ColumnShape), "columns that are taken"),
            new("ignore", new ListShape(new TextShape(200, "gas_*"), 1, 2000), "columns that are left out knowingly; a closing * stands for any ending", Required: false),
        ])
    {
        Across = CheckColumns,
    });

    /// <summary>Reads a mapping from its bytes.</summary>
    /// <param name="bytes">Content.</param>
    /// <param name="file">Name for messages.</param>
    /// <exception cref="FileRefusedException">It has problems; all of them are named.</exception>
    public static ImportMapping Read(ReadOnlySpan<byte> bytes, string file)
    {
        var reading = new ShapeReading(file, References.None);
        BlockValue? value = Format.Read(bytes, reading);
        return value is null ? throw new FileRefusedException(reading.Problems) : Map(value, Encoding.UTF8.GetString(bytes));
    }

    /// <summary>Reads a mapping file.</summary>
    /// <exception cref="FileRefusedException">It is not there or has problems.</exception>
    public static ImportMapping ReadFile(string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        var problems = new List<Problem>();
        byte[]? bytes = new DiskFiles("").Read(path, path, problems);
        return bytes is null ? throw new FileRefusedException(problems) : Read(bytes, path);
    }

    /// <summary>Every problem of a mapping; none when it is good.</summary>
    public static IReadOnlyList<Problem> Check(ReadOnlySpan<byte> bytes, string file)
    {
        var reading = new ShapeReading(file, References.None);
        Format.Read(bytes, reading);
        return reading.Problems;
    }

    /// <summary>The JSON Schema (draft 2020-12) of mapping files.</summary>
    public static JsonObject Schema() => Format.ToSchema();

    private static ImportMapping Map(BlockValue v, string text)
    {
        BlockValue? table = v.Block("table");
        BlockValue time = v.Block("time")!;
        return new ImportMapping
        {
            Name = v.Text("name")!,
            Text = text,
            Table = new TableLayout(
                table?.Text("sheet"), (int?)table?.Number("headerRow"), (int?)table?.Number("firstRow"), table?.Text("comment")?[0], table?.Text("delimiter")?[0],
                table?.Text("merged") == "repeat"),
            Sign = Sign(table?.Text("decimal")),
            Heat = v.Text("heat")!,
            Time = new TimeRule(
                time.Text("column") is { } one ? [one] : Texts(time.Get("columns")) ?? [], time.Text("pattern"), time.Text("zone")!, time.Get("assume") as DateTime?),
            Actor = v.Text("actor") ?? DefaultActor,
            Missing = Texts(v.Get("missing")) ?? ImportMapping.UsualMissing,
            SameHeat = v.Text("sameHeat") switch { "first" => SameHeat.First, "last" => SameHeat.Last, "merge" => SameHeat.Merge, _ => SameHeat.Reject },
            Past = v.Text("past") != "no",
            Columns = [.. v.Entries("columns").Select(c => Column(c.Key, (BlockValue)c.Value))],
            Ignore = Texts(v.Get("ignore")) ?? [],
        };
    }

    private static ColumnRule Column(string name, BlockValue v)
    {
        var quantity = (ImportQuantity)v.Get("quantity")!;
        return new ColumnRule(
            name, quantity, quantity.Kind?.Find(v.Text("unit")!), v.Number("scale", 1), Texts(v.Get("missing")), v.Text("zero") == "missing", Sign(v.Text("decimal")),
            v.Text("impossible") == "missing");
    }

    private static DecimalSign? Sign(string? word) => word switch { "point" => DecimalSign.Point, "comma" => DecimalSign.Comma, _ => null };

    private static List<string>? Texts(object? list) => list is IReadOnlyList<object> items ? [.. items.Cast<string>()] : null;

    private static void CheckUnit(BlockValue v, ShapeReading r, string f)
    {
        if (v.Get("quantity") is not ImportQuantity q)
        {
            return;
        }

        string? unit = v.Text("unit");
        if (q.IsText && (unit is not null || v.Get("scale") is not null))
        {
            string field = unit is not null ? "unit" : "scale";
            r.Add(ProblemCode.UnexpectedUnit, v.At(field), $"{f}.{field}", v.Written(field), $"{q.Name} is text and has no {field}.", null, "delete it");
        }
        else if (!q.IsText && unit is null)
        {
            r.Add(ProblemCode.MissingUnit, v.Node, f + ".unit", null, $"{q.Name} has no unit.", q.Kind!.UnitList(), $"add unit: {q.ShownUnit!.Symbol} if the file is in it");
        }
        else if (!q.IsText && q.Kind!.Find(unit!) is null)
        {
            string? near = q.Kind.Units.Select(u => u.Symbol).FirstOrDefault(u => string.Equals(u, unit, StringComparison.OrdinalIgnoreCase));
            r.Add(
                Kinds.All.Any(k => k.Find(unit!) is not null) ? ProblemCode.WrongUnit : ProblemCode.UnknownUnit, v.At("unit"), f + ".unit", unit,
                $"'{ShapeReading.Shorten(unit!, 30)}' is no unit of {q.Kind.Name}.", q.Kind.UnitList(),
                near is null ? $"write one of: {q.Kind.UnitList()}; use scale for another multiple" : $"write {near}");
        }

        if (v.Get("scale") is 0.0)
        {
            r.Add(ProblemCode.OutOfRange, v.At("scale"), f + ".scale", "0", "A scale of zero makes every value zero.", "not 0", "write the number that turns the file's numbers into the unit");
        }
    }

    private static void CheckColumns(BlockValue v, ShapeReading r, string f)
    {
        var first = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach ((string column, object value) in v.Entries("columns"))
        {
            var block = (BlockValue)value;
            var q = (ImportQuantity)block.Get("quantity")!;
            if (!first.TryAdd(q.Name, column))
            {
                r.Add(
                    ProblemCode.DuplicateName, block.At("quantity"), $"columns.{column}.quantity", q.Name, $"Column '{first[q.Name]}' gives {q.Name} already.", "each quantity once",
                    "give it another quantity, or put the column under ignore");
            }
        }
    }
}

/// <summary>Any text, also an empty one.</summary>
internal sealed class AnyTextShape : Shape
{
    public override string Example => "n/a";

    public override string Describe => "text";

    public override object? Read(Node node, ShapeReading reading, string field)
    {
        if (node is ScalarNode { Text.Length: <= 40 } scalar)
        {
            return scalar.Text.Trim();
        }

        reading.Add(ProblemCode.WrongShape, node, field, (node as ScalarNode)?.Text, "This is one short text.", "40 signs", "write it in quotes");
        return null;
    }

    public override JsonObject ToSchema() => new() { ["type"] = new JsonArray("string", "number", "null") };
}
