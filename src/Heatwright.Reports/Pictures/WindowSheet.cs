// SPDX-License-Identifier: Apache-2.0
using Heatwright.Shop;
using BlowPoint = Heatwright.Converter.Blow.BlowPoint;

namespace Heatwright.Reports.Pictures;

/// <summary>A measured point with its standard uncertainty.</summary>
/// <param name="Carbon">Carbon, mass %.</param>
/// <param name="CarbonUncertainty">Its standard uncertainty, mass %.</param>
/// <param name="TemperatureC">Temperature, °C.</param>
/// <param name="TemperatureUncertaintyK">Its standard uncertainty, K.</param>
public sealed record MeasuredPoint(double Carbon, double CarbonUncertainty, double TemperatureC, double TemperatureUncertaintyK);

/// <summary>What the window shows.</summary>
/// <param name="Heat">The order with its window.</param>
/// <param name="Ends">Ends of the members.</param>
/// <param name="Probability">Share of them inside.</param>
/// <param name="Way">Middle of the members on the way there: carbon in mass %, temperature in °C; may be empty.</param>
/// <param name="Measured">The last measurement, if any.</param>
public sealed record WindowContent(
    Heat Heat, IReadOnlyList<BlowPoint> Ends, double Probability, IReadOnlyList<(double Carbon, double TemperatureC)> Way, MeasuredPoint? Measured = null);

/// <summary>
/// The window: carbon across (log), temperature up, the order's window as a rectangle, the members' ends as a cloud. Answers
/// the one question: will it be inside.
/// </summary>
public static class WindowSheet
{
    private const int Width = 560;
    private const int Height = 470;
    private const double Left = 66;
    private const double Top = 96;
    private const double Across = 464;
    private const double Up = 322;
    private const int MostPoints = 200;

    private static readonly double[] CarbonRules = [0.01, 0.015, 0.02, 0.03, 0.04, 0.05, 0.07, 0.1, 0.15, 0.2, 0.3, 0.4, 0.5, 0.7, 1, 1.5, 2, 3, 4];

    /// <summary>Draws the window.</summary>
    public static Picture Draw(WindowContent content, bool dark = false)
    {
        ArgumentNullException.ThrowIfNull(content);
        return new Picture(Width, Height, Theme.Of(dark), page => Compose(page, content));
    }

    private static void Compose(Page page, WindowContent content)
    {
        Theme t = page.Theme;
        Order order = content.Heat.Order;
        double carbonLeast = order.CarbonPercent.Least ?? 0.01, carbonMost = order.CarbonPercent.Most ?? 5;
        double hotLeast = (order.TemperatureK.Least ?? 1773) - 273.15, hotMost = (order.TemperatureK.Most ?? 2073) - 273.15;
        BlowPoint[] cloud = [.. content.Ends.Take(MostPoints)];
        double[] carbon = [.. cloud.Select(p => p.C)];
        double[] hot = [.. cloud.Select(p => p.TemperatureC)];
        double[] ways = [.. content.Way.Select(w => w.Carbon)];
        IEnumerable<double> hots = hot.Concat(content.Way.Select(w => w.TemperatureC)).Append(hotLeast).Append(hotMost);
        (double Least, double Most) x = (carbon.Concat(ways).Append(carbonLeast).Min() / 1.3, carbon.Concat(ways).Append(carbonMost).Max() * 1.3);
        (double Least, double Most) y = (Math.Floor((hots.Min() - 6) / 10) * 10, Math.Ceiling((hots.Max() + 6) / 10) * 10);
        page.Text("P(in window)", Left, 34, t.Soft);
        page.Text(content.Probability.ToString("0.00"), Left, 70, t.Ink, 34);
        page.Text($"{content.Heat.Id}  {content.Heat.Title}", Left + Across, 34, t.Ink, Page.Body, Side.Right);
        page.Text($"window {carbonLeast:0.000} to {carbonMost:0.000} % C, {Thousands(hotLeast)} to {Thousands(hotMost)} °C", Left + Across, 52, t.Soft, Page.Small, Side.Right);
        page.Text($"{cloud.Length} of {content.Ends.Count} equally likely ends", Left + Across, 68, t.Soft, Page.Small, Side.Right);

        var panel = new Panel(page, Left, Top, Across, Up, x, y, log: false, logX: true);
        double step = y.Most - y.Least > 160 ? 50 : y.Most - y.Least > 70 ? 20 : 10;
        panel.Rules(Enumerable.Range(0, 100).Select(i => (Math.Ceiling(y.Least / step) + i) * step).TakeWhile(v => v <= y.Most), Thousands);
        foreach (double c in CarbonRules.Where(c => c >= x.Least && c <= x.Most))
        {
            page.Line(panel.X(c), Top, panel.X(c), Top + Up, t.Rule);
            page.Text(c.ToString("0.###"), panel.X(c), Top + Up + 17, t.Soft, Page.Small, Side.Middle);
        }

        double left = panel.X(carbonLeast), right = panel.X(carbonMost), top = panel.Y(hotMost), bottom = panel.Y(hotLeast);
        page.Fill(left, top, right - left, bottom - top, t.Green.WithAlpha(0.12));
        if (content.Way.Count > 1)
        {
            panel.Line([.. content.Way.Select(w => w.Carbon)], [.. content.Way.Select(w => w.TemperatureC)], t.Soft, null, 1);
        }

        panel.Points(carbon, hot, t.Blue, 5);
        panel.Draw(Left + Across);
        page.Frame(left, top, right - left, bottom - top, t.Green, 1.6);
        if (content.Measured is { } m)
        {
            Cross(page, panel, m);
        }

        page.Text("carbon, mass % (log)", Left + Across, Top + Up + 38, t.Soft, Page.Small, Side.Right);
        page.Text("°C", Left - 7, Top - 10, t.Soft, Page.Small, Side.Right);
    }

    private static string Thousands(double value) => value.ToString("#,0").Replace(',', ' ');

    private static void Cross(Page page, Panel panel, MeasuredPoint m)
    {
        Theme t = page.Theme;
        double x = panel.X(m.Carbon), y = panel.Y(m.TemperatureC);
        page.Line(panel.X(Math.Max(m.Carbon - m.CarbonUncertainty, m.Carbon / 3)), y, panel.X(m.Carbon + m.CarbonUncertainty), y, t.Orange, 1.6);
        page.Line(x, panel.Y(m.TemperatureC - m.TemperatureUncertaintyK), x, panel.Y(m.TemperatureC + m.TemperatureUncertaintyK), t.Orange, 1.6);
        page.Text("measured", x + 8, y - 8, t.Orange, Page.Small);
    }
}
