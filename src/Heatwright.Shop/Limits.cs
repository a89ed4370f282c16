// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Shop;

/// <summary>A range in base units; null where it is open.</summary>
/// <param name="Least">Lower end.</param>
/// <param name="Most">Upper end.</param>
public sealed record Limits(double? Least, double? Most)
{
    /// <summary>The value lies within, ends included.</summary>
    public bool Holds(double value) => (Least is null || value >= Least) && (Most is null || value <= Most);
}
