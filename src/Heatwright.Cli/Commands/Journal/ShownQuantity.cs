// SPDX-License-Identifier: Apache-2.0
using Heatwright.Cli.Output;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Views;

namespace Heatwright.Cli.Commands.Journal;

/// <summary>A stored quantity in the unit, decimals and words in which a shop says it.</summary>
internal sealed record ShownQuantity(string Name, string Unit, int Decimals, double Factor = 1, double Offset = 0)
{
    private static readonly Dictionary<string, string> Names = new(StringComparer.Ordinal)
    {
        [ResultQuantity.TemperatureK] = "temperature",
        [ResultQuantity.CarbonPercent] = "C",
        [ResultQuantity.PhosphorusPercent] = "P",
        [ResultQuantity.ManganesePercent] = "Mn",
        [ResultQuantity.SulphurPercent] = "S",
        [ResultQuantity.OxygenPpm] = "dissolved oxygen",
        [ResultQuantity.SlagFeoPercent] = "FeO in slag",
        [ResultQuantity.SteelKg] = "steel",
        [ResultQuantity.SlagKg] = "slag at the end",
        [EndValues.SlagPouredKg] = "slag poured off",
        [ResultQuantity.OxygenNm3] = "oxygen",
        [ResultQuantity.BlowS] = "blowing time",
    };

    /// <summary>By the stored unit.</summary>
    public static ShownQuantity Of(string unit, string name)
    {
        string shown = Names.GetValueOrDefault(name, name.EndsWith("Percent", StringComparison.Ordinal) ? name[..^"Percent".Length] : name);
        return unit switch
        {
            "kg" => new ShownQuantity(shown, "t", 2, 0.001),
            "K" => new ShownQuantity(shown, "°C", 0, 1, -273.15),
            "s" => new ShownQuantity(shown, "min", 1, 1 / 60.0),
            "mass %" => new ShownQuantity(shown, unit, shown is "C" or "Si" or "Mn" ? 3 : shown == "FeO in slag" ? 1 : 4),
            _ => new ShownQuantity(shown, unit, 0),
        };
    }

    /// <summary>The value; nothing where there is none.</summary>
    public string Text(double? value) => value is { } v ? Numbers.Fixed((v * Factor) + Offset, Decimals) : "";

    /// <summary>A difference, with its sign.</summary>
    public string Change(double? value)
    {
        if (value is not { } v)
        {
            return "";
        }

        string text = Numbers.Fixed(v * Factor, Decimals);
        return text[0] == '−' || v == 0 ? text : "+" + text;
    }
}
