// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Charge;

namespace Heatwright.Optimise.Tests;

/// <summary>Short ways to write problems down.</summary>
internal static class Problems
{
    public const double Infinity = double.PositiveInfinity;

    public static LinearVariable Variable(string name, double cost, double lower = 0, double upper = Infinity) => new(name, lower, upper, cost);

    public static LinearRow AtMost(string name, double upper, params (int Variable, double Coefficient)[] terms) =>
        new(name, -Infinity, upper, Terms(terms));

    public static LinearRow AtLeast(string name, double lower, params (int Variable, double Coefficient)[] terms) =>
        new(name, lower, Infinity, Terms(terms));

    public static LinearRow Exactly(string name, double value, params (int Variable, double Coefficient)[] terms) =>
        new(name, value, value, Terms(terms));

    private static LinearTerm[] Terms((int Variable, double Coefficient)[] terms) =>
        [.. terms.Select(t => new LinearTerm(t.Variable, t.Coefficient))];
}
