// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Converter;
using Heatwright.Shop.Files;
using Heatwright.Shop.Shapes;
using Heatwright.Shop.Units;

namespace Heatwright.Shop.Formats;

/// <summary>plant.yaml. Ranges are wide engineering limits that catch slips of the pen, not recommendations.</summary>
internal static class PlantFormat
{
    private static readonly MeasurementUncertainty Usual = new();

    public static readonly BlockShape RetainedSlag = new(
        "slag kept from the heat before",
        new("mass", new QuantityShape(Kinds.Mass, 0, 60e3, "6 t"), "mass kept"),
        new("temperature", new QuantityShape(Kinds.Temperature, 293.15, 1973.15, "1250 °C"), "temperature when the scrap is charged", Required: false),
        new("analysis", AnalysisShapes.Solid("analysis of the slag"), "analysis of the slag", MissingCode: ProblemCode.MissingAnalysis));

    private static readonly BlockShape GasShape = new(
        "price and CO2 of a gas",
        new("price", new QuantityShape(Kinds.GasPrice, 0, 10), "price"),
        new("co2", new QuantityShape(Kinds.GasCo2, 0, 10), "CO2 of its making"));

    private static readonly BlockShape Nozzles = new(
        "lance tip",
        new("count", new NumberShape(1, 12, whole: true, "6"), "number of nozzles"),
        new("throat", new QuantityShape(Kinds.Length, 0.010, 0.080, "34 mm"), "throat diameter of one nozzle"),
        new("exit", new QuantityShape(Kinds.Length, 0.010, 0.150, "46 mm"), "exit diameter of one nozzle"),
        new("angle", new QuantityShape(Kinds.Angle, 0, 30, "16 deg"), "inclination from the vertical"))
    {
        Across = (v, r, f) =>
        {
            if (v.Number("throat") is { } throat && v.Number("exit") is { } exit && (exit < throat || exit > 2 * throat))
            {
                r.Add(
                    ProblemCode.NozzleNotDivergent, v.At("exit"), f + ".exit", v.Written("exit"),
                    exit < throat ? "The exit is narrower than the throat." : "The exit is more than twice as wide as the throat.",
                    $"one to two times the throat, {v.Written("throat")}", "swap throat and exit, or check both");
            }
        },
    };

    private static readonly BlockShape Converter = new(
        "a converter",
        new("tappedMass", new QuantityShape(Kinds.Mass, 5e3, 500e3, "160 t"), "usual tapped mass"),
        new("innerDiameter", new QuantityShape(Kinds.Length, 1, 9, "5.3 m"), "bore of the barrel inside the lining"),
        new("innerHeight", new QuantityShape(Kinds.Length, 2, 14, "7.0 m"), "bottom to mouth inside the lining"),
        new("lance", Nozzles, "lance tip"),
        new("lanceHeight", new RangeShape(Kinds.Length, 0.5, 5, "1.4 to 3.2 m"), "range over the quiet bath that may be set"),
        new("bottomElements", new NumberShape(0, 40, whole: true, "8"), "bottom stirring elements; 0 when top-blown only"),
        new("liningMgo", new QuantityShape(Kinds.MassPercent, 30, 100, "97 %"), "MgO in the working lining"),
        new("liningAge", new QuantityShape(Kinds.Heats, 0, 10e3, "1450 heats"), "heats on the lining"),
        new("liningTemperature", new QuantityShape(Kinds.Temperature, 303.15, 1873.15, "1080 °C"), "mean temperature of the hot face layer when charging"),
        new("suction", new QuantityShape(Kinds.GasFlow, 1, 200, "108000 Nm3/h"), "cooled dry gas drawn by the fan"),
        new("hoodTransfer", new QuantityShape(Kinds.HeatTransfer, 0, 1e6, "40 kW/K"), "heat transfer of hood and stack"),
        new("retainedSlag", RetainedSlag, "slag kept from the heat before, unless the heat says otherwise"),
        new("scrapBox", new BlockShape(
            "scrap box",
            new Field("volume", new QuantityShape(Kinds.Volume, 1, 300, "55 m3"), "volume of one box"),
            new Field("count", new NumberShape(1, 6, whole: true, "2"), "boxes for one heat at most")), "scrap boxes"),
        new("hotMetal", new RangeShape(Kinds.Mass, 1e3, 500e3, "120 to 165 t"), "hot metal in one heat"))
    {
        Across = CheckConverter,
    };

    private static readonly BlockShape Measurement = new(
        "standard uncertainties, 1 sigma; what is not written has its usual value (from memory)",
        Relative("hotMetalMass", Usual.HotMetalMassPercent, "hot-metal mass"),
        Relative("scrapMass", Usual.ScrapMassPercent, "scrap mass"),
        Relative("additionMass", Usual.AdditionMassPercent, "mass of an addition"),
        Kelvin("hotMetalTemperature", Usual.HotMetalTemperatureK, "hot-metal temperature"),
        Percent("hotMetalCarbon", Usual.HotMetalCarbonPercent, "hot-metal carbon"),
        Percent("hotMetalSilicon", Usual.HotMetalSiliconPercent, "hot-metal silicon"),
        Percent("hotMetalManganese", Usual.HotMetalManganesePercent, "hot-metal manganese"),
        Percent("hotMetalPhosphorus", Usual.HotMetalPhosphorusPercent, "hot-metal phosphorus"),
        Relative("oxygen", Usual.OxygenPercent, "oxygen blown"),
        new("lanceHeight", new QuantityShape(Kinds.Length, 0, 1, "100 mm"), "lance height over the bath, level error included", Required: false),
        Relative("retainedSlag", Usual.RetainedSlagPercent, "mass of retained slag"),
        Kelvin("inBlowTemperature", Usual.InBlowTemperatureK, "in-blow temperature"),
        Percent("inBlowCarbon", Usual.InBlowCarbonPercent, "in-blow carbon"),
        Kelvin("endTemperature", Usual.EndTemperatureK, "end temperature"),
        Percent("endCarbon", Usual.EndCarbonPercent, "end carbon from oxygen activity"),
        Percent("steelCarbon", Usual.SteelCarbonPercent, "laboratory carbon"),
        Percent("steelPhosphorus", Usual.SteelPhosphorusPercent, "laboratory phosphorus"),
        Percent("steelManganese", Usual.SteelManganesePercent, "laboratory manganese"),
        Percent("slagFeO", Usual.SlagFeOPercent, "laboratory FeO in slag"));

    public static readonly FileFormat Format = new("plant", "A plant: its converters, gases and measurements", new BlockShape(
        "plant",
        [
            .. FileFormat.Head("plant"),
            new("name", new TextShape(80, "Larkmoor Works"), "name of the works"),
            new("ambientTemperature", new QuantityShape(Kinds.Temperature, 213.15, 333.15, "12 °C"), "temperature of scrap and fluxes in the yard"),
            new("oxygen", new BlockShape(
                "oxygen at the lance",
                new Field("purity", new QuantityShape(Kinds.VolumePercent, 90, 100), "O2 in it"),
                new Field("mostFlow", new QuantityShape(Kinds.GasFlow, 0.3, 40, "680 Nm3/min"), "most that the main gives"),
                new Field("price", new QuantityShape(Kinds.GasPrice, 0, 10), "price"),
                new Field("co2", new QuantityShape(Kinds.GasCo2, 0, 10), "CO2 of its making")), "oxygen at the lance"),
            new("nitrogen", GasShape, "nitrogen for the bottom elements"),
            new("argon", GasShape, "argon for the bottom elements"),
            new("ladlePickUp", new BlockShape(
                "what the steel picks up between end of blow and ladle analysis",
                new Field("C", new QuantityShape(Kinds.MassPercent, 0, 0.1, "0.01 %"), "carbon", Required: false),
                new Field("P", new QuantityShape(Kinds.MassPercent, 0, 0.02, "0.003 %"), "phosphorus", Required: false),
                new Field("S", new QuantityShape(Kinds.MassPercent, 0, 0.02, "0.001 %"), "sulphur", Required: false)),
                "what the steel picks up between end of blow and ladle analysis", Required: false),
            new("converters", new NamedShape(Converter, 1, 8, "North"), "converters by name"),
            new("measurement", Measurement, "standard uncertainties, 1 sigma", Required: false),
        ]));

    public static Plant Map(BlockValue v)
    {
        BlockValue oxygen = v.Block("oxygen")!;
        return new Plant(
            v.Text("name")!,
            v.Text("note"),
            v.Number("ambientTemperature")!.Value,
            new OxygenSupply(oxygen.Number("purity")!.Value / 100, oxygen.Number("mostFlow")!.Value, Gas(oxygen)),
            Gas(v.Block("nitrogen")!),
            Gas(v.Block("argon")!),
            v.Block("ladlePickUp")?.Numbers().ToDictionary(p => Enum.Parse<Element>(p.Name), p => p.Value) ?? [],
            v.Entries("converters").ToDictionary(p => p.Key, p => MapConverter(p.Key, (BlockValue)p.Value)),
            MapMeasurement(v.Block("measurement")));
    }

    public static RetainedSlag MapSlag(BlockValue v) => new(
        v.Number("mass")!.Value, AnalysisShapes.ToSolid(v.Block("analysis")!), v.Number("temperature", 1500));

    private static ConverterUnit MapConverter(string id, BlockValue v)
    {
        BlockValue lance = v.Block("lance")!;
        BlockValue box = v.Block("scrapBox")!;
        var vessel = new Vessel(
            v.Number("innerDiameter")!.Value,
            v.Number("innerHeight")!.Value,
            (int)lance.Number("count")!.Value,
            lance.Number("throat")!.Value,
            lance.Number("exit")!.Value,
            lance.Number("angle")!.Value,
            (int)v.Number("bottomElements")!.Value,
            v.Number("liningMgo")!.Value,
            v.Number("liningAge")!.Value,
            v.Number("liningTemperature")!.Value,
            v.Number("suction")!.Value,
            v.Number("hoodTransfer")!.Value);
        return new ConverterUnit(
            id,
            v.Number("tappedMass")!.Value,
            vessel,
            MapSlag(v.Block("retainedSlag")!),
            v.Range("lanceHeight")!,
            box.Number("volume")!.Value,
            (int)box.Number("count")!.Value,
            v.Range("hotMetal")!);
    }

    private static MeasurementUncertainty MapMeasurement(BlockValue? v) => v is null ? Usual : new MeasurementUncertainty(
        v.Number("hotMetalMass", Usual.HotMetalMassPercent),
        v.Number("scrapMass", Usual.ScrapMassPercent),
        v.Number("additionMass", Usual.AdditionMassPercent),
        v.Number("hotMetalTemperature", Usual.HotMetalTemperatureK),
        v.Number("hotMetalCarbon", Usual.HotMetalCarbonPercent),
        v.Number("hotMetalSilicon", Usual.HotMetalSiliconPercent),
        v.Number("hotMetalManganese", Usual.HotMetalManganesePercent),
        v.Number("hotMetalPhosphorus", Usual.HotMetalPhosphorusPercent),
        v.Number("oxygen", Usual.OxygenPercent),
        v.Number("lanceHeight", Usual.LanceHeightM),
        v.Number("retainedSlag", Usual.RetainedSlagPercent),
        v.Number("inBlowTemperature", Usual.InBlowTemperatureK),
        v.Number("inBlowCarbon", Usual.InBlowCarbonPercent),
        v.Number("endTemperature", Usual.EndTemperatureK),
        v.Number("endCarbon", Usual.EndCarbonPercent),
        v.Number("steelCarbon", Usual.SteelCarbonPercent),
        v.Number("steelPhosphorus", Usual.SteelPhosphorusPercent),
        v.Number("steelManganese", Usual.SteelManganesePercent),
        v.Number("slagFeO", Usual.SlagFeOPercent));

    private static GasSupply Gas(BlockValue v) => new(v.Number("price")!.Value, v.Number("co2")!.Value);

    private static void CheckConverter(BlockValue v, Reading r, string field)
    {
        if (v.Number("tappedMass") is not { } mass || v.Number("innerDiameter") is not { } bore || v.Number("innerHeight") is not { } height)
        {
            return;
        }

        // Working volumes of 0.7 to 1.1 m3/t are usual (common practice, no source); the limits leave room around them.
        double specific = Math.PI / 4 * bore * bore * height / (mass / 1000);
        if (specific is < 0.45 or > 2)
        {
            r.Add(
                ProblemCode.OutOfRange, v.At("innerHeight"), field + ".innerHeight", v.Written("innerHeight"),
                $"Bore and height give {specific:0.00} m3 for each tonne tapped.", "0.45 to 2 m3/t", "check innerDiameter, innerHeight and tappedMass");
        }
    }

    private static Field Relative(string name, double usual, string what) => new(
        name, new QuantityShape(Kinds.RelativePercent, 0, 50, UnitText.Write(usual, Kinds.RelativePercent.Units[0])), what, Required: false);

    private static Field Kelvin(string name, double usual, string what) => new(
        name, new QuantityShape(Kinds.TemperatureDifference, 0, 100, UnitText.Write(usual, Kinds.TemperatureDifference.Units[0])), what, Required: false);

    private static Field Percent(string name, double usual, string what) => new(
        name, new QuantityShape(Kinds.MassPercent, 0, 10, UnitText.Write(usual, Kinds.MassPercent.Units[0])), what, Required: false);
}
