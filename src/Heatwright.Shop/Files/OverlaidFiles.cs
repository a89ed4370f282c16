// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Shop.Files;

/// <summary>Files of a shop of which some are named one by one and lie elsewhere; the rest comes from below.</summary>
internal sealed class OverlaidFiles(ShopFiles below, WorksFiles named) : ShopFiles
{
    private static readonly DiskFiles Disk = new("");

    public override string Show(string name) => Elsewhere(name) ?? below.Show(name);

    public override IReadOnlyList<string> List(string folder) =>
        folder == "practices" && named.Practices is { } practices ? new DiskFiles(practices).List("") : below.List(folder);

    public override byte[]? Read(string name, string shown, List<Problem> problems) =>
        Elsewhere(name) is { } path ? Disk.Read(path, shown, problems) : below.Read(name, shown, problems);

    private string? Elsewhere(string name) => name switch
    {
        "plant.yaml" => named.Plant,
        "materials.yaml" => named.Materials,
        "grades.yaml" => named.Grades,
        _ when named.Practices is { } practices && name.StartsWith("practices", StringComparison.Ordinal) =>
            Path.Combine(practices, name["practices".Length..].TrimStart('/')),
        _ => null,
    };
}
