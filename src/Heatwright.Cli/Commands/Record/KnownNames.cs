// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;
using Heatwright.Shop;

namespace Heatwright.Cli.Commands.Record;

/// <summary>Names of converters, scrap classes and additions, where the journal holds the files of a works that says which there are.</summary>
internal static class KnownNames
{
    /// <summary>The name that the works does not have, in words with the mend, or null.</summary>
    public static string? Unknown(IJournalStore store, EntryBody body)
    {
        (string What, string? Name) asked = body switch
        {
            CorrectionBody { Replacement: { } replacement } => Asked(replacement),
            _ => Asked(body),
        };
        if (asked.Name is null || store.ReadHeat("", signals: false).LastOrDefault(e => e.Kind == EntryKind.Works)?.Body is not WorksBody files
            || ShopLoader.LoadWorks(files.Files, files.Name).Value is not { } works)
        {
            return null;
        }

        string[] known = asked.What switch
        {
            "converter" => [.. works.Plant.Converters.Keys],
            "scrap class" => [.. works.Materials.Scrap.Keys],
            _ => [.. works.Materials.Additions.Keys],
        };
        return known.Contains(asked.Name) ? null : $"{files.Name} has no {asked.What} '{asked.Name}'. Mend: write one of {string.Join(", ", known)}";
    }

    private static (string What, string? Name) Asked(EntryBody body) => body switch
    {
        ChargeBody { What: ChargeKind.Scrap } c => ("scrap class", c.Material),
        AdditionBody a => ("addition", a.Material),
        OperationBody o => ("converter", o.Unit),
        EquipmentBody e => ("converter", e.Unit),
        _ => ("", null),
    };
}
