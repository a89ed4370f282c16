// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;

namespace Heatwright.Shop;

/// <summary>How far a grade's limits may be trusted.</summary>
public enum GradeStatus
{
    /// <summary>Read in a published table.</summary>
    Table,
    /// <summary>From memory; check against the standard before use.</summary>
    Memory,
}

/// <summary>A steel grade: limits of the ladle analysis.</summary>
/// <param name="Id">Name.</param>
/// <param name="Standard">Standard and edition.</param>
/// <param name="Table">Place in the standard.</param>
/// <param name="Source">Where the limits were read.</param>
/// <param name="Status">How far to trust them.</param>
/// <param name="LadlePercent">Limits in mass % by element.</param>
/// <param name="Note">Limits that are not by element (sums, niobium) and remarks.</param>
public sealed record Grade(
    string Id,
    string Standard,
    string? Table,
    string Source,
    GradeStatus Status,
    IReadOnlyDictionary<Element, Limits> LadlePercent,
    string? Note);
