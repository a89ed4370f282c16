// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace Heatwright.Cli.Output;

/// <summary>JSON with fixed order of fields, units in their names and the same bytes for the same question.</summary>
internal static class JsonText
{
    public static void Write(Stream stream, Action<Utf8JsonWriter> content)
    {
        using (stream)
        {
            using (var json = new Utf8JsonWriter(
                stream, new JsonWriterOptions { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping }))
            {
                json.WriteStartObject();
                content(json);
                json.WriteEndObject();
            }

            stream.Write("\n"u8);
        }
    }

    /// <summary>
    /// Nine significant digits: far more than any of these numbers is known to, and short of the last bits, in which
    /// processors with and without fused multiply-add differ.
    /// </summary>
    public static double Rounded(double value) => double.Parse(value.ToString("G9", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);

    public static Utf8JsonWriter Value(this Utf8JsonWriter json, string name, double value)
    {
        if (double.IsFinite(value))
        {
            json.WriteNumber(name, Rounded(value));
        }
        else
        {
            json.WriteNull(name);
        }

        return json;
    }

    public static Utf8JsonWriter Value(this Utf8JsonWriter json, string name, string? value)
    {
        json.WriteString(name, value);
        return json;
    }

    public static void Object(this Utf8JsonWriter json, string name, Action content)
    {
        json.WriteStartObject(name);
        content();
        json.WriteEndObject();
    }

    public static void Array<T>(this Utf8JsonWriter json, string name, IEnumerable<T> items, Action<T> content)
    {
        json.WriteStartArray(name);
        foreach (T item in items)
        {
            json.WriteStartObject();
            content(item);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
