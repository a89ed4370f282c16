// SPDX-License-Identifier: Apache-2.0
using Heatwright.Bench.Referee;
using Heatwright.Converter;
using Heatwright.Converter.Blow;
using Heatwright.Shop;

namespace Heatwright.Bench.Tests;

/// <summary>Heun's fixed step against CVODE (SUNDIALS 6.4, relative tolerance 1e-6) on the same equations, for every demonstration heat.</summary>
public sealed class BlowRefereeTests
{
    public static TheoryData<string> Charged =>
        [.. ShopLoader.DemonstrationHeats.Where(n => ShopLoader.LoadDemonstrationHeat(n).ValueOrThrow().Charge is not null)];

    [Theory]
    [MemberData(nameof(Charged))]
    public void Carbon_temperature_and_iron_oxide_at_the_end_are_within_1e_3_of_the_referee(string name)
    {
        Assert.SkipUnless(Cvode.IsAvailable, "libsundials_cvode.so.6 is not installed");
        HeatInput heat = HeatBuilder.Build(ShopLoader.DemonstrationWorks, ShopLoader.LoadDemonstrationHeat(name).ValueOrThrow());
        var system = new BlowSystem(heat, ModelParameters.Default, 0.5);
        double[] absolute = [.. Enumerable.Range(0, system.Start.Length).Select(i => i >= BlowState.ScrapHeat ? 1.0 : 1e-3)];
        CvodeResult result = Cvode.Integrate(system.Derivative, system.Start, 0, [system.EndS], system.Edges, new CvodeOptions(1e-6, absolute));
        Assert.Equal(CvodeStatus.Completed, result.Status);
        BlowPoint reference = system.Read(result.States[0]);
        BlowPoint ours = BlowModel.Run(heat, ModelParameters.Default).End;
        Assert.Equal(1, ours.TemperatureK / reference.TemperatureK, 1e-3);
        Assert.Equal(1, ours.C / reference.C, 1e-3);
        Assert.Equal(1, ours.FeO / reference.FeO, 1e-3);
    }
}
