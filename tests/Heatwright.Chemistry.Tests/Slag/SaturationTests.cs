// SPDX-License-Identifier: Apache-2.0
using CsCheck;
using Heatwright.Chemistry.Slag;

namespace Heatwright.Chemistry.Tests.Slag;

public class SaturationTests
{
    /// <summary>A dry slag of the middle of the blow.</summary>
    private static readonly SlagComposition Dry = Slags.Of(49, 27, 6, 8, 5, 3, 2);

    [Theory]
    [InlineData(3.0, 8, 10)]
    [InlineData(1.5, 15, 20)]
    public void FittedMagnesiaSaturationMeetsTheRememberedMagnitudes(double basicity, double least, double most) =>
        // 1 600 °C, FeO 20 %; magnitudes from memory, so this shows the fit, not its truth.
        Assert.InRange(MgOSaturation.FittedMassPercent(basicity, 20, 1873.15), least, most);

    [Fact]
    public void MagnesiaSaturationFallsWithIronOxideAndBasicityAndRisesWithTemperature()
    {
        // Jung, Min and Rhee, ISIJ Int. 47 (2007) 1718, abstract: falls with FetO and with C/S.
        Gen.Select(Gen.Double[1.1, 3.8], Gen.Double[9, 33], Gen.Double[1780, 1960]).Sample((basicity, fetO, temperatureK) =>
        {
            double here = MgOSaturation.FittedMassPercent(basicity, fetO, temperatureK);
            Assert.True(MgOSaturation.FittedMassPercent(basicity + 0.1, fetO, temperatureK) < here);
            Assert.True(MgOSaturation.FittedMassPercent(basicity, fetO + 1, temperatureK) < here);
            Assert.True(MgOSaturation.FittedMassPercent(basicity, fetO, temperatureK + 10) > here);
        });
    }

    [Fact]
    public void MagnesiaOutsideTheFitIsHeldAtItsEndAndNoted()
    {
        MgOSaturationResult acid = MgOSaturation.Fitted(Slags.Of(25, 40, 5, 30), 1873.15);
        Assert.Contains(acid.OutsideRange, n => n.Field == "CaO/SiO2");
        Assert.Equal(MgOSaturation.FittedMassPercent(1, 30, 1873.15), acid.MassPercent, 1e-9);
    }

    [Fact]
    public void PublishedCalciumMagnesiumEnergyNeverSaturatesAConverterSlagAndTheRefittedOneDoes()
    {
        Assert.Null(MgOSaturation.AsPublished(Slags.Converter, 1873.15));
        double refitted = Assert.NotNull(MgOSaturation.Refitted(Slags.Converter, 1873.15));
        Assert.Equal(1, MgOSaturation.RefittedActivity(Slags.Converter.With(Constituent.MgO, refitted), 1873.15), 1e-6);
        Assert.InRange(refitted / MgOSaturation.Fitted(Slags.Converter, 1873.15).MassPercent, 0.7, 1.4);
    }

    [Fact]
    public void SaturationIndicesAreOneOnTheRememberedBoundaryWithinAFactorOfTwo()
    {
        // The level is fitted to these points; that their scatter is below a factor of two is the finding.
        Assert.All(LimeSaturation.Boundary, p => Assert.InRange(LimeSaturation.Index(p.Solid, Slags.Of(p.CaO, p.SiO2, feO: p.FeO), 1873.15), 0.6, 1.7));
        foreach (LimeSolid solid in Enum.GetValues<LimeSolid>())
        {
            double mean = Math.Exp(LimeSaturation.Boundary.Where(p => p.Solid == solid)
                .Average(p => Math.Log(LimeSaturation.Index(solid, Slags.Of(p.CaO, p.SiO2, feO: p.FeO), 1873.15))));
            Assert.Equal(1, mean, 0.05);
        }
    }

    [Fact]
    public void IronOxideDissolvesDicalciumSilicateAndHeatDissolvesBoth()
    {
        Assert.True(LimeSaturation.Index(LimeSolid.DicalciumSilicate, Dry, 1873.15) > LimeSaturation.Index(LimeSolid.DicalciumSilicate, Dry.With(Constituent.FeO, 25), 1873.15));
        Slags.Random.Sample(slag =>
        {
            foreach (LimeSolid solid in Enum.GetValues<LimeSolid>())
            {
                Assert.True(LimeSaturation.Index(solid, slag, 1900) < LimeSaturation.Index(solid, slag, 1800));
            }
        });
    }

    [Fact]
    public void LimeSaturationIsFoundWhereTheIndexIsOne() => Slags.Random.Sample(slag =>
    {
        if (LimeSaturation.CaOMassPercent(LimeSolid.Lime, slag, 1873.15) is { } caO)
        {
            Assert.Equal(1, LimeSaturation.Index(LimeSolid.Lime, slag.With(Constituent.CaO, caO), 1873.15), 1e-6);
            Assert.InRange(caO, 30, 75);
        }
    });

    [Fact]
    public void DryMiddleSlagHoldsSilicateAndAFluidEndSlagHoldsNone()
    {
        SlagSolidsResult dry = SlagSolids.Of(Dry, 1773);
        Assert.True(dry.DicalciumSilicate > 0.02, $"{dry.DicalciumSilicate}");
        Assert.Equal(0, SlagSolids.Of(Slags.Converter, 1923.15).MassFraction, 1e-9);
    }

    [Fact]
    public void SolidsAndLiquidAddUpToTheSlag() => Gen.Select(Slags.Random, Gen.Double[1700, 1950]).Sample((slag, temperatureK) =>
    {
        SlagSolidsResult s = SlagSolids.Of(slag, temperatureK);
        Assert.InRange(s.MassFraction, 0, 1);
        double liquid = 1 - s.MassFraction;
        double silica = 60.083 / (60.083 + (2 * 56.077));
        Assert.Equal(slag[Constituent.CaO], (100 * (s.Lime + ((1 - silica) * s.DicalciumSilicate))) + (liquid * s.Liquid[Constituent.CaO]), 1e-2);
        Assert.Equal(slag[Constituent.SiO2], (100 * silica * s.DicalciumSilicate) + (liquid * s.Liquid[Constituent.SiO2]), 1e-2);
        Assert.Equal(slag[Constituent.MgO], (100 * s.Magnesia) + (liquid * s.Liquid[Constituent.MgO]), 1e-6);
        Assert.Equal(slag[Constituent.FeO], liquid * s.Liquid[Constituent.FeO], 1e-6);
    });

    [Fact]
    public void SlagIsFreeOfSolidsAboveItsLiquidusAndNotBelow() => Slags.Random.Sample(slag =>
    {
        if (SlagSolids.LiquidusK(slag) is { } liquidusK and > 1600 and < 1960)
        {
            Assert.Equal(0, SlagSolids.Of(slag, liquidusK + 1).MassFraction, 1e-9);
            Assert.True(SlagSolids.Of(slag, liquidusK - 10).MassFraction > 0);
        }
    });
}
