// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Shop;

/// <summary>Files of a works that are named one by one; null: from the works below.</summary>
/// <param name="Plant">Plant file.</param>
/// <param name="Materials">Materials file.</param>
/// <param name="Grades">Grades file.</param>
/// <param name="Practices">Folder of practices.</param>
public sealed record WorksFiles(string? Plant = null, string? Materials = null, string? Grades = null, string? Practices = null)
{
    /// <summary>At least one is named.</summary>
    public bool Any => Plant is not null || Materials is not null || Grades is not null || Practices is not null;
}
