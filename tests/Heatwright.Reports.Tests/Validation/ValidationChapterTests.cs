// SPDX-License-Identifier: Apache-2.0
using System.Text.RegularExpressions;
using System.Xml.Linq;
using Heatwright.Learning.Tests.Validation;
using Heatwright.Learning.Validation;
using Heatwright.Reports.Validation;

namespace Heatwright.Reports.Tests.Validation;

/// <summary>The chapter and its pictures from a plant whose truth is known.</summary>
public sealed class ValidationChapterTests
{
    private static readonly Lazy<ValidationReport> Known = new(() =>
    {
        DirectoryInfo folder = Directory.CreateTempSubdirectory("heatwright-");
        try
        {
            KnownPlant.Write(folder.FullName);
            return ModelValidation.Run(folder.FullName);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    });

    [Fact]
    public void Chapter_and_every_picture_it_links_are_written()
    {
        DirectoryInfo folder = Directory.CreateTempSubdirectory("heatwright-");
        try
        {
            IReadOnlyList<string> written = ValidationChapter.Write(Known.Value, folder.FullName);
            string chapter = File.ReadAllText(Path.Combine(folder.FullName, ValidationChapter.FileName));
            string[] linked = [.. Regex.Matches(chapter, @"\]\((?<path>pictures/[^)]+)\)", RegexOptions.None, TimeSpan.FromSeconds(10)).Select(m => m.Groups["path"].Value)];
            Assert.Equal(5, linked.Length);
            Assert.Equal(linked.Order(StringComparer.Ordinal), written.Skip(1).Select(p => Path.GetRelativePath(folder.FullName, p).Replace('\\', '/')).Order(StringComparer.Ordinal));
            Assert.All(written, p => Assert.True(File.Exists(p)));
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    [Fact]
    public void Pictures_are_well_formed_scalable_and_the_same_each_time()
    {
        IReadOnlyList<NamedPicture> once = ValidationPictures.Draw(Known.Value);
        IReadOnlyList<NamedPicture> again = ValidationPictures.Draw(Known.Value);
        for (int i = 0; i < once.Count; i++)
        {
            string svg = once[i].Picture.ToSvg();
            Assert.Equal(svg, again[i].Picture.ToSvg());
            XElement root = XDocument.Parse(svg).Root!;
            Assert.NotNull(root.Attribute("viewBox"));
            Assert.DoesNotContain("NaN", svg, StringComparison.Ordinal);
        }
    }

    /// <summary>Classes of heats are drawn, not heats: far fewer marks than heats.</summary>
    [Fact]
    public void Single_heats_are_not_drawn()
    {
        string svg = ValidationPictures.Draw(Known.Value).Single(p => p.Name == "validation-temperature.svg").Picture.ToSvg();
        int marks = Regex.Count(svg, "<ellipse|<circle", RegexOptions.None, TimeSpan.FromSeconds(10));
        Assert.InRange(marks, 8, 40);
        Assert.True(Known.Value.Temperature.Points.Count > 50);
    }

    [Fact]
    public void Rules_are_round_numbers_inside_the_interval()
    {
        Assert.Equal([0, 20, 40, 60, 80, 100], Axes.Rules(0, 100, 5));
        Assert.Equal([1580, 1600, 1620, 1640, 1660, 1680], Axes.Rules(1571, 1699, 5));
        Assert.Equal([-0.2, 0, 0.2], Axes.Rules(-0.25, 0.25, 3).Select(v => Math.Round(v, 9)));
    }
}
