// SPDX-License-Identifier: Apache-2.0
using System.Runtime.ExceptionServices;
using System.Runtime.InteropServices;
using static Heatwright.Bench.Referee.CvodeNative;

namespace Heatwright.Bench.Referee;

/// <summary>One integration and the native memory that belongs to it.</summary>
internal sealed unsafe class CvodeSession : IDisposable
{
    private const double Far = 1e300;

    private readonly int _length;
    private readonly Derivative _derivative;
    private readonly GCHandle _self;
    private nint _context;
    private nint _y;
    private nint _absolute;
    private nint _matrix;
    private nint _solver;
    private nint _memory;

    private double _reached;
    private double _lastBefore = double.PositiveInfinity;
    private ExceptionDispatchInfo? _thrown;
    private string _message = string.Empty;
    private CvodeStatus _status = CvodeStatus.Completed;
    private CvodeCounters _counters = new(0, 0, 0, 0, 0, 0, 0, 1);

    public CvodeSession(Derivative derivative, ReadOnlySpan<double> initial, double start, CvodeOptions options)
    {
        _length = initial.Length;
        _derivative = derivative;
        _reached = start;
        _self = GCHandle.Alloc(this);
        try
        {
            Require(SUNContext_Create(0, out _context), nameof(SUNContext_Create));
            _y = Require(N_VNew_Serial(_length, _context), nameof(N_VNew_Serial));
            _absolute = Require(N_VNew_Serial(_length, _context), nameof(N_VNew_Serial));
            initial.CopyTo(Values(_y));
            for (int i = 0; i < _length; i++)
            {
                Values(_absolute)[i] = options.Absolute[options.Absolute.Length == 1 ? 0 : i];
            }

            _memory = Require(CVodeCreate(BackwardDifferences, _context), nameof(CVodeCreate));
            Require(CVodeSetErrHandlerFn(_memory, &KeepMessage, GCHandle.ToIntPtr(_self)), nameof(CVodeSetErrHandlerFn));
            Require(CVodeInit(_memory, &Evaluate, start, _y), nameof(CVodeInit));
            Require(CVodeSVtolerances(_memory, options.Relative, _absolute), nameof(CVodeSVtolerances));
            Require(CVodeSetUserData(_memory, GCHandle.ToIntPtr(_self)), nameof(CVodeSetUserData));
            _matrix = Require(SUNDenseMatrix(_length, _length, _context), nameof(SUNDenseMatrix));
            _solver = Require(SUNLinSol_Dense(_y, _matrix, _context), nameof(SUNLinSol_Dense));
            Require(CVodeSetLinearSolver(_memory, _solver, _matrix), nameof(CVodeSetLinearSolver));
            Require(CVodeSetMaxNumSteps(_memory, new CLong(options.MostSteps)), nameof(CVodeSetMaxNumSteps));
        }
        catch
        {
            Dispose();
            throw;
        }
    }

    public double[] State() => Values(_y).ToArray();

    /// <summary>No step goes past this time, and the right-hand side is not asked at or after it, until the next call.</summary>
    public void StopAt(double time)
    {
        _lastBefore = Math.BitDecrement(time);
        // Version 6.4 cannot clear a stop that was also an output time; a far one takes its place.
        Require(CVodeSetStopTime(_memory, Math.Min(time, Far)), nameof(CVodeSetStopTime));
    }

    /// <summary>Goes on to the time; false when it cannot.</summary>
    public bool Advance(double time)
    {
        if (time <= _reached)
        {
            return true;
        }

        int code = CVode(_memory, time, _y, out _reached, Normal);
        _thrown?.Throw();
        _status = code switch
        {
            Success or ReachedStop => CvodeStatus.Completed,
            TooMuchWork => CvodeStatus.TooManySteps,
            TooMuchAccuracy => CvodeStatus.ToleranceTooFine,
            ErrorTestFailures => CvodeStatus.ErrorTestFailed,
            ConvergenceFailures => CvodeStatus.NotConverged,
            RhsFailed or FirstRhsFailed or RepeatedRhsFailures or UnrecoverableRhs => CvodeStatus.DerivativeFailed,
            _ => CvodeStatus.Other,
        };
        return _status == CvodeStatus.Completed;
    }

    /// <summary>Forgets the history, as it must where the right-hand side jumps.</summary>
    public void Restart(double time)
    {
        _counters = Counters() with { Restarts = _counters.Restarts + 1 };
        Require(CVodeReInit(_memory, time, _y), nameof(CVodeReInit));
        _reached = time;
    }

    public CvodeResult Result(IReadOnlyList<double[]> states) =>
        new(_status, states, Counters(), _status == CvodeStatus.Completed ? string.Empty : _message);

    public void Dispose()
    {
        if (_memory != 0)
        {
            CVodeFree(ref _memory);
        }

        if (_solver != 0)
        {
            _ = SUNLinSolFree(_solver);
            _solver = 0;
        }

        if (_matrix != 0)
        {
            SUNMatDestroy(_matrix);
            _matrix = 0;
        }

        foreach (nint vector in new[] { _y, _absolute }.Where(v => v != 0))
        {
            N_VDestroy(vector);
        }

        (_y, _absolute) = (0, 0);
        if (_context != 0)
        {
            _ = SUNContext_Free(ref _context);
        }

        if (_self.IsAllocated)
        {
            _self.Free();
        }
    }

    /// <summary>The library's counters start again with each restart; ours go on.</summary>
    private CvodeCounters Counters()
    {
        Require(CVodeGetNumSteps(_memory, out CLong steps), nameof(CVodeGetNumSteps));
        Require(CVodeGetNumRhsEvals(_memory, out CLong evaluations), nameof(CVodeGetNumRhsEvals));
        Require(CVodeGetNumLinRhsEvals(_memory, out CLong forJacobian), nameof(CVodeGetNumLinRhsEvals));
        Require(CVodeGetNumJacEvals(_memory, out CLong jacobians), nameof(CVodeGetNumJacEvals));
        Require(CVodeGetNumLinSolvSetups(_memory, out CLong factorisations), nameof(CVodeGetNumLinSolvSetups));
        Require(CVodeGetNumErrTestFails(_memory, out CLong errorFailures), nameof(CVodeGetNumErrTestFails));
        Require(CVodeGetNumNonlinSolvIters(_memory, out CLong iterations), nameof(CVodeGetNumNonlinSolvIters));
        Require(CVodeGetNumNonlinSolvConvFails(_memory, out CLong newtonFailures), nameof(CVodeGetNumNonlinSolvConvFails));
        return new CvodeCounters(
            _counters.Steps + steps.Value,
            _counters.Evaluations + evaluations.Value + forJacobian.Value,
            _counters.Jacobians + jacobians.Value,
            _counters.Factorisations + factorisations.Value,
            _counters.ErrorTestFailures + errorFailures.Value,
            _counters.NewtonIterations + iterations.Value,
            _counters.NewtonFailures + newtonFailures.Value,
            _counters.Restarts);
    }

    private Span<double> Values(nint vector) => new(N_VGetArrayPointer(vector), _length);

    [UnmanagedCallersOnly]
    private static int Evaluate(double t, nint y, nint derivative, nint data)
    {
        var session = (CvodeSession)GCHandle.FromIntPtr(data).Target!;
        try
        {
            Span<double> result = session.Values(derivative);
            session._derivative(Math.Min(t, session._lastBefore), session.Values(y), result);
            foreach (double value in result)
            {
                if (!double.IsFinite(value))
                {
                    return 1; // Recoverable: the library tries a smaller step.
                }
            }

            return 0;
        }
#pragma warning disable CA1031 // No exception may cross native frames; it is thrown again on our side of them.
        catch (Exception e)
#pragma warning restore CA1031
        {
            session._thrown = ExceptionDispatchInfo.Capture(e);
            return -1;
        }
    }

    [UnmanagedCallersOnly]
    private static void KeepMessage(int code, byte* module, byte* function, byte* message, nint data)
    {
        var session = (CvodeSession)GCHandle.FromIntPtr(data).Target!;
        session._message = Marshal.PtrToStringUTF8((nint)message) ?? string.Empty;
    }

    private void Require(int code, string call)
    {
        if (code < 0)
        {
            throw new InvalidOperationException($"CVODE: {call} returned {code}. {_message}");
        }
    }

    private static nint Require(nint pointer, string call) =>
        pointer != 0 ? pointer : throw new InvalidOperationException($"CVODE: {call} gave no memory.");
}
