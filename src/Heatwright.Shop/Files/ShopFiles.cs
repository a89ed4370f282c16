// SPDX-License-Identifier: Apache-2.0
using System.Reflection;
using System.Security;

namespace Heatwright.Shop.Files;

/// <summary>Where the files of a shop lie.</summary>
internal abstract class ShopFiles
{
    /// <summary>Bytes of a file, or null with the problem noted.</summary>
    public abstract byte[]? Read(string name, string shown, List<Problem> problems);

    /// <summary>Names of the .yaml files in a folder, sorted.</summary>
    public abstract IReadOnlyList<string> List(string folder);

    /// <summary>The name for messages.</summary>
    public abstract string Show(string name);
}

/// <summary>Files of a folder on disk.</summary>
internal sealed class DiskFiles(string root) : ShopFiles
{
    public override string Show(string name) => Path.Combine(root, name);

    public override IReadOnlyList<string> List(string folder)
    {
        string path = Path.Combine(root, folder);
        return Directory.Exists(path)
            ? [.. Directory.EnumerateFiles(path, "*.yaml").Select(p => Path.GetFileName(p)!).Order(StringComparer.Ordinal)]
            : [];
    }

    public override byte[]? Read(string name, string shown, List<Problem> problems)
    {
        string path = Path.Combine(root, name);
        try
        {
            using FileStream stream = File.OpenRead(path);

            // Read at most one byte more than allowed: enough to refuse, whatever the size of the file or device.
            byte[] buffer = new byte[NodeReader.MaxBytes + 1];
            int length = stream.ReadAtLeast(buffer, buffer.Length, throwOnEndOfStream: false);
            return buffer[..length];
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            problems.Add(new Problem(ProblemCode.FileMissing, shown, 0, 0, "", null, "The file is not there.", null, "check the name and the folder"));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or SecurityException or ArgumentException or NotSupportedException)
        {
            problems.Add(new Problem(
                ProblemCode.FileUnreadable, shown, 0, 0, "", null, "The file cannot be read: " + Reading.Shorten(e.Message, 160).TrimEnd('.') + ".", null,
                "check that it is a file and may be read"));
        }

        return null;
    }
}

/// <summary>The demonstration files inside the program.</summary>
internal sealed class EmbeddedFiles : ShopFiles
{
    private const string Prefix = "examples/";
    private static readonly Assembly Here = typeof(EmbeddedFiles).Assembly;

    public override string Show(string name) => name;

    public override IReadOnlyList<string> List(string folder)
    {
        string start = Prefix + folder + "/";
        return [.. Here.GetManifestResourceNames().Where(n => n.StartsWith(start, StringComparison.Ordinal)).Select(n => n[start.Length..]).Order(StringComparer.Ordinal)];
    }

    public override byte[]? Read(string name, string shown, List<Problem> problems)
    {
        using Stream? stream = Here.GetManifestResourceStream(Prefix + name);
        if (stream is null)
        {
            problems.Add(new Problem(
                ProblemCode.FileMissing, shown, 0, 0, "", null, "The demonstration has no such file.", string.Join(", ", List("heats").Select(h => "heats/" + h)),
                "use one of the files named"));
            return null;
        }

        byte[] bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }
}
