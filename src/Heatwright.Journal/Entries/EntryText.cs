// SPDX-License-Identifier: Apache-2.0
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Heatwright.Journal.Entries;

/// <summary>Bodies as bytes: UTF-8 JSON with properties in written order and nothing that is null; signal blocks are the packed bytes.</summary>
public static class EntryText
{
    /// <summary>Version under which bodies are written now. A layout that changes gets the next number, and <see cref="Read"/> keeps the old ones.</summary>
    public const int SchemaVersion = 1;

    // Relaxed: the text goes to a file and a database, never into a page; "<0.002" and "°C" stay readable.
    private static readonly JsonSerializerOptions Options = new(EntryJson.Default.Options) { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>The bytes of a body.</summary>
    /// <exception cref="ArgumentException">A number in it is not finite.</exception>
    public static byte[] Write(EntryBody body)
    {
        ArgumentNullException.ThrowIfNull(body);
        return body is SignalBlockBody signals
            ? signals.Packed.ToArray()
            : JsonSerializer.SerializeToUtf8Bytes(body, Options.GetTypeInfo(body.GetType()));
    }

    /// <summary>The body that the bytes hold.</summary>
    /// <exception cref="EntryFormatException">They hold none of this kind, or a version that this program does not know.</exception>
    public static EntryBody Read(EntryKind kind, int schemaVersion, ReadOnlyMemory<byte> bytes)
    {
        if (schemaVersion != SchemaVersion)
        {
            throw new EntryFormatException($"A {kind.Name()} of schema version {schemaVersion}; this program knows {SchemaVersion}. Mend: read it with the program that wrote it, or a later one.");
        }

        if (kind == EntryKind.SignalBlock)
        {
            return new SignalBlockBody(bytes);
        }

        try
        {
            return (EntryBody?)JsonSerializer.Deserialize(bytes.Span, Options.GetTypeInfo(TypeOf(kind)))
                ?? throw new EntryFormatException($"The body of a {kind.Name()} is null.");
        }
        catch (Exception e) when (e is JsonException or NotSupportedException or ArgumentException or InvalidOperationException or FormatException or KeyNotFoundException)
        {
            throw new EntryFormatException($"The body of a {kind.Name()} cannot be read: {e.Message}", e);
        }
    }

    internal static Type TypeOf(EntryKind kind) => kind switch
    {
        EntryKind.Order => typeof(OrderBody),
        EntryKind.Plan => typeof(PlanBody),
        EntryKind.ChargeWeighed => typeof(ChargeBody),
        EntryKind.SignalBlock => typeof(SignalBlockBody),
        EntryKind.Addition => typeof(AdditionBody),
        EntryKind.Measurement => typeof(MeasurementBody),
        EntryKind.Analysis => typeof(AnalysisBody),
        EntryKind.Decision => typeof(DecisionBody),
        EntryKind.Note => typeof(NoteBody),
        EntryKind.Correction => typeof(CorrectionBody),
        EntryKind.Delay => typeof(DelayBody),
        EntryKind.Operation => typeof(OperationBody),
        EntryKind.End => typeof(EndBody),
        EntryKind.Result => typeof(ResultBody),
        EntryKind.Equipment => typeof(EquipmentBody),
        EntryKind.Works => typeof(WorksBody),
        EntryKind.Import => typeof(ImportBody),
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "Unknown kind of entry."),
    };
}

/// <summary>Bytes that are no body of the kind they claim to be.</summary>
public sealed class EntryFormatException : Exception
{
    /// <summary>With a message that says what and the mend.</summary>
    public EntryFormatException(string message, Exception? inner = null)
        : base(message, inner)
    {
    }
}

/// <summary>The body inside a correction: {"kind": …, "body": …}.</summary>
internal sealed class ReplacementConverter : JsonConverter<EntryBody>
{
    public override EntryBody Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        using var document = JsonDocument.ParseValue(ref reader);
        JsonElement root = document.RootElement;
        string name = root.GetProperty("kind").GetString() ?? "";
        if (!EntryKinds.TryParse(name, out EntryKind kind) || kind is EntryKind.Correction or EntryKind.SignalBlock)
        {
            throw new JsonException($"A correction cannot replace by a '{name}'.");
        }

        return (EntryBody)root.GetProperty("body").Deserialize(options.GetTypeInfo(EntryText.TypeOf(kind)))!;
    }

    public override void Write(Utf8JsonWriter writer, EntryBody value, JsonSerializerOptions options)
    {
        if (value.Kind is EntryKind.Correction or EntryKind.SignalBlock)
        {
            throw new ArgumentException($"A correction cannot replace by a {value.Kind.Name()}.", nameof(value));
        }

        writer.WriteStartObject();
        writer.WriteString("kind", value.Kind.Name());
        writer.WritePropertyName("body");
        JsonSerializer.Serialize(writer, value, options.GetTypeInfo(value.GetType()));
        writer.WriteEndObject();
    }
}

[JsonSerializable(typeof(OrderBody))]
[JsonSerializable(typeof(PlanBody))]
[JsonSerializable(typeof(ChargeBody))]
[JsonSerializable(typeof(AdditionBody))]
[JsonSerializable(typeof(MeasurementBody))]
[JsonSerializable(typeof(AnalysisBody))]
[JsonSerializable(typeof(DecisionBody))]
[JsonSerializable(typeof(NoteBody))]
[JsonSerializable(typeof(CorrectionBody))]
[JsonSerializable(typeof(DelayBody))]
[JsonSerializable(typeof(OperationBody))]
[JsonSerializable(typeof(EndBody))]
[JsonSerializable(typeof(ResultBody))]
[JsonSerializable(typeof(EquipmentBody))]
[JsonSerializable(typeof(WorksBody))]
[JsonSerializable(typeof(ImportBody))]
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    UseStringEnumConverter = true,
    RespectNullableAnnotations = true,
    RespectRequiredConstructorParameters = true,
    AllowDuplicateProperties = false,
    UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow)]
internal sealed partial class EntryJson : JsonSerializerContext;
