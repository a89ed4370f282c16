// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using System.Xml.Linq;

namespace Heatwright.Reports.Tests;

public sealed class PictureTests
{
    public static TheoryData<string, string> Pictures => DemoHeat.NamesAndPictures();

    /// <summary>Glyph by glyph, nothing is cut off at an edge of the sheet.</summary>
    [Theory]
    [MemberData(nameof(Pictures))]
    public void Every_word_lies_on_the_sheet(string name, string picture)
    {
        XElement svg = XDocument.Parse(DemoHeat.Of(name).Draw(picture, dark: false).ToSvg()).Root!;
        double width = Number(svg, "width"), height = Number(svg, "height");
        XElement[] texts = [.. svg.Descendants().Where(e => e.Name.LocalName == "text")];
        Assert.True(texts.Length > 20);
        foreach (XElement text in texts)
        {
            double size = Number(text, "font-size");
            double[] x = [.. ((string)text.Attribute("x")!).Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).Select(n => double.Parse(n, CultureInfo.InvariantCulture))];
            double[] y = [.. ((string)text.Attribute("y")!).Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).Select(n => double.Parse(n, CultureInfo.InvariantCulture))];
            Assert.True(x.Min() >= 2 && x.Max() + (0.6 * size) <= width, text.ToString());
            Assert.True(y.Min() - size >= 0 && y.Max() + 2 <= height, text.ToString());
        }
    }

    [Theory]
    [InlineData("spine")]
    [InlineData("account")]
    [InlineData("window")]
    public void Same_content_same_bytes_and_dark_is_another_picture(string picture)
    {
        DemoHeat heat = DemoHeat.Of("heats/ordinary.yaml");
        Assert.Equal(heat.Draw(picture, dark: false).ToSvg(), heat.Draw(picture, dark: false).ToSvg());
        Assert.Equal(heat.Draw(picture, dark: false).ToPng(), heat.Draw(picture, dark: false).ToPng());
        Assert.NotEqual(heat.Draw(picture, dark: false).ToSvg(), heat.Draw(picture, dark: true).ToSvg());
    }

    [Fact]
    public void Text_asks_for_fonts_of_equal_widths() =>
        Assert.Contains("font-family=\"Liberation Sans, Arial, Helvetica, sans-serif\"", DemoHeat.Of("heats/ordinary.yaml").Draw("window", dark: false).ToSvg(), StringComparison.Ordinal);

    [Fact]
    public void Png_has_twice_the_size_of_the_drawing()
    {
        byte[] png = DemoHeat.Of("heats/ordinary.yaml").Draw("window", dark: false).ToPng();
        Assert.Equal(1120, (png[18] << 8) | png[19]);
        Assert.Equal(940, (png[22] << 8) | png[23]);
    }

    private static double Number(XElement element, string attribute) => double.Parse((string)element.Attribute(attribute)!, CultureInfo.InvariantCulture);
}
