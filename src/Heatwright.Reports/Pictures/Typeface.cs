// SPDX-License-Identifier: Apache-2.0
using ScottPlot;
using SkiaSharp;

namespace Heatwright.Reports.Pictures;

/// <summary>The one typeface of all pictures, from inside the program, so that the same picture has the same bytes everywhere.</summary>
internal sealed class Typeface : IFontResolver
{
    public const string Name = "Liberation Sans";

    private static readonly Lazy<SKTypeface> Loaded = new(() =>
    {
        using Stream font = typeof(Typeface).Assembly.GetManifestResourceStream("font")!;
        SKTypeface face = SKTypeface.FromStream(font);
        Fonts.FontResolvers.Insert(0, new Typeface());
        Fonts.Default = Name;
        return face;
    });

    /// <summary>Loads the font and makes the drawing library use it.</summary>
    public static SKTypeface Face => Loaded.Value;

    public SKTypeface? CreateTypeface(string fontName, FontWeight weight, FontSlant slant, FontSpacing spacing) => fontName == Name ? Loaded.Value : null;

    public SKTypeface? CreateTypeface(string fontName, bool bold, bool italic) => fontName == Name ? Loaded.Value : null;
}
