// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter;
using Heatwright.Converter.Blow;
using Heatwright.Learning.Statistics;

namespace Heatwright.Learning.Validation;

/// <summary>Oxygen at one assumed end carbon.</summary>
/// <param name="EndCarbonPercent">Assumed end carbon, mass %.</param>
/// <param name="ModelNm3PerT">Mean of the model, Nm³ per t charge.</param>
/// <param name="First">Errors of the first half, Nm³ per t (measured − model).</param>
/// <param name="Second">Errors of the second half.</param>
public sealed record OxygenAtCarbon(double EndCarbonPercent, double ModelNm3PerT, ErrorFigures First, ErrorFigures Second);

/// <summary>One heat as it is drawn.</summary>
public sealed record OxygenPoint(MeasuredHeat Heat, bool InSecondHalf, double MeasuredNm3PerT, double ModelNm3PerT);

/// <summary>Oxygen per tonne of the set without end points.</summary>
/// <param name="Points">Heats used, at the middle end carbon and the starting oxygen use.</param>
/// <param name="MeasuredNm3PerT">Mean measured on the second half.</param>
/// <param name="AtCarbon">Figures at the assumed end carbons with nothing fitted here.</param>
/// <param name="OxygenUse">Share of the oxygen that is used, fitted on the first half at the middle end carbon.</param>
/// <param name="SecondFitted">Errors of the second half with it.</param>
public sealed record OxygenDemand(
    IReadOnlyList<OxygenPoint> Points,
    double MeasuredNm3PerT,
    IReadOnlyList<OxygenAtCarbon> AtCarbon,
    double OxygenUse,
    ErrorFigures SecondFitted)
{
    /// <summary>Figures at the middle end carbon.</summary>
    public OxygenAtCarbon Middle => AtCarbon[1];

    /// <summary>Bias of the second half over the measured mean with nothing fitted, %.</summary>
    public double BiasPercent => 100 * Middle.Second.Bias / MeasuredNm3PerT;

    /// <summary>Change of the measured mean from the first half to the second, %.</summary>
    public double MeasuredShiftPercent => Shift(p => p.MeasuredNm3PerT);

    /// <summary>Change of the model's mean, %.</summary>
    public double ModelShiftPercent => Shift(p => p.ModelNm3PerT);

    private double Shift(Func<OxygenPoint, double> value) =>
        100 * ((Points.Where(p => p.InSecondHalf).Average(value) / Points.Where(p => !p.InSecondHalf).Average(value)) - 1);

    /// <summary>The same with the oxygen use of the first half, %.</summary>
    public double FittedBiasPercent => 100 * SecondFitted.Bias / MeasuredNm3PerT;
}

/// <summary>Oxygen per tonne. End carbon was not published for this set: the median and the range of the other set are tried.</summary>
public static class OxygenCheck
{
    /// <summary>Range of end carbon to be expected, mass % (5th and 95th percentile of the set with end points).</summary>
    public const double LeastCarbonPercent = 0.03;

    /// <inheritdoc cref="LeastCarbonPercent"/>
    public const double MostCarbonPercent = 0.18;

    /// <summary>Runs the check.</summary>
    /// <param name="heats">Heats with oxygen.</param>
    /// <param name="middleCarbonPercent">Most likely end carbon, mass %.</param>
    /// <param name="plant">Assumptions.</param>
    /// <param name="parameters">Parameters.</param>
    /// <exception cref="ValidationDataException">There are too few heats.</exception>
    public static OxygenDemand Run(IReadOnlyList<MeasuredHeat> heats, double middleCarbonPercent, AssumedPlant plant, ModelParameters parameters)
    {
        ArgumentNullException.ThrowIfNull(heats);
        ArgumentNullException.ThrowIfNull(plant);
        ArgumentNullException.ThrowIfNull(parameters);
        MeasuredHeat[] used = [.. heats.Where(h => h.Analysis is not null && h.OxygenNm3 is not null)];
        if (used.Length < 8)
        {
            throw new ValidationDataException($"There are {used.Length} clean heats with oxygen and analysis; at least 8 are needed for a split.");
        }

        int half = used.Length / 2;
        HeatInput[] inputs = [.. used.Select(plant.ToHeat)];
        double[] measured = [.. used.Select(h => h.OxygenNm3!.Value / h.ChargeT)];
        double[] Model(double carbon, ModelParameters p) =>
            [.. CarbonEnd.Find(inputs, [.. inputs.Select(_ => carbon)], p).Select((e, i) => e.OxygenNm3 / used[i].ChargeT)];
        ErrorFigures Errors(double[] model, int from, int to) => ErrorFigures.Of([.. Enumerable.Range(from, to - from).Select(i => measured[i] - model[i])]);
        double[] carbons = [LeastCarbonPercent, middleCarbonPercent, MostCarbonPercent];
        double[][] at = [.. carbons.Select(c => Model(c, parameters))];
        double use = parameters.OxygenUse;
        for (int i = 0; i < 6; i++)
        {
            double mean = Model(middleCarbonPercent, parameters with { OxygenUse = use })[..half].Average();
            use = Math.Clamp(use * mean / measured[..half].Average(), 0.7, 1);
        }

        return new OxygenDemand(
            [.. used.Select((h, i) => new OxygenPoint(h, i >= half, measured[i], at[1][i]))],
            measured[half..].Average(),
            [.. carbons.Select((c, k) => new OxygenAtCarbon(c, at[k].Average(), Errors(at[k], 0, half), Errors(at[k], half, used.Length)))],
            use,
            Errors(Model(middleCarbonPercent, parameters with { OxygenUse = use }), half, used.Length));
    }
}
