// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry;

/// <summary>A value lies outside the range in which a formula or a table holds. Nothing here extrapolates silently.</summary>
public sealed class ChemistryRangeException : ArgumentOutOfRangeException
{
    /// <param name="field">Name of the value, with what it belongs to.</param>
    /// <param name="value">What was given.</param>
    /// <param name="least">Least value allowed.</param>
    /// <param name="most">Most value allowed.</param>
    /// <param name="unit">Unit of all three.</param>
    public ChemistryRangeException(string field, double value, double least, double most, string unit)
        : base(field, $"{field} is {value:G6} {unit}; it must lie between {least:G6} and {most:G6} {unit}.")
    {
        Field = field;
        Value = value;
        Least = least;
        Most = most;
        Unit = unit;
    }

    /// <summary>Name of the value.</summary>
    public string Field { get; }

    /// <summary>What was given.</summary>
    public double Value { get; }

    /// <summary>Least value allowed.</summary>
    public double Least { get; }

    /// <summary>Most value allowed.</summary>
    public double Most { get; }

    /// <summary>Unit of value and limits.</summary>
    public string Unit { get; }

    /// <summary>The value itself when it lies in [least, most]; NaN never does.</summary>
    /// <exception cref="ChemistryRangeException">It does not.</exception>
    public static double Require(double value, double least, double most, string unit, string field) =>
        value >= least && value <= most ? value : throw new ChemistryRangeException(field, value, least, most, unit);
}
