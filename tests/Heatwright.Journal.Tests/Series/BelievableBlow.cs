// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Blow;
using Heatwright.Journal.Series;
using Heatwright.Shop;

namespace Heatwright.Journal.Tests.Series;

/// <summary>
/// Twenty minutes at a converter as its signals would show them: the course of the ordinary heat by the model, read by instruments
/// with drifting and white noise, in the steps in which such instruments usually report (steps and noise: common practice, no source).
/// </summary>
internal static class BelievableBlow
{
    public const int Seconds = 1200;

    private static readonly Lazy<BlowPoint[]> Course = new(Blow);

    public static SignalBlock Block(int seed, bool exact = false)
    {
        var random = new Random(seed);
        BlowPoint[] course = Course.Value;
        bool Blowing(int s) => course[s].OxygenNm3PerS > 0;
        double total = 0;
        double[] blown = [.. course.Select(p => total += p.OxygenNm3PerS)];
        double scale = 14_000;
        var series = new List<SignalSeries>();

        // One line for each instrument: unit, step, white noise, drifting noise, truth at second s.
        Add("oxygen flow", "Nm3/min", 0.1, 1.5, 2, s => 60 * course[s].OxygenNm3PerS);
        Add("oxygen total", "Nm3", 1, 0, 0, s => blown[s]);
        Add("oxygen pressure", "bar", 0.01, 0.02, 0.05, s => Blowing(s) ? 9.5 : 14.2);
        Add("lance height", "m", 0.001, 0.0008, 0, s => Blowing(s) ? course[s].LanceOverBathM : 8.0);
        Add("lance water in", "°C", 0.1, 0.05, 0.2, _ => 31);
        Add("lance water out", "°C", 0.1, 0.1, 0.3, s => 31 + (Blowing(s) ? 12.0 : 2.0));
        Add("lance water pressure", "bar", 0.01, 0.02, 0.02, _ => 8.2);
        Add("bottom gas flow", "Nm3/min", 0.01, 0.03, 0.05, s => 60 * course[s].BottomNm3PerS);
        Add("bottom gas pressure", "bar", 0.01, 0.01, 0.03, s => 4 + (20 * course[s].BottomNm3PerS));
        Add("skirt position", "%", 0.1, 0, 0, s => Blowing(s) ? 8.0 : 100);
        Add("gas CO", "vol %", 0.1, 0.3, 0.6, s => course[s].GasCO);
        Add("gas CO2", "vol %", 0.1, 0.15, 0.3, s => course[s].GasCO2);
        Add("gas O2", "vol %", 0.01, 0.03, 0.05, s => Blowing(s) ? 0.4 : 20.7);
        Add("gas H2", "vol %", 0.1, 0.1, 0.1, s => course[s].GasH2);
        Add("gas N2", "vol %", 0.1, 0.2, 0.4, s => Blowing(s) ? 100 - course[s].GasCO - course[s].GasCO2 : 78);
        Add("gas flow", "Nm3/h", 100, 900, 1500, s => 60_000 + (3600 * course[s].GasNm3PerS));
        Add("gas temperature", "°C", 1, 4, 10, s => Blowing(s) ? 880 : 240);
        Add("hood pressure", "kPa", 0.001, 0.008, 0.005, _ => -0.02);
        Add("hood water out", "°C", 0.1, 0.2, 0.5, s => Blowing(s) ? 182 : 160);
        Add("steam pressure", "bar", 0.01, 0.02, 0.1, _ => 24);
        Add("fan speed", "", 1, 1.5, 2, s => Blowing(s) ? 1380 : 620);
        Add("sound level", "", 0.1, 0.8, 1.2, s => Blowing(s) ? 96 - (4 * course[s].FoamM) : 71);
        Add("lance vibration", "", 0.01, 0.06, 0.05, s => Blowing(s) ? 0.8 : 0.1);
        Add("tilt", "deg", 0.1, 0, 0, s => s < 60 ? 40 - (40.0 * s / 60) : 0);
        Add("flux scale", "kg", 5, 3, 0, s => scale -= s % 150 is > 40 and < 60 ? 70 : 0);
        return new SignalBlock(new DateTimeOffset(2026, 3, 9, 4, 30, 0, TimeSpan.Zero), series);

        void Add(string name, string unit, double resolution, double white, double drifting, Func<int, double> truth)
        {
            double drift = 0;
            var samples = new SignalSample[Seconds];
            for (int s = 0; s < Seconds; s++)
            {
                drift = (0.98 * drift) + (0.2 * drifting * Normal(random));
                double value = truth(s) + drift + (white * Normal(random));

                // The analyser loses its sampling line for a while; every source is away for three seconds in the tenth minute.
                SampleStatus status = name.StartsWith("gas ", StringComparison.Ordinal) && s is > 700 and < 712 ? new SampleStatus(SampleReason.UncertainLastUsableValue)
                    : s is >= 600 and < 603 ? new SampleStatus(SampleReason.BadNoCommunication)
                    : SampleStatus.Good;
                samples[s] = new SignalSample(1000L * s, status.IsBad ? double.NaN : value, status);
            }

            series.Add(SignalSeries.Of(new SignalChannel(name, unit, exact ? 0 : resolution), samples));
        }
    }

    private static BlowPoint[] Blow()
    {
        Heat heat = ShopLoader.LoadDemonstrationHeat("heats/ordinary.yaml").ValueOrThrow();
        BlowResult run = BlowModel.Run(HeatBuilder.Build(ShopLoader.DemonstrationWorks, heat), new BlowOptions(StepS: 1, RecordEveryS: 1));
        var course = new BlowPoint[Seconds];
        int next = 0;
        for (int s = 0; s < Seconds; s++)
        {
            while (next + 1 < run.Trajectory.Count && run.Trajectory[next].TimeS < s)
            {
                next++;
            }

            course[s] = s > run.End.TimeS ? run.End with { OxygenNm3PerS = 0, BottomNm3PerS = 0.05, GasNm3PerS = 0, GasCO = 0, GasCO2 = 0 } : run.Trajectory[next];
        }

        return course;
    }

    // Box and Muller 1958.
    private static double Normal(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
