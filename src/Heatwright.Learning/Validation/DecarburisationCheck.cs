// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter;
using Heatwright.Converter.Blow;
using Heatwright.Learning.Statistics;

namespace Heatwright.Learning.Validation;

/// <summary>A class of end carbon with the gas that was read at the end of its blows.</summary>
/// <param name="Name">Class, mass % C.</param>
/// <param name="From">Lower limit, mass %.</param>
/// <param name="To">Upper limit, mass %.</param>
/// <param name="CarbonPercent">Median carbon of the class in the whole public set, mass %.</param>
/// <param name="Lower">Lower quartile of CO + CO2, dry volume %, whole public set.</param>
/// <param name="Middle">Median.</param>
/// <param name="Upper">Upper quartile.</param>
public sealed record CarbonClass(string Name, double From, double To, double CarbonPercent, double Lower, double Middle, double Upper);

/// <summary>Rate of decarburisation at the end over that of mid-blow for one class.</summary>
/// <param name="Class">Class.</param>
/// <param name="HeatsHere">Heats of the class in the files that were read.</param>
/// <param name="GasHere">Quartiles of CO + CO2 in them, dry volume %.</param>
/// <param name="Target">Published quartiles over mid-blow CO + CO2.</param>
/// <param name="Model">Median of the model at the class's carbon, analyser without delay.</param>
/// <param name="ModelLagged">The same with the assumed delay.</param>
public sealed record RateAtEnd(CarbonClass Class, int HeatsHere, TimeStatistic GasHere, TimeStatistic Target, double Model, double ModelLagged)
{
    /// <summary>Lower quartile over the highest mid-blow figure.</summary>
    public double WideLower => Class.Lower / DecarburisationCheck.MidBlowMost;

    /// <summary>Upper quartile over the lowest mid-blow figure.</summary>
    public double WideUpper => Class.Upper / DecarburisationCheck.MidBlowLeast;

    /// <summary>Inside the quartiles over the middle of the mid-blow range.</summary>
    public bool Inside(double ratio) => ratio >= Target.Lower && ratio <= Target.Upper;

    /// <summary>Inside the quartiles over the whole mid-blow range.</summary>
    public bool InsideWide(double ratio) => ratio >= WideLower && ratio <= WideUpper;
}

/// <summary>Fall of the decarburisation rate at low carbon.</summary>
/// <param name="Rates">One row per class.</param>
/// <param name="Heats">Model heats behind the medians.</param>
/// <param name="Course">Carbon, mass %, and rate over mid-blow of a median heat, for the picture.</param>
public sealed record DecarburisationResult(IReadOnlyList<RateAtEnd> Rates, int Heats, IReadOnlyList<(double CarbonPercent, double Ratio)> Course);

/// <summary>
/// Rate at the end relative to mid-blow. The fan's flow is nearly constant, so CO + CO2 behind the hood is close to proportional to the
/// carbon rate. The delay of the analyser is not stated (tens of seconds): figures without one and with an assumed one are given.
/// </summary>
public static class DecarburisationCheck
{
    /// <summary>Assumed delay of gas transport and analyser, s.</summary>
    public const double LagS = 20;

    /// <summary>Mid-blow CO + CO2, dry volume %: between the sum of the medians (62) and that of the upper quartiles (74) within the blows of 780 heats.</summary>
    public const double MidBlowLeast = 62;

    /// <inheritdoc cref="MidBlowLeast"/>
    public const double MidBlowMost = 74;

    private const double Middle = (MidBlowLeast + MidBlowMost) / 2;

    /// <summary>
    /// Classes and quartiles of 2040 heats of a 340 t converter, Jan–Jun 2021 (plant records of a public data challenge, 2021; our
    /// summary of the open table).
    /// </summary>
    public static IReadOnlyList<CarbonClass> Classes { get; } =
    [
        new("below 0.035", 0, 0.035, 0.031, 5.4, 6.7, 10.3),
        new("0.045–0.055", 0.045, 0.055, 0.050, 8.7, 11.1, 14.3),
        new("0.07–0.09", 0.07, 0.09, 0.078, 17.1, 23.3, 33.5),
        new("0.12–0.20", 0.12, 0.20, 0.138, 21.9, 31.6, 43.0),
    ];

    /// <summary>Runs the check on at most <paramref name="most"/> heats spread over the list.</summary>
    public static DecarburisationResult Run(
        IReadOnlyList<MeasuredHeat> heats, IReadOnlyList<MeasuredEndGas> gas, AssumedPlant plant, ModelParameters parameters, int most = 40)
    {
        ArgumentNullException.ThrowIfNull(heats);
        ArgumentNullException.ThrowIfNull(gas);
        ArgumentNullException.ThrowIfNull(plant);
        MeasuredHeat[] used = Spread([.. heats.Where(h => h.Analysis is not null)], most);
        HeatInput[] inputs = [.. used.Select(plant.ToHeat)];
        BlowResult[] results = BlowModel.Run(inputs, [.. inputs.Select(_ => parameters)], new BlowOptions(RecordEveryS: 4));
        RateAtEnd[] rates = [.. Classes.Select(c => Row(c, gas, results, inputs))];

        HeatInput median = plant.ToHeat(InputErrorStudy.Median(used));
        BlowResult course = BlowModel.Run(median, parameters, new BlowOptions(RecordEveryS: 4));
        double mid = MidRate(course.Trajectory);
        return new DecarburisationResult(
            rates,
            used.Length,
            [.. course.Trajectory.Where(p => p.OxygenPercent > 60 && p.C > 0.02).Select(p => (p.C, p.CarbonKgPerS / mid))]);
    }

    /// <summary>Evenly spread members of a list, in order.</summary>
    internal static T[] Spread<T>(T[] all, int most) =>
        all.Length <= most ? all : [.. Enumerable.Range(0, most).Select(i => all[(int)((long)i * all.Length / most)])];

    /// <summary>Mean rate from 40 to 70 % of the ordinary oxygen, kg/s.</summary>
    internal static double MidRate(IReadOnlyList<BlowPoint> course) =>
        course.Where(p => p.OxygenPercent is >= 40 and <= 70).Average(p => p.CarbonKgPerS);

    private static RateAtEnd Row(CarbonClass c, IReadOnlyList<MeasuredEndGas> gas, BlowResult[] results, HeatInput[] inputs)
    {
        double[] here = [.. gas.Where(g => g.EndCarbonPercent >= c.From && g.EndCarbonPercent < c.To).Select(g => g.CarbonGas)];
        var now = new List<double>();
        var lagged = new List<double>();
        for (int i = 0; i < results.Length; i++)
        {
            IReadOnlyList<BlowPoint> course = results[i].Trajectory;
            CarbonEndPoint end = CarbonEnd.At(course, c.CarbonPercent, inputs[i].Programme.OxygenNm3);
            double mid = MidRate(course);
            now.Add(RateAt(course, end.TimeS) / mid);
            lagged.Add(RateAt(course, end.TimeS - LagS) / mid);
        }

        return new RateAtEnd(
            c,
            here.Length,
            here.Length < 4 ? default : new TimeStatistic(here.Average(), Quantiles.At(here, 0.25), Quantiles.Median(here), Quantiles.At(here, 0.75)),
            new TimeStatistic(c.Middle / Middle, c.Lower / Middle, c.Middle / Middle, c.Upper / Middle),
            Quantiles.Median(now),
            Quantiles.Median(lagged));
    }

    private static double RateAt(IReadOnlyList<BlowPoint> course, double timeS)
    {
        for (int i = 1; i < course.Count; i++)
        {
            BlowPoint a = course[i - 1];
            BlowPoint b = course[i];
            if (b.TimeS >= timeS)
            {
                double f = (timeS - a.TimeS) / (b.TimeS - a.TimeS);
                return a.CarbonKgPerS + (f * (b.CarbonKgPerS - a.CarbonKgPerS));
            }
        }

        return course[^1].CarbonKgPerS;
    }
}
