// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Converter;
using Heatwright.Converter.Blow;
using Heatwright.Reports.Heats;
using Heatwright.Shop;
using BlowPoint = Heatwright.Converter.Blow.BlowPoint;

namespace Heatwright.Reports.Tests;

public sealed class CautionTests
{
    private static readonly DemoHeat Demo = DemoHeat.Of("heats/ordinary.yaml");
    private static readonly BlowPoint Quiet = new()
    {
        OxygenPercent = 50,
        FoamM = 1,
        FreeboardM = 6,
        GasCO = 85,
        FeO = 18,
        MgO = 9,
        MgOSaturation = 8,
        ScrapKg = [0, 0, 0, 0],
    };

    [Fact]
    public void Quiet_heat_has_none_about_the_heat() => Assert.Empty(Found(Quiet, Dry()));

    [Fact]
    public void Flags_of_the_model_are_passed_on() => Assert.Contains("Slopping likely", Assert.Single(Found(Quiet with { FoamM = 5.5 }, Dry())).Text, StringComparison.Ordinal);

    [Fact]
    public void Oxygen_beside_carbon_monoxide_is_named_with_its_moment()
    {
        // Mouth gas below ignition (609 °C for CO) that brings oxygen along: an ignition failure. The same gas hot burns out and is no mixture.
        BlowPoint cold = Quiet with { GasO2 = 15, GasCO = 40, GasCO2 = 20, GasN2 = 25, GasNm3PerS = 10, OxygenNm3PerS = 9, GasTemperatureK = 600, TemperatureK = 1600 };
        Caution caution = Assert.Single(Found(cold, Dry()));
        Assert.Contains("At 50 % oxygen the gas behind the hood holds", caution.Text, StringComparison.Ordinal);
        Assert.Contains("may ignite in the precipitator", caution.Text, StringComparison.Ordinal);
        Assert.Empty(Found(cold with { GasTemperatureK = 1900 }, Dry()));
    }

    [Fact]
    public void What_concerns_the_heat_comes_before_what_concerns_formulas() =>
        Assert.Equal([CautionKind.Heat, CautionKind.Range], Cautions.Of(Dry(), Demo.Result with { Trajectory = [Quiet with { FoamM = 6 }], End = Quiet }).Select(c => c.Kind).Distinct());

    [Fact]
    public void Moist_scrap_is_named()
    {
        HeatInput wet = Dry() with { Scrap = [new ScrapCharge(Demo.Input.Scrap[0].Material with { MoisturePercent = 1.2 }, 1000)] };
        Assert.Contains("1.2 %", Assert.Single(Found(Quiet, wet)).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Outlook_counts_members_inside()
    {
        Order order = Demo.Heat.Order;
        BlowPoint inside = Quiet with { TemperatureK = order.TemperatureAimK, C = order.CarbonAimPercent, P = 0.01, S = 0.01, Mn = 0.1, Cu = 0.02 };
        Outlook outlook = Outlook.Of(order, [inside, inside with { P = 0.09 }, inside with { TemperatureK = 1800 }, inside with { C = 0.4 }]);
        Assert.Equal(0.25, outlook.All);
        Assert.Equal(0.5, outlook.Window);
        Assert.Equal(0.75, outlook.Temperature);
        Assert.Equal(0.75, outlook.Carbon);
        Assert.Equal(0.75, outlook.Elements[Element.P]);
    }

    private static HeatInput Dry() => Demo.Input with { Scrap = [.. Demo.Input.Scrap.Select(s => s with { Material = s.Material with { MoisturePercent = 0 } })] };

    private static IReadOnlyList<Caution> Found(BlowPoint point, HeatInput heat) =>
        [.. Cautions.Of(heat, Demo.Result with { Trajectory = [point], End = point }).Where(c => c.Kind == CautionKind.Heat)];
}
