// SPDX-License-Identifier: Apache-2.0
using System.Text.RegularExpressions;
using Heatwright.Journal.Files.Import;
using Heatwright.Shop.Units;

namespace Heatwright.Journal.Files.Mapping;

/// <summary>Takes the name of a column apart into words, a unit and a chemical symbol, and weighs what it may mean.</summary>
internal static partial class HeaderWords
{
    private static readonly string[] HeatNumber = ["heat", "heatno", "heatnr", "heatid", "heatnumber", "charge", "chargennr", "chargenummer", "schmelze", "schmelznummer", "schmelzennr", "schmelzennummer", "cast"];
    private static readonly string[] NumberWords = ["no", "nr", "id", "number", "nummer", "num"];
    private static readonly string[] TimeWords = ["date", "time", "datum", "zeit", "uhrzeit", "start", "timestamp", "beginn", "datetime", "zeitpunkt"];

    // Where in the heat; the longest set of words wins.
    private static readonly (string[] Words, string Place)[] Places =
    [
        (["hot", "metal"], "hot-metal"), (["hm"], "hot-metal"), (["re"], "hot-metal"), (["roheisen"], "hot-metal"), (["pig", "iron"], "hot-metal"), (["hotmetal"], "hot-metal"),
        (["end"], "end"), (["blow", "end"], "end"), (["blasende"], "end"), (["ende"], "end"), (["eob"], "end"), (["turndown"], "end"), (["tap"], "end"), (["abstich"], "end"),
        (["caster"], "caster"), (["cast"], "caster"), (["final"], "caster"), (["giessen"], "caster"), (["gießen"], "caster"), (["strang"], "caster"),
        (["ladle"], "ladle"), (["pfanne"], "ladle"), (["slag"], "slag"), (["schlacke"], "slag"), (["inblow"], "in-blow"), (["in", "blow"], "in-blow"), (["sublance"], "in-blow"), (["sublanze"], "in-blow"), (["sub", "lance"], "in-blow"),
        (["sonde"], "in-blow"), (["scrap"], "scrap"), (["schrott"], "scrap"), (["steel"], "steel"), (["stahl"], "steel"), (["rohstahl"], "steel"),
    ];

    private static readonly (string Word, string Material)[] Fluxes =
    [
        ("lime", "lime"), ("kalk", "lime"), ("dolo", "dolomitic-lime"), ("dololime", "dolomitic-lime"), ("dolomite", "raw-dolomite"), ("dolomit", "raw-dolomite"), ("ore", "ore"),
        ("erz", "ore"), ("limestone", "limestone"), ("kalkstein", "limestone"), ("fluorspar", "fluorspar"), ("flussspat", "fluorspar"), ("sinter", "sinter"), ("scale", "mill-scale"),
        ("zunder", "mill-scale"), ("coal", "coal"), ("kohle", "coal"), ("anthracite", "anthracite"), ("anthrazit", "anthracite"), ("magnesia", "magnesia"),
    ];

    private static readonly string[] Alloys = ["fesi", "femn", "simn", "fecr", "fev", "feti", "feal", "fenb", "fep", "sial", "casi", "sic", "aluminium", "recarburiser"];

    public static bool IsHeat(string header)
    {
        string[] words = Words(header);
        return words.Length > 0 && HeatNumber.Contains(words[0]) && words.Skip(1).All(NumberWords.Contains);
    }

    public static bool IsTime(string header)
    {
        string[] words = Words(header);
        return words.Length > 0 && words.Any(TimeWords.Contains) && UnitOf(header) is null && !words.Any(w => w is "duration" or "dauer" or "end" or "ende");
    }

    /// <summary>What a column may hold.</summary>
    public static DraftColumn Guess(string header)
    {
        string? written = UnitOf(header);
        string[] words = Words(header);
        string? place = Places.Where(p => p.Words.All(words.Contains)).OrderByDescending(p => p.Words.Length).ThenBy(p => p.Place == "end" ? 1 : 0).Select(p => p.Place).FirstOrDefault();
        string? symbol = Symbol(header);
        (string? name, double confidence, string why) = Name(words, place, symbol, written);
        ImportQuantity? quantity = name is null ? null : ImportQuantity.Find(name);
        Unit? unit = quantity?.Kind is { } kind && written is not null ? kind.Find(written) ?? (written == "C" ? kind.Find("°C") : null) : null;
        if (quantity is { IsText: false } && unit is null)
        {
            return new DraftColumn(header, quantity, null, Math.Min(confidence, MappingDraft.Enough / 2), written is null ? "no unit is stated" : $"'{written}' is no unit of {quantity.Kind!.Name}");
        }

        return new DraftColumn(header, quantity, unit, confidence, why);
    }

    private static (string? Name, double Confidence, string Why) Name(string[] words, string? place, string? symbol, string? unit)
    {
        bool heatUnit = unit is "°C" or "C" or "K" or "degC";
        bool massUnit = unit is "kg" or "t";
        bool percent = unit is "%" or "ppm" or "mass %";
        bool Has(params string[] any) => words.Any(any.Contains);

        if (heatUnit || Has("temperature", "temperatur", "temp") || (symbol is null && Has("t") && unit is not "t"))
        {
            return place switch
            {
                "hot-metal" or "in-blow" or "end" or "ladle" => (place + ".temperature", 0.9, $"temperature, {place}"),
                null => ("end.temperature", 0.3, "a temperature, and not said of what"),
                _ => (null, 0.1, $"a temperature of {place}"),
            };
        }

        if (unit is "ppm" && (symbol is "O" || Has("oxygen", "sauerstoff", "o2")) && Has("active", "activity", "aktiv", "aktives", "aktiver", "aktivität", "dissolved", "gelöst", "gelöster"))
        {
            return place switch
            {
                "in-blow" => ("in-blow.oxygen", 0.8, "dissolved oxygen during the blow"),
                null or "end" or "steel" => ("end.oxygen", place is "end" ? 0.85 : 0.7, "dissolved oxygen, at the end of the blow where nothing else is said"),
                _ => (null, 0.1, $"dissolved oxygen, {place}"),
            };
        }

        // A sublance tells carbon by its own probe; an analysis of its sample comes from the laboratory.
        if (percent && symbol is "C" or "O" && Has("sublance", "sublanze", "sonde"))
        {
            return symbol == "C" ? ("in-blow.carbon", 0.7, "carbon by the sublance") : ("in-blow.oxygen", 0.7, "dissolved oxygen by the sublance");
        }

        if (percent && symbol is not null)
        {
            string? prefix = place switch { "hot-metal" => "hot-metal.analysis.", "end" => "analysis.end.", "caster" => "analysis.caster.", "ladle" => "analysis.ladle.", "slag" => "slag.", "in-blow" => "in-blow.analysis.", _ => null };
            return prefix is null
                ? ("hot-metal.analysis." + symbol, 0.3, $"{symbol} in {unit}, and not said of what: hot metal, end of blow, ladle, caster or slag")
                : symbol == "O" && place == "end" && unit == "ppm" ? ("end.oxygen", 0.8, "dissolved oxygen at the end") : (prefix + symbol, 0.9, $"{symbol}, {place}");
        }

        if (massUnit || Has("mass", "masse", "weight", "gewicht"))
        {
            return Mass(words, place);
        }

        if (unit is "Nm3" && place is "in-blow")
        {
            return ("in-blow.oxygen-blown", 0.8, "oxygen blown when the bath was measured");
        }

        if (unit is "Nm3" || Has("oxygen", "sauerstoff", "o2"))
        {
            return ("blow.oxygen", unit is "Nm3" && Has("oxygen", "sauerstoff", "o2") ? 0.85 : 0.5, "oxygen by volume");
        }

        if (Has("blow", "blowing", "blasen", "blaszeit", "blasdauer") && unit is "s" or "min")
        {
            return ("blow.duration", 0.85, "length of the blow");
        }

        if (Has("grade", "güte", "stahlsorte", "marke", "sorte", "steelgrade"))
        {
            return ("order.grade", 0.9, "grade");
        }

        if (Has("converter", "konverter", "vessel", "bof"))
        {
            return ("unit", 0.8, "converter");
        }

        if (Has("lining", "zustellung", "ofenreise") && (unit is "heats" || Has("age", "alter")))
        {
            return ("lining.age", 0.8, "age of the lining");
        }

        if (Has("lance", "lanze") && (unit is "heats" || Has("age", "alter")))
        {
            return ("lance.age", 0.8, "age of the lance head");
        }

        return Has("remark", "note", "comment", "bemerkung", "notiz", "kommentar") ? ("note", 0.8, "remark") : (null, 0, "no word of the name is known");
    }

    private static (string? Name, double Confidence, string Why) Mass(string[] words, string? place)
    {
        if (Fluxes.FirstOrDefault(f => words.Contains(f.Word)) is { Material: { } material })
        {
            // Lime fines are not lime: a further word makes the material doubtful.
            bool alone = words.All(w => w is "mass" or "kg" or "masse" or "menge" or "t" || Fluxes.Any(f => f.Word == w));
            return ($"addition.{material}.mass", alone ? 0.85 : 0.4, alone ? "flux or coolant by mass" : $"{material} by mass, with words that say which");
        }

        if (Array.Find(words, w => Alloys.Any(a => w.StartsWith(a, StringComparison.Ordinal))) is { } alloy)
        {
            return ($"ladle.{alloy}.mass", 0.5, "an alloy by mass; the name of the material is yours to choose");
        }

        return place switch
        {
            "hot-metal" => ("hot-metal.mass", 0.9, "hot metal by mass"),
            "steel" => ("steel.mass", 0.85, "steel by mass"),
            "scrap" => words.Length <= 2 ? ("scrap.mixed.mass", 0.7, "all scrap by mass") : ("scrap.mixed.mass", 0.4, "scrap of a class; name the class"),
            _ => (null, 0.1, "a mass, and not said of what"),
        };
    }

    /// <summary>The unit that a name states, in brackets or as its last part, as units are written here; null when it states none.</summary>
    public static string? UnitOf(string header)
    {
        Match brackets = Bracketed().Match(header);
        string[] candidates = brackets.Success ? [brackets.Groups["unit"].Value] : Tail().Match(header.Trim()) is { Success: true } tail ? [tail.Groups["unit"].Value] : [];
        foreach (string candidate in candidates)
        {
            string unit = UnitText.Normalise(candidate) switch
            {
                "pct" or "percent" or "prozent" or "Gew.-%" or "wt%" or "wt.%" or "wt-%" or "mass%" or "Ma.-%" => "%",
                "degC" or "°C" or "grad C" or "GradC" or "Grad" => "°C",
                "to" or "tonnes" => "t",
                "Nm3" or "nm3" or "Nm³" or "Nm^3" or "m3(i.N.)" => "Nm3",
                "sec" or "sek" or "Sek" => "s",
                var other => other,
            };
            if (Kinds.All.Any(k => k.Find(unit) is not null) || unit == "C")
            {
                return unit;
            }
        }

        return null;
    }

    private static string[] Words(string header) =>
        [.. Split().Split(Bracketed().Replace(header, " ")).SelectMany(p => Camel().Split(p)).Select(w => w.ToLowerInvariant()).Where(w => w.Length > 0 && w is not ("pct" or "kg"))];

    // A symbol stands alone, in its own capitals: "Si %", "hm_Si_pct", "C end".
    private static string? Symbol(string header)
    {
        string text = Bracketed().Replace(header, " ");
        string[] parts = [.. Split().Split(text).Where(p => p.Length > 0)];

        // "T_C" is a temperature in °C, not carbon.
        bool temperature = parts.Length > 1 && parts[^1] == "C" && parts[^2] is "T" or "Temp" or "temp";
        return temperature ? null : Array.Find(parts, p => p is not "T" && (ImportQuantity.Find("analysis.end." + p) is not null || ImportQuantity.Find("slag." + p) is not null));
    }

    [GeneratedRegex(@"[\[(]\s*(?<unit>[^\])]{1,16}?)\s*[\])]", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Bracketed();

    [GeneratedRegex(@"(^|[\s_,./-])(?<unit>kg|t|to|°C|C|K|degC|%|pct|ppm|Nm3|Nm³|nm3|s|sec|min|heats|wt%|percent|Prozent)$", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Tail();

    [GeneratedRegex(@"[^\p{L}\p{N}]+", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Split();

    [GeneratedRegex(@"(?<=\p{Ll}{2})(?=\p{Lu}\p{Ll})", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Camel();
}
