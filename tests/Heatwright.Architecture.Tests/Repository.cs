// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Architecture.Tests;

/// <summary>The files of the repository, as a reader of it sees them: nothing that a build made.</summary>
internal static class Repository
{
    private static readonly string[] Made = [".git", "bin", "obj", "out", "node_modules", "TestResults", "BenchmarkDotNet.Artifacts"];

    /// <summary>Folder of the solution, found upwards from the test program.</summary>
    public static string Root { get; } = FindRoot();

    /// <summary>Every file, as a path below the root with forward slashes, in order.</summary>
    public static IReadOnlyList<string> Files { get; } = [.. Below(Root).Order(StringComparer.Ordinal)];

    public static string Read(string file) => File.ReadAllText(Path.Combine(Root, file));

    private static string FindRoot()
    {
        for (string? folder = AppContext.BaseDirectory; folder is not null; folder = Path.GetDirectoryName(folder))
        {
            if (File.Exists(Path.Combine(folder, "Heatwright.slnx")))
            {
                return folder;
            }
        }

        throw new InvalidOperationException("The tests must run from a folder inside the repository.");
    }

    private static IEnumerable<string> Below(string folder)
    {
        foreach (string file in Directory.EnumerateFiles(folder))
        {
            yield return Path.GetRelativePath(Root, file).Replace('\\', '/');
        }

        foreach (string inner in Directory.EnumerateDirectories(folder).Where(d => !Made.Contains(Path.GetFileName(d))))
        {
            foreach (string file in Below(inner))
            {
                yield return file;
            }
        }
    }
}
