// SPDX-License-Identifier: Apache-2.0
using Heatwright.Bench.Referee;

namespace Heatwright.Bench;

/// <summary>The referee proves itself before it judges: Robertson's problem to its published end.</summary>
internal static class RefereeBench
{
    private const double LargestRelativeError = 1e-6;

    public static bool Run()
    {
        if (!Cvode.IsAvailable)
        {
            Console.WriteLine("referee: libsundials_cvode.so.6 is not installed; skipped");
            return true;
        }

        CvodeResult tight = Integrate(1e-10);
        double error = Robertson.Reference.Select((r, i) => Math.Abs((tight.States[0][i] / r) - 1)).Max();
        Console.WriteLine($"referee, Robertson to {Robertson.End:E0} at 1e-10: largest relative error {error:E1}; {tight.Counters}");
        Console.WriteLine($"referee, Robertson to {Robertson.End:E0} at 1e-6:  {Stopwatches.Time(() => Integrate(1e-6))}");
        return tight.Status == CvodeStatus.Completed && error < LargestRelativeError;
    }

    private static CvodeResult Integrate(double relative) => Cvode.Integrate(
        Robertson.Derivative,
        [.. Robertson.Initial],
        0,
        [Robertson.End],
        [],
        new CvodeOptions(relative, [relative * 1e-6, relative * 1e-12, relative * 1e-6]));
}
