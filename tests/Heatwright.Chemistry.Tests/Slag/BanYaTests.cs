// SPDX-License-Identifier: Apache-2.0
using CsCheck;
using Heatwright.Chemistry.Slag;

namespace Heatwright.Chemistry.Tests.Slag;

public class BanYaTests
{
    private static readonly SlagCation[] Cations = Enum.GetValues<SlagCation>();

    private static readonly Gen<double[]> Fractions = Gen.Double[0.001, 1].Array[BanYa.CationCount].Select(x =>
    {
        double sum = x.Sum();
        return x.Select(v => v / sum).ToArray();
    });

    [Fact]
    public void InteractionTableIsSymmetricWithZeroDiagonal()
    {
        foreach (SlagCation i in Cations)
        {
            Assert.Equal(0, BanYa.Interaction(i, i));
            foreach (SlagCation j in Cations)
            {
                Assert.Equal(BanYa.Interaction(i, j), BanYa.Interaction(j, i));
                Assert.Equal(BanYa.Interaction(i, j), BanYa.InteractionRowMajor[((int)i * BanYa.CationCount) + (int)j]);
            }
        }
    }

    [Fact]
    public void EveryPairStandsOnceInTheTableOrInTheListOfMissingPairs()
    {
        List<(SlagCation Low, SlagCation High)> pairs =
        [
            .. BanYaTable.Interactions.Select(p => (p.First, p.Second)).Concat(BanYaTable.Missing)
                .Select(p => p.First < p.Second ? (p.First, p.Second) : (p.Second, p.First)),
        ];
        Assert.Equal(pairs.Count, pairs.Distinct().Count());
        Assert.Equal(BanYa.CationCount * (BanYa.CationCount - 1) / 2, pairs.Count);
        Assert.All(pairs, p => Assert.NotEqual(p.Low, p.High));
    }

    [Fact]
    public void ActivitiesObeyGibbsDuhem() => Gen.Select(Fractions, Fractions, Gen.Double[1500, 2000]).Sample((x, direction, temperatureK) =>
    {
        // Σ Xᵢ d ln γᵢ = 0 along any direction that keeps ΣX = 1; central difference of a quadratic is exact but for rounding.
        const double step = 1e-4;
        double[] up = new double[BanYa.CationCount];
        double[] down = new double[BanYa.CationCount];
        double[] high = new double[BanYa.CationCount];
        double[] low = new double[BanYa.CationCount];
        for (int i = 0; i < BanYa.CationCount; i++)
        {
            high[i] = x[i] + (step * (direction[i] - x[i]));
            low[i] = x[i] - (step * (direction[i] - x[i]));
        }

        BanYa.LnGamma(high, temperatureK, up);
        BanYa.LnGamma(low, temperatureK, down);
        double sum = 0;
        for (int i = 0; i < BanYa.CationCount; i++)
        {
            sum += x[i] * (up[i] - down[i]) / (2 * step);
        }

        Assert.InRange(sum, -1e-8, 1e-8);
    });

    [Fact]
    public void ExcessEnergyEqualsTheWrittenDoubleSum() => Fractions.Sample(x =>
    {
        double[] excess = new double[BanYa.CationCount];
        BanYa.ExcessEnergies(x, excess);
        foreach (SlagCation i in Cations)
        {
            double expected = 0;
            foreach (SlagCation j in Cations)
            {
                expected += BanYa.Interaction(i, j) * x[(int)j];
                foreach (SlagCation k in Cations.Where(k => k > j))
                {
                    expected -= BanYa.Interaction(j, k) * x[(int)j] * x[(int)k];
                }
            }

            Assert.Equal(expected, excess[(int)i], 1e-7);
        }
    });

    [Fact]
    public void BinaryFollowsAlphaTimesSquareOfTheOther()
    {
        double[] x = new double[BanYa.CationCount];
        x[(int)SlagCation.Ca] = 0.6;
        x[(int)SlagCation.Si] = 0.4;
        double[] excess = new double[BanYa.CationCount];
        BanYa.ExcessEnergies(x, excess);
        Assert.Equal(-133_890 * 0.16, excess[(int)SlagCation.Ca], 1e-7);
        Assert.Equal(-133_890 * 0.36, excess[(int)SlagCation.Si], 1e-7);
    }

    [Fact]
    public void MnOConversionsDifferByTheJanafHeatOfFusionOfMnO()
    {
        // JANAF: 54.39 kJ/mol at 2 058 K. Two remembered rows that close against a third source support each other.
        Assert.Equal(54_390, BanYaTable.MnOSolid.A - BanYaTable.MnOLiquid.A, 1.0);
        double meltingK = (BanYaTable.MnOSolid.A - BanYaTable.MnOLiquid.A) / (BanYaTable.MnOLiquid.B - BanYaTable.MnOSolid.B);
        Assert.InRange(meltingK, 2058 * 0.95, 2058 * 1.05);
    }

    [Fact]
    public void MgOAndCaOConversionsMeetNearTheirMeltingPoints()
    {
        // Melting points 3 098–3 125 K (MgO) and 2 845–3 172 K (CaO, sources differ), JANAF and handbooks, from memory.
        double mgO = (BanYaTable.MgOSolid.A - BanYaTable.MgOLiquid.A) / (BanYaTable.MgOLiquid.B - BanYaTable.MgOSolid.B);
        double caO = (BanYaTable.CaOSolid.A - BanYaTable.CaOLiquid.A) / (BanYaTable.CaOLiquid.B - BanYaTable.CaOSolid.B);
        Assert.InRange(mgO, 3_050, 3_150);
        Assert.InRange(caO, 2_800, 3_200);
    }

    [Fact]
    public void IronOxideActivityCoefficientOfAConverterSlagIsAboutTwo()
    {
        // γ(FetO) of 1.5–3 in MgO-saturated converter slags: common knowledge of the slag literature, from memory.
        var activities = new SlagActivities(Slags.Converter, 1873.15);
        Assert.InRange(activities.FeO / Slags.Converter.CationFraction(SlagCation.Fe2), 1.5, 3);
    }

    [Fact]
    public void TemperatureOutsideTheRangeIsRefusedWithFieldValueAndLimit()
    {
        ChemistryRangeException error = Assert.Throws<ChemistryRangeException>(() => new SlagActivities(Slags.Converter, 1200));
        Assert.Equal(1200, error.Value);
        Assert.Equal(BanYa.LeastK, error.Least);
        Assert.Equal("K", error.Unit);
        Assert.Contains("temperature of the slag is 1200 K", error.Message, StringComparison.Ordinal);
        Assert.Throws<ChemistryRangeException>(() => new SlagActivities(Slags.Converter, double.NaN));
    }

    [Fact]
    public void ActivitiesAreNeverNegativeNorNaN() => Gen.Select(Slags.Random, Gen.Double[1550, 2000]).Sample((slag, temperatureK) =>
    {
        var a = new SlagActivities(slag, temperatureK);
        Assert.All([a.FeO, a.SiO2, a.MnO, a.P2O5, a.CaO, a.MgO, a.PO25], v => Assert.True(v is >= 0 and < 5));
    });
}
