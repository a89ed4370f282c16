// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Converter;
using Heatwright.Shop.Files;
using Heatwright.Shop.Shapes;
using Heatwright.Shop.Units;

namespace Heatwright.Shop.Formats;

/// <summary>heats/*.yaml. Checks that need the other files are in <see cref="HeatChecks"/>.</summary>
internal static class HeatFormat
{
    /// <summary>Most scrap of one class that a file may name, kg.</summary>
    public const double MostScrapKg = 250e3;

    /// <summary>Most of one addition that a file may name, kg.</summary>
    public const double MostAdditionKg = 60e3;

    private static readonly (string Word, Objective Objective)[] Objectives =
        [("cost", Objective.Cost), ("co2", Objective.Co2), ("most scrap", Objective.MostScrap)];

    private static readonly NameShape ScrapName = new("scrap class", ProblemCode.UnknownScrapClass, r => r.ScrapClasses, "heavy");
    private static readonly NameShape AdditionName = new(
        "flux, coolant, heating agent or alloy", ProblemCode.UnknownAddition, r => r.Additions, "lime");

    private static readonly BlockShape OrderShape = new(
        "what must come out at the end of the blow",
        new("grade", new NameShape("grade", ProblemCode.UnknownGrade, r => r.Grades, "S235JR"), "grade"),
        new("tappedMass", new QuantityShape(Kinds.Mass, 5e3, 500e3, "160 t"), "steel to be tapped"),
        new("temperature", new RangeShape(Kinds.Temperature, 1773.15, 2053.15, "1645 to 1670 °C"), "window of the end temperature"),
        new("temperatureAim", new QuantityShape(Kinds.Temperature, 1773.15, 2053.15, "1656 °C"), "aim; middle of the window when not written", Required: false),
        new("carbon", new RangeShape(Kinds.MassPercent, 0.005, 1.5, "0.03 to 0.06 %"), "window of end carbon"),
        new("carbonAim", new QuantityShape(Kinds.MassPercent, 0.005, 1.5, "0.045 %"), "aim; middle of the window when not written", Required: false),
        new("end", AnalysisShapes.Ranges("other limits at the end of the blow"), "other limits at the end of the blow; the grade's when not written", Required: false),
        new("basicity", new NumberShape(1, 6, whole: false, "3.3"), "CaO/SiO2 of the end slag by mass"),
        new("slagMgo", new RangeShape(Kinds.MassPercent, 0, 20, "min 7 %"), "MgO in the end slag; saturation is aimed at when not written", Required: false),
        new("confidence", new QuantityShape(Kinds.Share, 50, 99.9, "90 %"), "probability with which the windows are to be met; 90 % when not written", Required: false))
    {
        Across = CheckOrder,
    };

    private static readonly BlockShape HotMetalShape = new(
        "hot metal at hand",
        new("temperature", new QuantityShape(Kinds.Temperature, 1423.15, 1823.15, "1350 °C"), "temperature when charged"),
        new("analysis", AnalysisShapes.Metal(
            "analysis",
            new ElementRange(Element.C, 2.5, 5.2, "4.5 %", Required: true),
            new ElementRange(Element.Si, 0, 2.5, "0.45 %", Required: true),
            new ElementRange(Element.Mn, 0, 3, "0.35 %", Required: true),
            new ElementRange(Element.P, 0, 0.5, "0.09 %", Required: true),
            new ElementRange(Element.S, 0, 0.5, "0.02 %", Required: true),
            new ElementRange(Element.Ti, 0, 1, "0.05 %", Required: false),
            new ElementRange(Element.V, 0, 1.5, "0.03 %", Required: false),
            new ElementRange(Element.Cr, 0, 1.5, "0.02 %", Required: false)), "analysis, mass %; iron is the rest", MissingCode: ProblemCode.MissingAnalysis),
        new("slagCarry", new QuantityShape(Kinds.Mass, 0, 20e3, "0.4 t"), "ladle slag poured with it", Required: false));

    private static readonly BlockShape ChargeShape = new(
        "what is charged",
        new("hotMetal", new QuantityShape(Kinds.Mass, 1e3, 500e3, "142 t"), "hot metal"),
        new("scrap", new NamedShape(new QuantityShape(Kinds.Mass, 0, MostScrapKg, "12 t"), 0, HeatInput.MaxScrapClasses, "heavy", ScrapName), "scrap by class", Required: false),
        new("additions", new NamedShape(new QuantityShape(Kinds.Mass, 0, MostAdditionKg, "7.5 t"), 0, HeatInput.MaxFluxes, "lime", AdditionName), "additions by name", Required: false),
        new("oxygen", new QuantityShape(Kinds.GasVolume, 100, 40e3, "8200 Nm3"), "oxygen planned: 100 % of the axis of the practice"));

    private static readonly BlockShape PlanShape = new(
        "what planning may choose from",
        new("objective", new WordShape([.. Objectives.Select(o => o.Word)]), "what is made small or large; cost when not written", Required: false),
        new("hotMetal", new RangeShape(Kinds.Mass, 1e3, 500e3, "130 to 150 t"), "hot metal; the converter's range when not written", Required: false),
        new("scrap", new NamedShape(new RangeShape(Kinds.Mass, 0, MostScrapKg, "max 15 t"), 1, HeatInput.MaxScrapClasses, "heavy", ScrapName),
            "scrap classes that may be used", Required: false),
        new("additions", new NamedShape(new RangeShape(Kinds.Mass, 0, MostAdditionKg, "max 12 t"), 1, HeatInput.MaxFluxes, "lime", AdditionName),
            "additions that may be used", Required: false));

    public static readonly FileFormat Format = new("heat", "A heat: order, hot metal, and a charge or what planning may choose from", new BlockShape(
        "heat",
        [
            .. FileFormat.Head("heat"),
            new("heat", new TextShape(NamedShape.LongestName, "L-1001"), "heat number"),
            new("title", new TextShape(120, "Ordinary heat"), "what is special about it", Required: false),
            new("converter", new NameShape("converter", ProblemCode.UnknownConverter, r => r.Converters, "North"), "converter"),
            new("practice", new NameShape("practice", ProblemCode.UnknownPractice, r => r.Practices, "ordinary"), "practice"),
            new("order", OrderShape, "what must come out"),
            new("hotMetal", HotMetalShape, "hot metal at hand"),
            new("retainedSlag", PlantFormat.RetainedSlag, "slag kept from the heat before; the converter's usual when not written", Required: false),
            new("charge", ChargeShape, "charge; leave out when it is to be planned", Required: false),
            new("plan", PlanShape, "what planning may choose from", Required: false),
        ]));

    /// <summary>The word of an objective.</summary>
    public static string Word(Objective objective) => Objectives.First(o => o.Objective == objective).Word;

    public static Heat Map(BlockValue v, Works works)
    {
        ConverterUnit converter = works.Plant.Converters[v.Text("converter")!];
        BlockValue hotMetal = v.Block("hotMetal")!;
        return new Heat(
            v.Text("heat")!,
            v.Text("title"),
            v.Text("note"),
            converter,
            works.Practices[v.Text("practice")!],
            MapOrder(v.Block("order")!, works),
            hotMetal.Number("temperature")!.Value,
            AnalysisShapes.ToMetal(hotMetal.Block("analysis")!),
            hotMetal.Number("slagCarry", 0),
            v.Block("retainedSlag") is { } slag ? PlantFormat.MapSlag(slag) : converter.RetainedSlag,
            v.Block("charge") is { } charge ? MapCharge(charge) : null,
            MapPlan(v.Block("plan"), converter, works.Materials));
    }

    public static Charge MapCharge(BlockValue v) => new(
        v.Number("hotMetal")!.Value,
        v.Entries("scrap").ToDictionary(p => p.Key, p => ((Quantity)p.Value).Value),
        v.Entries("additions").ToDictionary(p => p.Key, p => ((Quantity)p.Value).Value),
        v.Number("oxygen")!.Value);

    private static Order MapOrder(BlockValue v, Works works)
    {
        Grade grade = works.Grades[v.Text("grade")!];
        Limits temperature = Closed(v.Range("temperature")!, 20);
        Limits carbon = Closed(v.Range("carbon")!, 0.02);
        return new Order(
            grade,
            v.Number("tappedMass")!.Value,
            temperature,
            v.Number("temperatureAim", Middle(temperature)),
            carbon,
            v.Number("carbonAim", Middle(carbon)),
            EndLimits.From(grade, works.Plant.LadlePickUpPercent, AnalysisShapes.ToRanges(v.Block("end"))),
            v.Number("basicity")!.Value,
            v.Range("slagMgo")?.Least,
            v.Number("confidence", 90) / 100);
    }

    private static PlanScope MapPlan(BlockValue? v, ConverterUnit converter, Materials materials)
    {
        Limits? Range(string block, string id) => v?.Entries(block).GetValueOrDefault(id) as Limits;
        bool Open(string block, string id) => v?.Get(block) is null || v.Entries(block).ContainsKey(id);

        Limits hotMetal = v?.Range("hotMetal") ?? new Limits(null, null);
        return new PlanScope(
            v?.Text("objective") is { } word ? Objectives.First(o => o.Word == word).Objective : Objective.Cost,
            new Limits(hotMetal.Least ?? converter.HotMetalKg.Least, hotMetal.Most ?? converter.HotMetalKg.Most),
            [.. materials.Scrap.Values.Where(s => Open("scrap", s.Id)).OrderBy(s => s.ChargeOrder).ThenBy(s => s.Id, StringComparer.Ordinal)
                .Select(s => new AvailableScrap(s, Range("scrap", s.Id)?.Least ?? 0, Math.Min(s.StockKg, Range("scrap", s.Id)?.Most ?? double.PositiveInfinity)))],
            [.. materials.Additions.Values.Where(a => Open("additions", a.Id))
                .Select(a => new AvailableAddition(a, Range("additions", a.Id)?.Least ?? 0, Math.Min(a.StockKg, Range("additions", a.Id)?.Most ?? double.PositiveInfinity)))],
            converter.ScrapBoxVolumeM3 * converter.ScrapBoxes);
    }

    private static double Middle(Limits window) => (window.Least!.Value + window.Most!.Value) / 2;

    // A window with one end gets the other at a usual distance, so that an aim and a band exist.
    private static Limits Closed(Limits window, double width) => new(
        window.Least ?? Math.Max(0, window.Most!.Value - width), window.Most ?? window.Least!.Value + width);

    private static void CheckOrder(BlockValue v, Reading r, string field)
    {
        Check("temperature", "temperatureAim", Kinds.Temperature.Units[0]);
        Check("carbon", "carbonAim", Kinds.MassPercent.Units[0]);

        void Check(string window, string aim, Unit unit)
        {
            if (v.Range(window) is { } range && v.Number(aim) is { } value && !range.Holds(value))
            {
                string limit = v.Written(window)!;
                r.Add(
                    ProblemCode.AimOutsideWindow, v.At(aim), $"{field}.{aim}", v.Written(aim), $"The aim lies outside {window}: {limit}.", limit,
                    $"write {aim}: {UnitText.Write(range.Least is { } a && range.Most is { } b ? (a + b) / 2 : range.Least ?? range.Most!.Value, unit)}, or delete it");
            }
        }
    }
}
