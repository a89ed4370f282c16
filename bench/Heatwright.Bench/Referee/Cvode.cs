// SPDX-License-Identifier: Apache-2.0
using System.Runtime.InteropServices;

namespace Heatwright.Bench.Referee;

/// <summary>Right-hand side of dy/dt = f(t, y). Between two edges it must be smooth; at an edge it may jump.</summary>
public delegate void Derivative(double t, ReadOnlySpan<double> y, Span<double> derivative);

/// <summary>How tightly and how long the referee works.</summary>
/// <param name="Relative">Relative tolerance of each step.</param>
/// <param name="Absolute">Absolute tolerance by component; one value serves all.</param>
/// <param name="MostSteps">Most internal steps between two outputs or edges.</param>
public sealed record CvodeOptions(double Relative, double[] Absolute, int MostSteps = 100_000);

/// <summary>How an integration ended.</summary>
public enum CvodeStatus
{
    /// <summary>All output times were reached.</summary>
    Completed,
    /// <summary>More steps than allowed between two outputs.</summary>
    TooManySteps,
    /// <summary>The tolerance is finer than double precision can hold.</summary>
    ToleranceTooFine,
    /// <summary>Error tests failed again and again, or the step became vanishingly small.</summary>
    ErrorTestFailed,
    /// <summary>Newton's method did not converge even at the smallest step.</summary>
    NotConverged,
    /// <summary>The right-hand side gave no finite answer.</summary>
    DerivativeFailed,
    /// <summary>Any other refusal; the message has it.</summary>
    Other,
}

/// <summary>What the integration cost, over all restarts.</summary>
/// <param name="Steps">Internal steps.</param>
/// <param name="Evaluations">Right-hand sides, those for the Jacobian included.</param>
/// <param name="Jacobians">Jacobians, by difference quotients.</param>
/// <param name="Factorisations">Matrix factorisations.</param>
/// <param name="ErrorTestFailures">Steps repeated because the error was too large.</param>
/// <param name="NewtonIterations">Newton iterations.</param>
/// <param name="NewtonFailures">Steps repeated because Newton did not converge.</param>
/// <param name="Restarts">Starts at first order: one, and one for each edge passed.</param>
public sealed record CvodeCounters(
    long Steps,
    long Evaluations,
    long Jacobians,
    long Factorisations,
    long ErrorTestFailures,
    long NewtonIterations,
    long NewtonFailures,
    int Restarts);

/// <summary>Result of an integration.</summary>
/// <param name="Status">How it ended.</param>
/// <param name="States">State at each output time reached, in order.</param>
/// <param name="Counters">Cost.</param>
/// <param name="Message">What the library said when it did not complete; else empty.</param>
public sealed record CvodeResult(CvodeStatus Status, IReadOnlyList<double[]> States, CvodeCounters Counters, string Message);

/// <summary>
/// Stiff initial-value problems by CVODE: backward differences of order 1–5 with dense Newton. A referee for the
/// product's own stepper, not part of the product (docs/decisions/0007).
/// </summary>
public static class Cvode
{
    private static readonly Lazy<bool> Loaded = new(() => NativeLibrary.TryLoad(CvodeNative.Library, out _));

    /// <summary>True when the library is installed (Debian: libsundials-cvode6).</summary>
    public static bool IsAvailable => Loaded.Value;

    /// <summary>Integrates from <paramref name="start"/> through all <paramref name="times"/>.</summary>
    /// <param name="derivative">Right-hand side. Sees the state before an edge until the edge has been passed.</param>
    /// <param name="initial">State at the start.</param>
    /// <param name="start">Start time.</param>
    /// <param name="times">Output times, rising, after the start.</param>
    /// <param name="edges">Times at which the right-hand side jumps, rising: the integration stops exactly there and starts afresh.</param>
    /// <param name="options">Tolerances and limits.</param>
    /// <exception cref="ArgumentException">Times or edges do not rise, or the tolerances do not fit the state.</exception>
    /// <exception cref="DllNotFoundException">The library is not installed.</exception>
    public static CvodeResult Integrate(
        Derivative derivative,
        ReadOnlySpan<double> initial,
        double start,
        IReadOnlyList<double> times,
        IReadOnlyList<double> edges,
        CvodeOptions options)
    {
        ArgumentNullException.ThrowIfNull(derivative);
        ArgumentNullException.ThrowIfNull(options);
        RequireRising(times, start, nameof(times));
        RequireRising(edges, double.NegativeInfinity, nameof(edges));
        if (options.Absolute.Length != 1 && options.Absolute.Length != initial.Length)
        {
            throw new ArgumentException($"{options.Absolute.Length} absolute tolerances for {initial.Length} components; give one or all.", nameof(options));
        }

        using var session = new CvodeSession(derivative, initial, start, options);
        var states = new List<double[]>(times.Count);
        int edge = 0;
        while (edge < edges.Count && edges[edge] <= start)
        {
            edge++;
        }

        session.StopAt(edge < edges.Count ? edges[edge] : double.PositiveInfinity);
        foreach (double time in times)
        {
            while (edge < edges.Count && edges[edge] < time)
            {
                if (!session.Advance(edges[edge]))
                {
                    return session.Result(states);
                }

                session.Restart(edges[edge]);
                edge++;
                session.StopAt(edge < edges.Count ? edges[edge] : double.PositiveInfinity);
            }

            if (!session.Advance(time))
            {
                return session.Result(states);
            }

            states.Add(session.State());
        }

        return session.Result(states);
    }

    private static void RequireRising(IReadOnlyList<double> values, double after, string name)
    {
        ArgumentNullException.ThrowIfNull(values, name);
        foreach (double value in values)
        {
            // Written so that a NaN fails too.
            if (!(value > after))
            {
                throw new ArgumentException($"{value} does not lie after {after}; the times must rise.", name);
            }

            after = value;
        }
    }
}
