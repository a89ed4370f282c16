// SPDX-License-Identifier: Apache-2.0
using ScottPlot;

namespace Heatwright.Reports.Pictures;

/// <summary>A panel: lines over a shared horizontal axis, its own vertical one, and labels beside the lines' ends instead of a legend.</summary>
internal sealed class Panel
{
    private readonly Page _page;
    private readonly List<Action<Plot>> _content = [];
    private readonly List<(string Text, double Y, Color Color)> _ends = [];
    private readonly double _left;
    private readonly double _top;
    private readonly double _width;
    private readonly double _height;
    private readonly (double Least, double Most) _x;
    private readonly (double Least, double Most) _y;
    private readonly bool _log;
    private readonly bool _logX;

    public Panel(Page page, double left, double top, double width, double height, (double Least, double Most) x, (double Least, double Most) y, bool log = false, bool logX = false)
    {
        _ = Typeface.Face;
        (_page, _left, _top, _width, _height, _log, _logX) = (page, left, top, width, height, log, logX);
        _x = logX ? (Math.Log10(x.Least), Math.Log10(x.Most)) : x;
        _y = log ? (Math.Log10(y.Least), Math.Log10(y.Most)) : y;
    }

    public double X(double value) => _left + ((ScaleX(value) - _x.Least) / (_x.Most - _x.Least) * _width);

    public double Y(double value) => _top + _height - ((Scale(value) - _y.Least) / (_y.Most - _y.Least) * _height);

    /// <summary>Rules across the panel with their numbers at the left.</summary>
    public void Rules(IEnumerable<double> at, Func<double, string> label)
    {
        foreach (double value in at)
        {
            double y = Y(value);
            _page.Line(_left, y, _left + _width, y, _page.Theme.Rule);
            _page.Text(label(value), _left - 7, y + 4, _page.Theme.Soft, Page.Small, Side.Right);
        }
    }

    /// <summary>What the panel shows, in its upper left corner above the first rule.</summary>
    public void Name(string title, string unit)
    {
        float width = _page.Text(title, _left, _top - 7, _page.Theme.Ink);
        _page.Text(unit, _left + width + 6, _top - 7, _page.Theme.Soft, Page.Small);
    }

    /// <summary>A line; its name stands at its right end.</summary>
    public void Line(double[] xs, double[] ys, Color color, string? label, double weight = 1.6, LinePattern? pattern = null)
    {
        _content.Add(plot =>
        {
            var line = plot.Add.ScatterLine(xs.Select(ScaleX).ToArray(), ys.Select(Scale).ToArray(), color);
            line.LineWidth = (float)weight;
            line.LinePattern = pattern ?? LinePattern.Solid;
        });
        if (label is not null)
        {
            _ends.Add((label, ys[^1], color));
        }
    }

    /// <summary>A filled area down to a value.</summary>
    public void Area(double[] xs, double[] ys, double from, Color color) => _content.Add(plot =>
    {
        var line = plot.Add.ScatterLine(xs.Select(ScaleX).ToArray(), ys.Select(Scale).ToArray(), Colors.Transparent);
        line.LineWidth = 0;
        line.FillY = true;
        line.FillYValue = Scale(from);
        line.FillYColor = color;
    });

    /// <summary>Hollow points.</summary>
    public void Points(double[] xs, double[] ys, Color color, float size) => _content.Add(plot =>
    {
        var points = plot.Add.ScatterPoints(xs.Select(ScaleX).ToArray(), ys.Select(Scale).ToArray(), color);
        points.MarkerSize = size;
        points.MarkerShape = MarkerShape.OpenCircle;
        points.MarkerLineWidth = 1;
    });

    /// <summary>Draws lines and labels; labels that would touch are moved apart and tied to their line.</summary>
    public void Draw(double labelX)
    {
        using var plot = new Plot();
        plot.FigureBackground.Color = Colors.Transparent;
        plot.DataBackground.Color = Colors.Transparent;
        plot.RenderManager.ClearCanvasBeforeEachRender = false;
        plot.HideGrid();
        plot.Layout.Frameless();
        plot.Axes.SetLimits(_x.Least, _x.Most, _y.Least, _y.Most);
        _content.ForEach(add => add(plot));
        var area = new PixelRect((float)_left, (float)(_left + _width), (float)(_top + _height), (float)_top);
        _page.Canvas.Save();
        _page.Canvas.ClipRect(SkiaSharp.SKRect.Create((float)_left, (float)_top - 1, (float)_width, (float)_height + 2));
        plot.Render(_page.Canvas, area);
        _page.Canvas.Restore();
        const double Apart = 14;
        (string Text, double Y, Color Color)[] ordered = [.. _ends.OrderBy(e => Y(e.Y))];
        double[] wanted = [.. ordered.Select(e => Math.Clamp(Y(e.Y), _top, _top + _height))];
        double[] placed = Spread(wanted, Apart, _top - 2, _top + _height + 4);
        for (int i = 0; i < ordered.Length; i++)
        {
            if (Math.Abs(placed[i] - wanted[i]) > 3)
            {
                _page.Line(_left + _width + 2, wanted[i], labelX - 3, placed[i], ordered[i].Color, 0.7);
            }

            _page.Text(ordered[i].Text, labelX, placed[i] + 4, ordered[i].Color, Page.Body);
        }
    }

    /// <summary>Positions at least so far apart, in order, as near to the wanted ones as a push from above and one from below give.</summary>
    internal static double[] Spread(double[] wanted, double apart, double least, double most)
    {
        double[] placed = [.. wanted];
        for (int pass = 0; pass < 40; pass++)
        {
            for (int i = 1; i < placed.Length; i++)
            {
                double lack = apart - (placed[i] - placed[i - 1]);
                if (lack > 0)
                {
                    placed[i] += lack / 2;
                    placed[i - 1] -= lack / 2;
                }
            }
        }

        for (int i = 0; i < placed.Length; i++)
        {
            placed[i] = Math.Max(placed[i], i == 0 ? least : placed[i - 1] + apart);
        }

        for (int i = placed.Length - 1; i >= 0; i--)
        {
            placed[i] = Math.Min(placed[i], i == placed.Length - 1 ? most : placed[i + 1] - apart);
        }

        return placed;
    }

    private double ScaleX(double value) => _logX ? Math.Log10(Math.Max(value, 1e-9)) : value;

    private double Scale(double value) => _log ? Math.Log10(Math.Max(value, 1e-9)) : value;
}
