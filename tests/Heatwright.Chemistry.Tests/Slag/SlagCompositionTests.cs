// SPDX-License-Identifier: Apache-2.0
using CsCheck;
using Heatwright.Chemistry.Slag;

namespace Heatwright.Chemistry.Tests.Slag;

public class SlagCompositionTests
{
    [Fact]
    public void MassAndMoleFormsAreInverse() => Slags.Random.Sample(slag =>
    {
        var moles = new Dictionary<Constituent, double>();
        for (int i = 0; i < SlagComposition.Count; i++)
        {
            moles[(Constituent)i] = slag.MoleFraction((Constituent)i);
        }

        SlagComposition back = SlagComposition.FromMoles(moles);
        double sum = 0;
        for (int i = 0; i < SlagComposition.Count; i++)
        {
            Assert.Equal(slag[(Constituent)i], back[(Constituent)i], 1e-10);
            sum += slag[(Constituent)i];
        }

        Assert.Equal(100, sum, 1e-9);
        Assert.Equal(1, slag.CationFractions.ToArray().Sum(), 1e-12);
    });

    [Fact]
    public void WollastoniteHasHalfCalciumAndHalfSilicon()
    {
        SlagComposition slag = SlagComposition.FromMoles(new Dictionary<Constituent, double> { [Constituent.CaO] = 1, [Constituent.SiO2] = 1 });
        Assert.Equal(0.5, slag.CationFraction(SlagCation.Ca), 1e-12);
        Assert.Equal(48.27, slag[Constituent.CaO], 0.01);
    }

    [Fact]
    public void IronIsCountedFromBothOxides()
    {
        var slag = new SlagComposition(new Dictionary<Constituent, double> { [Constituent.FeO] = 20, [Constituent.Fe2O3] = 5, [Constituent.CaO] = 50, [Constituent.SiO2] = 25 });
        Assert.Equal((20 * 0.77731) + (5 * 0.69943), slag.TotalIron, 1e-3);
        Assert.Equal(20 + (5 * 0.69943 / 0.77731), slag.TotalIronAsFeO, 1e-3);
        Assert.Equal(2, slag.Basicity, 1e-12);
    }

    [Fact]
    public void WithKeepsTheProportionsOfTheOthers()
    {
        SlagComposition changed = Slags.Converter.With(Constituent.FeO, 30);
        Assert.Equal(30, changed[Constituent.FeO], 1e-10);
        Assert.Equal(Slags.Converter.Basicity, changed.Basicity, 1e-10);
    }

    [Fact]
    public void VanadiumAndFluorideLowerTheCoverage()
    {
        Assert.Equal(1, Slags.Converter.CationCoverage, 1e-12);
        Assert.True(Slags.Converter.With(Constituent.V2O3, 8).CationCoverage < 0.97);
    }

    [Theory]
    [InlineData(80)]
    [InlineData(110)]
    [InlineData(double.NaN)]
    public void AnAnalysisThatDoesNotSumIsRefused(double caO) =>
        Assert.Throws<ChemistryRangeException>(() => new SlagComposition(new Dictionary<Constituent, double> { [Constituent.CaO] = caO }));

    [Fact]
    public void NegativeAndForeignConstituentsAreRefused()
    {
        Assert.Throws<ChemistryRangeException>(() => new SlagComposition(new Dictionary<Constituent, double> { [Constituent.CaO] = 101, [Constituent.SiO2] = -1 }));
        ArgumentException error = Assert.Throws<ArgumentException>(() => new SlagComposition(new Dictionary<Constituent, double> { [Constituent.CaCO3] = 100 }));
        Assert.Contains("CaCO3", error.Message, StringComparison.Ordinal);
        Assert.Throws<ChemistryRangeException>(() => SlagComposition.FromMasses(new Dictionary<Constituent, double>()));
    }
}
