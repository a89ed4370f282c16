// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using Heatwright.Chemistry;
using Heatwright.Converter;
using Heatwright.Converter.Blow;
using Heatwright.Converter.Gas;
using Heatwright.Learning.Statistics;
using Heatwright.Learning.Validation;

namespace Heatwright.Learning.Tests.Validation;

/// <summary>
/// A plant whose truth is known: heats charged by chance, blown by the model with a hidden heat loss, oxygen use and hood, written in the
/// layout of the record, with a probe that errs.
/// </summary>
internal static class KnownPlant
{
    public const int FirstEnd = 610000;
    public const int FirstBlown = 620000;
    public const double HiddenHeatLoss = 1.4;
    public const double HiddenSuctionNm3PerS = 42;
    public const double HiddenTransferWPerK = 80e3;
    public const double ProbeSdC = 5;
    public const double EndCarbonPercent = 0.06;

    /// <summary>Writes the three files into a folder.</summary>
    public static void Write(string folder)
    {
        var random = new Random(7041);
        ModelParameters truth = ModelParameters.Default with { HeatLossScale = HiddenHeatLoss };
        MeasuredHeat[] ends = [.. Enumerable.Range(FirstEnd, 60).Select(n => Charged(random, n))];
        MeasuredHeat[] blown = [.. Enumerable.Range(FirstBlown, 24).Select(n => Charged(random, n))];
        var plant = new AssumedPlant();
        double[] carbon = [.. ends.Select(_ => 0.035 + (0.12 * random.NextDouble()))];
        CarbonEndPoint[] end = CarbonEnd.Find([.. ends.Select(plant.ToHeat)], carbon, truth);
        HeatInput[] inputs = [.. blown.Select(plant.ToHeat)];
        CarbonEndPoint[] oxygen = CarbonEnd.Find(inputs, [.. blown.Select(_ => EndCarbonPercent)], truth);

        var rows = new List<string>();
        for (int i = 0; i < ends.Length; i++)
        {
            MeasuredHeat h = ends[i];
            double probe = ProbeSdC * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
            rows.Add(InventedTables.Heat(
                h.Number, "A", h.HotMetalKg, h.HotMetalC, h.Analysis!.Si, h.ScrapKg, h.LimeKg, 0, null, end[i].TemperatureC + probe, carbon[i]));
        }

        for (int i = 0; i < blown.Length; i++)
        {
            MeasuredHeat h = blown[i];
            rows.Add(InventedTables.Heat(h.Number, "B", h.HotMetalKg, h.HotMetalC, h.Analysis!.Si, h.ScrapKg, h.LimeKg, 0, oxygen[i].OxygenNm3));
        }

        File.WriteAllText(Path.Combine(folder, MeasuredHeats.HeatsFile), InventedTables.Heats([.. rows]));
        File.WriteAllText(Path.Combine(folder, MeasuredHeats.EndGasFile), InventedTables.EndGas(
            [.. carbon.Select((c, i) => InventedTables.GasAtEnd(FirstEnd + i, 2, 200 * c, c))]));
        File.WriteAllText(Path.Combine(folder, MeasuredHeats.BlowGasFile), InventedTables.BlowGas(
            [.. Gas(inputs, [.. oxygen.Select(o => o.OxygenNm3)], truth).Select((g, i) => $"{FirstBlown + i},{g}")]));
    }

    private static MeasuredHeat Charged(Random random, int number)
    {
        double Between(double least, double most) => Math.Round(least + ((most - least) * random.NextDouble()), 3);
        double si = Between(0.25, 0.75);
        return new MeasuredHeat(
            number, true, Between(255e3, 275e3), Between(1360, 1440), new RecordedAnalysis(si, 0.31, 0.02, 0.09, 0.02, 0.01, 0.02, 0.06, 0.05),
            Between(60e3, 82e3), Between(11e3, 18e3), 2500, 1150, 500, null, null, null);
    }

    /// <summary>Rows of gas statistics; the middle is that of mid-blow, the quartiles lie about it.</summary>
    private static IEnumerable<string> Gas(HeatInput[] inputs, double[] oxygenNm3, ModelParameters truth)
    {
        HeatInput[] exact = [.. inputs.Select((h, i) => h with { Programme = h.Programme with { OxygenNm3 = oxygenNm3[i], BlownFraction = 1 } })];
        BlowResult[] results = BlowModel.Run(exact, [.. exact.Select(_ => truth)], new BlowOptions(RecordEveryS: 10));
        var settings = new HoodSettings(HiddenSuctionNm3PerS, HiddenTransferWPerK);
        foreach (BlowResult r in results)
        {
            HoodGas[] mid = [.. r.Trajectory.Where(p => p.OxygenPercent is >= 40 and <= 70).Select(p => Hood.Run(HoodCourse.MouthOf(p), settings))];
            double Middle(Func<HoodGas, double> value) => Quantiles.Median(mid.Select(value));
            double[] middles =
            [
                Middle(g => g.DryPercent(GasSpecies.CO)), Middle(g => g.DryPercent(GasSpecies.CO2)), Middle(g => g.DryPercent(GasSpecies.N2)),
                Middle(g => g.DryPercent(GasSpecies.O2)), Middle(g => g.TemperatureK - 273.15),
            ];
            yield return string.Join(',', middles.SelectMany(m => new[] { m, 0.9 * m, m, 1.1 * m }).Select(v => v.ToString("R", CultureInfo.InvariantCulture)));
        }
    }
}
