// SPDX-License-Identifier: Apache-2.0
using Heatwright.Learning.Statistics;
using Heatwright.Learning.Validation;
using Heatwright.Reports.Pictures;

namespace Heatwright.Reports.Validation;

/// <summary>A picture of the validation chapter under the name by which the chapter links it.</summary>
/// <param name="Name">File name.</param>
/// <param name="Picture">The picture.</param>
public sealed record NamedPicture(string Name, Picture Picture);

/// <summary>
/// The pictures of the validation chapter. Heats are drawn in classes of about equal number (median and quartiles), not one by one:
/// the rows of a plant's record do not leave its folder.
/// </summary>
public static class ValidationPictures
{
    private const int Classes = 6;

    /// <summary>All pictures, named as in <see cref="ValidationReport.ToMarkdown"/>.</summary>
    public static IReadOnlyList<NamedPicture> Draw(ValidationReport report, bool dark = false)
    {
        ArgumentNullException.ThrowIfNull(report);
        Theme theme = Theme.Of(dark);
        return
        [
            new("validation-temperature.svg", new Picture(680, 440, theme, page => Temperature(page, report.Temperature))),
            new("validation-residuals.svg", new Picture(980, 600, theme, page => Residuals(page, report.Temperature))),
            new("validation-oxygen.svg", new Picture(620, 400, theme, page => Oxygen(page, report.Oxygen))),
            new("validation-decarburisation.svg", new Picture(620, 420, theme, page => Decarburisation(page, report.Decarburisation))),
            new("validation-gas.svg", new Picture(760, 560, theme, page => Gas(page, report.Gas))),
        ];
    }

    private static void Temperature(Page page, TemperatureResult r)
    {
        Theme t = page.Theme;
        (double X, double Lower, double Middle, double Upper)[] first = InClasses([.. r.Points.Where(p => !p.InSecondHalf)], p => p.ModelC, p => p.MeasuredC);
        (double X, double Lower, double Middle, double Upper)[] second = InClasses([.. r.Points.Where(p => p.InSecondHalf)], p => p.ModelC, p => p.MeasuredC);
        (double, double) x = Axes.Span(first.Concat(second).Select(c => c.X));
        (double, double) y = Axes.Span(first.Concat(second).SelectMany(c => new[] { c.Lower, c.Upper }).Append(x.Item1).Append(x.Item2), 0.02);
        var place = new Place(70, 60, 400, 310);
        Panel panel = Axes.Panel(page, place, "end temperature measured", "°C, medians and quartiles of classes", x, "expected by the balance, °C", y);
        double mean = r.Points.Where(p => !p.InSecondHalf).Average(p => p.MeasuredC);
        panel.Line([x.Item1, x.Item2], [x.Item1, x.Item2], t.Soft, "measured = balance", 1);
        panel.Line([x.Item1, x.Item2], [mean, mean], t.Ink, "mean, first half", 1);
        panel.Draw(480);
        Bars(page, panel, first, t.Sky, hollow: true);
        Bars(page, panel, second, t.Blue, hollow: false);
        Legend(page, 480, 330, ("first half (loss level fitted)", t.Sky, true), ("second half", t.Blue, false));
        page.Text($"{r.Points.Count} heats{(r.Steered ? ", steered to their aim: the charge foretells little of their end temperature" : "")}", 70, 28, t.Ink);
    }

    private static void Residuals(Page page, TemperatureResult r)
    {
        Theme t = page.Theme;
        TemperaturePoint[] points = [.. r.Points];
        var order = points.Select((p, i) => (p.Heat, i)).ToDictionary(p => p.Heat, p => (double)p.i);
        (string Name, Func<MeasuredHeat, double> Of)[] inputs =
        [
            (HeatFigure.Silicon.Name, HeatFigure.Silicon.Value),
            (HeatFigure.HotMetalTemperature.Name, HeatFigure.HotMetalTemperature.Value),
            (HeatFigure.ScrapShare.Name, HeatFigure.ScrapShare.Value),
            (HeatFigure.Lime.Name, HeatFigure.Lime.Value),
            (HeatFigure.LogEndCarbon.Name, HeatFigure.LogEndCarbon.Value),
            ("time", h => order[h]),
        ];
        page.Text("Measured − balance, °C: medians and quartiles of classes, and the straight line with its 95 % slope", 70, 28, t.Ink);
        double[] residual = [.. points.Select(p => p.MeasuredC - p.ModelC)];
        double middle = residual.Average();
        int at = 0;
        foreach ((string name, Func<MeasuredHeat, double> of) in inputs)
        {
            ResidualSlope? slope = r.Slopes.FirstOrDefault(s => s.Name == name);
            if (slope is null)
            {
                continue;
            }

            (double X, double Lower, double Middle, double Upper)[] classes = InClasses(points, p => of(p.Heat), p => p.MeasuredC - p.ModelC);
            var place = new Place(70 + (at % 3 * 310), 72 + (at / 3 * 270), 250, 180);
            (double Least, double Most) x = Axes.Span(classes.Select(c => c.X), 0.1);
            Panel panel = Axes.Panel(page, place, name, slope.Unit, x, $"{slope.Slope.Value:+0.00;−0.00} ± {slope.Slope.HalfWidth95:0.00} °C per {slope.Unit}", (-100, 100));
            double centre = points.Average(p => of(p.Heat));
            double[] xs = [.. Enumerable.Range(0, 41).Select(i => x.Least + (i * (x.Most - x.Least) / 40))];
            foreach (double b in (double[])[slope.Slope.Value - slope.Slope.HalfWidth95, slope.Slope.Value + slope.Slope.HalfWidth95])
            {
                panel.Line(xs, [.. xs.Select(v => middle + (b * (v - centre)))], t.Orange, null, 0.8);
            }

            panel.Line(xs, [.. xs.Select(v => middle + (slope.Slope.Value * (v - centre)))], t.Orange, null, 1.8);
            panel.Line([x.Least, x.Most], [0, 0], t.Ink, null, 1);
            panel.Draw(place.Left + place.Width);
            Bars(page, panel, classes, t.Blue, hollow: false);
            at++;
        }
    }

    private static void Oxygen(Page page, OxygenDemand r)
    {
        Theme t = page.Theme;
        (double X, double Lower, double Middle, double Upper)[] first = InClasses([.. r.Points.Where(p => !p.InSecondHalf)], p => p.ModelNm3PerT, p => p.MeasuredNm3PerT);
        (double X, double Lower, double Middle, double Upper)[] second = InClasses([.. r.Points.Where(p => p.InSecondHalf)], p => p.ModelNm3PerT, p => p.MeasuredNm3PerT);
        (double Least, double Most) span = Axes.Span(first.Concat(second).SelectMany(c => new[] { c.X, c.Lower, c.Upper }));
        var place = new Place(70, 60, 400, 270);
        Panel panel = Axes.Panel(page, place, "oxygen measured", "Nm³ per t charge", span, "model at the median end carbon, Nm³/t", span);
        panel.Line([span.Least, span.Most], [span.Least, span.Most], t.Soft, "measured = model", 1);
        panel.Draw(480);
        Bars(page, panel, first, t.Sky, hollow: true);
        Bars(page, panel, second, t.Blue, hollow: false);
        Legend(page, 480, 290, ("first half", t.Sky, true), ("second half", t.Blue, false));
        page.Text($"{r.Points.Count} heats; nothing fitted to oxygen", 70, 28, t.Ink);
    }

    private static void Decarburisation(Page page, DecarburisationResult r)
    {
        Theme t = page.Theme;
        (double, double) x = (0.02, 1);
        var place = new Place(70, 60, 400, 290);
        Panel panel = Axes.Panel(page, place, "rate over mid-blow", "-", x, "carbon, mass % (log)", (0, 1.1), [0.02, 0.05, 0.1, 0.2, 0.5, 1], logX: true);
        (double CarbonPercent, double Ratio)[] course = [.. r.Course.Where(c => c.CarbonPercent is >= 0.02 and <= 1)];
        panel.Line([.. course.Select(c => c.CarbonPercent)], [.. course.Select(c => c.Ratio)], t.Blue, null, 2);
        panel.Draw(480);
        foreach (RateAtEnd a in r.Rates)
        {
            double at = panel.X(a.Class.CarbonPercent);
            page.Line(at, panel.Y(a.WideLower), at, panel.Y(a.WideUpper), t.Orange, 1);
            page.Line(at, panel.Y(a.Target.Lower), at, panel.Y(a.Target.Upper), t.Orange, 5);
            page.Dot(at, panel.Y(a.Target.Middle), 3.5, t.Paper);
            page.Dot(at, panel.Y(a.Target.Middle), 3.5, t.Orange, hollow: true);
            page.Dot(at - 7, panel.Y(a.Model), 3.5, t.Blue);
            page.Dot(at + 7, panel.Y(a.ModelLagged), 3.5, t.Blue, hollow: true);
        }

        page.Text("model, a median heat", 480, 90, t.Blue, Page.Small);
        page.Dot(484, 106, 3.5, t.Blue);
        page.Text("model, no delay", 494, 110, t.Ink, Page.Small);
        page.Dot(484, 126, 3.5, t.Blue, hollow: true);
        page.Text($"delayed by {DecarburisationCheck.LagS:0} s", 494, 130, t.Ink, Page.Small);
        page.Text("published quartiles", 480, 156, t.Orange, Page.Small);
        page.Text("(thin: whole mid-", 480, 171, t.Orange, Page.Small);
        page.Text("blow range)", 480, 186, t.Orange, Page.Small);
        page.Text("Fall of the decarburisation rate at the end of the blow", 70, 28, t.Ink);
    }

    private static void Gas(Page page, HoodGasResult r)
    {
        Theme t = page.Theme;
        double[] x = [.. r.Course.Select(c => c.OxygenPercent)];
        Panel gas = Axes.Panel(page, new Place(70, 60, 520, 250), "gas behind the hood", "dry volume %", (0, 100), string.Empty, (0, 100));
        gas.Line(x, [.. r.Course.Select(c => c.CO)], t.Orange, "CO");
        gas.Line(x, [.. r.Course.Select(c => c.CO2)], t.Purple, "CO_2");
        gas.Line(x, [.. r.Course.Select(c => c.N2)], t.Blue, "N_2");
        gas.Line(x, [.. r.Course.Select(c => c.O2)], t.Green, "O_2");
        gas.Draw(602);
        PublishedBar(page, gas, r, "CO", t.Orange, 47);
        PublishedBar(page, gas, r, "CO2", t.Purple, 53);
        PublishedBar(page, gas, r, "N2", t.Blue, 59);
        Panel heat = Axes.Panel(page, new Place(70, 370, 520, 140), "temperature", "°C", (0, 100), "oxygen blown, %", Axes.Span(r.Course.Select(c => c.TemperatureC).Append(600).Append(1000)));
        heat.Line(x, [.. r.Course.Select(c => c.TemperatureC)], t.Ink, null);
        heat.Draw(602);
        PublishedBar(page, heat, r, "gas temperature", t.Ink, 53);
        page.Text("Lines: a median heat of the model. Bars: quartiles within the blow, second half (delay unknown)", 70, 28, t.Ink, Page.Small);
    }

    private static void PublishedBar(Page page, Panel panel, HoodGasResult r, string name, ScottPlot.Color color, double at)
    {
        HoodQuantity q = r.Quantities.Single(v => v.Name == name);
        double x = panel.X(at);
        page.Line(x, panel.Y(q.Published.Lower), x, panel.Y(q.Published.Upper), color, 4);
        page.Dot(x, panel.Y(q.Published.Middle), 3.5, page.Theme.Paper);
        page.Dot(x, panel.Y(q.Published.Middle), 3.5, color, hollow: true);
    }

    private static void Bars(Page page, Panel panel, (double X, double Lower, double Middle, double Upper)[] classes, ScottPlot.Color color, bool hollow)
    {
        foreach ((double x, double lower, double middle, double upper) in classes)
        {
            page.Line(panel.X(x), panel.Y(lower), panel.X(x), panel.Y(upper), color, 1.4);
            page.Dot(panel.X(x), panel.Y(middle), 4, hollow ? page.Theme.Paper : color);
            page.Dot(panel.X(x), panel.Y(middle), 4, color, hollow: true);
        }
    }

    private static void Legend(Page page, double x, double y, params (string Text, ScottPlot.Color Color, bool Hollow)[] rows)
    {
        foreach ((string text, ScottPlot.Color color, bool hollow) in rows)
        {
            page.Dot(x + 4, y - 4, 4, color, hollow);
            page.Text(text, x + 14, y, page.Theme.Ink, Page.Small);
            y += 18;
        }
    }

    private static (double X, double Lower, double Middle, double Upper)[] InClasses<T>(T[] points, Func<T, double> x, Func<T, double> y)
    {
        T[] sorted = [.. points.OrderBy(x)];
        int classes = Math.Max(1, Math.Min(Classes, sorted.Length / 5));
        return
        [
            .. Enumerable.Range(0, classes).Select(k => sorted[(k * sorted.Length / classes)..((k + 1) * sorted.Length / classes)]).Select(c => (
                Quantiles.Median(c.Select(x)),
                Quantiles.At(c.Select(y), 0.25),
                Quantiles.Median(c.Select(y)),
                Quantiles.At(c.Select(y), 0.75))),
        ];
    }
}
