// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Converter;
using Heatwright.Converter.Blow;
using Heatwright.Converter.Gas;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Series;

namespace Heatwright.Journal.Demo;

/// <summary>
/// The signals of one blow, second by second, as the works' instruments give them: from the true course with noise, the lag of
/// the gas analyser, and its purges. Sound, vibration and brightness are made up to go with foam and gas, without a source.
/// </summary>
internal static class SignalCourse
{
    private const double GasLagS = 14;
    private const double HeldPercent = 44;

    public static SignalBlockBody Of(HeatStory story, HeatClock clock, DemoOptions options)
    {
        var r = story.Random(options, "signals");
        HeatInput written = story.Charge.Written;
        IReadOnlyList<BlowPoint> course = story.Trajectory;
        double zero = written.Programme.ChargeToBlowS;
        int seconds = (int)Math.Ceiling(course[^1].TimeS - zero);
        double heldFrom = story.Mishaps.Held ? (clock.HeldAt - clock.Ignition).TotalSeconds : double.PositiveInfinity;
        int total = seconds + (story.Mishaps.Held ? (int)(HeatClock.HoldMin * 60) : 0);
        HoodGas[] gas = [.. course.Select(p => HoodCourse.At(story.Charge.True, p))];
        var rows = new double[Channels.Length][];
        for (int c = 0; c < rows.Length; c++)
        {
            rows[c] = new double[total + 1];
        }

        var lime = new Hopper(written, "lime", 14e3);
        var ore = new Hopper(written, "ore", 8e3);
        int at = 0, behind = 0;
        for (int s = 0; s <= total; s++)
        {
            bool held = s >= heldFrom && s < heldFrom + (HeatClock.HoldMin * 60);
            double bath = s < heldFrom ? s : held ? heldFrom : s - (story.Mishaps.Held ? HeatClock.HoldMin * 60 : 0);
            Forward(course, ref at, bath + zero);
            Forward(course, ref behind, Math.Max(0, bath + zero - GasLagS));
            Moment(rows, s, story, course[at], gas[behind], held, (lime, ore), r);
        }

        int purge = r.Chance(0.2) ? 200 + r.Below(500) : -1;
        long start = clock.Ignition.ToUnixTimeMilliseconds();
        var series = Channels.Select((channel, c) => SignalSeries.Of(channel, [.. rows[c].Select((v, s) =>
        {
            bool out1 = purge >= 0 && s >= purge && s < purge + 25 && channel.Name.StartsWith("gas ", StringComparison.Ordinal) && channel.Unit == "vol %";
            return out1
                ? new SignalSample(1000L * s, double.NaN, new SampleStatus(SampleReason.BadOutOfService))
                : new SignalSample(1000L * s, v);
        })]));
        return SignalPacking.ToBody(new SignalBlock(DateTimeOffset.FromUnixTimeMilliseconds(start), [.. series]));
    }

    private static readonly SignalChannel[] Channels =
    [
        new("oxygen flow", "Nm3/min", 1), new("oxygen blown", "Nm3", 1), new("oxygen pressure", "bar", 0.1), new("lance height", "m", 0.01),
        new("lance water out", "°C", 0.1), new("lance load", "kg", 10), new("bottom gas flow", "Nm3/min", 0.1), new("bottom gas pressure", "bar", 0.1),
        new("skirt open", "%", 1), new("gas flow", "Nm3/min", 10), new("gas CO", "vol %", 0.1), new("gas CO2", "vol %", 0.1),
        new("gas O2", "vol %", 0.1), new("gas H2", "vol %", 0.1), new("gas N2", "vol %", 0.1), new("gas temperature", "°C", 1),
        new("hood pressure", "kPa", 0.01), new("hood water out", "°C", 0.1), new("fan speed", "%", 0.1), new("bath sound", "", 0.1),
        new("vessel vibration", "", 0.01), new("flame brightness", "", 0.1), new("lime hopper", "kg", 10), new("ore hopper", "kg", 10),
        new("tilt", "deg", 0.1),
    ];

    private static void Moment(
        double[][] rows, int s, HeatStory story, BlowPoint p, HoodGas g, bool held, (Hopper Lime, Hopper Ore) hoppers, DemoRandom r)
    {
        BlowProgramme practice = story.Charge.Written.Programme;
        double percent = Math.Min(p.OxygenPercent, story.Blows[0].EndPercent);
        double flow = held ? 0 : p.OxygenNm3PerS * 60;
        double Step(IReadOnlyList<SetPoint> points) => points.Last(x => x.OxygenPercent <= percent + 1e-9).Value;
        double foam = Math.Min(1.3, p.FoamM / Math.Max(0.5, p.FreeboardM));
        bool slopping = story.Hidden.Slops && Math.Abs(percent - story.Hidden.SlopPercent) < 3;
        double burning = held ? 0 : Math.Min(1, p.CarbonKgPerS / 9);
        int c = 0;
        void Put(double value) => rows[c++][s] = value;
        Put(Math.Max(0, flow * (1 + r.Normal(0, 0.004))));
        Put(story.Charge.OxygenNm3 * percent / 100);
        Put(flow <= 0 ? 0 : (9.4 * flow / 530) + r.Normal(0, 0.05));
        Put(held ? 6 : Step(practice.LanceHeightM) + r.Normal(0, 0.004));
        Put(29 + (flow > 0 ? 8 + (3 * foam) : 0) + r.Normal(0, 0.15));
        Put(6200 + (25 * story.Slot.LanceHeats * 0.06) + (slopping ? 240 : 0) + r.Normal(0, 12));
        Put(p.BottomNm3PerS * 60 * (1 + r.Normal(0, 0.01)));
        Put(6.5 + (4 * p.BottomNm3PerS) + r.Normal(0, 0.04));
        Put(100 * Step(practice.SkirtOpenFraction));
        Put(g.DryNm3PerS * 60 * (1 + r.Normal(0, 0.012)));
        Put(Share(GasSpecies.CO, 0.35));
        Put(Share(GasSpecies.CO2, 0.2));
        Put(Share(GasSpecies.O2, 0.06));
        Put(Share(GasSpecies.H2, 0.08));
        Put(Share(GasSpecies.N2, 0.3));
        Put(g.TemperatureK - 273.15 + r.Normal(0, 6));
        Put(-0.02 + (slopping ? 0.09 : 0) + r.Normal(0, 0.012));
        Put(38 + (9 * burning) + r.Normal(0, 0.2));
        Put((held ? 62 : 74 + (14 * burning)) + r.Normal(0, 0.3));
        Put(Math.Max(5, (flow > 0 ? 92 : 30) - (48 * foam) + r.Normal(0, 1.2)));
        Put(Math.Max(0.05, 0.25 + (0.7 * burning) + (slopping ? 1.1 : 0) + r.Normal(0, 0.05)));
        Put(Math.Max(1, 12 + (70 * burning) + (slopping ? 22 : 0) + r.Normal(0, 1.5)));
        Put(hoppers.Lime.Left(percent) + r.Normal(0, 4));
        Put(hoppers.Ore.Left(percent) + r.Normal(0, 4));
        Put(0);

        double Share(GasSpecies species, double noise)
        {
            double percentDry = g.DryPercent(species);
            return Math.Clamp(percentDry + (percentDry > 0.2 ? r.Normal(0, noise) : Math.Abs(r.Normal(0, 0.03))), 0, 100);
        }
    }

    private static void Forward(IReadOnlyList<BlowPoint> course, ref int at, double timeS)
    {
        while (at + 1 < course.Count && course[at + 1].TimeS <= timeS + 1e-6)
        {
            at++;
        }
    }

    /// <summary>What is left in a hopper as its batches fall.</summary>
    private sealed class Hopper(HeatInput heat, string material, double fullKg)
    {
        private readonly Addition[] _batches = [.. heat.Programme.Additions.Where(a => a.Material.Name == material)];

        public double Left(double percent) => fullKg - _batches.Where(b => b.OxygenPercent <= percent).Sum(b => b.MassKg);
    }
}
