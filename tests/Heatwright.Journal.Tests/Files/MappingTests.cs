// SPDX-License-Identifier: Apache-2.0
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Heatwright.Journal.Files.Import;
using Heatwright.Journal.Files.Mapping;
using Heatwright.Journal.Files.Tables;
using Heatwright.Journal.Store;
using Heatwright.Shop.Files;
using Json.Schema;

namespace Heatwright.Journal.Tests.Files;

public sealed class MappingTests : IDisposable
{
    private const string Good = """
        kind: mapping
        format: 1
        name: test
        heat: heat
        time: {assume: 2024-01-01, zone: UTC}
        columns:
          m: {quantity: hot-metal.mass, unit: t}
        """;

    private static readonly JsonSerializerOptions Printed = new() { WriteIndented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    private static readonly Lazy<JsonSchema> Published = new(() => JsonSchema.FromText(Resource("schemas/mapping.schema.json", typeof(ProblemCode).Assembly)));

    private readonly Desk _desk = new();

    public static TheoryData<string> Examples => [.. typeof(MappingTests).Assembly.GetManifestResourceNames().Where(n => n.StartsWith("mappings/", StringComparison.Ordinal))];

    public void Dispose() => _desk.Dispose();

    [Fact]
    public void The_published_schema_is_the_one_that_the_reader_follows()
    {
        string generated = MappingFormat.Schema().ToJsonString(Printed) + "\n";
        if (Environment.GetEnvironmentVariable("HEATWRIGHT_WRITE_SCHEMAS") is { Length: > 0 } folder)
        {
            File.WriteAllText(Path.Combine(folder, "mapping.schema.json"), generated);
            return;
        }

        // To renew: HEATWRIGHT_WRITE_SCHEMAS=$PWD/schemas dotnet run --project tests/Heatwright.Journal.Tests
        Assert.Equal(generated, Resource("schemas/mapping.schema.json", typeof(ProblemCode).Assembly));
    }

    [Theory]
    [MemberData(nameof(Examples))]
    public void Each_example_is_good(string name) => Assert.NotEmpty(MappingFormat.Read(Encoding.UTF8.GetBytes(Resource(name)), name).Columns);

    [Theory]
    [MemberData(nameof(Examples))]
    public void Each_example_is_valid_by_the_published_schema(string name) => Assert.True(Valid(Resource(name)));

    [Theory]
    [InlineData("unit: t", "unit: [t]")]
    [InlineData("hot-metal.mass", "hotmetal.mass")]
    [InlineData("heat: heat", "")]
    [InlineData("name: test", "nam: test")]
    [InlineData("format: 1", "format: 2")]
    public void The_schema_sees_mistakes(string what, string by)
    {
        Assert.True(Valid(Good));
        Assert.False(Valid(Good.Replace(what, by, StringComparison.Ordinal)));
    }

    [Theory]
    [InlineData("name: test", "nam: test", "nam", ProblemCode.UnknownField)]
    [InlineData("heat: heat", "", "heat", ProblemCode.MissingField)]
    [InlineData("hot-metal.mass", "hotmetal.mass", "columns.m.quantity", ProblemCode.UnknownWord)]
    [InlineData("hot-metal.mass", "analysis.end.Xy", "columns.m.quantity", ProblemCode.UnknownWord)]
    [InlineData("unit: t", "unit: °C", "columns.m.unit", ProblemCode.WrongUnit)]
    [InlineData("unit: t", "unit: stone", "columns.m.unit", ProblemCode.UnknownUnit)]
    [InlineData(", unit: t", "", "columns.m.unit", ProblemCode.MissingUnit)]
    [InlineData("hot-metal.mass, unit: t", "order.grade, unit: t", "columns.m.unit", ProblemCode.UnexpectedUnit)]
    [InlineData("unit: t", "unit: t, scale: 0", "columns.m.scale", ProblemCode.OutOfRange)]
    [InlineData("zone: UTC", "zone: Europe/Berln", "time.zone", ProblemCode.UnknownWord)]
    [InlineData("assume: 2024-01-01", "assume: 1.1.2024", "time.assume", ProblemCode.NotANumber)]
    [InlineData("assume: 2024-01-01, ", "", "time", ProblemCode.WrongCount)]
    [InlineData("assume: 2024-01-01", "assume: 2024-01-01, column: t", "time", ProblemCode.WrongCount)]
    [InlineData("columns:", "sameHeat: both\ncolumns:", "sameHeat", ProblemCode.UnknownWord)]
    [InlineData("columns:", "table: {headerRow: 3, firstRow: 3}\ncolumns:", "table.firstRow", ProblemCode.OutOfRange)]
    [InlineData("columns:", "table: {delimiter: x}\ncolumns:", "table.delimiter", ProblemCode.UnknownWord)]
    [InlineData("unit: t}", "unit: t}\n  n: {quantity: hot-metal.mass, unit: t}", "columns.n.quantity", ProblemCode.DuplicateName)]
    [InlineData("kind: mapping", "kind: heat", "kind", ProblemCode.WrongFileKind)]
    [InlineData("format: 1", "format: 2", "format", ProblemCode.UnknownFormat)]
    public void Each_mistake_is_named_with_its_mend(string what, string by, string field, string code)
    {
        Problem problem = Assert.Single(MappingFormat.Check(Encoding.UTF8.GetBytes(Good.Replace(what, by, StringComparison.Ordinal)), "m.yaml"), p => p.Code == code);
        Assert.Equal(field, problem.Field);
        Assert.True(problem.Line > 0);
        Assert.NotEmpty(problem.Mend);
    }

    [Theory]
    [InlineData("TT.MM.JJJJ", "write pattern: dd.MM.yyyy")]
    [InlineData("TT.MM.JJJJ hh:mm", "write pattern: dd.MM.yyyy HH:mm")]
    [InlineData("tt.mm.jjjj HH:MM:SS", "write pattern: dd.MM.yyyy HH:mm:ss")]
    [InlineData("DD/MM/YYYY", "write pattern: dd/MM/yyyy")]
    [InlineData("dd.mm.yyyy HH:mm", "write pattern: dd.MM.yyyy HH:mm")]
    [InlineData("dd.MM.yyyy HH:MM", "write pattern: dd.MM.yyyy HH:mm")]
    [InlineData("HH:mm", "write the pattern as in dd.MM.yyyy HH:mm")]
    public void A_pattern_in_other_letters_is_refused(string pattern, string mend)
    {
        string yaml = Good.Replace("{assume: 2024-01-01,", $"{{column: t, pattern: \"{pattern}\",", StringComparison.Ordinal);
        Problem problem = MappingFormat.Check(Encoding.UTF8.GetBytes(yaml), "m.yaml").Single();
        Assert.Equal(("time.pattern", pattern, mend), (problem.Field, problem.Value, problem.Mend));
    }

    [Theory]
    [InlineData("iso")]
    [InlineData("dd.MM.yyyy HH:mm")]
    [InlineData("yyyy-MM-ddTHH:mm:ssZ")]
    [InlineData("d MMM yyyy 'at' h:mm tt")]
    public void A_pattern_in_the_right_letters_is_good(string pattern) => Assert.Empty(
        MappingFormat.Check(Encoding.UTF8.GetBytes(Good.Replace("{assume: 2024-01-01,", $"{{column: t, pattern: \"{pattern}\",", StringComparison.Ordinal)), "m.yaml"));

    [Fact]
    public void Near_names_are_proposed() =>
        Assert.Equal("write hot-metal.mass", MappingFormat.Check(Encoding.UTF8.GetBytes(Good.Replace("hot-metal.mass", "hotmetal.mass", StringComparison.Ordinal)), "m.yaml")[0].Mend);

    [Fact]
    public void A_table_shaped_like_the_converter_log_is_taken_whole()
    {
        string header = "heat_no,set,hot_metal_kg,hot_metal_T_C,hm_Si_pct,hm_Mn_pct,hm_S_pct,hm_P_pct,hm_Cr_pct,hm_Ni_pct,hm_Cu_pct,hm_V_pct,hm_Ti_pct,scrap_kg,scrap_grades,lime_kg,lime_fines_kg,flux_flumag_kg,flux_fomi_kg,coal_kg,scrap_preheat_s,blow_s,oxygen_from_lance_record_Nm3,lining_age_heats,lance_age_heats,gas_CO_sum,end_T_C,end_C_pct";
        string path = _desk.Put("log.csv", $"# invented\n{header}\n1,A,142700,1350,0.45,0.3,0.02,0.08,,,,,,38000,heavy+returns,7300,0,2100,0,0,0,1020,,800,12,37000,1651,0.043\n2,B,139900,1342,0.4,0.3,0.02,0.08,,,,,,39000,heavy,7400,0,2100,0,0,0,1010,8350.5,801,13,37000,,\n");
        ImportPreview preview = HeatImport.Preview(path, Example("converter-log-2021"));
        Assert.Equal((2, 0, 0), (preview.Heats, preview.RejectedRows, preview.Unmapped.Count));
        Assert.All(preview.Columns, c => Assert.Equal(0, c.Doubtful));
    }

    [Fact]
    public void A_table_shaped_like_the_tapping_log_is_taken_whole()
    {
        ImportMapping mapping = Example("tapping-log-2019");
        string[] header = ["heat_no", .. mapping.Columns.Select(c => c.Column), "cast_Ceq_pct"];
        string row = "1," + string.Join(',', mapping.Columns.Select(c => c.Quantity.Name switch { "order.grade" => "S235JR", "end.temperature" => "1650", "steel.mass" => "151000", "analysis.end.Si" => "-0.001", _ => c.Unit!.Symbol == "kg" ? "0" : "0.02" })) + ",0.4";
        ImportPreview preview = HeatImport.Preview(_desk.Put("tap.csv", string.Join(',', header) + "\n" + row + "\n"), mapping);
        Assert.Equal((1, 0), (preview.Heats, preview.Unmapped.Count));
        Assert.Equal(1, preview.Columns.Single(c => c.Column == "end_Si_pct").Impossible);
        Assert.All(preview.Columns.Where(c => c.Unit == "kg" && c.Column != "steel_kg"), c => Assert.Equal((0, 1), (c.Values, c.Missing)));
    }

    [Fact]
    public void A_spreadsheet_with_title_units_and_merged_cells_is_taken()
    {
        ImportMapping mapping = Example("larkmoor-spreadsheet");
        string[] header = ["Heat", "Date", "Charged", "Shift", "Melter", .. mapping.Columns.Select(c => c.Column)];
        string Row(int r, string?[] cells) => $"<row r=\"{r}\">" + string.Concat(cells.Select((c, i) => c is null ? $"<c r=\"{TableSource.ColumnLetters(i)}{r}\"/>"
            : double.TryParse(c, System.Globalization.NumberStyles.Float, null, out _) ? $"<c r=\"{TableSource.ColumnLetters(i)}{r}\"{(i == 1 ? " s=\"1\"" : "")}><v>{c}</v></c>"
            : $"<c r=\"{TableSource.ColumnLetters(i)}{r}\" t=\"inlineStr\"><is><t>{c.Replace("<", "&lt;", StringComparison.Ordinal)}</t></is></c>")) + "</row>";
        string?[] first = ["4711", "45356", "06:15", "early", "Anna", "North", "S235JR", "142.7", "1350", "0,45", "0.08", "0", "21.5", "7,3", "0", "8240", "17", "1650", "620", "0.04", "n/a", "<0,005", "151.2", "=fine"];
        string?[] second = [.. first];
        second[0] = "4712";
        second[6] = null;
        byte[] book = HandMadeWorkbook.With(Row(1, ["Larkmoor Works"]) + Row(3, header) + Row(4, ["", "", "", ""]) + Row(5, first) + Row(6, second), after: "<mergeCells count=\"1\"><mergeCell ref=\"G5:G6\"/></mergeCells>");
        string path = _desk.Put("log.xlsx", book);
        ImportPreview preview = HeatImport.Preview(path, mapping);
        Assert.Equal((2, 0), (preview.Heats, preview.RejectedRows));
        Assert.Equal(new DateTimeOffset(2024, 3, 5, 6, 15, 0, TimeSpan.Zero), preview.From);
        IJournalStore store = _desk.Journal();
        HeatImport.Write(store, path, mapping);
        IReadOnlyDictionary<string, WideValue> heat = Desk.Values(store, "4712");
        Assert.Equal(("S235JR", 7300, 0.45, 1020, "=fine"), (heat["order.grade"].Text, heat["addition.lime.mass"].Number, heat["hot-metal.analysis.Si"].Number, heat["blow.duration"].Number, heat["note"].Text));
        Assert.Equal((true, 0.005, false), (heat["analysis.end.S"].Below, heat["analysis.end.S"].Number, heat.ContainsKey("analysis.end.P")));
    }

    [Theory]
    [InlineData("hot_metal_kg", "hot-metal.mass", "kg")]
    [InlineData("HotMetal [t]", "hot-metal.mass", "t")]
    [InlineData("Roheisen (t)", "hot-metal.mass", "t")]
    [InlineData("T hot metal [°C]", "hot-metal.temperature", "°C")]
    [InlineData("Temperatur Roheisen °C", "hot-metal.temperature", "°C")]
    [InlineData("HM Si %", "hot-metal.analysis.Si", "%")]
    [InlineData("end_T_C", "end.temperature", "°C")]
    [InlineData("end P [%]", "analysis.end.P", "%")]
    [InlineData("Kalk kg", "addition.lime.mass", "kg")]
    [InlineData("Sauerstoff [Nm³]", "blow.oxygen", "Nm3")]
    [InlineData("Güte", "order.grade", null)]
    [InlineData("Schlacke CaO %", "slag.CaO", "%")]
    [InlineData("Bemerkung", "note", null)]
    [InlineData("T Sublanze [°C]", "in-blow.temperature", "°C")]
    [InlineData("sublance T °C", "in-blow.temperature", "°C")]
    [InlineData("in-blow temperature [°C]", "in-blow.temperature", "°C")]
    [InlineData("C Sublanze [%]", "in-blow.carbon", "%")]
    [InlineData("in-blow P [%]", "in-blow.analysis.P", "%")]
    [InlineData("O aktiv [ppm]", "end.oxygen", "ppm")]
    [InlineData("oxygen activity ppm", "end.oxygen", "ppm")]
    public void Drafts_know_the_usual_names(string column, string quantity, string? unit)
    {
        DraftColumn draft = Draft(column);
        Assert.True(draft.Decided, draft.Why);
        Assert.Equal((quantity, unit), (draft.Quantity!.Name, draft.Unit?.Symbol));
    }

    [Theory]
    [InlineData("Si %")]
    [InlineData("hot metal")]
    [InlineData("T [°C]")]
    [InlineData("lime fines kg")]
    [InlineData("mass kg")]
    [InlineData("gas_CO_sum")]
    [InlineData("x")]
    public void Drafts_leave_open_what_they_do_not_know(string column) => Assert.False(Draft(column).Decided);

    [Fact]
    public void A_draft_reads_back_and_names_what_is_open()
    {
        string path = _desk.Put("a.csv", "Schmelze;Datum;Roheisen [t];Si %;\"odd \"\"name\"\" 7\"\n1;2024-01-01 06:00;140;0.4;1\n");
        string yaml = MappingDraft.Of(path).ToYaml();
        Assert.Contains("# Undecided: Si %", yaml, StringComparison.Ordinal);
        ImportMapping mapping = MappingFormat.Read(Encoding.UTF8.GetBytes(yaml), "draft.yaml");
        Assert.Equal(("Schmelze", "Datum", "Roheisen [t]"), (mapping.Heat, mapping.Time.Columns.Single(), mapping.Columns.Single().Column));
        Assert.Equal(1, HeatImport.Preview(path, mapping).Heats);
    }

    [Theory]
    [InlineData("05.03.2024 06:15", "06.03.2024 07:00", "dd.MM.yyyy HH:mm")]
    [InlineData("05.03.2024", "06.03.2024", "dd.MM.yyyy")]
    [InlineData("2024-03-05 06:15:30", "2024-03-06 06:15:30", "yyyy-MM-dd HH:mm:ss")]
    [InlineData("2024-03-05T06:15:30Z", "2024-03-05T06:15:30+01:00", "iso")]
    [InlineData("05/03/2024", "25/03/2024", "dd/MM/yyyy")]
    [InlineData("05/03/2024", "06/03/2024", null)]
    [InlineData("5 March", "6 March", null)]
    public void Drafts_see_in_the_cells_how_times_are_written(string first, string second, string? pattern)
    {
        var draft = MappingDraft.Of(_desk.Put("a.csv", $"heat;date;hot metal [t]\n1;{first};140\n2;{second};141\n"));
        Assert.Equal((pattern, pattern is null), (draft.TimePattern, draft.TimeUndecided is not null));
        var mapping = MappingFormat.Read(Encoding.UTF8.GetBytes(draft.ToYaml()), "draft.yaml");
        Assert.Equal(pattern, mapping.Time.Pattern);
        Assert.Equal(pattern is not null, draft.ToYaml().Contains("# as every cell", StringComparison.Ordinal));
        Assert.Equal(pattern is null ? 0 : 2, HeatImport.Preview(_desk.Path("a.csv"), mapping).Heats);
    }

    [Theory]
    [InlineData("142,5", "1.234", DecimalSign.Comma, null)]
    [InlineData("142.5", "0.4", DecimalSign.Point, null)]
    [InlineData("142,5", "0.4", null, DecimalSign.Point)]
    [InlineData("142", "1.234", null, null)]
    public void Drafts_see_in_the_cells_which_decimal_sign_is_meant(string tonnes, string lime, DecimalSign? table, DecimalSign? column)
    {
        string yaml = MappingDraft.Of(_desk.Put("a.csv", $"heat;hot metal [t];Kalk kg\n1;{tonnes};{lime}\n")).ToYaml();
        var mapping = MappingFormat.Read(Encoding.UTF8.GetBytes(yaml), "draft.yaml");
        Assert.Equal((table, column), (mapping.Sign, mapping.Columns[1].Sign));
    }

    private static bool Valid(string yaml)
    {
        Node node = NodeReader.Read(Encoding.UTF8.GetBytes(yaml), new Heatwright.Shop.Files.Reading("m.yaml", References.None))!;
        return Published.Value.Evaluate(JsonSerializer.SerializeToElement(Json(node))).IsValid;
    }

    private static JsonNode Json(Node node) => node switch
    {
        BlockNode block => new JsonObject(block.Entries.Select(e => KeyValuePair.Create(e.Key.Text, (JsonNode?)Json(e.Value)))),
        ListNode list => new JsonArray([.. list.Items.Select(Json)]),
        ScalarNode { Plain: true } s when double.TryParse(s.Text, out double number) => JsonValue.Create(number),
        ScalarNode s => JsonValue.Create(s.Text),
        _ => throw new ArgumentException(node.GetType().Name, nameof(node)),
    };

    private DraftColumn Draft(string column) => MappingDraft.Of(_desk.Put("d.csv", $"heat;\"{column}\"\n1;2\n")).Columns.Single();

    private static ImportMapping Example(string name) => MappingFormat.Read(Encoding.UTF8.GetBytes(Resource($"mappings/{name}.yaml")), name);

    private static string Resource(string name, System.Reflection.Assembly? of = null)
    {
        using Stream stream = (of ?? typeof(MappingTests).Assembly).GetManifestResourceStream(name) ?? Stream.Null;
        return new StreamReader(stream).ReadToEnd();
    }
}
