// SPDX-License-Identifier: Apache-2.0
using CsCheck;
using Heatwright.Converter.Blow.Jet;

namespace Heatwright.Converter.Tests.Blow.Jet;

public class JetTests
{
    private static readonly LanceNozzle Nozzle = new(0.040, 0.052);

    [Fact]
    public void MachOfAreaRatioAndOfPressureRatioInvertTheRelations() => Gen.Double[1.0001, 5].Sample(mach =>
    {
        Assert.Equal(mach, IsentropicFlow.MachFromAreaRatio(IsentropicFlow.AreaRatio(mach)), 1e-6);
        Assert.Equal(mach, IsentropicFlow.MachFromPressureRatio(1 / IsentropicFlow.PressureRatio(mach)), 1e-9);
    });

    [Fact]
    public void AreaRatioIsOneAtTheThroatAndLeastThere()
    {
        Assert.Equal(1, IsentropicFlow.AreaRatio(1), 1e-12);
        Assert.Equal(1, IsentropicFlow.MachFromAreaRatio(1), 1e-6);
        Assert.True(IsentropicFlow.AreaRatio(0.9) > 1 && IsentropicFlow.AreaRatio(1.1) > 1);
    }

    [Fact]
    public void TotalEnthalpyIsKeptAlongTheNozzle() => Gen.Double[0.1, 5].Sample(mach =>
    {
        // c_p T₀ = c_p T + ½u² with c_p = 3.5 R: ties velocity and temperature relations together.
        const double stagnationK = 300;
        double cp = 3.5 * IsentropicFlow.OxygenGasConstant;
        double u = IsentropicFlow.Velocity(mach, stagnationK);
        Assert.Equal(cp * stagnationK, (cp * stagnationK * IsentropicFlow.TemperatureRatio(mach)) + (0.5 * u * u), 1e-6 * cp * stagnationK);
    });

    [Fact]
    public void MassFlowEqualsDensityTimesVelocityTimesAreaAtTheExit()
    {
        const double p0 = 1e6, t0 = 300;
        double mach = Nozzle.ExitMach;
        double density = p0 * IsentropicFlow.PressureRatio(mach) / (IsentropicFlow.OxygenGasConstant * t0 * IsentropicFlow.TemperatureRatio(mach));
        double flow = density * IsentropicFlow.Velocity(mach, t0) * Math.PI / 4 * Nozzle.ExitDiameterM * Nozzle.ExitDiameterM;
        Assert.Equal(flow, IsentropicFlow.ChokedMassFlow(p0, t0, Nozzle.ThroatDiameterM), 1e-9 * flow);
    }

    [Fact]
    public void NozzleAtItsDesignPressureIsMatched()
    {
        NozzleState state = Nozzle.At(Nozzle.DesignPressurePa());
        Assert.Equal(NozzleExpansion.Matched, state.Expansion);
        Assert.Equal(101_325, state.ExitPressurePa, 1e-3);
        Assert.Equal(state.MassFlowKgPerS * state.ExitVelocityMPerS, state.MomentumN, 1e-6 * state.MomentumN);
    }

    [Theory]
    [InlineData(1.5, NozzleExpansion.Underexpanded)]
    [InlineData(1.05, NozzleExpansion.Matched)]
    [InlineData(0.7, NozzleExpansion.Overexpanded)]
    [InlineData(0.35, NozzleExpansion.Separated)]
    [InlineData(0.2, NozzleExpansion.Unchoked)]
    public void OffDesignPressureIsWarnedOf(double shareOfDesign, NozzleExpansion expected) =>
        Assert.Equal(expected, Nozzle.At(shareOfDesign * Nozzle.DesignPressurePa()).Expansion);

    [Fact]
    public void FlowAndPressureFormsOfTheNozzleAgree()
    {
        NozzleState byPressure = Nozzle.At(9e5, 290);
        NozzleState byFlow = Nozzle.AtFlow(byPressure.MassFlowKgPerS * IsentropicFlow.OxygenNm3PerKg, 290);
        Assert.Equal(byPressure.MomentumN, byFlow.MomentumN, 1e-9 * byPressure.MomentumN);
    }

    [Fact]
    public void DepthFallsWithLanceHeightAndRisesWithMomentum() => Gen.Select(Gen.Double[200, 3000], Gen.Double[1, 3]).Sample((momentumN, heightM) =>
    {
        double depth = Cavity.BanksChandrasekharaDepthM(momentumN, 7000, heightM);
        Assert.True(depth > 0);
        Assert.True(Cavity.BanksChandrasekharaDepthM(momentumN, 7000, heightM * 1.05) < depth);
        Assert.True(Cavity.BanksChandrasekharaDepthM(momentumN * 1.05, 7000, heightM) > depth);
        // What the depth solves for must come back out.
        double r = depth / heightM;
        Assert.Equal(momentumN, Math.PI / (2 * 56.25) * r * (1 + r) * (1 + r) * 7000 * 9.80665 * heightM * heightM * heightM, 1e-8 * momentumN);
    });

    [Fact]
    public void OtherDepthModelsFallWithLanceHeightToo() => Gen.Double[1, 3].Sample(heightM =>
    {
        Assert.True(KoriaLange(heightM * 1.05) < KoriaLange(heightM));
        Assert.True(Cavity.SegawaDepthM(4, 4, 0.04, heightM * 1.05) < Cavity.SegawaDepthM(4, 4, 0.04, heightM));

        static double KoriaLange(double h) => Cavity.KoriaLangeDepthM(Cavity.KoriaLangeMomentum(0.04, 1e6, 101_300, 14, 7000, h), h);
    });

    [Fact]
    public void KoriaLangeAndBanksChandrasekharaAgreeOnAConverterJetWithinTenPercent()
    {
        // Two independent correlations; both coefficient sets are from memory.
        double koria = Cavity.KoriaLangeDepthM(Cavity.KoriaLangeMomentum(0.04, 1e6, 101_300, 14, 7000, 1.8), 1.8);
        double banks = Cavity.BanksChandrasekharaDepthM(1450, 7000, 1.8);
        Assert.InRange(koria / banks, 0.9, 1.1);
    }

    [Fact]
    public void StagnationPressureOfTheJetCarriesTheBathColumnOfTheCavity()
    {
        double depth = Cavity.BanksChandrasekharaDepthM(1450, 7000, 1.8);
        Assert.Equal(7000 * 9.80665 * depth, FreeJet.AxialDynamicPressurePa(1450, 1.8 + depth), 1e-6 * 7000 * 9.80665 * depth);
    }

    [Fact]
    public void ParaboloidAreaIsADiskWhenFlatAndMatchesQuadratureWhenDeep()
    {
        Assert.Equal(Math.PI * 0.25, Cavity.ParaboloidAreaM2(0, 1), 1e-12);
        const double depth = 0.3, radius = 0.5;
        const int n = 20_000;
        double sum = 0;
        for (int i = 0; i < n; i++)
        {
            double r = (i + 0.5) * radius / n;
            double slope = 2 * depth * r / (radius * radius);
            sum += 2 * Math.PI * r * Math.Sqrt(1 + (slope * slope)) * radius / n;
        }

        Assert.Equal(sum, Cavity.ParaboloidAreaM2(depth, 2 * radius), 1e-8);
    }

    [Fact]
    public void BlowingNumberFromVelocityAndFromDynamicPressureAgree() => Gen.Select(Gen.Double[0.1, 3], Gen.Double[20, 300]).Sample((density, velocity) =>
        Assert.Equal(
            density * 0.44721 * 0.44721 * velocity * velocity / (2 * Math.Sqrt(1.7 * 9.80665 * 7000)),
            Droplets.FromDynamicPressure(0.5 * density * velocity * velocity, 1.7, 7000),
            1e-9));

    [Fact]
    public void DropletRateRisesWithTheBlowingNumber() =>
        Gen.Double[0.1, 28].Sample(n => Assert.True(Droplets.RateKgPerNm3(n * 1.05) > Droplets.RateKgPerNm3(n)));

    [Fact]
    public void NonsenseIsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new LanceNozzle(0.05, 0.04));
        Assert.Throws<ArgumentOutOfRangeException>(() => IsentropicFlow.MachFromAreaRatio(0.9));
        Assert.Throws<ArgumentOutOfRangeException>(() => IsentropicFlow.PressureRatio(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => Cavity.BanksChandrasekharaDepthM(1450, 7000, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => Cavity.SegawaDepthM(4, 4, 0.04, 1.8, 2.5));
        ArgumentOutOfRangeException error = Assert.Throws<ArgumentOutOfRangeException>(() => Droplets.RateKgPerNm3(50));
        Assert.Contains("blowingNumber is 50", error.Message, StringComparison.Ordinal);
    }
}
