// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Charge;
using Heatwright.Reports.Heats;
using Heatwright.Shop;
using ScottPlot;

namespace Heatwright.Reports.Pictures;

/// <summary>
/// The account: three ladders over one another. Heat climbs from the hot metal to the end temperature, rung by rung; oxygen and
/// iron show where they went. Rows stand in the order of the account, so that two heats can be laid side by side.
/// </summary>
public static class AccountSheet
{
    private const int Width = 960;
    private const double Names = 332;
    private const double BarLeft = 350;
    private const double BarWidth = 410;
    private const double Figure1 = 834;
    private const double Figure2 = 920;
    private const double Row = 20;

    /// <summary>Draws the account.</summary>
    public static Picture Draw(Heat heat, HeatAccount account, bool dark = false)
    {
        ArgumentNullException.ThrowIfNull(heat);
        ArgumentNullException.ThrowIfNull(account);
        int rows = account.Terms.Count + 2 + account.Oxygen.Count + account.Iron.Count;
        return new Picture(Width, (int)(84 + (rows * Row) + (3 * 58)), Theme.Of(dark), page => Compose(page, heat, account));
    }

    private static void Compose(Page page, Heat heat, HeatAccount account)
    {
        Theme t = page.Theme;
        page.Text($"{heat.Id}  {heat.Title}", 40, 34, t.Ink, Page.Title);
        page.Text(
            $"from {Celsius(account.ZeroK)} hot metal to {Celsius(account.EndK)}; {account.BathMJPerK:0.0} MJ for each kelvin of metal and slag",
            40, 56, t.Soft);
        double y = Heat(page, account, 84);
        y = Oxygen(page, account, y + 26);
        Iron(page, account, y + 26);
    }

    private static double Heat(Page page, HeatAccount account, double y)
    {
        Theme t = page.Theme;
        double running = 0;
        double least = 0, most = 0;
        foreach (HeatTerm term in account.Terms)
        {
            running += term.Kelvin;
            least = Math.Min(least, running);
            most = Math.Max(most, running);
        }

        double X(double kelvin) => BarLeft + ((kelvin - least) / (most - least) * BarWidth);
        Head(page, ref y, "Heat", "K", "MJ");
        double zero = X(0);
        page.Line(zero, y, zero, y + ((account.Terms.Count + 2) * Row), t.Rule);
        y = Mark(page, y, zero, "hot metal as poured", Celsius(account.ZeroK), $"{account.HotMetalMJ:#,0}".Replace(',', ' '));
        running = 0;
        foreach (HeatTerm term in account.Terms)
        {
            double from = X(running);
            running += term.Kelvin;
            double to = X(running);
            page.Line(from, y - 3, from, y + 3, t.Soft, 0.8);
            Bar(page, y, from, to, term.Kelvin >= 0 ? t.Orange : t.Blue);
            Words(page, y, Ladders.Name(term), Signed(term.Kelvin), Signed(term.MJ, "#,0"));
            y += Row;
        }

        return Mark(page, y, X(running), "end of blow", Celsius(account.EndK), "");
    }

    private static double Oxygen(Page page, HeatAccount account, double y)
    {
        double most = account.Oxygen.Max(o => Math.Abs(o.Nm3));
        double total = account.Oxygen.Sum(o => o.Nm3);
        Head(page, ref y, "Oxygen", "Nm³", "%");
        double least = Math.Min(0, account.Oxygen.Min(o => o.Nm3));
        double X(double nm3) => BarLeft + ((nm3 - least) / (most - least) * BarWidth);
        foreach (OxygenTerm o in account.Oxygen)
        {
            Bar(page, y, X(0), X(o.Nm3), page.Theme.Sky);
            Words(page, y, o.Name, Signed(o.Nm3, "#,0", plus: false), Signed(100 * o.Nm3 / total, "0.0", plus: false));
            y += Row;
        }

        return y;
    }

    private static void Iron(Page page, HeatAccount account, double y)
    {
        double scale = account.Iron.Where(i => i.Kg > 0).Sum(i => i.Kg);
        double most = account.Iron.Max(i => Math.Abs(i.Kg));
        Head(page, ref y, "Iron", "t", "%");
        foreach (IronTerm i in account.Iron)
        {
            Bar(page, y, BarLeft, BarLeft + (Math.Abs(i.Kg) / most * BarWidth), i.Kg >= 0 ? page.Theme.Soft : page.Theme.Green);
            Words(page, y, (i.Kg >= 0 ? "in: " : "out: ") + i.Name, $"{Math.Abs(i.Kg) / 1000:0.00}", $"{100 * Math.Abs(i.Kg) / scale:0.0}");
            y += Row;
        }
    }

    private static void Head(Page page, ref double y, string title, string first, string second)
    {
        y += 22;
        page.Text(title, 40, y, page.Theme.Ink, 15);
        page.Text(first, Figure1, y, page.Theme.Soft, Page.Small, Side.Right);
        page.Text(second, Figure2, y, page.Theme.Soft, Page.Small, Side.Right);
        page.Line(40, y + 7, Figure2, y + 7, page.Theme.Rule);
        y += 12;
    }

    private static double Mark(Page page, double y, double x, string name, string first, string second)
    {
        page.Fill(x - 1.5, y + 3, 3, Row - 6, page.Theme.Ink);
        page.Text(name, Names, y + 14, page.Theme.Ink, Page.Body, Side.Right);
        page.Text(first, Figure1, y + 14, page.Theme.Ink, Page.Body, Side.Right);
        page.Text(second, Figure2, y + 14, page.Theme.Ink, Page.Body, Side.Right);
        return y + Row;
    }

    private static void Bar(Page page, double y, double from, double to, Color color) =>
        page.Fill(Math.Min(from, to), y + 4, Math.Max(1, Math.Abs(to - from)), Row - 8, color.WithAlpha(0.85));

    private static void Words(Page page, double y, string name, string first, string second)
    {
        page.Text(Chemical(name), Names, y + 14, page.Theme.Soft, Page.Body, Side.Right);
        page.Text(first, Figure1, y + 14, page.Theme.Ink, Page.Body, Side.Right);
        page.Text(second, Figure2, y + 14, page.Theme.Soft, Page.Body, Side.Right);
    }

    // Formulas with their figures low: CO_2, O_2.
    private static string Chemical(string name) => name.Replace("O2", "O_2", StringComparison.Ordinal);

    private static string Celsius(double kelvin) => (kelvin - 273.15).ToString("#,0").Replace(',', ' ') + " °C";

    private static string Signed(double value, string format = "0", bool plus = true)
    {
        string digits = Math.Abs(value).ToString(format).Replace(',', ' ');
        bool zero = digits.AsSpan().IndexOfAnyInRange('1', '9') < 0;
        return zero ? digits : value < 0 ? "−" + digits : plus ? "+" + digits : digits;
    }
}
