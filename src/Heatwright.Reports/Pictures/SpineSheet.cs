// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter;
using Heatwright.Converter.Blow;
using Heatwright.Converter.Charge;
using Heatwright.Shop;
using BlowPoint = Heatwright.Converter.Blow.BlowPoint;

namespace Heatwright.Reports.Pictures;

/// <summary>What the sheet of a blow shows.</summary>
/// <param name="Heat">The order, the practice and the name.</param>
/// <param name="Input">Charge and programme.</param>
/// <param name="Course">The course of the blow.</param>
/// <param name="EndTemperatureC">80 % band of the end temperature, °C.</param>
/// <param name="EndCarbon">80 % band of end carbon, mass %.</param>
public sealed record SpineContent(Heat Heat, HeatInput Input, BlowResult Course, Band EndTemperatureC, Band EndCarbon);

/// <summary>
/// The spine: everything that happens in a blow over one axis, the share of the planned oxygen. Programme and additions above,
/// then metal, temperature, slag, gas, and foam against the freeboard. Time and volume of oxygen are other rulers on it.
/// </summary>
public static class SpineSheet
{
    private const int Width = 1000;
    private const double Left = 62;
    private const double Plot = 800;
    private const double LabelX = Left + Plot + 12;
    private const double Row = 34;

    /// <summary>Draws the sheet.</summary>
    public static Picture Draw(SpineContent content, bool dark = false)
    {
        ArgumentNullException.ThrowIfNull(content);
        int rows = Materials(content.Input).Length;
        int height = (int)(98 + (rows * Row) + 16 + 122 + 108 + 72 + 244 + 170 + 194 + 154 + 140 + 50);
        return new Picture(width: Width, height, Theme.Of(dark), page => Compose(page, content));
    }

    private static void Compose(Page page, SpineContent content)
    {
        BlowPoint[] blow = Blow(content.Course);
        Theme t = page.Theme;
        Heading(page, content);
        double y = 98;
        y = Rulers(page, content, blow, y);
        y = Additions(page, content.Input, y);
        double top = y;
        y = Lance(page, content, y + 26);
        y = Gases(page, content, y + 30);
        double[] x = [.. blow.Select(p => p.OxygenPercent)];
        double[] Of(Func<BlowPoint, double> value) => [.. blow.Select(value)];

        var metal = new Panel(page, Left, y + 30, Plot, 204, (0, 100), (0.003, 6), log: true);
        metal.Name("Metal", "mass %, log");
        metal.Rules([0.003, 0.01, 0.03, 0.1, 0.3, 1, 3], v => v.ToString("0.###"));
        metal.Line(x, Of(p => p.C), t.Ink, "C", 2.2);
        metal.Line(x, Of(p => p.Si), t.Orange, "Si");
        metal.Line(x, Of(p => p.Mn), t.Purple, "Mn");
        metal.Line(x, Of(p => p.P), t.Blue, "P");
        Aim(page, metal, content.Heat.Order.CarbonPercent, 1, 0);
        metal.Draw(LabelX);
        y += 244;

        (double least, double most) = Span(Of(p => p.TemperatureC).Append(content.Heat.Order.TemperatureK.Most - 273.15 ?? 0), 100);
        var heat = new Panel(page, Left, y + 30, Plot, 130, (0, 100), (least, most));
        heat.Name("Temperature", "°C");
        heat.Rules(Steps(least, most, 100), v => Thousands(v));
        heat.Line(x, Of(p => p.TemperatureC), t.Ink, $"{Thousands(content.Course.End.TemperatureC)} °C", 2.2);
        Aim(page, heat, content.Heat.Order.TemperatureK, 1, -273.15);
        heat.Draw(LabelX);
        Whisker(page, heat, content.EndTemperatureC);
        y += 170;

        var slag = new Panel(page, Left, y + 30, Plot, 154, (0, 100), (0, 60));
        slag.Name("Liquid slag", "mass %");
        slag.Rules([0, 20, 40, 60], v => v.ToString("0"));
        slag.Line(x, Of(p => p.CaO), t.Ink, "CaO");
        slag.Line(x, Of(p => p.SiO2), t.Orange, "SiO_2");
        slag.Line(x, Of(p => p.FeO), t.Blue, "FeO", 2.2);
        slag.Line(x, Of(p => p.MgO), t.Green, "MgO");
        slag.Line(x, Of(p => p.MnO), t.Purple, "MnO");
        slag.Draw(LabelX);
        y += 194;

        var gas = new Panel(page, Left, y + 30, Plot, 114, (0, 100), (0, 100));
        gas.Name("Gas at the mouth, before air", "volume %");
        gas.Rules([0, 50, 100], v => v.ToString("0"));
        gas.Line(x, Of(p => p.GasCO), t.Ink, "CO", 2.2);
        gas.Line(x, Of(p => p.GasCO2), t.Orange, "CO_2");
        gas.Line(x, Of(p => p.GasO2), t.Blue, "O_2");
        gas.Line(x, Of(p => p.GasN2 + p.GasAr), t.Green, "N_2, Ar");
        gas.Draw(LabelX);
        y += 154;

        double free = Math.Ceiling(blow.Max(p => Math.Max(p.FreeboardM, p.FoamM)) + 0.2);
        var foam = new Panel(page, Left, y + 30, Plot, 100, (0, 100), (0, free));
        foam.Name("Slag and foam over the bath", "m");
        foam.Rules(free > 5 ? [0, 2, 4, 6, 8] : [0, 1, 2, 3, 4, 5], v => v.ToString("0"));
        foam.Area(x, Of(p => p.FoamM), 0, t.Blue.WithAlpha(0.16));
        foam.Line(x, Of(p => p.FoamM), t.Blue, "foam");
        foam.Line(x, Of(p => p.FreeboardM), t.Soft, "mouth", 1.4);
        foam.Draw(LabelX);
        y += 130;
        foreach (int percent in Enumerable.Range(0, 11).Select(i => i * 10))
        {
            page.Text(percent.ToString(), foam.X(percent), y + 18, t.Soft, Page.Small, Side.Middle);
        }

        page.Text("% of plan", LabelX + 10, y + 18, t.Soft, Page.Small);
        double planned = content.Input.Programme.OxygenNm3;
        double step = planned > 4000 ? 1000 : 200;
        for (double volume = 0; volume <= planned; volume += step)
        {
            double at = foam.X(100 * volume / planned);
            page.Line(at, y + 26, at, y + 30, t.Soft);
            page.Text(Thousands(volume), at, y + 43, t.Soft, Page.Small, Side.Middle);
        }

        page.Line(Left, y + 26, Left + Plot, y + 26, t.Soft);
        page.Text("Nm³ oxygen", LabelX + 10, y + 43, t.Soft, Page.Small);
        Measurement(page, content, top, y);
    }

    /// <summary>The points between ignition and oxygen off.</summary>
    private static BlowPoint[] Blow(BlowResult course)
    {
        double stop = course.End.OxygenPercent;
        BlowPoint ignition = course.Trajectory.Last(p => p.OxygenPercent <= 0);

        // The snapshot is taken with the oxygen still on; the trajectory's first point at the stop may have it off already.
        BlowPoint off = course.Snapshots.LastOrDefault(p => p.OxygenPercent >= stop - 1e-6) ?? course.Trajectory.First(p => p.OxygenPercent >= stop - 1e-6);
        return [ignition, .. course.Trajectory.Where(p => p.OxygenPercent > 0 && p.OxygenPercent < stop - 1e-6), off];
    }

    private static void Heading(Page page, SpineContent content)
    {
        Heat heat = content.Heat;
        page.Text($"{heat.Id}  {heat.Title}", Left, 34, page.Theme.Ink, Page.Title);
        page.Text(
            $"{heat.Order.Grade.Id}, {heat.Order.TappedMassKg / 1000:0} t, converter {heat.Converter.Id}, practice {heat.Practice.Id}: hot metal {content.Input.HotMetal.MassKg / 1000:0.0} t, scrap {content.Input.Scrap.Sum(s => s.MassKg) / 1000:0.0} t, oxygen {Thousands(content.Input.Programme.OxygenNm3)} Nm³",
            Left, 56, page.Theme.Soft);
    }

    private static double Rulers(Page page, SpineContent content, BlowPoint[] blow, double y)
    {
        Theme t = page.Theme;
        double start = blow[0].TimeS;
        double minutes = (blow[^1].TimeS - start) / 60;
        page.Line(Left, y, Left + Plot, y, t.Soft, 1);
        for (int minute = 0; minute <= minutes; minute++)
        {
            double percent = At(blow, start + (minute * 60));
            double x = Left + (percent / 100 * Plot);
            page.Line(x, y, x, y + (minute % 2 == 0 ? 6 : 3), t.Soft);
            if (minute % 2 == 0)
            {
                page.Text(minute.ToString(), x, y - 6, t.Soft, Page.Small, Side.Middle);
            }
        }

        page.Text("min", LabelX, y - 2, t.Soft, Page.Small);
        return y + 12;
    }

    // Oxygen share at a time, by straight lines between points.
    private static double At(BlowPoint[] blow, double timeS)
    {
        int i = Math.Max(1, Array.FindIndex(blow, p => p.TimeS >= timeS));
        BlowPoint a = blow[i - 1], b = blow[i];
        return a.OxygenPercent + ((timeS - a.TimeS) / Math.Max(1e-9, b.TimeS - a.TimeS) * (b.OxygenPercent - a.OxygenPercent));
    }

    private static IGrouping<string, Addition>[] Materials(HeatInput input) => [.. input.Programme.Additions.GroupBy(a => a.Material.Name)];

    /// <summary>Additions hang at their moment; the area of a weight goes with its mass.</summary>
    private static double Additions(Page page, HeatInput input, double y)
    {
        Theme t = page.Theme;
        foreach (IGrouping<string, Addition> material in Materials(input))
        {
            page.Line(Left, y, Left + Plot, y, t.Rule);
            Addition[] batches = [.. material];
            double X(Addition a) => Left + (Math.Clamp(a.OxygenPercent, 0, 100) / 100 * Plot);
            for (int i = 0; i < batches.Length; i++)
            {
                Addition a = batches[i];
                double x = X(a);
                double side = Math.Clamp(Math.Sqrt(a.MassKg / 1000) * 9, 3, 20);
                page.Line(x, y, x, y + 6, t.Ink);
                page.Fill(x - (side / 2), y + 6, side, side, t.Ink);

                // The figure stands right of its weight, or left where the next weight hangs there.
                string figure = Tonnes(a.MassKg);
                bool crowded = i + 1 < batches.Length && X(batches[i + 1]) - x < side + 18 + Page.Width(figure, Page.Small);
                page.Text(figure, crowded ? x - (side / 2) - 4 : x + (side / 2) + 4, y + 16, t.Soft, Page.Small, crowded ? Side.Right : Side.Left);
            }

            page.Text($"{material.Key} {Tonnes(material.Sum(a => a.MassKg))} t", LabelX, y + 15, t.Ink, Page.Small);
            y += Row;
        }

        page.Line(Left, y, Left + Plot, y, t.Rule);
        return y + 4;
    }

    private static double Lance(Page page, SpineContent content, double y)
    {
        BlowProgramme p = content.Input.Programme;
        (double[] x, double[] h) = Stairs(p.LanceHeightM, 1);
        double most = Math.Ceiling((h.Max() + 0.1) * 2) / 2;
        double least = Math.Floor((h.Min() - 0.1) * 2) / 2;
        var panel = new Panel(page, Left, y, Plot, 66, (0, 100), (least, most));
        panel.Name("Lance over the bath", "m");
        panel.Rules(Steps(least, most, 0.5), v => v.ToString("0.0"));
        panel.Line(x, h, page.Theme.Ink, "lance", 1.8);
        panel.Draw(LabelX);

        // The skirt: as thick as it is open.
        double strip = y + 66 + 12;
        (double[] sx, double[] open) = Stairs(p.SkirtOpenFraction, 1);
        for (int i = 0; i + 1 < sx.Length; i += 2)
        {
            double from = panel.X(sx[i]), to = panel.X(sx[i + 1]);
            page.Fill(from, strip + 8 - (open[i] * 8), to - from, Math.Max(0.5, open[i] * 8), page.Theme.Soft);
        }

        page.Line(Left, strip + 8, Left + Plot, strip + 8, page.Theme.Rule);
        page.Text("skirt open", LabelX, strip + 9, page.Theme.Ink, Page.Small);
        return y + 92;
    }

    private static double Gases(Page page, SpineContent content, double y)
    {
        BlowProgramme p = content.Input.Programme;
        (double[] x, double[] flow) = Stairs(p.OxygenFlowNm3PerS, 60);
        double most = Math.Ceiling(flow.Max() * 1.05 / 100) * 100;
        var oxygen = new Panel(page, Left, y + 4, Plot, 66, (0, 100), (0, most));
        oxygen.Name("Oxygen", "Nm³/min");
        oxygen.Rules([0, most / 2, most], v => v.ToString("0"));
        oxygen.Area(x, flow, 0, page.Theme.Blue.WithAlpha(0.14));
        oxygen.Line(x, flow, page.Theme.Blue, "O_2");
        oxygen.Draw(LabelX);
        y += 74;
        if (p.Stirring.Count == 0)
        {
            return y;
        }

        (double[] bx, double[] bottom) = Stairs([.. p.Stirring.Select(s => new SetPoint(s.OxygenPercent, s.FlowNm3PerS))], 60);
        double top = Math.Ceiling(bottom.Max() * 1.05 / 10) * 10;
        var stirring = new Panel(page, Left, y + 30, Plot, 40, (0, 100), (0, top));
        stirring.Name("Bottom gas", "Nm³/min");
        stirring.Rules([0, top], v => v.ToString("0"));
        stirring.Line(bx, bottom, page.Theme.Green, GasNames(p.Stirring));
        stirring.Draw(LabelX);
        return y + 72;
    }

    private static string GasNames(IReadOnlyList<StirringSetPoint> points)
    {
        StirringGas[] gases = [.. points.Select(p => p.Gas).Distinct()];
        return string.Join(", then ", gases.Select(g => g == StirringGas.Argon ? "Ar" : "N_2"));
    }

    private static (double[] X, double[] Y) Stairs(IReadOnlyList<SetPoint> points, double factor)
    {
        var x = new List<double>();
        var y = new List<double>();
        for (int i = 0; i < points.Count; i++)
        {
            double from = i == 0 ? 0 : points[i].OxygenPercent;
            double to = i + 1 < points.Count ? points[i + 1].OxygenPercent : 100;
            x.AddRange([from, to]);
            y.AddRange([points[i].Value * factor, points[i].Value * factor]);
        }

        return ([.. x], [.. y]);
    }

    // The window of the order: a bar just outside the right edge, with ends.
    private static void Aim(Page page, Panel panel, Limits window, double factor, double offset)
    {
        if (window is { Least: { } least, Most: { } most })
        {
            double x = Left + Plot + 4;
            page.Fill(x, panel.Y((most * factor) + offset), 3, panel.Y((least * factor) + offset) - panel.Y((most * factor) + offset), page.Theme.Green);
        }
    }

    private static void Whisker(Page page, Panel panel, Band band)
    {
        double x = Left + Plot - 0.5;
        page.Line(x, panel.Y(band.Low), x, panel.Y(band.High), page.Theme.Ink, 1);
        page.Line(x - 4, panel.Y(band.Low), x + 1, panel.Y(band.Low), page.Theme.Ink, 1);
        page.Line(x - 4, panel.Y(band.High), x + 1, panel.Y(band.High), page.Theme.Ink, 1);
    }

    private static void Measurement(Page page, SpineContent content, double top, double bottom)
    {
        if (content.Heat.Practice.MeasurementPercent is { } percent)
        {
            double x = Left + (percent / 100 * Plot);
            page.Line(x, top, x, bottom, page.Theme.Soft, 1, dashed: true);
            page.Text("in-blow measurement", x - 5, top + 16, page.Theme.Soft, Page.Small, Side.Right);
        }
    }

    private static (double Least, double Most) Span(IEnumerable<double> values, double step)
    {
        double[] all = [.. values.Where(v => v != 0)];
        return (Math.Floor(all.Min() / step) * step, Math.Ceiling(all.Max() / step) * step);
    }

    private static IEnumerable<double> Steps(double least, double most, double step)
    {
        for (double v = least; v <= most + 1e-9; v += step)
        {
            yield return v;
        }
    }

    private static string Tonnes(double kg) => (kg / 1000).ToString(kg < 9950 ? "0.0#" : "0.0");

    private static string Thousands(double value) => value.ToString("#,0").Replace(',', ' ');
}
