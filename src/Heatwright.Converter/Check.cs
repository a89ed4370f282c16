// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Converter;

/// <summary>Argument checks of the public entry points. A NaN fails every range.</summary>
internal static class Check
{
    /// <exception cref="ArgumentOutOfRangeException">The value lies outside [least, most]; the message names field, value, limit and unit.</exception>
    public static double InRange(double value, double least, double most, string unit, string name)
    {
        if (!(value >= least && value <= most))
        {
            throw new ArgumentOutOfRangeException(name, value, $"{name} is {value:G6} {unit}; it must lie between {least:G6} and {most:G6} {unit}.");
        }

        return value;
    }
}
