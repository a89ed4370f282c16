// SPDX-License-Identifier: Apache-2.0
using Heatwright.Bench.Referee;
using Heatwright.Converter;
using Heatwright.Converter.Blow;
using Heatwright.Shop;

namespace Heatwright.Bench;

/// <summary>One blow, a batch of a thousand, and the same equations by CVODE as referee of accuracy and speed.</summary>
internal static class BlowBench
{
    private const double OneBlowLimitS = 5e-3;
    private const double BatchLimitPerS = 1000;
    private const double RelativeErrorLimit = 1e-3;

    public static bool Run()
    {
        Works works = ShopLoader.DemonstrationWorks;
        Heat file = ShopLoader.LoadDemonstrationHeat("heats/ordinary.yaml").ValueOrThrow();
        HeatInput heat = HeatBuilder.Build(works, file);
        ModelParameters parameters = ModelParameters.Default;
        Timing one = Stopwatches.Time(() => BlowModel.Run(heat, parameters, new BlowOptions(Workers: 1)));
        Console.WriteLine($"blow, one on one core:        {one}  (limit {OneBlowLimitS * 1e3:F0} ms)");
        var thousand = new ModelParameters[1000];
        Array.Fill(thousand, parameters);
        Timing batch = Stopwatches.Time(() => BlowModel.Run(heat, thousand), 4, 3);
        double perS = 1000 / batch.MedianS;
        Console.WriteLine($"blow, batch of 1000, all cores: {batch}; {perS:F0} blows/s (limit {BatchLimitPerS:F0})");
        bool good = one.MedianS <= OneBlowLimitS && perS >= BatchLimitPerS;
        return Referee(heat, parameters, one) && good;
    }

    private static bool Referee(HeatInput heat, ModelParameters parameters, Timing one)
    {
        if (!Cvode.IsAvailable)
        {
            Console.WriteLine("blow, referee: libsundials_cvode.so.6 is not installed; skipped");
            return true;
        }

        // The referee sees the practice cut four times finer than the product cuts it.
        var system = new BlowSystem(heat, parameters, 0.5);
        CvodeResult Solve(double relative) => Cvode.Integrate(
            system.Derivative, system.Start, 0, [system.EndS], system.Edges, new CvodeOptions(relative, [.. Absolute(system.Start.Length, relative)]));
        CvodeResult tight = Solve(1e-6);
        if (tight.Status != CvodeStatus.Completed)
        {
            Console.WriteLine($"blow, referee: {tight.Status}: {tight.Message}");
            return false;
        }

        BlowPoint reference = system.Read(tight.States[0]);
        BlowPoint ours = BlowModel.Run(heat, parameters).End;
        double t = Math.Abs((ours.TemperatureK / reference.TemperatureK) - 1);
        double c = Math.Abs((ours.C / reference.C) - 1);
        double feO = Math.Abs((ours.FeO / reference.FeO) - 1);
        Console.WriteLine($"blow, against CVODE at 1e-6: T {ours.TemperatureC:F2} / {reference.TemperatureC:F2} °C ({t:E1}), C {ours.C:F5} / {reference.C:F5} % ({c:E1}), FeO {ours.FeO:F3} / {reference.FeO:F3} % ({feO:E1}); limit {RelativeErrorLimit:E0}");
        Console.WriteLine($"blow, CVODE counters: {tight.Counters}");
        Timing peer = Stopwatches.Time(() => Solve(1e-6), 3, 3);
        Timing loose = Stopwatches.Time(() => Solve(1e-4), 3, 3);
        Console.WriteLine($"blow, CVODE at 1e-6:          {peer}; ours is {peer.MedianS / one.MedianS:F1} times faster");
        Console.WriteLine($"blow, CVODE at 1e-4:          {loose}; ours is {loose.MedianS / one.MedianS:F1} times faster");
        return t < RelativeErrorLimit && c < RelativeErrorLimit && feO < RelativeErrorLimit && one.MedianS < peer.MedianS;
    }

    /// <summary>Absolute tolerances: a gram of mass, a kilojoule of heat, scaled with the relative one.</summary>
    private static IEnumerable<double> Absolute(int count, double relative)
    {
        for (int i = 0; i < count; i++)
        {
            bool heat = i >= BlowState.ScrapHeat && i <= BlowState.HeatLining
                || i is BlowState.OutGas or BlowState.OutDust or BlowState.OutLoss or BlowState.InLining or BlowState.HeatPostCombustion;
            yield return relative * (heat ? 1e9 : 1e3);
        }
    }
}
