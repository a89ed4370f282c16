// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Converter;
using Heatwright.Shop.Files;
using Heatwright.Shop.Shapes;
using Heatwright.Shop.Units;

namespace Heatwright.Shop.Formats;

/// <summary>What an element of a metal may be, mass %.</summary>
internal sealed record ElementRange(Element Element, double Least, double Most, string Example, bool Required);

/// <summary>Analyses of metals and of solids, both in mass %.</summary>
internal static class AnalysisShapes
{
    /// <summary>The parts of a solid may add up to this little or this much: scatter of laboratories and what is not analysed.</summary>
    public const double LeastSolidSum = 97;

    /// <summary>Upper end, see <see cref="LeastSolidSum"/>.</summary>
    public const double MostSolidSum = 101;

    /// <summary>Elements of a metal analysis, in the order in which they are written.</summary>
    public static readonly Element[] MetalElements =
    [
        Element.C, Element.Si, Element.Mn, Element.P, Element.S, Element.Ti, Element.V, Element.Cr, Element.Ni, Element.Cu, Element.Mo,
        Element.Sn, Element.Al, Element.N, Element.H, Element.O,
    ];

    /// <summary>Iron-base metal; iron is the remainder. What is not written is zero.</summary>
    public static BlockShape Metal(string title, params ElementRange[] ranges)
    {
        Field Make(Element e)
        {
            ElementRange range = Array.Find(ranges, r => r.Element == e) ?? new ElementRange(e, 0, 30, "0.05 %", Required: false);
            return new Field(
                e.ToString(), new QuantityShape(Kinds.MassPercent, range.Least, range.Most, range.Example), $"{e} in the metal", range.Required,
                ProblemCode.MissingAnalysis);
        }

        return new BlockShape(title, [.. MetalElements.Select(Make)])
        {
            Across = (v, r, f) => CheckSum(v, r, f, 0, 100),
            Hints = new Dictionary<string, string> { ["Fe"] = "delete it: iron is the rest" },
        };
    }

    /// <summary>Flux, ore, coke, alloy or slag. The parts must come to about 100 % and are then scaled to 100.</summary>
    public static BlockShape Solid(string title) => new(
        title,
        [.. Enum.GetValues<Constituent>().Select(c => new Field(
            c.ToString(), new QuantityShape(Kinds.MassPercent, 0, 100, "52 %"), $"{c}", Required: false))])
    {
        Across = (v, r, f) => CheckSum(v, r, f, LeastSolidSum, MostSolidSum),
    };

    /// <summary>Limits by element.</summary>
    public static BlockShape Ranges(string title, double most = 30) => new(
        title,
        [.. MetalElements.Select(e => new Field(
            e.ToString(), new RangeShape(Kinds.MassPercent, 0, most, "max 0.035 %"), $"{e} in the steel", Required: false))]);

    public static MetalAnalysis ToMetal(BlockValue value) =>
        new(value.Numbers().ToDictionary(p => Enum.Parse<Element>(p.Name), p => p.Value));

    public static SolidAnalysis ToSolid(BlockValue value) =>
        SolidAnalysis.Normalised(value.Numbers().ToDictionary(p => Enum.Parse<Constituent>(p.Name), p => p.Value));

    public static IReadOnlyDictionary<Element, Limits> ToRanges(BlockValue? value) =>
        value?.Ranges().ToDictionary(p => Enum.Parse<Element>(p.Name), p => p.Value) ?? [];

    private static void CheckSum(BlockValue value, Reading reading, string field, double least, double most)
    {
        double sum = value.Numbers().Sum(p => p.Value);
        string written = UnitText.Number(Math.Round(sum, 4)) + " %";
        if (sum > most + 1e-9)
        {
            reading.Add(
                ProblemCode.MassPercentOver100, value.Node, field, written, $"The analysis adds up to {written}.", $"at most {most} %",
                "check the decimal points; parts are mass % of the whole");
        }
        else if (sum < least && value.Node.Entries.TrueForAll(e => value.Number(e.Key.Text) is not null))
        {
            reading.Add(
                value.Node.Entries.Count == 0 ? ProblemCode.MissingAnalysis : ProblemCode.AnalysisIncomplete, value.Node, field, written,
                $"The analysis adds up to {written} only.", $"{least} to {most} %", "add what is missing (moisture, Fe of an alloy, carbonate instead of the oxide)");
        }
    }
}
