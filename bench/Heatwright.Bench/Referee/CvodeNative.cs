// SPDX-License-Identifier: Apache-2.0
using System.Runtime.InteropServices;

namespace Heatwright.Bench.Referee;

/// <summary>
/// What we call of CVODE 6 (SUNDIALS, Lawrence Livermore National Laboratory; built with double precision and 64-bit indices, as
/// Debian does). The one library also exports the serial vector, the dense matrix and the dense linear solver.
/// </summary>
internal static unsafe partial class CvodeNative
{
    public const string Library = "libsundials_cvode.so.6";

    public const int BackwardDifferences = 2;
    public const int Normal = 1;

    public const int Success = 0;
    public const int ReachedStop = 1;
    public const int TooMuchWork = -1;
    public const int TooMuchAccuracy = -2;
    public const int ErrorTestFailures = -3;
    public const int ConvergenceFailures = -4;
    public const int RhsFailed = -8;
    public const int FirstRhsFailed = -9;
    public const int RepeatedRhsFailures = -10;
    public const int UnrecoverableRhs = -11;

    [LibraryImport(Library)]
    public static partial int SUNContext_Create(nint communicator, out nint context);

    [LibraryImport(Library)]
    public static partial int SUNContext_Free(ref nint context);

    [LibraryImport(Library)]
    public static partial nint N_VNew_Serial(long length, nint context);

    [LibraryImport(Library)]
    public static partial double* N_VGetArrayPointer(nint vector);

    [LibraryImport(Library)]
    public static partial void N_VDestroy(nint vector);

    [LibraryImport(Library)]
    public static partial nint SUNDenseMatrix(long rows, long columns, nint context);

    [LibraryImport(Library)]
    public static partial void SUNMatDestroy(nint matrix);

    [LibraryImport(Library)]
    public static partial nint SUNLinSol_Dense(nint vector, nint matrix, nint context);

    [LibraryImport(Library)]
    public static partial int SUNLinSolFree(nint solver);

    [LibraryImport(Library)]
    public static partial nint CVodeCreate(int method, nint context);

    [LibraryImport(Library)]
    public static partial int CVodeInit(nint memory, delegate* unmanaged<double, nint, nint, nint, int> rhs, double time, nint y);

    [LibraryImport(Library)]
    public static partial int CVodeReInit(nint memory, double time, nint y);

    [LibraryImport(Library)]
    public static partial int CVodeSVtolerances(nint memory, double relative, nint absolute);

    [LibraryImport(Library)]
    public static partial int CVodeSetUserData(nint memory, nint data);

    [LibraryImport(Library)]
    public static partial int CVodeSetErrHandlerFn(nint memory, delegate* unmanaged<int, byte*, byte*, byte*, nint, void> handler, nint data);

    [LibraryImport(Library)]
    public static partial int CVodeSetLinearSolver(nint memory, nint solver, nint matrix);

    [LibraryImport(Library)]
    public static partial int CVodeSetMaxNumSteps(nint memory, CLong steps);

    [LibraryImport(Library)]
    public static partial int CVodeSetStopTime(nint memory, double time);

    [LibraryImport(Library)]
    public static partial int CVode(nint memory, double until, nint y, out double reached, int task);

    [LibraryImport(Library)]
    public static partial void CVodeFree(ref nint memory);

    [LibraryImport(Library)]
    public static partial int CVodeGetNumSteps(nint memory, out CLong count);

    [LibraryImport(Library)]
    public static partial int CVodeGetNumRhsEvals(nint memory, out CLong count);

    [LibraryImport(Library)]
    public static partial int CVodeGetNumLinRhsEvals(nint memory, out CLong count);

    [LibraryImport(Library)]
    public static partial int CVodeGetNumJacEvals(nint memory, out CLong count);

    [LibraryImport(Library)]
    public static partial int CVodeGetNumLinSolvSetups(nint memory, out CLong count);

    [LibraryImport(Library)]
    public static partial int CVodeGetNumErrTestFails(nint memory, out CLong count);

    [LibraryImport(Library)]
    public static partial int CVodeGetNumNonlinSolvIters(nint memory, out CLong count);

    [LibraryImport(Library)]
    public static partial int CVodeGetNumNonlinSolvConvFails(nint memory, out CLong count);
}
