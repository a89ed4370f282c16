// SPDX-License-Identifier: Apache-2.0
using System.Text;
using Heatwright.Shop.Files;

namespace Heatwright.Shop.Tests;

/// <summary>One kind of bad input: an example file with one text replaced, and what must be said about it.</summary>
/// <param name="File">Example file that is spoilt.</param>
/// <param name="Old">Text that is replaced; its first occurrence.</param>
/// <param name="New">What it is replaced by.</param>
/// <param name="Code">Code of the problem.</param>
/// <param name="Line">Text on the line that must be named.</param>
/// <param name="Field">Field that must be named.</param>
/// <param name="Mend">Mend that must be proposed, whole.</param>
public sealed record BadInput(string File, string Old, string New, string Code, string Line, string Field, string Mend)
{
    /// <inheritdoc/>
    public override string ToString() => $"{Code}: {New.Split('\n')[0].Trim()}";

    internal string Spoilt()
    {
        string text = Example.Text(File);
        int at = text.IndexOf(Old, StringComparison.Ordinal);
        Assert.True(at >= 0, $"{File} no longer holds '{Old}'.");
        return string.Concat(text.AsSpan(0, at), New, text.AsSpan(at + Old.Length));
    }

    internal static int LineOf(string text, string mark)
    {
        string[] lines = text.Split('\n');
        int line = Array.FindIndex(lines, l => l.Contains(mark, StringComparison.Ordinal));
        Assert.True(line >= 0, $"No line holds '{mark}'.");
        return line + 1;
    }
}

/// <summary>The example files inside the program.</summary>
internal static class Example
{
    public static IReadOnlyList<string> Files { get; } =
    [
        "plant.yaml", "materials.yaml", "grades.yaml",
        .. new EmbeddedFiles().List("practices").Select(n => "practices/" + n),
        .. ShopLoader.DemonstrationHeats,
    ];

    public static byte[] Bytes(string file) => new EmbeddedFiles().Read(file, file, []) ?? throw new ArgumentException(file, nameof(file));

    public static string Text(string file) => Encoding.UTF8.GetString(Bytes(file));

    public static string Kind(string file) => file switch
    {
        "plant.yaml" => "plant",
        "materials.yaml" => "materials",
        "grades.yaml" => "grades",
        _ when file.StartsWith("practices/", StringComparison.Ordinal) => "practice",
        _ => "heat",
    };

    public static IReadOnlyList<Problem> Check(string file, ReadOnlySpan<byte> bytes) =>
        ShopLoader.Check(Kind(file), bytes, file, ShopLoader.DemonstrationWorks);

    public static IReadOnlyList<Problem> Check(string file, string text) => Check(file, Encoding.UTF8.GetBytes(text));
}
