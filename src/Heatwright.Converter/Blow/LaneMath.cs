// SPDX-License-Identifier: Apache-2.0
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Heatwright.Converter.Blow;

/// <summary>Arithmetic on four heats at once. A lane is a heat; lanes never mix.</summary>
internal static class LaneMath
{
    public const int Lanes = 4;
    public const double Ln10 = 2.302585092994046;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> All(double value) => Vector256.Create(value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> Exp(Vector256<double> x) => Vector256.Exp(x);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> Log(Vector256<double> x) => Vector256.Log(x);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> Sqrt(Vector256<double> x) => Vector256.Sqrt(x);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> Max(Vector256<double> x, double least) => Vector256.Max(x, Vector256.Create(least));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> Min(Vector256<double> x, double most) => Vector256.Min(x, Vector256.Create(most));

    /// <summary>The positive part.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> Positive(Vector256<double> x) => Vector256.Max(x, Vector256<double>.Zero);

    /// <summary>
    /// The lesser of two non-negative flows with a rounded corner: (a⁻⁴ + b⁻⁴)^(−1/4). Never above either; 16 % below both
    /// where they are equal. Used where a supply meets a demand and nature has no corner.
    /// </summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> LesserOf(Vector256<double> a, Vector256<double> b)
    {
        Vector256<double> a2 = a * a;
        Vector256<double> b2 = b * b;
        return a * b / Max(Sqrt(Sqrt((a2 * a2) + (b2 * b2))), 1e-30);
    }

    /// <summary>
    /// A rate that can't empty a store faster than its time constant allows: rate·m/(m + rate·τ).
    /// Keeps every mass positive without a corner; τ is a few steps.
    /// </summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> Within(Vector256<double> rate, Vector256<double> store, double timeConstantS)
    {
        Vector256<double> kept = Positive(store);
        return rate * kept / Max(kept + (rate * timeConstantS), 1e-30);
    }
}
