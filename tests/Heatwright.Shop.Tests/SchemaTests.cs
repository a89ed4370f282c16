// SPDX-License-Identifier: Apache-2.0
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Heatwright.Shop.Files;
using Json.Schema;

namespace Heatwright.Shop.Tests;

public sealed class SchemaTests
{
    private static readonly JsonSerializerOptions Printed = new() { WriteIndented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };
    private static readonly Dictionary<string, Lazy<JsonSchema>> Published =
        ShopLoader.Kinds.ToDictionary(k => k, k => new Lazy<JsonSchema>(() => JsonSchema.FromText(PublishedText(k))));

    // Codes for what a schema can see. Ranges, names of other files and checks across fields are the loader's alone.
    private static readonly string[] SeenBySchema =
    [
        ProblemCode.MissingField, ProblemCode.MissingAnalysis, ProblemCode.MissingValue, ProblemCode.UnknownField, ProblemCode.WrongShape, ProblemCode.NotANumber,
        ProblemCode.MissingUnit, ProblemCode.UnknownUnit, ProblemCode.WrongUnit, ProblemCode.WrongKind, ProblemCode.UnexpectedUnit, ProblemCode.NotWhole,
        ProblemCode.UnknownWord, ProblemCode.WrongCount, ProblemCode.WrongFileKind, ProblemCode.UnknownFormat,
    ];

    public static TheoryData<string> Files => [.. Example.Files];

    // One of each character; the others hold the same fields.
    public static TheoryData<string> ChangedFiles =>
        ["plant.yaml", "materials.yaml", "grades.yaml", "practices/ordinary.yaml", "heats/ordinary.yaml", "heats/to-be-planned.yaml"];

    public static TheoryData<string> AllKinds => [.. ShopLoader.Kinds];

    [Theory]
    [MemberData(nameof(AllKinds))]
    public void The_published_schema_is_the_one_that_the_loader_follows(string kind)
    {
        string generated = ShopLoader.Schema(kind).ToJsonString(Printed) + "\n";
        if (Environment.GetEnvironmentVariable("HEATWRIGHT_WRITE_SCHEMAS") is { Length: > 0 } folder)
        {
            File.WriteAllText(Path.Combine(folder, $"{kind}.schema.json"), generated);
            return;
        }

        // To renew: HEATWRIGHT_WRITE_SCHEMAS=$PWD/schemas dotnet run --project tests/Heatwright.Shop.Tests
        Assert.Equal(generated, PublishedText(kind));
    }

    [Theory]
    [MemberData(nameof(AllKinds))]
    public void The_published_schema_is_itself_valid(string kind)
    {
        EvaluationResults result = MetaSchemas.Draft202012.Evaluate(JsonDocument.Parse(PublishedText(kind)).RootElement);

        Assert.True(result.IsValid);
    }

    [Theory]
    [MemberData(nameof(Files))]
    public void Each_example_is_valid(string file)
    {
        Assert.True(IsValid(Example.Kind(file), ToJson(file)));
    }

    [Theory]
    [MemberData(nameof(ChangedFiles))]
    public void Loader_and_schema_agree_on_every_field_of_every_example(string file)
    {
        string kind = Example.Kind(file);
        int changes = 0;
        foreach ((string what, JsonNode changed) in Changes(Shortened(ToJson(file))))
        {
            changes++;
            IReadOnlyList<Problem> problems = Example.Check(file, changed.ToJsonString(Printed));
            bool valid = IsValid(kind, changed);

            Assert.True(valid || problems.Count > 0, $"{what}: the schema refuses what the loader takes.");
            Assert.True(!valid || !problems.Any(p => SeenBySchema.Contains(p.Code) && !AcrossFields(p)), $"{what}: the loader refuses what the schema takes: {string.Join(" | ", problems)}");
        }

        Assert.True(changes > 50);
    }

    [Theory]
    [InlineData("heat", """{"kind":"heat"}""")]
    [InlineData("heat", """[]""")]
    [InlineData("heat", "\"heat\"")]
    [InlineData("plant", """{"kind":"heat","format":1}""")]
    [InlineData("grades", """{"kind":"grades","format":1,"grades":{}}""")]
    [InlineData("grades", """{"kind":"grades","format":1,"grades":{"X":{"standard":"a","source":"b","status":"table","ladle":{"C":"0.1 %"}}}}""")]
    [InlineData("grades", """{"kind":"grades","format":1,"grades":{"X":{"standard":"a","source":"b","status":"table","ladle":{"C":"max 0.1 vol %"}}}}""")]
    [InlineData("practice", """{"kind":"practice","format":1,"practice":"x","version":1,"procedure":[]}""")]
    public void Bad_ones_are_refused(string kind, string json) => Assert.False(IsValid(kind, JsonNode.Parse(json)!));

    private static bool AcrossFields(Problem problem) =>
        problem.Message.StartsWith("A batch names", StringComparison.Ordinal) || problem.Code == ProblemCode.MissingAnalysis && problem.Message.StartsWith("The analysis", StringComparison.Ordinal);

    private static bool IsValid(string kind, JsonNode node) => Published[kind].Value.Evaluate(JsonSerializer.SerializeToElement(node)).IsValid;

    private static string PublishedText(string kind)
    {
        using Stream stream = typeof(ShopLoader).Assembly.GetManifestResourceStream($"schemas/{kind}.schema.json") ?? Stream.Null;
        return new StreamReader(stream).ReadToEnd();
    }

    private static JsonNode ToJson(string file)
    {
        var reading = new Reading(file, References.None);
        return ToJson(NodeReader.Read(Example.Bytes(file), reading)!);
    }

    // The JSON schema of YAML 1.2: plain numbers are numbers, everything else here is text.
    private static JsonNode ToJson(Node node) => node switch
    {
        BlockNode block => new JsonObject(block.Entries.Select(e => KeyValuePair.Create(e.Key.Text, (JsonNode?)ToJson(e.Value)))),
        ListNode list => new JsonArray([.. list.Items.Select(ToJson)]),
        ScalarNode { Plain: true } s when double.TryParse(s.Text, out double number) => JsonValue.Create(number),
        ScalarNode s => JsonValue.Create(s.Text),
        _ => throw new ArgumentException(node.GetType().Name, nameof(node)),
    };

    // Three of many like entries are enough, and ten times as quick.
    private static JsonNode Shortened(JsonNode whole)
    {
        foreach (string name in (string[])["scrap", "additions", "grades"])
        {
            if (whole["kind"]!.GetValue<string>() is "materials" or "grades" && whole[name] is JsonObject many)
            {
                foreach (string key in many.Skip(3).Select(p => p.Key).ToArray())
                {
                    many.Remove(key);
                }
            }
        }

        return whole;
    }

    private static IEnumerable<(string What, JsonNode Changed)> Changes(JsonNode whole)
    {
        foreach (string path in Paths(whole, ""))
        {
            JsonNode copy = whole.DeepClone();
            JsonNode at = Find(copy, path);
            if (at is JsonObject block)
            {
                block["spoon"] = "1 t";
                yield return (path + " with an unknown field", copy);
            }

            JsonNode removed = whole.DeepClone();
            if (Find(removed, path) is { Parent: JsonObject parent } gone)
            {
                parent.Remove(gone.GetPropertyName());
                yield return (path + " removed", removed);
            }

            foreach (JsonNode? value in (JsonNode?[])["5 parsec", "5", "5 %", "5 t", "5 K", "5 vol %", "word", 5, 5.5, new JsonArray(), new JsonObject()])
            {
                JsonNode changed = whole.DeepClone();
                if (Find(changed, path) is { Parent: not null } old)
                {
                    old.ReplaceWith(value!.DeepClone());
                    yield return ($"{path} = {value}", changed);
                }
            }
        }
    }

    private static IEnumerable<string> Paths(JsonNode node, string path)
    {
        yield return path;
        IEnumerable<(string Name, JsonNode Node)> children = node switch
        {
            JsonObject o => o.Take(30).Select(p => (p.Key, p.Value!)),
            JsonArray a => a.Take(8).Select((n, i) => (i.ToString(), n!)),
            _ => [],
        };
        foreach ((string name, JsonNode child) in children)
        {
            foreach (string p in Paths(child, path + "\n" + name))
            {
                yield return p;
            }
        }
    }

    private static JsonNode Find(JsonNode node, string path)
    {
        foreach (string name in path.Split('\n').Skip(1))
        {
            node = node is JsonArray a ? a[int.Parse(name)]! : node[name]!;
        }

        return node;
    }
}
