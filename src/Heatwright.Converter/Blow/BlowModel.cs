// SPDX-License-Identifier: Apache-2.0
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Heatwright.Chemistry.Slag;
using Heatwright.Converter.Charge;

namespace Heatwright.Converter.Blow;

/// <summary>How a batch is run.</summary>
/// <param name="StepS">Longest time step, s. The default keeps C, T and FeO at the end within 1e-3 of a tight-tolerance solution (bench, tests).</param>
/// <param name="RecordEveryS">Spacing of trajectory points, s; zero for none.</param>
/// <param name="SnapshotPercents">Shares of the planned oxygen, % in rising order, at which every member's point is kept.</param>
/// <param name="Partition">Phosphorus partition used at the interface.</param>
/// <param name="Workers">Threads; zero for one per core.</param>
public sealed record BlowOptions(
    double StepS = 2,
    double RecordEveryS = 0,
    IReadOnlyList<double>? SnapshotPercents = null,
    PhosphorusModel Partition = PhosphorusModel.SuitoInoue1984,
    int Workers = 0)
{
    /// <summary>No trajectory, default step.</summary>
    public static BlowOptions Default { get; } = new();
}

/// <summary>What came of one heat of a batch.</summary>
/// <param name="End">The heat when the practice is over.</param>
/// <param name="Trajectory">Points in time, empty unless asked for.</param>
/// <param name="Snapshots">Points at the asked shares of oxygen, in their order; the end where the blow stopped earlier.</param>
/// <param name="Balance">Element and energy balance, closed to rounding.</param>
/// <param name="Steps">Time steps taken.</param>
public sealed record BlowResult(
    BlowPoint End,
    IReadOnlyList<BlowPoint> Trajectory,
    IReadOnlyList<BlowPoint> Snapshots,
    HeatBalance Balance,
    int Steps);

/// <summary>
/// The one model of a heat: from charge, practice, vessel and parameters to the course of the blow. Many heats, or many draws of
/// the parameters for one heat, run as one call: four to a vector, packs over the cores. Same input, same bytes, whatever the
/// batch around it.
/// </summary>
public static class BlowModel
{
    /// <summary>Runs one heat under the starting parameters.</summary>
    public static BlowResult Run(HeatInput heat, BlowOptions? options = null) => Run(heat, ModelParameters.Default, options);

    /// <summary>Runs one heat.</summary>
    public static BlowResult Run(HeatInput heat, ModelParameters parameters, BlowOptions? options = null) => Run([heat], [parameters], options)[0];

    /// <summary>Runs one heat under many parameter sets.</summary>
    public static BlowResult[] Run(HeatInput heat, IReadOnlyList<ModelParameters> parameters, BlowOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(parameters);
        var heats = new HeatInput[parameters.Count];
        Array.Fill(heats, heat);
        return Run(heats, parameters, options);
    }

    /// <summary>Runs heat i with parameter set i.</summary>
    /// <exception cref="ArgumentException">The lists differ in length.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A heat, a parameter or an option lies outside what the model takes; the message names the field.</exception>
    public static BlowResult[] Run(IReadOnlyList<HeatInput> heats, IReadOnlyList<ModelParameters> parameters, BlowOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(heats);
        ArgumentNullException.ThrowIfNull(parameters);
        if (heats.Count != parameters.Count)
        {
            throw new ArgumentException($"There are {heats.Count} heats and {parameters.Count} parameter sets; give one set for each heat.", nameof(parameters));
        }

        options ??= BlowOptions.Default;
        HeatLimits.Validate(options);
        HeatInput? last = null;
        foreach (HeatInput heat in heats)
        {
            if (!ReferenceEquals(heat, last))
            {
                HeatLimits.Validate(heat);
                last = heat;
            }
        }

        foreach (ModelParameters set in parameters)
        {
            HeatLimits.Validate(set);
        }

        var results = new BlowResult[heats.Count];
        int packs = (heats.Count + LaneMath.Lanes - 1) / LaneMath.Lanes;
        int workers = Math.Min(packs, options.Workers > 0 ? options.Workers : Environment.ProcessorCount);
        if (workers <= 1)
        {
            var runner = new PackRunner(options);
            for (int pack = 0; pack < packs; pack++)
            {
                runner.Run(heats, parameters, pack * LaneMath.Lanes, results);
            }

            return results;
        }

        int next = -1;
        Parallel.For(0, workers, new ParallelOptions { MaxDegreeOfParallelism = workers }, _ =>
        {
            var runner = new PackRunner(options);
            int pack;
            while ((pack = Interlocked.Increment(ref next)) < packs)
            {
                runner.Run(heats, parameters, pack * LaneMath.Lanes, results);
            }
        });
        return results;
    }
}

/// <summary>Steps packs of four through time. One per worker.</summary>
internal sealed class PackRunner(BlowOptions options)
{
    private readonly LanePack _pack = new();
    private readonly ProgrammeGrid _grid = new();
    private readonly Vector256<double>[] _start = new Vector256<double>[BlowState.Count];
    private readonly HeatInput[] _heats = new HeatInput[LaneMath.Lanes];
    private readonly PhosphorusLine _partition = PhosphorusLine.Of(options.Partition);
    private readonly double[] _snapshots = [.. options.SnapshotPercents ?? []];

    public LanePack Pack => _pack;

    public ProgrammeGrid Grid => _grid;

    public void Run(IReadOnlyList<HeatInput> heats, IReadOnlyList<ModelParameters> parameters, int first, BlowResult[] results)
    {
        int used = Math.Min(LaneMath.Lanes, heats.Count - first);
        Load(heats, parameters, first, used);
        var recorders = new LaneRecorder[used];
        for (int lane = 0; lane < used; lane++)
        {
            recorders[lane] = new LaneRecorder(options.RecordEveryS, _snapshots);
        }

        bool watching = options.RecordEveryS > 0 || _snapshots.Length > 0;
        double[] time = new double[used];
        if (options.RecordEveryS > 0)
        {
            _pack.Apply(_grid, 0);
            _pack.Evaluate(_pack.State, _pack.Rate);
            for (int lane = 0; lane < used; lane++)
            {
                recorders[lane].Add(_pack.Observe(lane, 0, 0));
            }
        }

        int[] steps = new int[used];
        var ends = new BlowPoint[used];
        for (int step = 0; step < _grid.Steps; step++)
        {
            Step(step);
            Vector256<double> dt = _grid.Dt(step);
            for (int lane = 0; lane < used; lane++)
            {
                double length = dt.GetElement(lane);
                if (length <= 0)
                {
                    continue;
                }

                steps[lane]++;
                time[lane] += length;
                if (watching && recorders[lane].Due(time[lane], _grid.Percent(step).GetElement(lane)))
                {
                    recorders[lane].Take(_pack.ObserveFresh(lane, time[lane], _grid.Percent(step).GetElement(lane)));
                }

                // The end is read with the set points of the lane's own last step, whatever the longer lanes go on to do.
                if (step + 1 == _grid.Steps || _grid.Dt(step + 1).GetElement(lane) <= 0)
                {
                    ends[lane] = _pack.ObserveFresh(lane, time[lane], 100 * _heats[lane].Programme.BlownFraction);
                }
            }
        }

        _pack.Evaluate(_pack.State, _pack.Rate);
        for (int lane = 0; lane < used; lane++)
        {
            HeatBalance balance = HeatBalance.Of(_heats[lane], parameters[first + lane], _pack, _grid, lane);
            results[first + lane] = recorders[lane].Finish(ends[lane], balance, steps[lane]);
        }
    }

    public void Load(IReadOnlyList<HeatInput> heats, IReadOnlyList<ModelParameters> parameters, int first, int used)
    {
        for (int lane = 0; lane < LaneMath.Lanes; lane++)
        {
            int source = first + Math.Min(lane, used - 1);
            _heats[lane] = heats[source];
            _pack.Load(lane, heats[source], parameters[source], _partition);
        }

        _grid.Build(_heats.AsSpan(0, used), options.StepS);
        _pack.Begin();
    }

    /// <summary>One step of Heun's method (second order, strong-stability preserving): y₁ = y + h f(y); y ← ½ y + ½ (y₁ + h f(y₁)).</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Step(int step)
    {
        Vector256<double>[] y = _pack.State;
        Vector256<double>[] f = _pack.Rate;
        Vector256<double> dt = _grid.Dt(step);
        _pack.Apply(_grid, step);
        _pack.Evaluate(y, f);
        for (int i = 0; i < y.Length; i++)
        {
            _start[i] = y[i];
            y[i] += dt * f[i];
        }

        _pack.Fed(_grid, step);
        _pack.Evaluate(y, f);
        Vector256<double> half = dt * 0.5;
        for (int i = 0; i < y.Length; i++)
        {
            y[i] = ((_start[i] + y[i]) * 0.5) + (half * f[i]);
        }
    }
}

/// <summary>Collects the points of one lane.</summary>
internal sealed class LaneRecorder
{
    private readonly List<BlowPoint> _points = [];
    private readonly BlowPoint?[] _kept;
    private readonly double[] _snapshots;
    private readonly double _everyS;
    private double _nextS;
    private int _nextSnapshot;
    private bool _pointDue;

    public LaneRecorder(double everyS, double[] snapshots)
    {
        _everyS = everyS;
        _nextS = everyS;
        _snapshots = snapshots;
        _kept = new BlowPoint?[snapshots.Length];
    }

    public void Add(BlowPoint point) => _points.Add(point);

    public bool Due(double timeS, double percent)
    {
        _pointDue = _everyS > 0 && timeS >= _nextS - 1e-9;
        bool snapshot = _nextSnapshot < _snapshots.Length && percent >= _snapshots[_nextSnapshot] - 1e-9 && percent > 0;
        return _pointDue || snapshot;
    }

    public void Take(BlowPoint point)
    {
        if (_pointDue)
        {
            _points.Add(point);
            while (_nextS <= point.TimeS + 1e-9)
            {
                _nextS += _everyS;
            }
        }

        while (_nextSnapshot < _snapshots.Length && point.OxygenPercent >= _snapshots[_nextSnapshot] - 1e-9)
        {
            _kept[_nextSnapshot++] = point;
        }
    }

    public BlowResult Finish(BlowPoint end, HeatBalance balance, int steps)
    {
        if (_points.Count > 0 && _points[^1].TimeS < end.TimeS - 1e-9)
        {
            _points.Add(end);
        }

        return new BlowResult(end, _points, [.. _kept.Select(k => k ?? end)], balance, steps);
    }
}
