// SPDX-License-Identifier: Apache-2.0
using System.Text.Json.Nodes;
using Heatwright.Shop.Files;
using Heatwright.Shop.Units;

namespace Heatwright.Shop.Shapes;

/// <summary>A point of the blow: a share of the planned oxygen, or an event.</summary>
internal sealed class PointShape(params BlowEvent[] events) : Shape
{
    private static readonly Dictionary<BlowEvent, string> Words = new Dictionary<BlowEvent, string>
    {
        [BlowEvent.BeforeBlow] = "before blow",
        [BlowEvent.Ignition] = "ignition",
        [BlowEvent.Measurement] = "measurement",
        [BlowEvent.EndOfBlow] = "end of blow",
    };

    private static readonly QuantityShape Percent = new(Kinds.Share, 0, 100, "12 %");

    public override string Example => "12 %";

    public override string Describe => "% of the planned oxygen (0 to 100 %), " + string.Join(", ", events.Select(e => $"`{Words[e]}`"));

    public override object? Read(Node node, Reading reading, string field)
    {
        ScalarNode? scalar = Scalar(node, reading, field);
        if (scalar is null)
        {
            return null;
        }

        string text = scalar.Text.Trim();
        foreach (BlowEvent e in events)
        {
            if (text == Words[e])
            {
                return new PracticePoint(e, double.NaN);
            }
        }

        if (text.Length > 0 && char.IsLetter(text[0]) && !UnitText.TrySplit(text, out _, out _))
        {
            string[] words = [.. events.Select(e => Words[e])];
            string? near = Nearest.Of(text, words);
            reading.Add(
                ProblemCode.UnknownWord, node, field, text, $"{Last(field)} is no point of the blow that can stand here.", Describe.Replace("`", "", StringComparison.Ordinal),
                near is null ? "write % of the planned oxygen, for example 12 %" : $"write {near}");
            return null;
        }

        return Percent.ReadText(text, scalar, reading, field) is { } q ? new PracticePoint(BlowEvent.Oxygen, q.Value) : null;
    }

    public override JsonObject ToSchema() => new()
    {
        ["type"] = "string",
        ["description"] = Describe,
        ["pattern"] = $@"^\s*({string.Join('|', events.Select(e => Words[e]))}|{QuantityShape.NumberPattern}\s*%)\s*$",
    };

    /// <summary>The point as written in a file.</summary>
    public static string Write(PracticePoint point) =>
        point.Event == BlowEvent.Oxygen ? UnitText.Write(point.Percent, Kinds.Share.Units[0]) : Words[point.Event];
}
