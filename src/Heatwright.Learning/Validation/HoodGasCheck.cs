// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Converter;
using Heatwright.Converter.Blow;
using Heatwright.Converter.Gas;
using Heatwright.Learning.Statistics;

namespace Heatwright.Learning.Validation;

/// <summary>One quantity of the gas behind the hood.</summary>
/// <param name="Name">Quantity.</param>
/// <param name="Unit">Unit.</param>
/// <param name="Fitted">True when a hood setting was fitted to it on the first half.</param>
/// <param name="Published">Quartiles within the blow, median over the heats of the second half.</param>
/// <param name="MidBlow">The model mid-blow (40–70 % of the oxygen), median over the second half.</param>
/// <param name="WithinBlow">The model's quartiles within the blow, median over the second half, analyser delayed.</param>
public sealed record HoodQuantity(string Name, string Unit, bool Fitted, TimeStatistic Published, double MidBlow, TimeStatistic WithinBlow)
{
    /// <summary>Mid-blow inside the published quartiles (a point where both quartiles are zero: within the 0.1 % of the analyser's print).</summary>
    public bool Inside => MidBlow >= Published.Lower - 0.05 && MidBlow <= Published.Upper + 0.05;
}

/// <summary>Gas behind the hood at the end of the blow, for one class of end carbon.</summary>
public sealed record EndGasRow(CarbonClass Class, int Heats, double MeasuredCarbonGas, double MeasuredO2, double MeasuredN2, double CarbonGas, double O2, double N2);

/// <summary>Gas after air entry.</summary>
/// <param name="Heats">Heats of the first and of the second half.</param>
/// <param name="SuctionNm3PerS">Dry suction, fitted on the first half to nitrogen mid-blow.</param>
/// <param name="TransferWPerK">Heat transfer, fitted on the first half to the gas temperature mid-blow.</param>
/// <param name="Quantities">CO, CO2, N2, O2, temperature.</param>
/// <param name="AtEnd">Gas at the end.</param>
/// <param name="Course">A median heat: % of oxygen blown, CO, CO2, N2, O2, °C.</param>
public sealed record HoodGasResult(
    (int First, int Second) Heats,
    double SuctionNm3PerS,
    double TransferWPerK,
    IReadOnlyList<HoodQuantity> Quantities,
    IReadOnlyList<EndGasRow> AtEnd,
    IReadOnlyList<(double OxygenPercent, double CO, double CO2, double N2, double O2, double TemperatureC)> Course);

/// <summary>Dry composition and temperature of the gas behind the hood during the blow.</summary>
public static class HoodGasCheck
{
    /// <summary>Runs the check. Each heat is blown with its measured oxygen.</summary>
    /// <exception cref="ValidationDataException">There are too few heats with gas.</exception>
    public static HoodGasResult Run(MeasuredHeats data, AssumedPlant plant, ModelParameters parameters, int most = 96)
    {
        ArgumentNullException.ThrowIfNull(data);
        ArgumentNullException.ThrowIfNull(plant);
        Dictionary<int, MeasuredBlowGas> gas = [];
        foreach (MeasuredBlowGas g in data.BlowGas)
        {
            gas.TryAdd(g.Number, g);
        }

        MeasuredHeat[] used = DecarburisationCheck.Spread(
            [.. data.Oxygen.Where(h => h.Analysis is not null && h.OxygenNm3 is not null && gas.ContainsKey(h.Number))], most);
        if (used.Length < 8)
        {
            throw new ValidationDataException($"There are {used.Length} clean heats with oxygen, analysis and gas; at least 8 are needed for a split.");
        }

        int half = used.Length / 2;
        HeatInput[] inputs = [.. used.Select(h => Blown(plant.ToHeat(h), h.OxygenNm3!.Value))];
        BlowResult[] results = BlowModel.Run(inputs, [.. inputs.Select(_ => parameters)], new BlowOptions(RecordEveryS: 10));
        MouthGas[] mid = [.. results.Select(r => Mean(r.Trajectory.Where(p => p.OxygenPercent is >= 40 and <= 70)))];
        MeasuredBlowGas[] measured = [.. used.Select(h => gas[h.Number])];

        double nitrogen = Quantiles.Median(measured[..half].Select(m => m.N2.Middle));
        double temperature = Quantiles.Median(measured[..half].Select(m => m.TemperatureC.Middle));
        double suction = Bisect(5, 300, s => Quantiles.Median(mid[..half].Select(m => Hood.Run(m, new HoodSettings(s, 40e3)).DryPercent(GasSpecies.N2))) - nitrogen);
        double transfer = Bisect(0, 2e6, u => temperature - Quantiles.Median(mid[..half].Select(m => Hood.Run(m, new HoodSettings(suction, u)).TemperatureK - 273.15)));
        var settings = new HoodSettings(suction, transfer);

        HoodGas[] midGas = [.. mid[half..].Select(m => Hood.Run(m, settings))];
        HoodGas[][] courses = [.. results[half..].Select(r => Delayed(r.Trajectory).Select(p => Hood.Run(HoodCourse.MouthOf(p), settings)).ToArray())];
        MeasuredBlowGas[] second = measured[half..];
        HoodQuantity[] quantities =
        [
            Quantity("CO", "%", false, second, m => m.CO, midGas, courses, g => g.DryPercent(GasSpecies.CO)),
            Quantity("CO2", "%", false, second, m => m.CO2, midGas, courses, g => g.DryPercent(GasSpecies.CO2)),
            Quantity("N2", "%", true, second, m => m.N2, midGas, courses, g => g.DryPercent(GasSpecies.N2)),
            Quantity("O2", "%", false, second, m => m.O2, midGas, courses, g => g.DryPercent(GasSpecies.O2)),
            Quantity("gas temperature", "°C", true, second, m => m.TemperatureC, midGas, courses, g => g.TemperatureK - 273.15),
        ];

        HeatInput median = Blown(plant.ToHeat(InputErrorStudy.Median(used)), Quantiles.Median(used.Select(h => h.OxygenNm3!.Value)));
        BlowResult one = BlowModel.Run(median, parameters, new BlowOptions(RecordEveryS: 10));
        return new HoodGasResult(
            (half, used.Length - half),
            suction,
            transfer,
            quantities,
            EndGas(data.EndGas, plant.ToHeat(InputErrorStudy.Median(used)), parameters, settings),
            [.. one.Trajectory.Where(p => p.OxygenNm3PerS > 0).Select(p => (p, Hood.Run(HoodCourse.MouthOf(p), settings))).Select(x => (
                x.p.OxygenPercent, x.Item2.DryPercent(GasSpecies.CO), x.Item2.DryPercent(GasSpecies.CO2), x.Item2.DryPercent(GasSpecies.N2),
                x.Item2.DryPercent(GasSpecies.O2), x.Item2.TemperatureK - 273.15))]);
    }

    private static HeatInput Blown(HeatInput heat, double oxygenNm3) =>
        heat with { Programme = heat.Programme with { OxygenNm3 = oxygenNm3, BlownFraction = 1 } };

    private static MouthGas Mean(IEnumerable<BlowPoint> points)
    {
        MouthGas[] gases = [.. points.Select(HoodCourse.MouthOf)];
        return new MouthGas(
            GasMixture.Mix(gases.Select(g => (g.Gas, g.FlowNm3PerS))),
            gases.Average(g => g.FlowNm3PerS),
            gases.Sum(g => g.TemperatureK * g.FlowNm3PerS) / gases.Sum(g => g.FlowNm3PerS));
    }

    /// <summary>What a delayed analyser shows between start and end of the blow: air before the gas arrives, and not the last of it.</summary>
    private static IEnumerable<BlowPoint> Delayed(IReadOnlyList<BlowPoint> course)
    {
        double start = course.First(p => p.OxygenNm3PerS > 0).TimeS;
        double end = course[^1].TimeS;
        return course.Where(p => p.TimeS >= start - DecarburisationCheck.LagS && p.TimeS <= end - DecarburisationCheck.LagS);
    }

    private static HoodQuantity Quantity(
        string name,
        string unit,
        bool fitted,
        MeasuredBlowGas[] measured,
        Func<MeasuredBlowGas, TimeStatistic> of,
        HoodGas[] mid,
        HoodGas[][] courses,
        Func<HoodGas, double> value)
    {
        double Over(Func<TimeStatistic, double> part) => Quantiles.Median(measured.Select(m => part(of(m))));
        double Course(Func<double[], double> part) => Quantiles.Median(courses.Select(c => part([.. c.Select(value)])));
        return new HoodQuantity(
            name,
            unit,
            fitted,
            new TimeStatistic(Over(t => t.Mean), Over(t => t.Lower), Over(t => t.Middle), Over(t => t.Upper)),
            Quantiles.Median(mid.Select(value)),
            new TimeStatistic(Course(v => v.Average()), Course(v => Quantiles.At(v, 0.25)), Course(v => Quantiles.Median(v)), Course(v => Quantiles.At(v, 0.75))));
    }

    private static List<EndGasRow> EndGas(IReadOnlyList<MeasuredEndGas> gas, HeatInput median, ModelParameters parameters, HoodSettings settings)
    {
        BlowResult run = BlowModel.Run(median, parameters, new BlowOptions(RecordEveryS: 4));
        var rows = new List<EndGasRow>();
        foreach (CarbonClass c in DecarburisationCheck.Classes)
        {
            MeasuredEndGas[] here = [.. gas.Where(g => g.EndCarbonPercent >= c.From && g.EndCarbonPercent < c.To)];
            if (here.Length < 4)
            {
                continue;
            }

            double time = CarbonEnd.At(run.Trajectory, c.CarbonPercent, median.Programme.OxygenNm3).TimeS - DecarburisationCheck.LagS;
            BlowPoint point = run.Trajectory.MinBy(p => Math.Abs(p.TimeS - time))!;
            HoodGas g = Hood.Run(HoodCourse.MouthOf(point), settings);
            rows.Add(new EndGasRow(
                c,
                here.Length,
                Quantiles.Median(here.Select(x => x.CarbonGas)),
                Quantiles.Median(here.Select(x => x.O2)),
                Quantiles.Median(here.Select(x => x.N2)),
                g.DryPercent(GasSpecies.CO) + g.DryPercent(GasSpecies.CO2),
                g.DryPercent(GasSpecies.O2),
                g.DryPercent(GasSpecies.N2)));
        }

        return rows;
    }

    /// <summary>Root of a rising function; an end of the interval where it has none.</summary>
    private static double Bisect(double low, double high, Func<double, double> rising)
    {
        for (int i = 0; i < 40; i++)
        {
            double middle = 0.5 * (low + high);
            (low, high) = rising(middle) < 0 ? (middle, high) : (low, middle);
        }

        return 0.5 * (low + high);
    }
}
