// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Blow;
using Heatwright.Learning.Statistics;

namespace Heatwright.Learning.Validation;

/// <summary>The model against measured heats and published figures: one entry point.</summary>
public static class ModelValidation
{
    /// <summary>Reads the folder and runs every check. Deterministic; some ten seconds on two cores.</summary>
    /// <param name="directory">Folder with the three files of the plant record, see <see cref="MeasuredHeats"/>.</param>
    /// <param name="progress">Told what is being done, one line a step; may be null.</param>
    /// <exception cref="ValidationDataException">A folder, file, column or value is missing or wrong.</exception>
    public static ValidationReport Run(string directory, IProgress<string>? progress = null)
    {
        progress?.Report("reading the measured heats");
        return Run(MeasuredHeats.Read(directory), ModelParameters.Default, new AssumedPlant(), progress);
    }

    /// <summary>Runs every check on heats already read.</summary>
    /// <exception cref="ValidationDataException">There are too few heats for a check.</exception>
    public static ValidationReport Run(MeasuredHeats data, ModelParameters start, AssumedPlant plant, IProgress<string>? progress = null)
    {
        ArgumentNullException.ThrowIfNull(data);
        ArgumentNullException.ThrowIfNull(start);
        progress?.Report($"end temperature of {data.EndPoints.Count} heats");
        TemperatureResult temperature = TemperatureCheck.Run(data.EndPoints, plant, start);
        ModelParameters fitted = start with { HeatLossScale = temperature.HeatLossScale };
        double carbon = Quantiles.Median(data.EndPoints.Select(h => h.EndCarbonPercent!.Value));
        progress?.Report($"oxygen of {data.Oxygen.Count} heats");
        OxygenDemand oxygen = OxygenCheck.Run(data.Oxygen, carbon, plant, fitted);
        progress?.Report("decarburisation at the end of the blow");
        DecarburisationResult decarburisation = DecarburisationCheck.Run(data.EndPoints, data.EndGas, plant, fitted);
        progress?.Report("gas behind the hood");
        HoodGasResult gas = HoodGasCheck.Run(data, plant, fitted);
        progress?.Report("consumption and published figures");
        return new ValidationReport(data, temperature, oxygen, decarburisation, gas, ConsumptionCheck.Run(start), PublishedFigures.All());
    }
}
