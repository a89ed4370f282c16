// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Heatwright.Cli.Input;
using Heatwright.Journal.Entries;
using Heatwright.Shop.Units;

namespace Heatwright.Cli.Commands.Record;

/// <summary>A body with some fields changed, as a person writes it: mass="8.6 t" for massKg.</summary>
internal static class BodyEdit
{
    private static readonly (string Suffix, QuantityKind Kind, string Unit)[] Suffixes =
    [
        ("Kg", Kinds.Mass, "kg"), ("TemperatureK", Kinds.Temperature, "K"), ("temperatureK", Kinds.Temperature, "K"), ("Percent", Kinds.MassPercent, "%"),
        ("Nm3", Kinds.GasVolume, "Nm3"), ("Ppm", Kinds.MassPercent, "ppm"), ("M", Kinds.Length, "m"), ("Heats", Kinds.Heats, "heats"),
    ];

    /// <summary>The changed body.</summary>
    /// <exception cref="BadInputException">A field is not one of the body's, or the value does not fit it.</exception>
    public static EntryBody With(EntryBody body, IReadOnlyList<string> changes)
    {
        JsonObject json = JsonNode.Parse(EntryText.Write(body))!.AsObject();
        foreach (string change in changes)
        {
            string[] parts = change.Split('=', 2);
            if (parts.Length < 2 || parts[0].Trim().Length == 0)
            {
                throw new BadInputException($"FIELD=VALUE: '{change}' has no '='.", "write mass=\"8.6 t\"");
            }

            Set(json, body, parts[0].Trim(), parts[1].Trim());
        }

        try
        {
            return EntryText.Read(body.Kind, EntryText.SchemaVersion, Encoding.UTF8.GetBytes(json.ToJsonString()));
        }
        catch (EntryFormatException e)
        {
            throw new BadInputException($"FIELD=VALUE: {e.Message}", $"the fields of a {body.Kind.Name()} are {string.Join(", ", Fields(body))}");
        }
    }

    private static void Set(JsonObject json, EntryBody body, string field, string text)
    {
        string[] path = field.Split('.', 2);
        string name = Fields(body).FirstOrDefault(f => f == path[0] || Bare(f) == path[0])
            ?? throw new BadInputException($"FIELD=VALUE: a {body.Kind.Name()} has no '{path[0]}'.", $"its fields are {string.Join(", ", Fields(body).Select(Bare))}");
        JsonObject target = json;
        string key = name;
        if (path.Length == 2)
        {
            if (json[name] is null)
            {
                json[name] = new JsonObject();
            }

            target = json[name] as JsonObject ?? throw new BadInputException($"FIELD=VALUE: '{path[0]}' has no parts.", $"write {Bare(name)}=VALUE");
            key = path[1];
        }

        target[key] = Value(name, target[key], field, text);
    }

    private static JsonValue Value(string name, JsonNode? before, string field, string text)
    {
        (string _, QuantityKind? kind, string unit) = Suffixes.FirstOrDefault(s => name.EndsWith(s.Suffix, StringComparison.Ordinal));
        if (name == "percent")
        {
            (kind, unit) = (Kinds.MassPercent, "%");
        }

        if (kind is null)
        {
            return before?.GetValueKind() == JsonValueKind.Number && double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double plain) ? JsonValue.Create(plain) : JsonValue.Create(text);
        }

        bool below = name == "percent" && text.StartsWith('<');
        Unit inside = kind.Find(unit)!;
        if (!UnitText.TrySplit(below ? text[1..] : text, out double number, out string written) || (written.Length > 0 && kind.Find(written) is null))
        {
            throw new BadInputException($"FIELD=VALUE: {field}: '{text}' is not a {kind.Name}.", $"write a number with {kind.UnitList()}, for example {field}=\"{kind.Example}\"");
        }

        // A bare number would be a guess between t and kg, °C and K; percent by mass has one usual unit.
        if (written.Length == 0 && kind != Kinds.MassPercent)
        {
            throw new BadInputException($"FIELD=VALUE: {field}: '{text}' has no unit.", $"write a number with {kind.UnitList()}, for example {field}=\"{kind.Example}\"");
        }

        double value = inside.FromBase((written.Length == 0 ? inside : kind.Find(written)!).ToBase(number));
        return below ? JsonValue.Create(new Reading(value, true).ToString()) : JsonValue.Create(value);
    }

    private static string[] Fields(EntryBody body) =>
        [.. body.GetType().GetProperties().Where(p => p.CanWrite && p.Name is not "EqualityContract").Select(p => char.ToLowerInvariant(p.Name[0]) + p.Name[1..])];

    private static string Bare(string field)
    {
        string suffix = Suffixes.Select(s => s.Suffix is "TemperatureK" or "temperatureK" ? "K" : s.Suffix).FirstOrDefault(s => field.Length > s.Length && field.EndsWith(s, StringComparison.Ordinal)) ?? "";
        return field == "percent" ? field : field[..^suffix.Length];
    }
}
