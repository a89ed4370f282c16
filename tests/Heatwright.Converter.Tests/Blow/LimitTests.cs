// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Blow;

namespace Heatwright.Converter.Tests.Blow;

/// <summary>What the model does not take comes back as an error that names field, value and limit.</summary>
public sealed class LimitTests
{
    private static readonly HeatInput Heat = TestHeats.Ordinary();

    public static TheoryData<string, string> Bad => new()
    {
        { "cold", "hot metal temperature" },
        { "nan", "hot metal mass" },
        { "lance", "lance height" },
        { "order", "lance height" },
        { "no flow", "oxygen flow" },
        { "no elements", "bottom elements" },
        { "purity", "oxygen purity" },
        { "classes", "scrap classes" },
        { "additions", "different additions" },
        { "negative addition", "addition of burnt lime" },
        { "vessel", "inner diameter" },
    };

    [Theory]
    [MemberData(nameof(Bad))]
    public void Bad_input_names_its_field(string what, string field)
    {
        BlowProgramme p = Heat.Programme;
        HeatInput bad = what switch
        {
            "cold" => Heat with { HotMetal = Heat.HotMetal with { TemperatureK = 1300 } },
            "nan" => Heat with { HotMetal = Heat.HotMetal with { MassKg = double.NaN } },
            "lance" => Heat with { Programme = p with { LanceHeightM = [new(0, 12)] } },
            "order" => Heat with { Programme = p with { LanceHeightM = [new(50, 2), new(10, 1.8)] } },
            "no flow" => Heat with { Programme = p with { OxygenFlowNm3PerS = [] } },
            "no elements" => Heat with { Vessel = Heat.Vessel with { BottomElements = 0 } },
            "purity" => Heat with { Programme = p with { OxygenPurity = 0.5 } },
            "classes" => Heat with { Scrap = [.. Enumerable.Range(0, 7).Select(i => new ScrapCharge(TestHeats.Scrap($"class {i}", 0.01), 1000))] },
            "additions" => Heat with { Programme = p with { Additions = [.. Enumerable.Range(0, 9).Select(i => new Addition(i, TestHeats.Lime with { Name = $"lime {i}" }, 100))] } },
            "negative addition" => Heat with { Programme = p with { Additions = [new(1, TestHeats.Lime, -5)] } },
            _ => Heat with { Vessel = Heat.Vessel with { InnerDiameterM = 0 } },
        };
        ArgumentException error = Assert.ThrowsAny<ArgumentException>(() => BlowModel.Run(bad));
        Assert.Contains(field, error.Message, StringComparison.Ordinal);
    }
}
