// SPDX-License-Identifier: Apache-2.0
using System.Diagnostics;

namespace Heatwright.Cli.Tests;

/// <summary>What a run of the program left behind.</summary>
public sealed record Ran(int ExitCode, string Output, string Errors)
{
    /// <summary>Asserts the exit code; a failure shows what the program said.</summary>
    public Ran Ends(int exitCode)
    {
        Assert.True(ExitCode == exitCode, $"ended with {ExitCode}, not {exitCode}\n{Output}\n{Errors}");
        return this;
    }
}

/// <summary>A folder with the examples of the repository, and the built program run in it as its user would.</summary>
public sealed class Terminal : IDisposable
{
    public static readonly string Program = Path.Combine(AppContext.BaseDirectory, "heatwright");

    public Terminal()
    {
        Folder = Directory.CreateTempSubdirectory("heatwright-").FullName;
        foreach (string file in Directory.EnumerateFiles(Path.Combine(Root, "examples"), "*.yaml", SearchOption.AllDirectories))
        {
            string copy = Path.Combine(Folder, Path.GetRelativePath(Root, file));
            Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
            System.IO.File.Copy(file, copy);
        }
    }

    public static string Root { get; } = FindRoot();

    public string Folder { get; }

    public string File(string name) => Path.Combine(Folder, name);

    /// <summary>Writes a file of the folder; returns its name.</summary>
    public string Write(string name, string content)
    {
        System.IO.File.WriteAllText(File(name), content);
        return name;
    }

    /// <summary>A copy of an example with one text replaced.</summary>
    public string Changed(string example, string from, string to)
    {
        string text = System.IO.File.ReadAllText(File(example));
        Assert.Contains(from, text, StringComparison.Ordinal);
        return Write("examples/heats/changed.yaml", text.Replace(from, to, StringComparison.Ordinal));
    }

    public Ran Run(params string[] arguments) => Start(Program, arguments);

    /// <summary>Runs a line of a guide as a shell does.</summary>
    public Ran Shell(string line) => Start("/bin/sh", ["-c", line.Replace("heatwright ", $"'{Program}' ", StringComparison.Ordinal)]);

    public void Dispose() => Directory.Delete(Folder, recursive: true);

    private Ran Start(string program, IEnumerable<string> arguments)
    {
        var start = new ProcessStartInfo(program, arguments)
        {
            WorkingDirectory = Folder,
            UseShellExecute = false,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            RedirectStandardInput = true,
            StandardOutputEncoding = System.Text.Encoding.UTF8,
            StandardErrorEncoding = System.Text.Encoding.UTF8,
        };
        start.Environment["LC_ALL"] = "C.UTF-8";
        using Process process = Process.Start(start)!;
        process.StandardInput.Close();
        Task<string> errors = process.StandardError.ReadToEndAsync();
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return new Ran(process.ExitCode, output, errors.GetAwaiter().GetResult());
    }

    private static string FindRoot()
    {
        string? folder = AppContext.BaseDirectory;
        while (folder is not null && !System.IO.File.Exists(Path.Combine(folder, "Heatwright.slnx")))
        {
            folder = Path.GetDirectoryName(folder);
        }

        return folder ?? throw new InvalidOperationException("The tests run inside the repository.");
    }
}
