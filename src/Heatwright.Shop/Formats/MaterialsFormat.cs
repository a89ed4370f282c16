// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Converter;
using Heatwright.Shop.Files;
using Heatwright.Shop.Shapes;
using Heatwright.Shop.Units;

namespace Heatwright.Shop.Formats;

/// <summary>materials.yaml.</summary>
internal static class MaterialsFormat
{
    private static readonly (string Word, AdditionRole Role)[] Roles =
    [
        ("flux", AdditionRole.Flux), ("coolant", AdditionRole.Coolant), ("heating agent", AdditionRole.HeatingAgent), ("alloy", AdditionRole.Alloy),
    ];

    private static readonly (string Word, FluxBehaviour Behaviour)[] Behaviours =
    [
        ("dissolves into slag", FluxBehaviour.DissolvesIntoSlag),
        ("melts into slag", FluxBehaviour.MeltsIntoSlag),
        ("dissolves into metal", FluxBehaviour.DissolvesIntoMetal),
    ];

    private static readonly BlockShape Scrap = new(
        "a scrap class",
        new("title", new TextShape(80, "Heavy melting scrap"), "name for people", Required: false),
        new("analysis", AnalysisShapes.Metal("analysis of the metal", new ElementRange(Element.C, 0, 5, "0.15 %", Required: true)), "analysis of the metal, mass %; iron is the rest", MissingCode: ProblemCode.MissingAnalysis),
        new("thickness", new QuantityShape(Kinds.Length, 0.002, 1, "80 mm"), "characteristic thickness of a piece, or of the lump that a bundle melts as"),
        new("rust", new QuantityShape(Kinds.MassPercent, 0, 40, "1 %"), "iron(III) oxide on it", Required: false),
        new("dirt", new QuantityShape(Kinds.MassPercent, 0, 30, "0.5 %"), "silica and alumina on it", Required: false),
        new("moisture", new QuantityShape(Kinds.MassPercent, 0, 5, "0.2 %"), "water on it", Required: false),
        new("bulkDensity", new QuantityShape(Kinds.Density, 150, 5000), "bulk density in the box"),
        new("chargeOrder", new NumberShape(1, 20, whole: true, "1"), "place in the box, 1 first", Required: false),
        new("price", new QuantityShape(Kinds.MassPrice, -0.5, 5), "price"),
        new("co2", new QuantityShape(Kinds.MassCo2, 0, 10, "20 kgCO2/t"), "CO2 before the converter"),
        new("stock", new QuantityShape(Kinds.Mass, 0, 900e6, "2400 t"), "on stock"))
    {
        Across = (v, r, f) =>
        {
            double surface = v.Number("rust", 0) + v.Number("dirt", 0) + v.Number("moisture", 0);
            if (surface > 30)
            {
                r.Add(
                    ProblemCode.OutOfRange, v.Node, f, UnitText.Number(surface) + " %", "Rust, dirt and moisture are more than 30 % of the scrap.", "at most 30 % together",
                    "check the three values");
            }
        },
    };

    private static readonly BlockShape Addition = new(
        "a flux, coolant, heating agent or alloy",
        new("title", new TextShape(80, "Burnt lime"), "name for people", Required: false),
        new("role", new WordShape([.. Roles.Select(x => x.Word)]), "what it is for"),
        new("behaviour", new WordShape([.. Behaviours.Select(x => x.Word)]), "what happens to it in the vessel"),
        new("analysis", AnalysisShapes.Solid("analysis"), "analysis, mass %; about 100 % together", MissingCode: ProblemCode.MissingAnalysis),
        new("size", new QuantityShape(Kinds.Length, 0.0002, 0.2, "30 mm"), "mean size of a lump"),
        new("finesLoss", new QuantityShape(Kinds.MassPercent, 0, 20, "1.5 %"), "share drawn off with the gas as it falls", Required: false),
        new("bulkDensity", new QuantityShape(Kinds.Density, 200, 8000), "bulk density"),
        new("price", new QuantityShape(Kinds.MassPrice, -0.5, 60), "price"),
        new("co2", new QuantityShape(Kinds.MassCo2, 0, 30, "1000 kgCO2/t"), "CO2 before the converter"),
        new("stock", new QuantityShape(Kinds.Mass, 0, 900e6, "600 t"), "on stock"));

    public static readonly FileFormat Format = new("materials", "Hot metal, scrap classes and additions with analysis, price, CO2 and stock", new BlockShape(
        "materials",
        [
            .. FileFormat.Head("materials"),
            new("hotMetal", new BlockShape(
                "price and CO2 of hot metal",
                new Field("price", new QuantityShape(Kinds.MassPrice, 0, 5), "price"),
                new Field("co2", new QuantityShape(Kinds.MassCo2, 0, 10), "CO2 before the converter")), "price and CO2 of hot metal"),
            new("scrap", new NamedShape(Scrap, 1, 60, "heavy"), "scrap classes by name"),
            new("additions", new NamedShape(Addition, 1, 100, "lime"), "fluxes, coolants, heating agents and alloys by name"),
        ]));

    /// <summary>Words of the roles, for practices.</summary>
    public static string[] RoleWords => [.. Roles.Select(r => r.Word)];

    public static AdditionRole Role(string word) => Roles.First(r => r.Word == word).Role;

    public static string Word(AdditionRole role) => Roles.First(r => r.Role == role).Word;

    public static Materials Map(BlockValue v) => new(
        v.Text("note"),
        Account(v.Block("hotMetal")!),
        v.Entries("scrap").Select((p, i) => MapScrap(p.Key, (BlockValue)p.Value, i + 1)).ToDictionary(s => s.Id),
        v.Entries("additions").Select(p => MapAddition(p.Key, (BlockValue)p.Value)).ToDictionary(a => a.Id));

    private static StockedScrap MapScrap(string id, BlockValue v, int place)
    {
        var material = new ScrapMaterial(
            id,
            AnalysisShapes.ToMetal(v.Block("analysis")!),
            v.Number("thickness")!.Value / 2,
            v.Number("rust", 0),
            v.Number("dirt", 0),
            v.Number("moisture", 0),
            v.Number("bulkDensity")!.Value);
        return new StockedScrap(
            id, v.Text("title") ?? id, material, Account(v), v.Number("stock")!.Value, (int)v.Number("chargeOrder", place));
    }

    private static StockedAddition MapAddition(string id, BlockValue v)
    {
        var material = new FluxMaterial(
            id,
            Behaviours.First(b => b.Word == v.Text("behaviour")).Behaviour,
            AnalysisShapes.ToSolid(v.Block("analysis")!),
            v.Number("size")!.Value,
            v.Number("finesLoss", 0));
        return new StockedAddition(
            id, v.Text("title") ?? id, Role(v.Text("role")!), material, v.Number("bulkDensity")!.Value, Account(v), v.Number("stock")!.Value);
    }

    private static Account Account(BlockValue v) => new(v.Number("price")!.Value, v.Number("co2")!.Value);
}
