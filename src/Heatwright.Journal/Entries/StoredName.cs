// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Journal.Entries;

/// <summary>Names of enumerations as files, slots, commands and people spell them.</summary>
public static class StoredName
{
    /// <summary>"HotMetal" as "hot-metal".</summary>
    public static string Of(Enum value) => Spelt(value, '-');

    /// <summary>"EndOfBlow" as "end of blow".</summary>
    public static string Words(Enum value) => Spelt(value, ' ');

    private static string Spelt(Enum value, char between)
    {
        ArgumentNullException.ThrowIfNull(value);
        return string.Concat(value.ToString().Select((c, i) => char.IsUpper(c) ? (i == 0 ? "" : between.ToString()) + char.ToLowerInvariant(c) : c.ToString()));
    }
}
