// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Shop;

/// <summary>Everything that is the same for many heats.</summary>
/// <param name="Source">Folder it was read from, or "demonstration" for the one inside the program.</param>
/// <param name="Plant">Converters, gases, measurements.</param>
/// <param name="Materials">What can be charged.</param>
/// <param name="Grades">Grades by name.</param>
/// <param name="Practices">Practices by name.</param>
public sealed record Works(
    string Source,
    Plant Plant,
    Materials Materials,
    IReadOnlyDictionary<string, Grade> Grades,
    IReadOnlyDictionary<string, Practice> Practices)
{
    /// <summary>The texts it was read from by name ("plant.yaml", "practices/ordinary.yaml"): a control copy of the works gives them back to <see cref="ShopLoader.LoadWorks(IReadOnlyDictionary{string, string}, string)"/>.</summary>
    public IReadOnlyDictionary<string, string> Files { get; init; } = new Dictionary<string, string>();
}
