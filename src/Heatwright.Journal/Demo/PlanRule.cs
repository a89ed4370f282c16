// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Converter;
using Heatwright.Converter.Blow;
using Heatwright.Converter.Charge;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Lifecycle;
using Heatwright.Shop;
using Heatwright.Shop.Planning;

namespace Heatwright.Journal.Demo;

/// <summary>
/// How the invented works plans: by its own rule with the nominal model. Scrap mix by recipe, lime by silica and the order's
/// basicity, dolomitic lime by the tonne; hot metal, scrap and oxygen are then sought so that the model ends at the tapped mass,
/// the aimed temperature and the aimed carbon (Broyden's method, Math. Comp. 19 (1965) 577, all heats of a block at once).
/// </summary>
internal sealed class PlanRule
{
    /// <summary>What a plan expects, in this order.</summary>
    public static readonly IReadOnlyList<(string Name, Func<BlowPoint, double> Of, bool Log)> Quantities = [.. EndQuantities.All.Select(q => (q.Name, q.Value, Log(q.Name)))];

    // Small compositions scatter by a factor, the others by an amount.
    private static bool Log(string quantity) =>
        quantity != ResultQuantity.SlagFeoPercent && (ResultQuantity.UnitOf(quantity) is "mass %" or "mass ppm");

    private const double SteelKg = 1.005 * DemoGrades.TappedKg;
    private const double DolomiteKg = 3000;
    private const int Iterations = 5;

    private readonly Works _works;
    private readonly DemoOptions _options;
    private readonly EnsembleDraw _draw;
    private readonly BlowOptions _blow;

    public PlanRule(Works works, DemoOptions options)
    {
        _works = works;
        _options = options;
        _draw = new EnsembleDraw(options.PlanMembers, options.Seed, inputs: HeatPlanner.Inputs(works.Plant.Measurement));
        _blow = new BlowOptions(Workers: options.Workers);
    }

    /// <summary>Plans a block.</summary>
    /// <param name="block">Heats.</param>
    /// <param name="shift">By heat: what the crew adds to the aimed temperature, K, and the factor on the oxygen.</param>
    public void Run(IReadOnlyList<HeatStory> block, Func<HeatStory, (double AimK, double Oxygen)> shift)
    {
        var searches = block.Select(s => new Search(s, shift(s).AimK)).ToArray();
        Begin(searches);
        for (int i = 0; i < Iterations; i++)
        {
            BlowPoint[] ends = Ends([.. searches.Select(s => Input(s.Story, s.Next()))]);
            for (int k = 0; k < searches.Length; k++)
            {
                searches[k].Take(ends[k]);
            }
        }

        Expect(block, [.. searches.Select(s => (Rounded(Charge(s.Story, s.Best)), s.AimShiftK, shift(s.Story).Oxygen))]);
    }

    private void Begin(Search[] searches)
    {
        HeatInput[] inputs = [.. searches.SelectMany(s => s.Start().Select(x => Input(s.Story, x)))];
        BlowPoint[] ends = Ends(inputs);
        for (int k = 0; k < searches.Length; k++)
        {
            searches[k].Slopes(ends.AsSpan(4 * k, 4));
        }
    }

    private BlowPoint[] Ends(HeatInput[] inputs) =>
        [.. BlowModel.Run(inputs, Enumerable.Repeat(ModelParameters.Default, inputs.Length).ToArray(), _blow).Select(r => r.End)];

    private HeatInput Input(HeatStory story, double[] x) => HeatBuilder.Build(_works, story.Heat, Charge(story, x));

    // x: hot metal kg, scrap kg, oxygen Nm³.
    private Charge Charge(HeatStory story, double[] x)
    {
        DemoGrade order = story.Slot.Order;
        var scrap = DemoGrades.Recipes[order.Recipe].ToDictionary(p => p.Key, p => p.Value * x[1]);
        return new Charge(x[0], scrap, Additions(story, x[0], scrap), x[2]);
    }

    private Dictionary<string, double> Additions(HeatStory story, double hotMetalKg, Dictionary<string, double> scrap)
    {
        Heat heat = story.Heat;
        bool cold = heat.HotMetalTemperatureK < 1310 + 273.15;
        SolidAnalysis limeOf = _works.Materials.Additions["lime"].Material.Analysis;
        double silica = hotMetalKg * heat.HotMetalAnalysis[Element.Si] / 100 * 2.139;
        foreach ((string id, double kg) in scrap)
        {
            ScrapMaterial m = _works.Materials.Scrap[id].Material;
            silica += kg * ((0.75 * m.DirtPercent) + (m.MetallicShare * m.Analysis[Element.Si] * 2.139)) / 100;
        }

        SolidAnalysis kept = heat.RetainedSlag.Analysis;
        silica += (heat.RetainedSlag.MassKg * kept[Constituent.SiO2] / 100) + (0.35 * heat.HotMetalSlagKg);
        silica += cold ? 0.4 * 750 * 2.139 : 0;
        double lime = (heat.Order.Basicity * silica) - (heat.RetainedSlag.MassKg * kept[Constituent.CaO] / 100) - (0.57 * DolomiteKg) - (0.35 * heat.HotMetalSlagKg);
        double perKg = (limeOf[Constituent.CaO] - (heat.Order.Basicity * limeOf[Constituent.SiO2])) / 100 * 0.985;
        var additions = new Dictionary<string, double>
        {
            ["lime"] = Math.Clamp(lime / perKg, 3500, 14e3),
            ["dolomitic-lime"] = DolomiteKg,
        };
        if (cold)
        {
            additions["ferrosilicon"] = 400;
        }
        else
        {
            additions["ore"] = 600;
        }

        if (story.Slot.Order.Practice == "soft-early-slag")
        {
            additions["fluorspar"] = 200;
        }

        return additions;
    }

    private static double To(double value, double step) => Math.Round(value / step) * step;

    private static Charge Rounded(Charge c)
    {
        return new Charge(
            To(c.HotMetalKg, 100),
            c.ScrapKg.ToDictionary(p => p.Key, p => To(p.Value, 100)),
            c.AdditionsKg.ToDictionary(p => p.Key, p => To(p.Value, 50)),
            To(c.OxygenNm3, 10));
    }

    // One call for the nominal ends and all members of all heats. What the crew shifts is what it expects the model to be off by:
    // it is taken off again from what is expected.
    private void Expect(IReadOnlyList<HeatStory> block, (Charge Charge, double AimShiftK, double Oxygen)[] plans)
    {
        int members = _draw.Count;
        var heats = new List<HeatInput>(block.Count * (members + 1));
        var sets = new List<ModelParameters>(heats.Capacity);
        for (int k = 0; k < block.Count; k++)
        {
            HeatInput written = HeatBuilder.Build(_works, block[k].Heat, plans[k].Charge);
            heats.Add(written);
            sets.Add(ModelParameters.Default);
            for (int m = 0; m < members; m++)
            {
                heats.Add(_draw.Truth(written, m));
                sets.Add(_draw.Sets[m]);
            }
        }

        BlowResult[] results = BlowModel.Run(heats, sets, _blow);
        for (int k = 0; k < block.Count; k++)
        {
            BlowPoint nominal = results[k * (members + 1)].End;
            BlowPoint[] ends = [.. results.AsSpan((k * (members + 1)) + 1, members).ToArray().Select(e => e.End)];
            (double[] low, double[] high) = Band(nominal, ends);
            Order order = block[k].Heat.Order;
            double inside = ends.Count(e => order.TemperatureK.Holds(e.TemperatureK - plans[k].AimShiftK) && order.CarbonPercent.Holds(e.C)
                && order.EndPercent[Element.P].Holds(e.P)) / (double)members;
            Charge charge = plans[k].Charge with { OxygenNm3 = To(plans[k].Charge.OxygenNm3 * plans[k].Oxygen, 10) };
            nominal = nominal with { TemperatureK = nominal.TemperatureK - plans[k].AimShiftK };
            low[0] -= plans[k].AimShiftK;
            high[0] -= plans[k].AimShiftK;
            block[k].Plan = new PlanMade(charge, plans[k].AimShiftK, plans[k].Oxygen, nominal, low, high, inside, Cost(charge));
        }
    }

    // Few members: a normal band about the nominal value (1.2816 deviations hold four in five) instead of ragged quantiles.
    private static (double[] Low, double[] High) Band(BlowPoint nominal, BlowPoint[] ends)
    {
        double[] low = new double[Quantities.Count];
        double[] high = new double[Quantities.Count];
        for (int q = 0; q < Quantities.Count; q++)
        {
            (_, Func<BlowPoint, double> of, bool log) = Quantities[q];
            double At(BlowPoint p) => log ? Math.Log(Math.Max(1e-6, of(p))) : of(p);
            double mean = ends.Average(At);
            double half = 1.2816 * Math.Sqrt(ends.Sum(e => Math.Pow(At(e) - mean, 2)) / (ends.Length - 1));
            low[q] = log ? Math.Exp(At(nominal) - half) : At(nominal) - half;
            high[q] = log ? Math.Exp(At(nominal) + half) : At(nominal) + half;
        }

        return (low, high);
    }

    private double Cost(Charge c) =>
        (c.HotMetalKg * _works.Materials.HotMetal.PriceEurPerKg)
        + c.ScrapKg.Sum(p => p.Value * _works.Materials.Scrap[p.Key].Account.PriceEurPerKg)
        + c.AdditionsKg.Sum(p => p.Value * _works.Materials.Additions[p.Key].Account.PriceEurPerKg)
        + (c.OxygenNm3 * _works.Plant.Oxygen.Gas.PriceEurPerNm3);

    /// <summary>Broyden's search for one heat in steel mass, temperature and log carbon.</summary>
    private sealed class Search(HeatStory story, double aimShiftK)
    {
        private static readonly double[] Probe = [1500, 1500, 120];
        private static readonly double[] Most = [5000, 5000, 350];
        private readonly double[,] _slopes = new double[3, 3];
        private double[] _x = [];
        private double[] _r = [];
        private double[] _next = [];
        private double _bestSize = double.PositiveInfinity;

        public HeatStory Story { get; } = story;

        public double AimShiftK { get; } = aimShiftK;

        public double[] Best { get; private set; } = [];

        public IEnumerable<double[]> Start()
        {
            _x = [143e3, 28e3, Story.Slot.Order.CarbonPercent.Aim > 0.2 ? 7300 : 8300];
            yield return _x;
            for (int j = 0; j < 3; j++)
            {
                double[] x = [.. _x];
                x[j] += Probe[j];
                yield return x;
            }
        }

        public void Slopes(ReadOnlySpan<BlowPoint> ends)
        {
            _r = Residual(ends[0]);
            Keep(_x, _r);
            for (int j = 0; j < 3; j++)
            {
                double[] r = Residual(ends[j + 1]);
                for (int i = 0; i < 3; i++)
                {
                    _slopes[i, j] = (r[i] - _r[i]) / Probe[j];
                }
            }
        }

        public double[] Next()
        {
            double[] step = Solve(_slopes, _r);
            _next = [Limit(0, 115e3, 165e3), Limit(1, 8e3, 48e3), Limit(2, 5500, 11e3)];
            return _next;

            double Limit(int j, double least, double most) => Math.Clamp(_x[j] - Math.Clamp(step[j], -Most[j], Most[j]), least, most);
        }

        public void Take(BlowPoint end)
        {
            double[] r = Residual(end);
            double[] dx = [_next[0] - _x[0], _next[1] - _x[1], _next[2] - _x[2]];

            // Scaled so that a tonne and a hundred cubic metres count alike.
            double[] scaled = [dx[0] / 1e6, dx[1] / 1e6, dx[2] / 1e4];
            double norm = (dx[0] * scaled[0]) + (dx[1] * scaled[1]) + (dx[2] * scaled[2]);
            for (int i = 0; i < 3 && norm > 1e-12; i++)
            {
                double miss = r[i] - _r[i] - (_slopes[i, 0] * dx[0]) - (_slopes[i, 1] * dx[1]) - (_slopes[i, 2] * dx[2]);
                for (int j = 0; j < 3; j++)
                {
                    _slopes[i, j] += miss * scaled[j] / norm;
                }
            }

            _x = _next;
            _r = r;
            Keep(_x, _r);
        }

        private void Keep(double[] x, double[] r)
        {
            double size = (r[0] * r[0]) + (r[1] * r[1]) + (r[2] * r[2]);
            if (size < _bestSize)
            {
                _bestSize = size;
                Best = x;
            }
        }

        // In units of 1 t, 5 K and a tenth of the carbon.
        private double[] Residual(BlowPoint e) =>
        [
            (e.MetalKg - SteelKg) / 1000,
            (e.TemperatureK - Story.Heat.Order.TemperatureAimK - AimShiftK) / 5,
            Math.Log(Math.Max(1e-4, e.C) / Story.Heat.Order.CarbonAimPercent) / 0.1,
        ];

        private static double[] Solve(double[,] a, double[] b)
        {
            static double Det(double p, double q, double r, double s) => (p * s) - (q * r);
            double det = (a[0, 0] * Det(a[1, 1], a[1, 2], a[2, 1], a[2, 2]))
                - (a[0, 1] * Det(a[1, 0], a[1, 2], a[2, 0], a[2, 2]))
                + (a[0, 2] * Det(a[1, 0], a[1, 1], a[2, 0], a[2, 1]));
            if (Math.Abs(det) < 1e-30)
            {
                return [0, 0, 0];
            }

            double[] x = new double[3];
            for (int k = 0; k < 3; k++)
            {
                double At(int i, int j) => j == k ? b[i] : a[i, j];
                x[k] = ((At(0, 0) * Det(At(1, 1), At(1, 2), At(2, 1), At(2, 2)))
                    - (At(0, 1) * Det(At(1, 0), At(1, 2), At(2, 0), At(2, 2)))
                    + (At(0, 2) * Det(At(1, 0), At(1, 1), At(2, 0), At(2, 1)))) / det;
            }

            return x;
        }
    }
}
