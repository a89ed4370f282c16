// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using System.Text;
using SkiaSharp;

namespace Heatwright.Reports.Pictures;

/// <summary>A picture that can be had as SVG or PNG. Same content, same bytes.</summary>
public sealed class Picture
{
    private readonly int _width;
    private readonly int _height;
    private readonly Theme _theme;
    private readonly Action<Page> _draw;

    internal Picture(int width, int height, Theme theme, Action<Page> draw) => (_width, _height, _theme, _draw) = (width, height, theme, draw);

    /// <summary>As SVG. Text stays text; it names fonts of equal widths for machines without the first.</summary>
    public string ToSvg()
    {
        using var stream = new MemoryStream();
        using (SKCanvas canvas = SKSvgCanvas.Create(SKRect.Create(_width, _height), stream))
        {
            Draw(canvas);
        }

        // The drawing library writes width and height only; without a viewBox a page that scales the picture cuts it off.
        string size = string.Create(CultureInfo.InvariantCulture, $"width=\"{_width}\" height=\"{_height}\"");
        string text = Encoding.UTF8.GetString(stream.ToArray());
        int end = text.IndexOf(size, StringComparison.Ordinal) + size.Length;
        return text.Insert(end, string.Create(CultureInfo.InvariantCulture, $" viewBox=\"0 0 {_width} {_height}\""))
            .Replace($"font-family=\"{Typeface.Name}\"", $"font-family=\"{Typeface.Name}, Arial, Helvetica, sans-serif\"", StringComparison.Ordinal)
            .Replace("\r\n", "\n", StringComparison.Ordinal);
    }

    /// <summary>As PNG.</summary>
    /// <param name="scale">Pixels per unit of the drawing.</param>
    public byte[] ToPng(double scale = 2)
    {
        using SKSurface surface = SKSurface.Create(new SKImageInfo((int)(_width * scale), (int)(_height * scale)));
        surface.Canvas.Scale((float)scale);
        Draw(surface.Canvas);
        using SKImage image = surface.Snapshot();
        using SKData data = image.Encode(SKEncodedImageFormat.Png, 100);
        return data.ToArray();
    }

    private void Draw(SKCanvas canvas)
    {
        var page = new Page(canvas, _theme);
        page.Fill(0, 0, _width, _height, _theme.Paper);
        _draw(page);
    }
}
