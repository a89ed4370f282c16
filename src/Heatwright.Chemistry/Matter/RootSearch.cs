// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry;

/// <summary>Root of a function known to rise through zero once between two limits.</summary>
internal static class RootSearch
{
    private const int MostSteps = 200;

    /// <summary>
    /// Regula falsi with the Illinois weighting, kept inside the bracket, to about 1e-13 of the interval. Returns the end
    /// nearer to zero when the function has the same sign at both ends; callers check their limits first.
    /// </summary>
    public static double Increasing(Func<double, double> f, double low, double high)
    {
        double fLow = f(low);
        double fHigh = f(high);
        if (fLow >= 0)
        {
            return low;
        }

        if (fHigh <= 0)
        {
            return high;
        }

        double width = high - low;
        int side = 0;
        for (int step = 0; step < MostSteps && high - low > 1e-14 * width; step++)
        {
            // Bisection every third step keeps the worst case bounded where f bends strongly.
            double x = step % 3 == 2 ? 0.5 * (low + high) : ((low * fHigh) - (high * fLow)) / (fHigh - fLow);
            double y = f(x);
            if (y == 0)
            {
                return x;
            }

            if (y < 0)
            {
                low = x;
                fLow = y;
                fHigh = side == -1 ? fHigh / 2 : fHigh;
                side = -1;
            }
            else
            {
                high = x;
                fHigh = y;
                fLow = side == 1 ? fLow / 2 : fLow;
                side = 1;
            }
        }

        return 0.5 * (low + high);
    }
}
