// SPDX-License-Identifier: Apache-2.0
using Heatwright.Learning.Validation;

namespace Heatwright.Reports.Validation;

/// <summary>Writes the validation chapter with its pictures into a handbook's folder.</summary>
public static class ValidationChapter
{
    /// <summary>Name of the chapter's file.</summary>
    public const string FileName = "90-validation.md";

    /// <summary>Folder of the pictures, below that of the chapter.</summary>
    public const string PictureFolder = "pictures";

    /// <summary>Writes chapter and pictures, replacing what is there.</summary>
    /// <returns>Paths written, the chapter first.</returns>
    /// <exception cref="IOException">A file cannot be written.</exception>
    public static IReadOnlyList<string> Write(ValidationReport report, string folder)
    {
        ArgumentNullException.ThrowIfNull(report);
        ArgumentException.ThrowIfNullOrEmpty(folder);
        string pictures = Path.Combine(folder, PictureFolder);
        Directory.CreateDirectory(pictures);
        string chapter = Path.Combine(folder, FileName);
        File.WriteAllText(chapter, report.ToMarkdown());
        var written = new List<string> { chapter };
        foreach (NamedPicture p in ValidationPictures.Draw(report))
        {
            string path = Path.Combine(pictures, p.Name);
            File.WriteAllText(path, p.Picture.ToSvg());
            written.Add(path);
        }

        return written;
    }
}
