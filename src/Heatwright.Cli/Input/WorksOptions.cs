// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;
using Heatwright.Shop;
using Heatwright.Shop.Files;

namespace Heatwright.Cli.Input;

/// <summary>Which works a heat belongs to.</summary>
internal sealed class WorksOptions
{
    private readonly Option<string?> _plant = File("--plant", "plant.yaml", "Plant file.");
    private readonly Option<string?> _materials = File("--materials", "materials.yaml", "Materials file.");
    private readonly Option<string?> _grades = File("--grades", "grades.yaml", "Grades file.");
    private readonly Option<string?> _practices = File("--practices", "FOLDER", "Folder of practices.");

    public Argument<string> Heat { get; } = new("HEAT.yaml") { Description = "Heat file." };

    public void AddTo(Command command, bool withHeat = true)
    {
        if (withHeat)
        {
            command.Arguments.Add(Heat);
        }

        command.Options.Add(_plant);
        command.Options.Add(_materials);
        command.Options.Add(_grades);
        command.Options.Add(_practices);
    }

    /// <summary>Reads the works and the heat.</summary>
    /// <exception cref="BadInputException">A file cannot be used.</exception>
    public (Works Works, Heat Heat, string Source) Load(ParseResult parsed)
    {
        string path = parsed.GetValue(Heat)!;
        (Loaded<Works> works, string source) = LoadWorks(parsed, path);
        if (works.Value is null)
        {
            throw new BadInputException(works.Problems);
        }

        Loaded<Heat> heat = ShopLoader.LoadHeat(path, works.Value);
        return (works.Value, heat.Value ?? throw new BadInputException(heat.Problems), source);
    }

    /// <summary>The works beside a file, overlaid with what the command line names; and how to speak of it.</summary>
    public (Loaded<Works> Works, string Source) LoadWorks(ParseResult parsed, string nearPath)
    {
        var named = new WorksFiles(parsed.GetValue(_plant), parsed.GetValue(_materials), parsed.GetValue(_grades), parsed.GetValue(_practices));
        string? folder = ShopLoader.FolderFor(nearPath);
        string source = folder is null ? "the demonstration inside this program" : "files in " + Shorter(folder);
        if (!named.Any)
        {
            return (folder is null ? ShopLoader.LoadWorksFor(nearPath) : ShopLoader.LoadWorks(Shorter(folder)), source);
        }

        string[] files = [.. new[] { named.Plant, named.Materials, named.Grades, named.Practices }.OfType<string>()];
        bool all = files.Length == 4;
        return (ShopLoader.LoadWorks(named, folder is null ? null : Shorter(folder)), string.Join(", ", files) + (all ? "" : "; the rest: " + source));
    }

    private static string Shorter(string folder)
    {
        string relative = Path.GetRelativePath(Environment.CurrentDirectory, folder);
        return relative.StartsWith("..", StringComparison.Ordinal) ? folder : relative;
    }

    private static Option<string?> File(string name, string helpName, string description) => new(name)
    {
        Description = description + " Default: beside or above the heat, else the demonstration works.",
        HelpName = helpName,
    };
}
