// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Heatwright.Journal.Entries;

/// <summary>A laboratory's figure: a value, or "below" a limit of detection. In JSON a number, or text such as "&lt;0.002".</summary>
/// <param name="Value">The value, or the limit that it lies below.</param>
/// <param name="Below">True: all that is known is that it lies below.</param>
[JsonConverter(typeof(ReadingConverter))]
public readonly record struct Reading(double Value, bool Below = false)
{
    /// <inheritdoc/>
    public override string ToString() => (Below ? "<" : "") + Value.ToString("R", CultureInfo.InvariantCulture);
}

internal sealed class ReadingConverter : JsonConverter<Reading>
{
    public override Reading Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        if (reader.TokenType == JsonTokenType.Number)
        {
            return new Reading(reader.GetDouble());
        }

        string text = reader.TokenType == JsonTokenType.String ? reader.GetString()! : "";
        return text.StartsWith('<') && double.TryParse(text.AsSpan(1), NumberStyles.Float, CultureInfo.InvariantCulture, out double limit)
            ? new Reading(limit, Below: true)
            : throw new JsonException($"'{text}' is neither a number nor '<' and a number.");
    }

    public override void Write(Utf8JsonWriter writer, Reading value, JsonSerializerOptions options)
    {
        if (value.Below)
        {
            writer.WriteStringValue(value.ToString());
        }
        else
        {
            writer.WriteNumberValue(value.Value);
        }
    }
}
