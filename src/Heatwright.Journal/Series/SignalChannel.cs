// SPDX-License-Identifier: Apache-2.0
using Heatwright.Shop.Units;

namespace Heatwright.Journal.Series;

/// <summary>A signal: what is recorded, in which unit, and how finely.</summary>
public sealed record SignalChannel
{
    /// <summary>Longest name, characters.</summary>
    public const int MostNameLength = 120;

    // Beyond this many steps the neighbours of a double lie nearly as far apart as the steps do, and nothing is gained by rounding.
    private const double MostSteps = 1L << 50;

    // Steps for each unit where that is a whole number (10 for 0.1): dividing by it gives the double that "0.3" reads as.
    private readonly double _stepsPerUnit;

    /// <param name="name">Name, e.g. "lance height". 1 to 120 characters.</param>
    /// <param name="unit">Unit as <see cref="Kinds"/> knows it, e.g. "Nm3/min"; empty for a plain number (level of sound, position of a switch).</param>
    /// <param name="resolution">
    /// Steps in which the source reads, in the unit: values are rounded to the nearest multiple when they enter a series, and stay as they
    /// are from then on. 0: values are kept exactly.
    /// </param>
    /// <exception cref="ArgumentException">The name is empty or too long, the unit is unknown, or the resolution is negative or not finite.</exception>
    public SignalChannel(string name, string unit, double resolution = 0)
    {
        ArgumentNullException.ThrowIfNull(name);
        ArgumentNullException.ThrowIfNull(unit);
        if (name.Length is 0 or > MostNameLength)
        {
            throw new ArgumentException($"The name of a signal has {name.Length} characters; 1 to {MostNameLength} are allowed.", nameof(name));
        }

        string normal = UnitText.Normalise(unit);
        if (normal.Length > 0 && Kinds.All.All(k => k.Find(normal) is null))
        {
            throw new ArgumentException(
                $"Signal '{name}': unit '{unit}' is not known. Mend: write one that the files of the works use (°C, K, t, kg, Nm3/min, m, bar, vol %, s), or leave it empty for a plain number.",
                nameof(unit));
        }

        if (!double.IsFinite(resolution) || resolution < 0)
        {
            throw new ArgumentException($"Signal '{name}': a resolution of {resolution} is neither 0 (keep exactly) nor a step in {unit}.", nameof(resolution));
        }

        Name = name;
        Unit = normal;
        Resolution = resolution;
        double inverse = Math.Round(1 / resolution);
        _stepsPerUnit = resolution > 0 && inverse >= 1 && 1 / inverse == resolution ? inverse : 0;
    }

    /// <summary>Name.</summary>
    public string Name { get; }

    /// <summary>Unit as written in files, one spelling for what reads the same; empty for a plain number.</summary>
    public string Unit { get; }

    /// <summary>Step of the values, in the unit; 0 when they are kept exactly.</summary>
    public double Resolution { get; }

    /// <summary>The nearest multiple of the resolution. A value so large that steps no longer tell doubles apart stays as it is, as does everything without a resolution.</summary>
    public double Round(double value) => Resolution > 0 && TrySteps(value, out long steps) ? Value(steps) : value;

    /// <summary>The number of steps nearest to a value; false where it has none.</summary>
    internal bool TrySteps(double value, out long steps)
    {
        double exact = Math.Round(_stepsPerUnit > 0 ? value * _stepsPerUnit : value / Resolution);
        bool fits = Math.Abs(exact) <= MostSteps;
        steps = fits ? (long)exact : 0;
        return fits;
    }

    /// <summary>The value of so many steps: the same double every time.</summary>
    internal double Value(long steps) => _stepsPerUnit > 0 ? steps / _stepsPerUnit : steps * Resolution;
}
