// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Converter.Blow.Jet;

/// <summary>Standard gravity.</summary>
internal static class Gravity
{
    /// <summary>m/s².</summary>
    public const double MPerS2 = 9.80665;
}
