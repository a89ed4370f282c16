// SPDX-License-Identifier: Apache-2.0
using System.Text.Json.Nodes;
using Heatwright.Shop.Files;
using Heatwright.Shop.Formats;
using Heatwright.Shop.Shapes;

namespace Heatwright.Shop;

/// <summary>
/// Reads the files of a shop: <c>plant.yaml</c>, <c>materials.yaml</c>, <c>grades.yaml</c>, <c>practices/*.yaml</c> and heats.
/// Wrong content never throws; it comes back as <see cref="Problem"/>s, all of them at once.
/// </summary>
public static class ShopLoader
{
    /// <summary>Source name of the demonstration works inside the program.</summary>
    public const string Demonstration = "demonstration";

    private static readonly Lazy<Works> Demo = new(() => LoadWorks(new EmbeddedFiles(), Demonstration).ValueOrThrow());

    /// <summary>The invented Larkmoor Works, read from the files inside the program.</summary>
    public static Works DemonstrationWorks => Demo.Value;

    /// <summary>File names of the demonstration heats, e.g. <c>heats/ordinary.yaml</c>.</summary>
    public static IReadOnlyList<string> DemonstrationHeats => [.. new EmbeddedFiles().List("heats").Select(n => "heats/" + n)];

    /// <summary>Kinds of file: plant, materials, grades, practice, heat.</summary>
    public static IReadOnlyList<string> Kinds => [.. FileFormats.All.Select(f => f.Kind)];

    /// <summary>Reads the works in a folder.</summary>
    public static Loaded<Works> LoadWorks(string folder)
    {
        ArgumentException.ThrowIfNullOrEmpty(folder);
        return LoadWorks(new DiskFiles(folder), folder);
    }

    /// <summary>Reads a works of which some files are named one by one; the rest comes from the folder, or from the demonstration where it is null.</summary>
    public static Loaded<Works> LoadWorks(WorksFiles named, string? folder)
    {
        ArgumentNullException.ThrowIfNull(named);
        ShopFiles below = folder is null ? new EmbeddedFiles() : new DiskFiles(folder);
        return LoadWorks(new OverlaidFiles(below, named), folder ?? Demonstration);
    }

    /// <summary>Reads a works from texts by name, as <see cref="Works.Files"/> has them.</summary>
    /// <param name="files">Texts.</param>
    /// <param name="source">How messages speak of them.</param>
    public static Loaded<Works> LoadWorks(IReadOnlyDictionary<string, string> files, string source)
    {
        ArgumentNullException.ThrowIfNull(files);
        ArgumentException.ThrowIfNullOrEmpty(source);
        return LoadWorks(new CopiedFiles(files, source), source);
    }

    /// <summary>Reads a demonstration heat by file name.</summary>
    public static Loaded<Heat> LoadDemonstrationHeat(string name)
    {
        ArgumentException.ThrowIfNullOrEmpty(name);
        return LoadHeat(new EmbeddedFiles(), name, name, DemonstrationWorks);
    }

    /// <summary>Reads a heat of the works.</summary>
    public static Loaded<Heat> LoadHeat(string path, Works works)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        ArgumentNullException.ThrowIfNull(works);
        return LoadHeat(new DiskFiles(""), path, path, works);
    }

    /// <summary>
    /// The works that a heat file belongs to: the nearest folder above it, at most three levels up, that holds plant.yaml;
    /// else the demonstration works.
    /// </summary>
    public static Loaded<Works> LoadWorksFor(string heatPath)
    {
        ArgumentException.ThrowIfNullOrEmpty(heatPath);
        return FolderFor(heatPath) is { } folder ? LoadWorks(folder) : new Loaded<Works>(DemonstrationWorks, []);
    }

    /// <summary>The folder of the works that a heat file belongs to (<see cref="LoadWorksFor"/>), or null where there is none.</summary>
    public static string? FolderFor(string heatPath)
    {
        ArgumentException.ThrowIfNullOrEmpty(heatPath);
        string? folder = Path.GetDirectoryName(Path.GetFullPath(heatPath));
        for (int level = 0; level < 4 && folder is not null; level++, folder = Path.GetDirectoryName(folder))
        {
            if (File.Exists(Path.Combine(folder, "plant.yaml")))
            {
                return folder;
            }
        }

        return null;
    }

    /// <summary>Checks the bytes of one file by itself, as a file of the kind. With works, names in it are checked too.</summary>
    /// <param name="kind">One of <see cref="Kinds"/>.</param>
    /// <param name="bytes">Content.</param>
    /// <param name="file">Name for messages.</param>
    /// <param name="works">Works whose names may be used, or null.</param>
    public static IReadOnlyList<Problem> Check(string kind, ReadOnlySpan<byte> bytes, string file, Works? works = null)
    {
        FileFormat format = FileFormats.All.FirstOrDefault(f => f.Kind == kind)
            ?? throw new ArgumentException($"'{kind}' is not one of {string.Join(", ", Kinds)}.", nameof(kind));
        if (works is not null && format == HeatFormat.Format)
        {
            return ReadHeat(bytes, file, works).Problems;
        }

        var reading = new Reading(file, works is null ? References.None : ReferencesTo(works));
        format.Read(bytes, reading);
        return reading.Problems;
    }

    /// <summary>Checks a file on disk as the kind that its field <c>kind</c> says.</summary>
    /// <param name="path">The file.</param>
    /// <param name="works">Works whose names may be used, or null.</param>
    public static IReadOnlyList<Problem> CheckFile(string path, Works? works = null)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        var problems = new List<Problem>();
        if (new DiskFiles("").Read(path, path, problems) is not { } bytes)
        {
            return problems;
        }

        var reading = new Reading(path, References.None);
        Node? node = NodeReader.Read(bytes, reading);
        if (node is null)
        {
            return reading.Problems;
        }

        string? word = node is BlockNode top && top.TryGet("kind", out _, out Node value) && value is ScalarNode scalar ? scalar.Text : null;
        if (word is not null && Kinds.Contains(word))
        {
            return Check(word, bytes, path, works);
        }

        string kinds = string.Join(", ", Kinds);
        string mend = word is not null && Nearest.Of(word, Kinds) is { } near ? $"write kind: {near}" : $"write kind: and one of {kinds}";
        Node at = word is not null && node is BlockNode block && block.TryGet("kind", out _, out Node kind) ? kind : node;
        reading.Add(
            word is null ? ProblemCode.MissingField : ProblemCode.WrongFileKind, at, "kind", word, "The file does not say which kind of file it is.", kinds, mend);
        return reading.Problems;
    }

    /// <summary>Reads a heat from bytes.</summary>
    public static Loaded<Heat> ReadHeat(ReadOnlySpan<byte> bytes, string file, Works works)
    {
        ArgumentNullException.ThrowIfNull(works);
        var reading = new Reading(file, ReferencesTo(works));
        BlockValue? value = HeatFormat.Format.Read(bytes, reading);
        if (value is null)
        {
            return new Loaded<Heat>(null, reading.Problems);
        }

        Heat heat = HeatFormat.Map(value, works);
        HeatChecks.Run(heat, works, value, reading);
        return new Loaded<Heat>(heat, reading.Problems);
    }

    /// <summary>The JSON Schema (draft 2020-12) of a kind of file.</summary>
    public static JsonObject Schema(string kind) =>
        (FileFormats.All.FirstOrDefault(f => f.Kind == kind) ?? throw new ArgumentException($"'{kind}' is not a kind of file.", nameof(kind))).ToSchema();

    private static Loaded<Heat> LoadHeat(ShopFiles files, string name, string shown, Works works)
    {
        var problems = new List<Problem>();
        byte[]? bytes = files.Read(name, shown, problems);
        return bytes is null ? new Loaded<Heat>(null, problems) : ReadHeat(bytes, shown, works);
    }

    private static Loaded<Works> LoadWorks(ShopFiles origin, string source)
    {
        var files = new CopiedFiles(origin);
        var problems = new List<Problem>();
        BlockValue? plant = ReadFile(files, "plant.yaml", PlantFormat.Format, References.None, problems);
        BlockValue? materialsFile = ReadFile(files, "materials.yaml", MaterialsFormat.Format, References.None, problems);
        BlockValue? grades = ReadFile(files, "grades.yaml", GradesFormat.Format, References.None, problems);
        Materials? materials = materialsFile is null ? null : MaterialsFormat.Map(materialsFile);
        var names = new References(Additions: materials is null ? null : [.. materials.Additions.Keys]);
        var practices = new Dictionary<string, Practice>(StringComparer.Ordinal);
        IReadOnlyList<string> practiceFiles = files.List("practices");
        if (practiceFiles.Count == 0)
        {
            problems.Add(new Problem(
                ProblemCode.FileMissing, files.Show("practices"), 0, 0, "", null, "The folder holds no practice.", "at least one .yaml file",
                "write a practice; examples/practices shows three"));
        }

        foreach (string name in practiceFiles)
        {
            BlockValue? value = ReadFile(files, "practices/" + name, PracticeFormat.Format, names, problems);
            if (value is null)
            {
                continue;
            }

            Practice practice = PracticeFormat.Map(value);
            if (!practices.TryAdd(practice.Id, practice))
            {
                Node at = value.At("practice");
                problems.Add(new Problem(
                    ProblemCode.DuplicateName, files.Show("practices/" + name), at.Line, at.Column, "practice", practice.Id,
                    "Another file of the folder gives the same name.", "each name once", "write another name, or delete one of the files"));
            }
        }

        return problems.Count > 0
            ? new Loaded<Works>(null, problems)
            : new Loaded<Works>(new Works(source, PlantFormat.Map(plant!), materials!, GradesFormat.Map(grades!), practices) { Files = files.Texts }, []);
    }

    private static BlockValue? ReadFile(ShopFiles files, string name, FileFormat format, References references, List<Problem> problems)
    {
        byte[]? bytes = files.Read(name, files.Show(name), problems);
        if (bytes is null)
        {
            return null;
        }

        var reading = new Reading(files.Show(name), references);
        BlockValue? value = format.Read(bytes, reading);
        problems.AddRange(reading.Problems);
        return value;
    }

    private static References ReferencesTo(Works works) => new(
        [.. works.Materials.Scrap.Keys],
        [.. works.Materials.Additions.Keys],
        [.. works.Grades.Keys],
        [.. works.Practices.Keys],
        [.. works.Plant.Converters.Keys]);
}
