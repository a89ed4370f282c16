// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;
using SkiaSharp;

namespace Heatwright.Reports.Pictures;

/// <summary>A picture that can be had as SVG or PNG. Same content, same bytes.</summary>
public sealed partial class Picture
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
        text = text.Insert(end, string.Create(CultureInfo.InvariantCulture, $" viewBox=\"0 0 {_width} {_height}\""))
            .Replace($"font-family=\"{Typeface.Name}\"", $"font-family=\"{Typeface.Name}, Arial, Helvetica, sans-serif\"", StringComparison.Ordinal)
            .Replace("\r\n", "\n", StringComparison.Ordinal);
        return OwnIds(text);
    }

    /// <summary>
    /// The drawing library numbers its clip paths through the whole process: the same picture would have other bytes the second
    /// time, and two pictures on one page could take each other's clips. Numbered here within the picture, under its own hash.
    /// </summary>
    private static string OwnIds(string svg)
    {
        var numbers = new Dictionary<string, int>(StringComparer.Ordinal);
        string numbered = ClipId().Replace(svg, m =>
        {
            numbers.TryAdd(m.Value, numbers.Count + 1);
            return string.Create(CultureInfo.InvariantCulture, $"clip-own-{numbers[m.Value]}");
        });
        string hash = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(numbered)))[..8];
        return numbered.Replace("clip-own-", "c" + hash + "-", StringComparison.Ordinal);
    }

    [GeneratedRegex(@"\bcl_[0-9a-f]+\b", RegexOptions.NonBacktracking)]
    private static partial Regex ClipId();

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
