// SPDX-License-Identifier: Apache-2.0
using System.Runtime.Intrinsics;

namespace Heatwright.Converter.Blow;

/// <summary>
/// The equations of one heat as a plain system y' = f(t, y) with set points that are constant between edges, so that another
/// integrator can referee the stepping. Not used by the product itself.
/// </summary>
internal sealed class BlowSystem
{
    private readonly LanePack _pack = new();
    private readonly ProgrammeGrid _grid = new();
    private readonly List<(double Start, double End, int Step)> _segments = [];
    private readonly double[] _fedAtStart;
    private readonly Vector256<double>[] _state = new Vector256<double>[BlowState.Count];
    private readonly Vector256<double>[] _rate = new Vector256<double>[BlowState.Count];
    private readonly int _fluxes;
    private int _segment = -1;

    public BlowSystem(HeatInput heat, ModelParameters parameters, double gridS)
    {
        HeatLimits.Validate(heat);
        PhosphorusLine partition = PhosphorusLine.Of(BlowOptions.Default.Partition);
        for (int lane = 0; lane < LaneMath.Lanes; lane++)
        {
            _pack.Load(lane, heat, parameters, partition);
        }

        _grid.Build([heat], gridS);
        _pack.Begin();
        _fluxes = _pack.FluxCount;
        Start = [.. _pack.State.Select(v => v[0])];
        double time = 0;
        for (int step = 0; step < _grid.Steps; step++)
        {
            double end = time + _grid.Dt(step)[0];
            if (_segments.Count > 0 && SameSetPoints(_segments[^1].Step, step))
            {
                _segments[^1] = _segments[^1] with { End = end };
            }
            else
            {
                _segments.Add((time, end, step));
            }

            time = end;
        }

        _fedAtStart = new double[_segments.Count * Math.Max(1, _fluxes)];
        for (int s = 1; s < _segments.Count; s++)
        {
            for (int j = 0; j < _fluxes; j++)
            {
                _fedAtStart[(s * _fluxes) + j] = _fedAtStart[((s - 1) * _fluxes) + j]
                    + (_grid.Feed(_segments[s - 1].Step, j)[0] * (_segments[s - 1].End - _segments[s - 1].Start));
            }
        }
    }

    /// <summary>State at time zero, in the order of <see cref="BlowState"/>.</summary>
    public double[] Start { get; }

    /// <summary>End of the heat, s.</summary>
    public double EndS => _segments[^1].End;

    /// <summary>Times at which a set point jumps, s.</summary>
    public IReadOnlyList<double> Edges => [.. _segments.SkipLast(1).Select(s => s.End)];

    /// <summary>f(t, y). At an edge the set points before it hold.</summary>
    public void Derivative(double t, ReadOnlySpan<double> y, Span<double> derivative)
    {
        int segment = Math.Max(_segment, 0);
        while (segment + 1 < _segments.Count && t > _segments[segment].End)
        {
            segment++;
        }

        while (segment > 0 && t <= _segments[segment].Start)
        {
            segment--;
        }

        if (segment != _segment)
        {
            _segment = segment;
            _pack.Apply(_grid, _segments[segment].Step);
        }

        _pack.SetFed(j => _fedAtStart[(segment * _fluxes) + j] + (_grid.Feed(_segments[segment].Step, j)[0] * (t - _segments[segment].Start)));
        for (int i = 0; i < _state.Length; i++)
        {
            _state[i] = Vector256.Create(y[i]);
        }

        _pack.Evaluate(_state, _rate);
        for (int i = 0; i < _rate.Length; i++)
        {
            derivative[i] = _rate[i][0];
        }
    }

    /// <summary>A state in readable form.</summary>
    public BlowPoint Read(IReadOnlyList<double> y)
    {
        for (int i = 0; i < _pack.State.Length; i++)
        {
            _pack.State[i] = Vector256.Create(y[i]);
        }

        return _pack.ObserveFresh(0, EndS, 100);
    }

    private bool SameSetPoints(int a, int b)
    {
        bool same = _grid.OxygenNm3PerS(a)[0] == _grid.OxygenNm3PerS(b)[0]
            && _grid.LanceM(a)[0] == _grid.LanceM(b)[0]
            && _grid.BottomNm3PerS(a)[0] == _grid.BottomNm3PerS(b)[0]
            && _grid.BottomNitrogen(a)[0] == _grid.BottomNitrogen(b)[0];
        for (int j = 0; j < _fluxes; j++)
        {
            same &= _grid.Feed(a, j)[0] == _grid.Feed(b, j)[0];
        }

        return same;
    }
}
