// SPDX-License-Identifier: Apache-2.0
using System.Text;
using Heatwright.Journal.Files.Import;
using Heatwright.Journal.Files.Mapping;
using Heatwright.Journal.Files.Tables;
using Heatwright.Shop.Units;

namespace Heatwright.Journal.Files.Export;

/// <summary>
/// The table of heats as this program writes it: column "heat", column "time [UTC]", then one column for each quantity, named
/// "quantity [unit]". It needs no mapping to be read: the header is one.
/// </summary>
public static class OwnLayout
{
    /// <summary>Value of the Parquet key "layout", and name of the mapping.</summary>
    public const string Name = "heatwright heats 1";

    internal const string HeatColumn = "heat";
    internal const string TimeColumn = "time [UTC]";
    internal const string TimeFormat = "yyyy-MM-dd'T'HH:mm:ss.fff'Z'";
    internal const string BelowSuffix = " below";

    private const string Actor = "program:import";

    /// <summary>The mapping that a file of this layout carries in its header, or null when it is another file.</summary>
    public static ImportMapping? For(TableSource table)
    {
        ArgumentNullException.ThrowIfNull(table);
        if (table.Header.Count < 2 || table.Header[0] != HeatColumn || table.Header[1] != TimeColumn)
        {
            return null;
        }

        var columns = new List<ColumnRule>();
        var belows = table.Header.Where(h => h.EndsWith(BelowSuffix, StringComparison.Ordinal)).ToHashSet(StringComparer.Ordinal);
        foreach (string header in table.Header.Skip(2))
        {
            if (Rule(header, belows) is { } rule)
            {
                columns.Add(rule);
            }
            else if (!(belows.Contains(header) && ImportQuantity.Find(header[..^BelowSuffix.Length], anyKey: true) is not null))
            {
                return null;
            }
        }

        return new ImportMapping
        {
            Name = Name,
            Text = Describe(columns),
            Heat = HeatColumn,
            Time = new TimeRule([TimeColumn], "iso", "UTC"),
            Actor = Actor,
            Columns = columns,
            Missing = [],
            Sign = DecimalSign.Point,
            Past = false,
            OwnLayout = true,
        };
    }

    /// <summary>Header of a quantity in a unit.</summary>
    internal static string Header(ImportQuantity quantity, Unit? unit) => unit is null ? quantity.Name : $"{quantity.Name} [{unit.Symbol}]";

    private static ColumnRule? Rule(string header, HashSet<string> belows)
    {
        int open = header.LastIndexOf(" [", StringComparison.Ordinal);
        if (open > 0 && header.EndsWith(']') && ImportQuantity.Find(header[..open], anyKey: true) is { IsText: false } q && q.Kind!.Find(header[(open + 2)..^1]) is { } unit)
        {
            string below = q.Name + BelowSuffix;
            return new ColumnRule(header, q, unit, BelowColumn: belows.Contains(below) ? below : null);
        }

        return ImportQuantity.Find(header, anyKey: true) is { IsText: true } text ? new ColumnRule(header, text, null) : null;
    }

    private static string Describe(List<ColumnRule> columns)
    {
        var text = new StringBuilder(Name).Append(": the header of the file says what its columns hold\n");
        foreach (ColumnRule column in columns)
        {
            text.Append(column.Column).Append('\n');
        }

        return text.ToString();
    }
}
