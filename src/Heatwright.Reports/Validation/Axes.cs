// SPDX-License-Identifier: Apache-2.0
using Heatwright.Reports.Pictures;

namespace Heatwright.Reports.Validation;

/// <summary>Where a panel stands and what it spans.</summary>
/// <param name="Left">Left edge, units of the drawing.</param>
/// <param name="Top">Upper edge.</param>
/// <param name="Width">Width.</param>
/// <param name="Height">Height.</param>
internal sealed record Place(double Left, double Top, double Width, double Height);

/// <summary>Panels with numbers on both axes.</summary>
internal static class Axes
{
    /// <summary>A panel with horizontal and vertical rules, its numbers and the names of its axes.</summary>
    public static Panel Panel(
        Page page, Place place, string title, string unit, (double Least, double Most) x, string xName, (double Least, double Most) y, IReadOnlyList<double>? xRules = null, bool logX = false)
    {
        Theme t = page.Theme;
        var panel = new Panel(page, place.Left, place.Top, place.Width, place.Height, x, y, logX: logX);
        IReadOnlyList<double> ys = Rules(y.Least, y.Most, 5);
        IReadOnlyList<double> xs = xRules ?? Rules(x.Least, x.Most, 5);
        foreach (double v in xs)
        {
            page.Line(panel.X(v), place.Top, panel.X(v), place.Top + place.Height, t.Rule);
            page.Text(Number(v, xs), panel.X(v), place.Top + place.Height + 15, t.Soft, Page.Small, Side.Middle);
        }

        panel.Rules(ys, v => Number(v, ys));
        panel.Name(title, unit);
        page.Text(xName, place.Left + place.Width, place.Top + place.Height + 31, t.Soft, Page.Small, Side.Right);
        return panel;
    }

    /// <summary>Round numbers inside an interval, about so many.</summary>
    public static IReadOnlyList<double> Rules(double least, double most, int about)
    {
        double raw = (most - least) / about;
        double power = Math.Pow(10, Math.Floor(Math.Log10(raw)));
        double step = power * (raw / power) switch { < 1.5 => 1, < 3.5 => 2, < 7.5 => 5, _ => 10 };
        var rules = new List<double>();
        for (int i = (int)Math.Ceiling((least / step) - 1e-9); i * step <= most + (1e-9 * step); i++)
        {
            rules.Add(i * step);
        }

        return rules;
    }

    /// <summary>An interval with a margin on both sides.</summary>
    public static (double Least, double Most) Span(IEnumerable<double> values, double margin = 0.06)
    {
        double[] all = [.. values];
        double least = all.Min();
        double most = all.Max();
        double add = Math.Max((most - least) * margin, 1e-9);
        return (least - add, most + add);
    }

    private static string Number(double value, IReadOnlyList<double> among)
    {
        double step = among.Count > 1 ? among.Zip(among.Skip(1), (a, b) => b - a).Min() : Math.Abs(value);
        int decimals = Math.Clamp((int)Math.Ceiling(-Math.Log10(Math.Max(step, 1e-6)) - 1e-9), 0, 4);
        return value.ToString("F" + decimals).Replace("-", "−", StringComparison.Ordinal);
    }
}
