// SPDX-License-Identifier: Apache-2.0
using ScottPlot;
using SkiaSharp;

namespace Heatwright.Reports.Pictures;

/// <summary>Where text stands on its point.</summary>
internal enum Side
{
    /// <summary>Begins at the point.</summary>
    Left,
    /// <summary>Is centred on it.</summary>
    Middle,
    /// <summary>Ends at it.</summary>
    Right,
}

/// <summary>A sheet of paper: words and rules outside the panels. Units of the drawing, y down.</summary>
internal sealed class Page(SKCanvas canvas, Theme theme)
{
    public const float Small = 11;
    public const float Body = 12.5f;
    public const float Title = 19;

    public SKCanvas Canvas { get; } = canvas;

    public Theme Theme { get; } = theme;

    public void Fill(double x, double y, double width, double height, Color color)
    {
        using SKPaint paint = Paint(color);
        Canvas.DrawRect(SKRect.Create((float)x, (float)y, (float)width, (float)height), paint);
    }

    public void Frame(double x, double y, double width, double height, Color color, double weight = 1)
    {
        using SKPaint paint = Paint(color);
        paint.Style = SKPaintStyle.Stroke;
        paint.StrokeWidth = (float)weight;
        Canvas.DrawRect(SKRect.Create((float)x, (float)y, (float)width, (float)height), paint);
    }

    public void Line(double x1, double y1, double x2, double y2, Color color, double weight = 1, bool dashed = false)
    {
        using SKPaint paint = Paint(color);
        paint.StrokeWidth = (float)weight;
        using SKPathEffect? dash = dashed ? SKPathEffect.CreateDash([3, 3], 0) : null;
        paint.PathEffect = dash;
        Canvas.DrawLine((float)x1, (float)y1, (float)x2, (float)y2, paint);
    }

    public void Dot(double x, double y, double radius, Color color, bool hollow = false)
    {
        using SKPaint paint = Paint(color);
        paint.Style = hollow ? SKPaintStyle.Stroke : SKPaintStyle.Fill;
        paint.StrokeWidth = 1.2f;
        Canvas.DrawCircle((float)x, (float)y, (float)radius, paint);
    }

    /// <summary>Text on its base line; an underscore lowers the next character (CO_2).</summary>
    /// <returns>Its width.</returns>
    public float Text(string text, double x, double baseline, Color color, float size = Body, Side side = Side.Left)
    {
        (string Part, bool Low)[] parts = [.. Parts(text)];
        float width = Width(text, size);
        float at = (float)x - side switch { Side.Left => 0, Side.Middle => width / 2, _ => width };
        using SKPaint paint = Paint(color);
        foreach ((string part, bool low) in parts)
        {
            using SKFont font = Font(low ? size * 0.72f : size);
            Canvas.DrawText(part, at, (float)baseline + (low ? size * 0.2f : 0), SKTextAlign.Left, font, paint);
            at += font.MeasureText(part);
        }

        return width;
    }

    public static float Width(string text, float size = Body)
    {
        float width = 0;
        foreach ((string part, bool low) in Parts(text))
        {
            using SKFont font = Font(low ? size * 0.72f : size);
            width += font.MeasureText(part);
        }

        return width;
    }

    private static IEnumerable<(string Part, bool Low)> Parts(string text)
    {
        int from = 0;
        for (int i = 0; i < text.Length - 1; i++)
        {
            if (text[i] != '_')
            {
                continue;
            }

            if (i > from)
            {
                yield return (text[from..i], false);
            }

            yield return (text[(i + 1)..(i + 2)], true);
            from = i + 2;
            i++;
        }

        if (from < text.Length)
        {
            yield return (text[from..], false);
        }
    }

    private static SKFont Font(float size) => new(Typeface.Face, size) { Subpixel = true, Edging = SKFontEdging.Antialias, Hinting = SKFontHinting.None };

    private static SKPaint Paint(Color color) => new() { Color = color.ToSKColor(), IsAntialias = true };
}
