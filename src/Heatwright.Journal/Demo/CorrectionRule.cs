// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter;
using Heatwright.Converter.Blow;
using Heatwright.Shop;

namespace Heatwright.Journal.Demo;

/// <summary>What the crew learnt of the last heats on a vessel.</summary>
/// <param name="AimK">To add to the aimed temperature of the plan, K.</param>
/// <param name="Oxygen">Factor on the planned oxygen.</param>
/// <param name="EndK">To add to the aimed temperature after the measurement, K.</param>
/// <param name="EndLogCarbon">To add to the logarithm of the aimed carbon after the measurement.</param>
internal sealed record CrewShift(double AimK = 0, double Oxygen = 1, double EndK = 0, double EndLogCarbon = 0);

/// <summary>
/// The crew's correction from the in-blow measurement with a table of the nominal model: the model's course of temperature and
/// carbon over oxygen is shifted onto the reading, the oxygen for the aimed carbon is read off, and what is too hot gets ore.
/// </summary>
internal sealed class CorrectionRule
{
    private const double OreProbeKg = 1000;
    private const double DecisionPercent = 2;

    // A reading is not believed to the full: some of its distance to the model is its own error.
    private const double TrustCarbon = 0.75;
    private const double TrustTemperature = 0.85;

    private static readonly double[] Percents = [.. Enumerable.Range(0, 44).Select(k => 74.0 + k)];

    private readonly Works _works;
    private readonly BlowOptions _table;
    private readonly BlowOptions _plain;
    private readonly Dictionary<HeatStory, Course> _courses = [];

    public CorrectionRule(Works works, DemoOptions options)
    {
        _works = works;
        _table = new BlowOptions(SnapshotPercents: Percents, Workers: options.Workers);
        _plain = new BlowOptions(Workers: options.Workers);
    }

    /// <summary>The nominal model's forecast and table of each heat of a block.</summary>
    public void Prepare(IReadOnlyList<HeatStory> block)
    {
        FluxMaterial ore = _works.Materials.Additions["ore"].Material;
        HeatInput Long(HeatInput h, double oreKg, double atPercent) => h with
        {
            Programme = h.Programme with
            {
                BlownFraction = 1.18,
                AfterStirS = 0,
                Additions = oreKg <= 0 ? h.Programme.Additions : [.. h.Programme.Additions, new Addition(atPercent, ore, oreKg)],
            },
        };
        HeatInput[] long1 = [.. block.SelectMany(s =>
        {
            HeatInput h = s.Charge.Written;
            return (HeatInput[])[Long(h, 0, 0), Long(h, OreProbeKg, MeasuredAt(s) + DecisionPercent)];
        })];
        BlowResult[] tables = BlowModel.Run(long1, Nominal(long1.Length), _table);
        HeatInput[] plain = [.. block.Select(s => s.Charge.Written)];
        BlowResult[] ends = BlowModel.Run(plain, Nominal(plain.Length), _plain);
        _courses.Clear();
        for (int i = 0; i < block.Count; i++)
        {
            block[i].Forecast = ends[i].End;
            _courses[block[i]] = new Course(tables[2 * i], tables[(2 * i) + 1], ends[i].End);
        }
    }

    /// <summary>The correction of one heat.</summary>
    /// <param name="story">Heat.</param>
    /// <param name="atPercent">Oxygen at the measurement, % of plan.</param>
    /// <param name="trueK">Bath, K.</param>
    /// <param name="trueCarbon">Carbon, mass %.</param>
    /// <param name="readK">Reading, K, or null.</param>
    /// <param name="readCarbon">Reading, mass %, or null.</param>
    /// <param name="shift">What the last heats taught.</param>
    public CorrectionMade Correct(
        HeatStory story, double atPercent, double trueK, double trueCarbon, double? readK, double? readCarbon, CrewShift shift)
    {
        Course c = _courses[story];
        if (readK is not { } temperatureK)
        {
            BlowPoint f = story.Forecast!;
            return new CorrectionMade(atPercent, trueK, trueCarbon, null, null, f.TemperatureK, f.C, 100, 0, f.TemperatureK, f.C);
        }

        double late = readCarbon is { } carbon ? TrustCarbon * Math.Clamp(atPercent - c.PercentAt(carbon), -8, 8) : 0;
        double hot = TrustTemperature * (temperatureK - c.TemperatureK(atPercent - late));
        double K(double o) => c.TemperatureK(o - late) + hot + c.StirK;
        double Carbon(double o) => c.Carbon(o - late) * c.StirCarbon;
        Order order = story.Heat.Order;
        double aimCarbon = Math.Clamp(
            order.CarbonAimPercent * Math.Exp(shift.EndLogCarbon), order.CarbonPercent.Least!.Value, order.CarbonPercent.Most!.Value);
        double aimK = order.TemperatureAimK + shift.EndK;
        double end = Math.Clamp(c.PercentAt(aimCarbon / c.StirCarbon) + late, atPercent + 3, 112);
        double ore = 0;
        double over = K(end) - aimK;
        if (over > 6)
        {
            ore = Math.Clamp(Math.Round(over / c.OreKPerTonne * 10) * 100, 0, 4000);
            end = Math.Clamp(end - (c.OrePercentPerTonne * ore / 1000), atPercent + 3, 112);
        }
        else if (over < -8)
        {
            // Cold: the carbon may go down to its least for the heat of burning it and some iron.
            double most = Math.Min(end + 5, Math.Min(112, c.PercentAt(0.9 * order.CarbonPercent.Least.Value / c.StirCarbon) + late));
            while (end < most && K(end) < aimK - 4)
            {
                end += 0.25;
            }
        }

        double step = 1000.0 / story.Charge.OxygenNm3;
        end = Math.Round(end / step) * step;
        double oreShift = c.OrePercentPerTonne * ore / 1000;
        return new CorrectionMade(
            atPercent, trueK, trueCarbon, readK, readCarbon, K(100), Carbon(100), end, ore,
            K(end + oreShift) - (c.OreKPerTonne * ore / 1000), Carbon(end + oreShift));
    }

    /// <summary>Oxygen to blow on for, % of plan, to warm by so many kelvin and to bring carbon down.</summary>
    public double ReblowPercent(HeatStory story, double atPercent, double byK, double fromCarbon, double toCarbon)
    {
        Course c = _courses[story];
        double slope = Math.Max(1, c.TemperatureK(atPercent + 1) - c.TemperatureK(atPercent - 1)) / 2;
        double forHeat = Math.Max(0, byK) / slope;
        double forCarbon = fromCarbon > toCarbon ? Math.Max(0, c.PercentAt(toCarbon) - c.PercentAt(fromCarbon)) : 0;
        return Math.Clamp(Math.Max(forHeat, forCarbon), 1.5, 6);
    }

    /// <summary>What a tonne of ore cools, K.</summary>
    public double OreKPerTonne(HeatStory story) => _courses[story].OreKPerTonne;

    /// <summary>What the nominal model says of the heat as it was blown: what the crew holds its end readings against.</summary>
    public BlowPoint[] AsBlown(IReadOnlyList<HeatStory> block)
    {
        FluxMaterial ore = _works.Materials.Additions["ore"].Material;
        HeatInput[] heats = [.. block.Select(s =>
        {
            BlowProgramme p = s.Charge.Written.Programme;
            CorrectionMade m = s.Correction;
            return s.Charge.Written with
            {
                Programme = p with
                {
                    BlownFraction = s.Blows[0].EndPercent / 100,
                    Additions = m.OreKg > 0 ? [.. p.Additions, new Addition(m.AtPercent + DecisionPercent, ore, m.OreKg)] : p.Additions,
                },
            };
        })];
        return [.. BlowModel.Run(heats, Nominal(heats.Length), _plain).Select(r => r.End)];
    }

    /// <summary>Share of the planned oxygen at which the ore of the correction falls, %.</summary>
    public static double OreAt(CorrectionMade m) => m.AtPercent + DecisionPercent;

    /// <summary>Share of the planned oxygen of the in-blow measurement, %.</summary>
    public static double MeasuredAt(HeatStory s) => s.Heat.Practice.MeasurementPercent ?? 82;

    private static ModelParameters[] Nominal(int count) => [.. Enumerable.Repeat(ModelParameters.Default, count)];

    /// <summary>The nominal course near the end, read between its points.</summary>
    private sealed class Course
    {
        private readonly double[] _o;
        private readonly double[] _t;
        private readonly double[] _c;

        public Course(BlowResult plain, BlowResult ore, BlowPoint planned)
        {
            _o = [.. plain.Snapshots.Select(p => p.OxygenPercent)];
            _t = [.. plain.Snapshots.Select(p => p.TemperatureK)];
            _c = [.. plain.Snapshots.Select(p => Math.Log(Math.Max(1e-5, p.C)))];
            StirK = planned.TemperatureK - TemperatureK(100);
            StirCarbon = Math.Clamp(planned.C / Carbon(100), 0.5, 1.2);
            int at = Array.FindIndex(_o, o => o >= 100);
            BlowPoint withOre = ore.Snapshots[at];
            OrePercentPerTonne = Math.Clamp(PercentAt(withOre.C) - _o[at], 0, 3) * 1000 / OreProbeKg;
            OreKPerTonne = Math.Clamp(TemperatureK(_o[at] + (OrePercentPerTonne * OreProbeKg / 1000)) - withOre.TemperatureK, 5, 60) * 1000 / OreProbeKg;
        }

        /// <summary>What the after-stir adds, K.</summary>
        public double StirK { get; }

        /// <summary>What it leaves of the carbon.</summary>
        public double StirCarbon { get; }

        public double OreKPerTonne { get; }

        /// <summary>Oxygen that a tonne of ore brings, % of plan.</summary>
        public double OrePercentPerTonne { get; }

        public double TemperatureK(double percent) => At(_t, percent);

        public double Carbon(double percent) => Math.Exp(At(_c, percent));

        /// <summary>Where the course has this carbon, % of plan.</summary>
        public double PercentAt(double carbon)
        {
            double log = Math.Log(Math.Max(1e-5, carbon));
            int k = 1;
            while (k < _c.Length - 1 && _c[k] > log)
            {
                k++;
            }

            double slope = Math.Min(-1e-4, _c[k] - _c[k - 1]);
            return Math.Clamp(_o[k - 1] + ((_o[k] - _o[k - 1]) * (log - _c[k - 1]) / slope), _o[0] - 6, _o[^1] + 3);
        }

        private double At(double[] y, double percent)
        {
            int k = 1;
            while (k < _o.Length - 1 && _o[k] < percent)
            {
                k++;
            }

            return y[k - 1] + ((y[k] - y[k - 1]) * (percent - _o[k - 1]) / (_o[k] - _o[k - 1]));
        }
    }
}
