// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using Heatwright.Journal.Files.Import;
using Heatwright.Shop.Units;

namespace Heatwright.Journal.Files.Export;

/// <summary>A column of the table of heats.</summary>
/// <param name="Quantity">What it holds.</param>
/// <param name="Unit">Unit of its numbers; null for text.</param>
/// <param name="HasBelow">Some of its values are limits that the true one lies below.</param>
internal sealed record WideColumn(ImportQuantity Quantity, Unit? Unit, bool HasBelow)
{
    public string Header => OwnLayout.Header(Quantity, Unit);

    /// <summary>The number in the column's unit.</summary>
    public double Number(WideValue value) => Unit!.Symbol == Quantity.StoredUnit!.Symbol ? value.Number : ExactUnit.Find(value.Number, Quantity, Unit) ?? Unit.FromBase(Quantity.StoredUnit.ToBase(value.Number));
}

/// <summary>Numbers in another unit that turn back into the stored ones to the last bit.</summary>
internal static class ExactUnit
{
    /// <summary>The number of fewest digits that does, or null when none near it does.</summary>
    public static double? Find(double stored, ImportQuantity quantity, Unit unit)
    {
        double near = unit.FromBase(quantity.StoredUnit!.ToBase(stored));
        long wanted = BitConverter.DoubleToInt64Bits(stored);
        bool Back(double number) => BitConverter.DoubleToInt64Bits(quantity.ToStored(number, unit)) == wanted;
        for (int digits = 6; digits <= 17; digits++)
        {
            double rounded = double.Parse(near.ToString("G" + digits.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
            if (Back(rounded))
            {
                return rounded;
            }
        }

        double above = Math.BitIncrement(near);
        double below = Math.BitDecrement(near);
        return Back(above) ? above : Back(below) ? below : null;
    }
}

/// <summary>Finds the columns that the heats of a table need, in the order of the catalogue.</summary>
internal sealed class WideColumns
{
    private readonly Dictionary<string, Seen> _seen = new(StringComparer.Ordinal);

    private sealed class Seen(ImportQuantity quantity)
    {
        public ImportQuantity Quantity { get; } = quantity;

        public bool Exact { get; set; } = true;

        public bool Below { get; set; }
    }

    /// <summary>Looks at a heat.</summary>
    public void Add(WideHeat heat)
    {
        foreach ((string name, WideFact fact) in heat.Facts)
        {
            if (!_seen.TryGetValue(name, out Seen? seen))
            {
                if (ImportQuantity.Find(name, anyKey: true) is not { } quantity)
                {
                    continue;
                }

                _seen[name] = seen = new Seen(quantity);
            }

            ImportQuantity q = seen.Quantity;
            seen.Below |= fact.Value.Below;
            seen.Exact = seen.Exact && (q.IsText || q.ShownUnit!.Symbol == q.StoredUnit!.Symbol || ExactUnit.Find(fact.Value.Number, q, q.ShownUnit) is not null);
        }
    }

    /// <summary>The columns. Where the usual unit would lose a bit of some value, the column is in the stored unit.</summary>
    public IReadOnlyList<WideColumn> Columns() =>
    [
        .. _seen.Values.OrderBy(s => s.Quantity.Order).ThenBy(s => KeyOrder(s.Quantity.Key)).ThenBy(s => s.Quantity.Name, StringComparer.Ordinal)
            .Select(s => new WideColumn(s.Quantity, s.Exact ? s.Quantity.ShownUnit : s.Quantity.StoredUnit, s.Below)),
    ];

    // Elements in the order in which every laboratory writes them; the rest by name.
    private static int KeyOrder(string key) => Array.IndexOf(Usual, key) is >= 0 and var at ? at : Usual.Length;

    private static readonly string[] Usual =
        ["C", "Si", "Mn", "P", "S", "Cr", "Ni", "Cu", "Mo", "V", "Ti", "Nb", "Al", "N", "CaO", "SiO2", "MgO", "FeO", "Fe2O3", "MnO", "P2O5", "Al2O3", "TiO2"];
}
