// SPDX-License-Identifier: Apache-2.0
using Heatwright.Bench.Referee;

namespace Heatwright.Bench.Tests;

/// <summary>The referee must be right before it judges. Skipped, visibly, where its library is not installed.</summary>
public sealed class CvodeTests
{
    public CvodeTests() => Assert.SkipUnless(Cvode.IsAvailable, "libsundials_cvode.so.6 is not installed (Debian: libsundials-cvode6)");

    /// <summary>Mazzia and Magherini, Test Set for Initial Value Problem Solvers, release 2.4 (2008), problem ROBER (from memory).</summary>
    [Fact]
    public void Robertson_reaches_the_published_end()
    {
        CvodeResult r = Cvode.Integrate(
            Robertson.Derivative,
            [.. Robertson.Initial],
            0,
            [0.4, 4e4, Robertson.End],
            [],
            new CvodeOptions(1e-10, [1e-16, 1e-22, 1e-16]));

        Assert.Equal(CvodeStatus.Completed, r.Status);
        Assert.Equal(3, r.States.Count);
        Assert.All(Robertson.Reference.Zip(r.States[2]), pair => Assert.InRange(pair.Second / pair.First, 1 - 1e-6, 1 + 1e-6));
        Assert.All(r.States, y => Assert.Equal(1, y.Sum(), 9));
        Assert.InRange(r.Counters.Steps, 100, 20_000);
        Assert.InRange(r.Counters.Jacobians, 10, r.Counters.Steps);
        Assert.True(r.Counters.Evaluations > r.Counters.Steps);
        Assert.Equal(1, r.Counters.Restarts);
    }

    [Fact]
    public void Tighter_tolerance_gives_smaller_error_and_more_steps()
    {
        (double Error, long Steps)[] runs = [.. new[] { 1e-4, 1e-6, 1e-8 }.Select(tolerance =>
        {
            CvodeResult r = Cvode.Integrate(Oscillator, [1, 0], 0, [10], [], new CvodeOptions(tolerance, [tolerance]));
            return (Math.Abs(r.States[0][0] - Math.Cos(10)), r.Counters.Steps);
        })];
        Assert.True(runs[0].Error > runs[1].Error && runs[1].Error > runs[2].Error);
        Assert.True(runs[0].Steps < runs[1].Steps && runs[1].Steps < runs[2].Steps);
    }

    /// <summary>
    /// y' = −k (y − u) with u jumping at 1, 2 and 2.5, against its exact solution. The right-hand side records that no
    /// evaluation before an edge saw the value behind it.
    /// </summary>
    [Fact]
    public void Forcing_that_jumps_is_followed_exactly()
    {
        const double k = 50;
        double[] edges = [1, 2, 2.5];
        double[] levels = [3, -1, 8, 0];
        double[] times = [0.5, 1, 1.01, 2.25, 2.5, 3];
        CvodeResult r = Cvode.Integrate(
            (t, y, d) => d[0] = -k * (y[0] - levels[edges.Count(e => t >= e)]),
            [0],
            0,
            times,
            edges,
            new CvodeOptions(1e-9, [1e-12]));

        Assert.Equal(CvodeStatus.Completed, r.Status);
        Assert.All(times.Zip(r.States), pair => Assert.Equal(Exact(pair.First), pair.Second[0], 1e-7));
        Assert.Equal(1 + edges.Length, r.Counters.Restarts);

        double Exact(double time)
        {
            double y = 0;
            double from = 0;
            for (int i = 0; i < levels.Length; i++)
            {
                double to = Math.Min(time, i < edges.Length ? edges[i] : double.PositiveInfinity);
                if (to > from)
                {
                    y = levels[i] + ((y - levels[i]) * Math.Exp(-k * (to - from)));
                    from = to;
                }
            }

            return y;
        }
    }

    [Fact]
    public void Right_hand_side_is_not_asked_at_an_edge_before_it_is_passed()
    {
        int pastEdges = 0;
        bool wentBack = false;
        double[] edges = [1, 2];
        Cvode.Integrate(
            (t, y, d) =>
            {
                int now = edges.Count(e => t >= e);
                wentBack |= now < pastEdges;
                pastEdges = Math.Max(pastEdges, now);
                d[0] = -y[0];
            },
            [1],
            0,
            [3],
            edges,
            new CvodeOptions(1e-6, [1e-9]));
        Assert.Equal(2, pastEdges);
        Assert.False(wentBack);
    }

    [Fact]
    public void Exception_of_the_right_hand_side_comes_back_as_itself() =>
        Assert.Throws<NotSupportedException>(() => Cvode.Integrate(
            (t, _, _) => throw new NotSupportedException("no such gas"), [1], 0, [1], [], new CvodeOptions(1e-6, [1e-9])));

    [Fact]
    public void Failures_are_typed()
    {
        CvodeOptions usual = new(1e-6, [1e-9]);
        CvodeResult undefined = Cvode.Integrate((_, _, d) => d[0] = double.NaN, [1], 0, [1], [], usual);
        Assert.Equal(CvodeStatus.DerivativeFailed, undefined.Status);
        Assert.Empty(undefined.States);
        Assert.NotEmpty(undefined.Message);

        CvodeResult impatient = Cvode.Integrate(Oscillator, [1, 0], 0, [1000], [], usual with { MostSteps = 5 });
        Assert.Equal(CvodeStatus.TooManySteps, impatient.Status);

        // y' = y² leaves the numbers at t = 1.
        CvodeResult explosion = Cvode.Integrate((_, y, d) => d[0] = y[0] * y[0], [1], 0, [0.5, 2], [], usual);
        Assert.NotEqual(CvodeStatus.Completed, explosion.Status);
        Assert.Single(explosion.States);
        Assert.Equal(2, explosion.States[0][0], 1e-4);
    }

    [Fact]
    public void Times_must_rise_and_tolerances_fit()
    {
        CvodeOptions usual = new(1e-6, [1e-9]);
        Assert.Throws<ArgumentException>(() => Cvode.Integrate(Oscillator, [1, 0], 0, [1, 1], [], usual));
        Assert.Throws<ArgumentException>(() => Cvode.Integrate(Oscillator, [1, 0], 0, [0], [], usual));
        Assert.Throws<ArgumentException>(() => Cvode.Integrate(Oscillator, [1, 0], 0, [double.NaN], [], usual));
        Assert.Throws<ArgumentException>(() => Cvode.Integrate(Oscillator, [1, 0], 0, [1], [2, 1], usual));
        Assert.Throws<ArgumentException>(() => Cvode.Integrate(Oscillator, [1, 0, 0], 0, [1], [], usual with { Absolute = [1, 1] }));
    }

    private static void Oscillator(double t, ReadOnlySpan<double> y, Span<double> derivative) => (derivative[0], derivative[1]) = (-y[1], y[0]);
}
