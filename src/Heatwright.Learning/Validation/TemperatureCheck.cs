// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter;
using Heatwright.Converter.Blow;
using Heatwright.Learning.Statistics;

namespace Heatwright.Learning.Validation;

/// <summary>One way to forecast the end temperature.</summary>
/// <param name="Name">Name.</param>
/// <param name="Fitted">Numbers fitted on the first half.</param>
/// <param name="First">Errors on the first half, where it was fitted.</param>
/// <param name="Second">Errors on the second half, never seen.</param>
public sealed record Forecast(string Name, int Fitted, ErrorFigures First, ErrorFigures Second);

/// <summary>A slope of measured − model against one figure of the heats.</summary>
public sealed record ResidualSlope(string Name, string Unit, Coefficient Slope);

/// <summary>One heat as it is drawn.</summary>
public sealed record TemperaturePoint(MeasuredHeat Heat, bool InSecondHalf, double MeasuredC, double ModelC, CarbonEndPoint Model);

/// <summary>What the balance gives when one input is wrong by its usual error.</summary>
/// <param name="Input">Input.</param>
/// <param name="Error">Its error (1 σ), in words.</param>
/// <param name="EffectC">Change of the end temperature, °C.</param>
public sealed record InputError(string Input, string Error, double EffectC);

/// <summary>Slopes of the same regression on what was measured and on what the balance says, °C per unit.</summary>
public sealed record SlopePair(string Name, string Unit, Coefficient Measured, Coefficient Model);

/// <summary>End temperature of the heats against the balance.</summary>
/// <param name="Clean">Heats without coal and preheating.</param>
/// <param name="WithoutAnalysis">Of them, without a hot metal analysis: left out.</param>
/// <param name="SetAside">Heats set aside by the rule of <see cref="TemperatureCheck.OutlierRule"/>.</param>
/// <param name="HeatLossScale">The one fitted number.</param>
/// <param name="Points">All heats used.</param>
/// <param name="Forecasts">Figures of each way to forecast.</param>
/// <param name="WithSetAside">Errors of the balance on the second half when no heat is set aside.</param>
/// <param name="Slopes">Residual slopes over both halves, one input at a time.</param>
/// <param name="Pairs">Slopes of the measured and of the modelled temperature, all main inputs together.</param>
/// <param name="InputErrors">Effect of usual input errors.</param>
/// <param name="TrimLeft">Share of a forecast deviation that is found in the measured temperature, with its interval (regression of measured on model, both halves).</param>
/// <param name="ScrapOnHeat">Slopes of the scrap share on silicon and hot metal temperature, points per unit: how the box follows the metal's heat.</param>
/// <param name="NotReached">Heats whose carbon the model does not bring down to the measured one.</param>
/// <param name="ModelSd">Spread of the model's temperatures, °C.</param>
/// <param name="MeasuredSd">Spread of the measured temperatures, °C.</param>
public sealed record TemperatureResult(
    int Clean,
    int WithoutAnalysis,
    IReadOnlyList<MeasuredHeat> SetAside,
    double HeatLossScale,
    IReadOnlyList<TemperaturePoint> Points,
    IReadOnlyList<Forecast> Forecasts,
    ErrorFigures WithSetAside,
    IReadOnlyList<ResidualSlope> Slopes,
    IReadOnlyList<SlopePair> Pairs,
    IReadOnlyList<InputError> InputErrors,
    Coefficient TrimLeft,
    IReadOnlyList<Coefficient> ScrapOnHeat,
    int NotReached,
    double ModelSd,
    double MeasuredSd)
{
    /// <summary>The balance with its one fitted number.</summary>
    public Forecast Balance => Forecasts.Single(f => f.Name == TemperatureCheck.BalanceName);

    /// <summary>True when clearly less than a deviation that the balance expects is found in the steel: something unrecorded takes it out.</summary>
    public bool Steered => TrimLeft.Value + TrimLeft.HalfWidth95 < 0.8;

    /// <summary>How much more the balance expects of the second half than of the first, °C.</summary>
    public double ExpectedShiftC => Points.Where(p => p.InSecondHalf).Average(p => p.ModelC) - Points.Where(p => !p.InSecondHalf).Average(p => p.ModelC);

    /// <summary>How much more was measured, °C.</summary>
    public double MeasuredShiftC => Points.Where(p => p.InSecondHalf).Average(p => p.MeasuredC) - Points.Where(p => !p.InSecondHalf).Average(p => p.MeasuredC);

    /// <summary>Root of the sum of squares of the input errors, °C.</summary>
    public double AllInputErrors => Math.Sqrt(InputErrors.Sum(e => e.EffectC * e.EffectC));
}

/// <summary>
/// End temperature from charge, hot metal, fluxes and end carbon. The first half in time fits the heat-loss level only; the second half
/// is reported, beside ordinary least squares on the same inputs with the same split and beside the mean of the first half.
/// </summary>
public static class TemperatureCheck
{
    /// <summary>Name of the balance among the forecasts.</summary>
    public const string BalanceName = "heat balance, heat-loss level fitted";

    /// <summary>Name of the regression on everything that the balance uses.</summary>
    public const string RegressionName = "least squares, all inputs of the balance";

    /// <summary>Name of the mean.</summary>
    public const string MeanName = "mean of the first half";

    /// <summary>Name of the balance with the crew's trim.</summary>
    public const string TrimmedName = "heat balance, deviations shrunk by a fitted share";

    /// <summary>How many robust standard deviations put a heat aside.</summary>
    public const double OutlierLimit = 4;

    /// <summary>The rule, fixed before any result was seen.</summary>
    public const string OutlierRule =
        "A heat is set aside when its end temperature, its charge (hot metal and scrap) or its lime lies more than 4 robust standard deviations (1.4826 × median absolute deviation) from the median of the first half.";

    /// <summary>Runs the check.</summary>
    /// <exception cref="ValidationDataException">There are too few heats for a split.</exception>
    public static TemperatureResult Run(IReadOnlyList<MeasuredHeat> heats, AssumedPlant plant, ModelParameters start)
    {
        ArgumentNullException.ThrowIfNull(heats);
        ArgumentNullException.ThrowIfNull(plant);
        MeasuredHeat[] analysed = [.. heats.Where(h => h.Analysis is not null && h.EndC is not null)];
        int least = 2 * (HeatFigure.All.Count + 2);
        if (analysed.Length < least)
        {
            throw new ValidationDataException($"There are {analysed.Length} clean heats with end point and analysis; at least {least} are needed for a split and a regression.");
        }

        MeasuredHeat[] kept = Keep(analysed);
        int half = kept.Length / 2;
        double[] measured = [.. kept.Select(h => h.EndC!.Value)];
        HeatInput[] inputs = [.. kept.Select(plant.ToHeat)];
        double[] carbon = [.. kept.Select(h => h.EndCarbonPercent!.Value)];
        double scale = FitLoss(inputs[..half], carbon[..half], measured[..half], start);
        ModelParameters fitted = start with { HeatLossScale = scale };
        CarbonEndPoint[] model = CarbonEnd.Find(inputs, carbon, fitted);
        TemperaturePoint[] points = [.. kept.Select((h, i) => new TemperaturePoint(h, i >= half, measured[i], model[i].TemperatureC, model[i]))];

        double level = measured[..half].Average();
        Coefficient trim = LeastSquares.Fit(["model"], [.. points[..half].Select(p => new[] { p.ModelC })], measured[..half]).Coefficients[0];
        double modelLevel = points[..half].Average(p => p.ModelC);
        Forecast Of(string name, int numbers, Func<int, double> predict) => new(
            name,
            numbers,
            ErrorFigures.Of([.. Enumerable.Range(0, half).Select(i => measured[i] - predict(i))]),
            ErrorFigures.Of([.. Enumerable.Range(half, kept.Length - half).Select(i => measured[i] - predict(i))]));
        Func<int, double> Regression(IReadOnlyList<HeatFigure> figures)
        {
            double[][] rows = Rows(kept, figures);
            LeastSquares fit = LeastSquares.Fit([.. figures.Select(f => f.Name)], rows[..half], measured[..half]);
            return i => fit.Predict(rows[i]);
        }

        IReadOnlyList<HeatFigure> all = Varied(HeatFigure.All, kept[..half]);
        IReadOnlyList<HeatFigure> main = Varied(HeatFigure.Main, kept[..half]);
        Forecast[] forecasts =
        [
            Of(MeanName, 1, _ => level),
            Of(RegressionName, all.Count + 1, Regression(all)),
            Of($"least squares, {main.Count} main inputs", main.Count + 1, Regression(main)),
            Of(BalanceName, 1, i => points[i].ModelC),
            Of(TrimmedName, 3, i => level + (trim.Value * (points[i].ModelC - modelLevel))),
        ];

        double[] residual = [.. points.Select(p => p.MeasuredC - p.ModelC)];
        CarbonEndPoint[] everything = CarbonEnd.Find([.. analysed.Select(plant.ToHeat)], [.. analysed.Select(h => h.EndCarbonPercent!.Value)], fitted);
        int wholeHalf = analysed.Length / 2;
        return new TemperatureResult(
            heats.Count,
            heats.Count - analysed.Length,
            [.. analysed.Except(kept)],
            scale,
            points,
            forecasts,
            ErrorFigures.Of([.. Enumerable.Range(wholeHalf, analysed.Length - wholeHalf).Select(i => analysed[i].EndC!.Value - everything[i].TemperatureC)]),
            SlopesOf(kept, residual),
            PairsOf(kept, measured, [.. points.Select(p => p.ModelC)]),
            InputErrorStudy.Run(kept, plant, fitted),
            LeastSquares.Fit(["model"], [.. points.Select(p => new[] { p.ModelC })], measured).Coefficients[0],
            LeastSquares.Fit(
                [HeatFigure.Silicon.Name, HeatFigure.HotMetalTemperature.Name],
                Rows(kept, [HeatFigure.Silicon, HeatFigure.HotMetalTemperature]),
                [.. kept.Select(HeatFigure.ScrapShare.Value)]).Coefficients,
            model.Count(m => !m.Reached),
            ErrorFigures.Of([.. points.Select(p => p.ModelC)]).Sd,
            ErrorFigures.Of(measured).Sd);
    }

    /// <summary>Heat-loss scale with the least squared error, by Gauss–Newton on the mean sensitivity.</summary>
    internal static double FitLoss(HeatInput[] heats, double[] carbon, double[] measured, ModelParameters start)
    {
        const double Least = 0.1;
        const double Most = 8;
        const double Probe = 0.05;
        double scale = start.HeatLossScale;
        for (int i = 0; i < 12; i++)
        {
            CarbonEndPoint[] here = CarbonEnd.Find(heats, carbon, start with { HeatLossScale = scale });
            CarbonEndPoint[] there = CarbonEnd.Find(heats, carbon, start with { HeatLossScale = scale + Probe });
            double top = 0;
            double bottom = 0;
            for (int j = 0; j < heats.Length; j++)
            {
                double slope = (there[j].TemperatureC - here[j].TemperatureC) / Probe;
                top += slope * (measured[j] - here[j].TemperatureC);
                bottom += slope * slope;
            }

            double next = Math.Clamp(scale + (top / bottom), Math.Max(Least, scale / 2), Math.Min(Most, scale * 2));
            if (Math.Abs(next - scale) < 1e-4)
            {
                return next;
            }

            scale = next;
        }

        return scale;
    }

    /// <summary>A regression cannot use a figure with one value only.</summary>
    private static IReadOnlyList<HeatFigure> Varied(IReadOnlyList<HeatFigure> figures, MeasuredHeat[] heats) =>
        [.. figures.Where(f => heats.Select(f.Value).Distinct().Count() > 1)];

    private static double[][] Rows(MeasuredHeat[] heats, IReadOnlyList<HeatFigure> figures) =>
        [.. heats.Select(h => figures.Select(f => f.Value(h)).ToArray())];

    private static MeasuredHeat[] Keep(MeasuredHeat[] heats)
    {
        MeasuredHeat[] first = heats[..(heats.Length / 2)];
        bool Inside(MeasuredHeat h, Func<MeasuredHeat, double> value)
        {
            double[] all = [.. first.Select(value)];
            return Math.Abs(value(h) - Quantiles.Median(all)) <= OutlierLimit * Math.Max(Quantiles.RobustSd(all), 1e-9 + (1e-3 * Quantiles.Median(all)));
        }

        return [.. heats.Where(h => Inside(h, x => x.EndC!.Value) && Inside(h, x => x.ChargeT) && Inside(h, x => x.LimeKg))];
    }

    private static IReadOnlyList<ResidualSlope> SlopesOf(MeasuredHeat[] heats, double[] residual)
    {
        // Time: place in the row of heats, so that a stop of the plant does not stretch the axis.
        var place = heats.Select((h, i) => (h, i)).ToDictionary(p => p.h, p => (double)p.i);
        HeatFigure[] figures =
        [
            HeatFigure.Silicon, HeatFigure.HotMetalTemperature, HeatFigure.ScrapShare, HeatFigure.Lime, HeatFigure.LogEndCarbon,
            new("time", "heat", h => place[h]),
        ];
        return [.. Varied(figures, heats).Select(f => new ResidualSlope(f.Name, f.Unit, LeastSquares.Fit([f.Name], Rows(heats, [f]), residual).Coefficients[0]))];
    }

    private static IReadOnlyList<SlopePair> PairsOf(MeasuredHeat[] heats, double[] measured, double[] model)
    {
        IReadOnlyList<HeatFigure> figures = Varied(HeatFigure.Main, heats);
        double[][] rows = Rows(heats, figures);
        string[] names = [.. figures.Select(f => f.Name)];
        LeastSquares a = LeastSquares.Fit(names, rows, measured);
        LeastSquares b = LeastSquares.Fit(names, rows, model);
        return [.. figures.Select((f, j) => new SlopePair(f.Name, f.Unit, a.Coefficients[j], b.Coefficients[j]))];
    }
}
