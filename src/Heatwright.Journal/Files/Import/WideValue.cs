// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using Heatwright.Shop.Units;

namespace Heatwright.Journal.Files.Import;

/// <summary>The value of a quantity of one heat: a number in its stored unit, "below" such a number, or text.</summary>
/// <param name="Number">The number, in <see cref="ImportQuantity.StoredUnit"/>.</param>
/// <param name="Below">All that is known is that it lies below the number.</param>
/// <param name="Text">The text of a text quantity, else null.</param>
public readonly record struct WideValue(double Number, bool Below = false, string? Text = null)
{
    /// <summary>A text.</summary>
    public static WideValue Of(string text) => new(0, false, text);

    /// <summary>Equal to the last bit: -0 is not 0.</summary>
    public bool Equals(WideValue other) =>
        BitConverter.DoubleToInt64Bits(Number) == BitConverter.DoubleToInt64Bits(other.Number) && Below == other.Below && Text == other.Text;

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(BitConverter.DoubleToInt64Bits(Number), Below, Text);

    /// <summary>The value in the unit that tables show.</summary>
    public string Say(ImportQuantity quantity)
    {
        ArgumentNullException.ThrowIfNull(quantity);
        return Text ?? (Below ? "<" : "") + UnitText.Number(quantity.ShownUnit!.Symbol == quantity.StoredUnit!.Symbol ? Number : Shown(quantity)) + " " + quantity.ShownUnit.Symbol;
    }

    /// <inheritdoc/>
    public override string ToString() => Text ?? (Below ? "<" : "") + Number.ToString("R", CultureInfo.InvariantCulture);

    private double Shown(ImportQuantity quantity) => quantity.ShownUnit!.FromBase(quantity.StoredUnit!.ToBase(Number));
}
