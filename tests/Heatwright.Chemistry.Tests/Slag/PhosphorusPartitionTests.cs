// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using CsCheck;
using Heatwright.Chemistry.Slag;
using Heatwright.Tests;

namespace Heatwright.Chemistry.Tests.Slag;

/// <summary>
/// There are no measured partition points here: no paper's table could be opened, and none is remembered well enough. What is tested is
/// that the
/// forms are as printed, that they move as the literature says, and how far they lie from each other.
/// </summary>
public class PhosphorusPartitionTests
{
    private static readonly PhosphorusModel[] All = Enum.GetValues<PhosphorusModel>();

    private static readonly IReadOnlyList<IReadOnlyDictionary<string, string>> Grid = CheckRows.ReadTable("phosphorus_grid.csv");

    public static TheoryData<PhosphorusModel> Models => [.. All];

    public static TheoryData<string> GridIds => [.. Grid.Select(r => r["id"])];

    [Theory]
    [MemberData(nameof(GridIds))]
    public void ImplementationGivesTheComputedGrid(string id)
    {
        IReadOnlyDictionary<string, string> row = Grid.Single(r => r["id"] == id);
        (SlagComposition slag, double temperatureK) = Read(row);
        foreach (PhosphorusModel model in new[]
                 {
                     PhosphorusModel.Healy1970, PhosphorusModel.SuitoInoue1984, PhosphorusModel.Tetsu1986, PhosphorusModel.Assis2015, PhosphorusModel.IdeFruehan2000,
                 })
        {
            double expected = Number(row, model.ToString());
            // The grid prints one decimal and rounds T.Fe and the molar masses.
            Assert.Equal(expected, PhosphorusPartition.Of(model, slag, temperatureK).Partition, 0.06 + (5e-4 * expected));
        }
    }

    [Theory]
    [MemberData(nameof(Models))]
    public void PartitionRisesWithIronOxideAtLowIron(PhosphorusModel model) => Gen.Select(Slags.Random, Gen.Double[1823, 1923]).Sample((slag, temperatureK) =>
    {
        // Basu, Lahiri and Seetharaman, Metall. Mater. Trans. B 38 (2007) 357–366: L_P rises with FeO up to 13–14 %.
        SlagComposition low = slag.With(Constituent.FeO, 8).With(Constituent.Fe2O3, 0);
        Assert.True(PhosphorusPartition.Of(model, low.With(Constituent.FeO, 11), temperatureK).LogPartition > PhosphorusPartition.Of(model, low, temperatureK).LogPartition);
    });

    [Theory]
    [MemberData(nameof(Models))]
    public void PartitionRisesWhenLimeReplacesSilica(PhosphorusModel model) => Gen.Select(Slags.Random, Gen.Double[1823, 1923]).Sample((slag, temperatureK) =>
    {
        var parts = Enumerable.Range(0, SlagComposition.Count).ToDictionary(i => (Constituent)i, i => slag[(Constituent)i]);
        parts[Constituent.CaO] += 2;
        parts[Constituent.SiO2] -= 2;
        Assert.True(
            PhosphorusPartition.Of(model, new SlagComposition(parts), temperatureK).LogPartition > PhosphorusPartition.Of(model, slag, temperatureK).LogPartition);
    });

    [Theory]
    [MemberData(nameof(Models))]
    public void PartitionFallsWithTemperature(PhosphorusModel model) => Gen.Select(Slags.Random, Gen.Double[1823, 1923]).Sample((slag, temperatureK) =>
        Assert.True(PhosphorusPartition.Of(model, slag, temperatureK + 20).LogPartition < PhosphorusPartition.Of(model, slag, temperatureK).LogPartition));

    [Theory]
    [InlineData(PhosphorusModel.SuitoInoue1984)]
    [InlineData(PhosphorusModel.BanYa1993)]
    public void PartitionFallsWithTitania(PhosphorusModel model)
    {
        // Drain and others, ISIJ Int. 59 (2019) 839–847, abstract: L_P falls as TiO2 rises from 0 to 18 % at 1 650 °C.
        double last = double.MaxValue;
        foreach (double titania in new double[] { 0, 6, 12, 18 })
        {
            double now = PhosphorusPartition.Of(model, Slags.Converter.With(Constituent.TiO2, titania), 1923.15).Partition;
            Assert.True(now < last);
            last = now;
        }
    }

    [Fact]
    public void PartitionsOverFiveHundredOccurWhereTheyWereSeen()
    {
        // Assis and others, Metall. Mater. Trans. B 46 (2015) 2255–2263, abstract: above 500 for CaO/SiO2 over 2.5 and FeO 20–25 %.
        SlagComposition slag = Slags.Of(45.5, 15.2, 8, 24, 4, 1.5, 1.8);
        Assert.True(PhosphorusPartition.Of(PhosphorusModel.Assis2015, slag, 1823.15).Partition > 500);
    }

    [Fact]
    public void BanYaActivitiesMeetSuitoAndInoueWithinAFifthOfADecadeRms()
    {
        // Independent of each other: Ban-ya's activities, the oxygen of Taylor and Chipman and Turkdogan's P2O5 equilibrium against a direct regression of
        // measured partitions (abstract read). 0.13 was found; it supports the remembered energies of Fe, Ca, Si and P.
        Assert.InRange(Rms(PhosphorusModel.BanYa1993, PhosphorusModel.SuitoInoue1984), 0, 0.2);
    }

    [Fact]
    public void SpreadOfTheCorrelationsIsAsTheHandbookSays()
    {
        // RMS of log L_P against Suito and Inoue's eq. iii on the 24-slag grid; docs/handbook/20-slag.md holds the whole matrix.
        Assert.Equal(0.21, Rms(PhosphorusModel.Healy1970, PhosphorusModel.SuitoInoue1984), 0.006);
        Assert.Equal(0.10, Rms(PhosphorusModel.SuitoInoue1984Linear, PhosphorusModel.SuitoInoue1984), 0.006);
        Assert.Equal(0.33, Rms(PhosphorusModel.SuitoInoue1984Logarithmic, PhosphorusModel.SuitoInoue1984), 0.006);
        Assert.Equal(0.32, Rms(PhosphorusModel.Tetsu1986, PhosphorusModel.SuitoInoue1984), 0.006);
        Assert.Equal(0.09, Rms(PhosphorusModel.IdeFruehan2000, PhosphorusModel.SuitoInoue1984), 0.006);
        Assert.Equal(0.08, Rms(PhosphorusModel.Assis2015, PhosphorusModel.SuitoInoue1984), 0.006);
        Assert.Equal(0.14, Rms(PhosphorusModel.Turkdogan1996, PhosphorusModel.SuitoInoue1984), 0.006);
        Assert.Equal(0.13, Rms(PhosphorusModel.BanYa1993, PhosphorusModel.SuitoInoue1984), 0.006);
    }

    [Fact]
    public void KpAndLpFormsAreTiedByTheDefinitionOfBoth()
    {
        // k_P = (P2O5)/([P]²(FetO)⁵): put the metal of L_P back in.
        SlagComposition slag = Slags.Converter;
        double lp = PhosphorusPartition.Of(PhosphorusModel.SuitoInoue1984Linear, slag, 1873.15).Partition;
        double metal = slag.Phosphorus / lp;
        double kp = slag[Constituent.P2O5] / (metal * metal * Math.Pow(slag.TotalIronAsFeO, 5));
        Assert.Equal(
            PhosphorusCorrelations.LogKpSuitoInoue1984Linear(1873.15, slag[Constituent.CaO], slag[Constituent.MgO], slag[Constituent.P2O5], slag[Constituent.MnO]),
            Math.Log10(kp),
            1e-9);
    }

    [Fact]
    public void BanYaPartitionSolvesTheWrittenEquilibrium()
    {
        const double temperatureK = 1873.15, oxygen = 0.07;
        SlagComposition slag = Slags.Converter;
        double metal = slag.Phosphorus / PhosphorusPartition.Of(PhosphorusModel.BanYa1993, slag, temperatureK, oxygen).Partition;
        double k = new SlagActivities(slag, temperatureK).P2O5 / (metal * metal * Math.Pow(oxygen, 5));
        Assert.Equal(PhosphorusCorrelations.LogKP2O5(temperatureK), Math.Log10(k), 1e-9);
    }

    [Fact]
    public void ValuesOutsideAFitAreNotedAndNonsenseIsRefused()
    {
        Assert.Empty(PhosphorusPartition.Of(PhosphorusModel.SuitoInoue1984, Slags.Converter, 1873.15).OutsideRange);
        PhosphorusPartitionResult hot = PhosphorusPartition.Of(PhosphorusModel.SuitoInoue1984, Slags.Converter, 1990);
        Assert.Contains(hot.OutsideRange, n => n.Field == "temperature");
        PhosphorusPartitionResult dry = PhosphorusPartition.Of(PhosphorusModel.SuitoInoue1984, Slags.Converter.With(Constituent.MgO, 1), 1873.15);
        Assert.Contains(dry.OutsideRange, n => n.Field == "MgO");
        Assert.Contains(PhosphorusPartition.Of(PhosphorusModel.Healy1970, Slags.Of(20, 40, 10, 30), 1873.15).OutsideRange, n => n.Field == "CaO");
        Assert.Throws<ChemistryRangeException>(() => PhosphorusPartition.Of(PhosphorusModel.Healy1970, Slags.Of(60, 40), 1873.15));
        Assert.Throws<ChemistryRangeException>(() => PhosphorusPartition.Of(PhosphorusModel.Healy1970, Slags.Converter, 500));
        Assert.Throws<ChemistryRangeException>(() => PhosphorusPartition.Of(PhosphorusModel.SuitoInoue1984Linear, Slags.Of(50, 25, 5, 20), 1873.15));
        Assert.Throws<ChemistryRangeException>(() => PhosphorusPartition.Of(PhosphorusModel.Turkdogan1996, Slags.Converter, 1873.15, 3));
    }

    private static double Rms(PhosphorusModel a, PhosphorusModel b) => Math.Sqrt(Grid.Average(row =>
    {
        (SlagComposition slag, double temperatureK) = Read(row);
        double difference = PhosphorusPartition.Of(a, slag, temperatureK).LogPartition - PhosphorusPartition.Of(b, slag, temperatureK).LogPartition;
        return difference * difference;
    }));

    private static (SlagComposition Slag, double TemperatureK) Read(IReadOnlyDictionary<string, string> r) =>
        (Slags.Of(Number(r, "CaO"), Number(r, "SiO2"), Number(r, "MgO"), Number(r, "FetO"), Number(r, "MnO"), Number(r, "P2O5"), Number(r, "Al2O3")), Number(r, "T_K"));

    private static double Number(IReadOnlyDictionary<string, string> row, string column) => double.Parse(row[column], CultureInfo.InvariantCulture);
}
