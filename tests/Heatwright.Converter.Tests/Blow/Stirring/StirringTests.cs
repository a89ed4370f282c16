// SPDX-License-Identifier: Apache-2.0
using CsCheck;
using Heatwright.Converter.Blow.Stirring;

namespace Heatwright.Converter.Tests.Blow.Stirring;

public class StirringTests
{
    [Fact]
    public void TextbookFormAgreesWithTheWorkOfBuoyancy() => Gen.Select(Gen.Double[0.001, 0.5], Gen.Double[0.5, 4]).Sample((flow, depthM) =>
    {
        double derived = StirringPower.WattPerTonne(flow, 1873, 160, depthM, metalDensityKgPerM3: 6980);
        Assert.Equal(derived, StirringPower.WattPerTonneTextbook(flow, 1873, 160, depthM), 1e-3 * derived);
    });

    [Fact]
    public void PowerEqualsPressureVolumeWorkIntegratedOverTheDepth()
    {
        // ∫ Q(z) dp over the bath at constant temperature, summed in thin layers.
        const double flow = 0.1, temperatureK = 1873, depthM = 1.6, surface = 101_325;
        const int layers = 20_000;
        double work = 0;
        for (int i = 0; i < layers; i++)
        {
            double pressure = surface + (7000 * 9.80665 * (i + 0.5) * depthM / layers);
            work += flow / 22.413970e-3 * 8.314462618 * temperatureK / pressure * 7000 * 9.80665 * depthM / layers;
        }

        Assert.Equal(work / 160, StirringPower.WattPerTonne(flow, temperatureK, 160, depthM), 1e-6 * work / 160);
    }

    [Fact]
    public void MoreGasMixesFaster() => Gen.Double[5, 500].Sample(power =>
    {
        Assert.True(MixingTime.Nakanishi1975(power * 1.1) < MixingTime.Nakanishi1975(power));
        Assert.True(MixingTime.MazumdarGuthrie1986(power * 1.1e-3, 3, 1.6) < MixingTime.MazumdarGuthrie1986(power * 1e-3, 3, 1.6));
        Assert.True(MixingTime.DualPlug2005(power * 1.1e-3, 3, 1.6) < MixingTime.DualPlug2005(power * 1e-3, 3, 1.6));
    });

    [Fact]
    public void LowerPressureOverTheBathGivesMorePower() =>
        Assert.True(StirringPower.WattPerTonne(0.01, 1873, 160, 3, surfacePa: 1000) > StirringPower.WattPerTonne(0.01, 1873, 160, 3));

    [Fact]
    public void AnAtmosphereOfMetalOverTheHalfDepthHalvesTheHotFlow()
    {
        const double depthM = 2 * 101_325 / (7000 * 9.80665);
        Assert.Equal(0.5 * 0.1 * 1873.15 / 273.15, StirringPower.FlowAtHalfDepthM3PerS(0.1, 1873.15, depthM), 1e-9);
    }

    [Fact]
    public void NonsenseIsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => StirringPower.WattPerTonne(-1, 1873, 160, 1.5));
        Assert.Throws<ArgumentOutOfRangeException>(() => StirringPower.WattPerTonne(0.1, 300, 160, 1.5));
        Assert.Throws<ArgumentOutOfRangeException>(() => MixingTime.Nakanishi1975(0));
    }
}
