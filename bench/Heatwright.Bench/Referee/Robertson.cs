// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Bench.Referee;

/// <summary>
/// Robertson's three-species autocatalysis (H. H. Robertson 1966), the usual proof of a stiff integrator: rate constants from 4e-2 to
/// 3e7, solution followed over eleven decades of time.
/// </summary>
public static class Robertson
{
    /// <summary>Time of the reference solution.</summary>
    public const double End = 1e11;

    /// <summary>
    /// State at <see cref="End"/>. Source: Mazzia and Magherini, Test Set for Initial Value Problem Solvers, release 2.4 (2008),
    /// problem ROBER; from memory of that table.
    /// </summary>
    public static IReadOnlyList<double> Reference { get; } = [0.2083340149701255e-7, 0.8333360770334713e-13, 0.9999999791665050];

    /// <summary>State at time zero.</summary>
    public static IReadOnlyList<double> Initial { get; } = [1, 0, 0];

    /// <summary>Right-hand side.</summary>
    public static void Derivative(double t, ReadOnlySpan<double> y, Span<double> derivative)
    {
        double first = 0.04 * y[0];
        double back = 1e4 * y[1] * y[2];
        double second = 3e7 * y[1] * y[1];
        derivative[0] = back - first;
        derivative[1] = first - back - second;
        derivative[2] = second;
    }
}
