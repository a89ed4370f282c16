// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Journal.Entries;

/// <summary>Names of computed quantities in plans and results; each carries its unit.</summary>
public static class ResultQuantity
{
    /// <summary>Steel temperature at the end, K.</summary>
    public const string TemperatureK = "temperatureK";

    /// <summary>Carbon at the end, mass %.</summary>
    public const string CarbonPercent = "carbonPercent";

    /// <summary>Phosphorus at the end, mass %.</summary>
    public const string PhosphorusPercent = "phosphorusPercent";

    /// <summary>Manganese at the end, mass %.</summary>
    public const string ManganesePercent = "manganesePercent";

    /// <summary>Sulphur at the end, mass %.</summary>
    public const string SulphurPercent = "sulphurPercent";

    /// <summary>Dissolved oxygen at the end, mass ppm.</summary>
    public const string OxygenPpm = "oxygenPpm";

    /// <summary>Iron oxide in the slag at the end, as FeO, mass %.</summary>
    public const string SlagFeoPercent = "slagFeoPercent";

    /// <summary>Steel at the end, kg.</summary>
    public const string SteelKg = "steelKg";

    /// <summary>Slag at the end, kg.</summary>
    public const string SlagKg = "slagKg";

    /// <summary>Oxygen to the end, Nm³.</summary>
    public const string OxygenNm3 = "oxygenNm3";

    /// <summary>Blowing time, s.</summary>
    public const string BlowS = "blowS";

    /// <summary>The unit with which the name of a quantity ends; empty when it ends with none.</summary>
    public static string UnitOf(string quantity)
    {
        ArgumentNullException.ThrowIfNull(quantity);
        return quantity switch
        {
            _ when quantity.EndsWith("Percent", StringComparison.Ordinal) => "mass %",
            _ when quantity.EndsWith("Ppm", StringComparison.Ordinal) => "mass ppm",
            _ when quantity.EndsWith("Nm3", StringComparison.Ordinal) => "Nm3",
            _ when quantity.EndsWith("Kg", StringComparison.Ordinal) => "kg",
            _ when quantity.EndsWith('K') => "K",
            _ when quantity.EndsWith('S') => "s",
            _ => "",
        };
    }
}
