// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Shop;

namespace Heatwright.Journal.Demo;

/// <summary>How the works makes one grade. Invented; windows and recipes are of a usual order (from memory, no source).</summary>
/// <param name="Grade">Name in the grades file.</param>
/// <param name="Weight">Share of the order book, relative.</param>
/// <param name="TemperatureC">End temperature: least, aim, most, °C.</param>
/// <param name="CarbonPercent">End carbon: least, aim, most, mass %.</param>
/// <param name="MostPhosphorusPercent">End phosphorus, at most, mass %.</param>
/// <param name="Basicity">CaO/SiO2 that the lime rule aims at.</param>
/// <param name="Practice">Practice.</param>
/// <param name="Recipe">Scrap recipe.</param>
/// <param name="ManganesePercent">Manganese aimed at in the ladle, mass %.</param>
/// <param name="SiliconPercent">Silicon aimed at in the ladle, mass %.</param>
internal sealed record DemoGrade(
    string Grade,
    double Weight,
    (double Least, double Aim, double Most) TemperatureC,
    (double Least, double Aim, double Most) CarbonPercent,
    double MostPhosphorusPercent,
    double Basicity,
    string Practice,
    string Recipe,
    double ManganesePercent,
    double SiliconPercent);

/// <summary>The order book and the scrap recipes.</summary>
internal static class DemoGrades
{
    private const string Ordinary = "ordinary", Soft = "soft-early-slag", Catch = "carbon-catch";

    private static readonly (double, double, double) Usual = (0.03, 0.045, 0.06), Deep = (0.025, 0.037, 0.05);

    /// <summary>Tapped mass of every order, kg.</summary>
    public const double TappedKg = 160e3;

    public static IReadOnlyList<(DemoGrade Thing, double Weight)> Book { get; } =
    [
        .. new DemoGrade[]
        {
            new("S235JR", 18, (1640, 1655, 1670), Usual, 0.022, 3.3, Ordinary, "structural", 0.6, 0.02),
            new("S355J2", 14, (1640, 1655, 1670), Usual, 0.018, 3.4, Ordinary, "structural", 1.45, 0.25),
            new("S275JR", 8, (1640, 1655, 1670), Usual, 0.022, 3.3, Ordinary, "structural", 0.9, 0.02),
            new("S355J0", 6, (1640, 1655, 1670), Usual, 0.022, 3.3, Ordinary, "structural", 1.4, 0.25),
            new("DC01", 12, (1645, 1660, 1675), Usual, 0.020, 3.4, Ordinary, "strip", 0.25, 0.01),
            new("DC04", 9, (1645, 1660, 1675), Deep, 0.016, 3.5, Ordinary, "deep-drawing", 0.22, 0.01),
            new("DC05", 5, (1640, 1652, 1665), Deep, 0.012, 3.7, Soft, "deep-drawing", 0.18, 0.01),
            new("HC260LA", 6, (1645, 1660, 1675), Usual, 0.018, 3.4, Ordinary, "deep-drawing", 0.45, 0.02),
            new("S355MC", 6, (1645, 1660, 1675), Usual, 0.018, 3.4, Ordinary, "strip", 1.3, 0.03),
            new("S315MC", 4, (1645, 1660, 1675), Usual, 0.018, 3.4, Ordinary, "strip", 0.9, 0.03),
            new("C4D", 3, (1645, 1660, 1675), Deep, 0.020, 3.4, Ordinary, "wire", 0.4, 0.05),
            new("C7D", 2, (1640, 1655, 1670), Usual, 0.020, 3.4, Ordinary, "wire", 0.45, 0.1),
            new("C15D", 3, (1630, 1645, 1660), Usual, 0.020, 3.4, Ordinary, "wire", 0.45, 0.15),
            new("C72D", 3, (1600, 1615, 1632), (0.35, 0.48, 0.62), 0.025, 3.5, Catch, "wire", 0.65, 0.2),
            new("C45E", 1, (1610, 1625, 1642), (0.25, 0.33, 0.45), 0.024, 3.5, Catch, "wire", 0.65, 0.25),
        }.Select(g => (g, g.Weight)),
    ];

    /// <summary>Shares of the scrap by recipe, at most five classes.</summary>
    public static IReadOnlyDictionary<string, IReadOnlyDictionary<string, double>> Recipes { get; } =
        new Dictionary<string, IReadOnlyDictionary<string, double>>
        {
            ["structural"] = new Dictionary<string, double> { ["shredded"] = 0.16, ["returns"] = 0.28, ["plate"] = 0.30, ["heavy"] = 0.26 },
            ["strip"] = new Dictionary<string, double> { ["shredded"] = 0.12, ["new-cuttings"] = 0.34, ["returns"] = 0.32, ["plate"] = 0.22 },
            ["deep-drawing"] = new Dictionary<string, double> { ["new-cuttings"] = 0.52, ["returns"] = 0.48 },
            ["wire"] = new Dictionary<string, double> { ["new-cuttings"] = 0.40, ["returns"] = 0.60 },
        };

    /// <summary>The order as the planner takes it.</summary>
    public static Order Order(DemoGrade g, Works works)
    {
        Grade grade = works.Grades[g.Grade];
        return new Order(
            grade,
            TappedKg,
            new Limits(K(g.TemperatureC.Least), K(g.TemperatureC.Most)),
            K(g.TemperatureC.Aim),
            new Limits(g.CarbonPercent.Least, g.CarbonPercent.Most),
            g.CarbonPercent.Aim,
            EndLimits.From(grade, works.Plant.LadlePickUpPercent, new Dictionary<Element, Limits> { [Element.P] = new(null, g.MostPhosphorusPercent) }),
            g.Basicity,
            null,
            0.9);
    }

    private static double K(double celsius) => celsius + 273.15;
}
