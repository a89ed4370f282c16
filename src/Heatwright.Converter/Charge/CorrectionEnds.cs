// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Blow;

namespace Heatwright.Converter.Charge;

/// <summary>The weighed members' ends over oxygen and coolant: a table to search in, and single options run exactly.</summary>
internal sealed class CorrectionEnds
{
    private const double StepPercent = 0.5;
    private const int CoolantSteps = 20;

    private readonly CorrectionRequest _request;
    private readonly EnsembleDraw _draw;
    private readonly int[] _members;
    private readonly double[] _weights;
    private readonly double[] _percents;
    private readonly MemberTable _none;
    private readonly double _stirK;
    private readonly double _stirLogC;

    public CorrectionEnds(CorrectionRequest request, EnsembleDraw draw, int[] members, double[] weights)
    {
        _request = request;
        _draw = draw;
        _members = members;
        _weights = weights;
        var percents = new List<double>();
        double first = Math.Ceiling((request.Measurement.OxygenPercent + 1) / StepPercent) * StepPercent;
        for (double p = first; p <= request.MostOxygenPercent - 0.5; p += StepPercent)
        {
            percents.Add(p);
        }

        _percents = [.. percents];
        _none = Table(null, 0);

        // What the after-stir does is nearly the same wherever the blow ends: taken once, at the planned end.
        if (request.Heat.Programme.AfterStirS > 0)
        {
            BlowResult[] stirred = _draw.Run(At(null, 0, 100), _members);
            int k = Nearest(100);
            for (int i = 0; i < members.Length; i++)
            {
                _stirK += weights[i] * (stirred[i].End.TemperatureK - _none.T[i][k]);
                _stirLogC += weights[i] * (Math.Log(Math.Max(stirred[i].End.C, 1e-6)) - _none.LogC[i][k]);
            }
        }
    }

    /// <summary>The option with the best odds with up to so much coolant, its odds from a run of its own.</summary>
    public CorrectionOption Best(FluxMaterial? coolant, double mostKg)
    {
        MemberTable half = coolant is null ? _none : Table(coolant, mostKg / 2);
        MemberTable full = coolant is null ? _none : Table(coolant, mostKg);
        double bestScore = double.NegativeInfinity;
        (double Kg, double Percent) best = default;
        for (int c = coolant is null ? 0 : 1; c <= (coolant is null ? 0 : CoolantSteps); c++)
        {
            double share = coolant is null ? 0 : (double)c / CoolantSteps;
            for (int k = 0; k < _percents.Length; k++)
            {
                double score = Score(half, full, share, k);
                if (score > bestScore + 1e-9)
                {
                    bestScore = score;
                    best = (share * mostKg, _percents[k]);
                }
            }
        }

        return Exact(coolant, best.Kg, best.Percent);
    }

    /// <summary>One option, run as it would be done.</summary>
    public CorrectionOption Exact(FluxMaterial? coolant, double kg, double percent)
    {
        BlowResult[] runs = _draw.Run(At(coolant, kg, percent), _members);
        CorrectionRequest r = _request;
        double joint = 0, inT = 0, inC = 0, inP = 0, t = 0, c = 0, feO = 0, metal = 0;
        for (int i = 0; i < runs.Length; i++)
        {
            BlowPoint e = runs[i].End;
            double w = _weights[i];
            bool hitT = r.TemperatureK.Holds(e.TemperatureK), hitC = r.CarbonPercent.Holds(e.C);
            inT += hitT ? w : 0;
            inC += hitC ? w : 0;
            joint += hitT && hitC ? w : 0;
            inP += e.P <= (r.MostPhosphorusPercent ?? double.PositiveInfinity) ? w : 0;
            t += w * e.TemperatureK;
            c += w * e.C;
            feO += w * e.FeO;
            metal += w * e.MetalKg;
        }

        double Spread(Func<BlowPoint, double> value, double mean) =>
            Math.Sqrt(runs.Zip(_weights, (run, w) => w * Math.Pow(value(run.End) - mean, 2)).Sum());
        return new CorrectionOption(
            coolant?.Name,
            kg,
            percent,
            (percent - r.Measurement.OxygenPercent) / 100 * r.Heat.Programme.OxygenNm3,
            joint,
            inT,
            inC,
            r.MostPhosphorusPercent is null ? double.NaN : inP,
            t,
            Spread(e => e.TemperatureK, t),
            c,
            Spread(e => e.C, c),
            feO,
            metal);
    }

    private HeatInput At(FluxMaterial? coolant, double kg, double percent)
    {
        BlowProgramme p = _request.Heat.Programme;
        IReadOnlyList<Addition> additions = coolant is null || kg <= 0
            ? p.Additions
            : [.. p.Additions, new Addition(_request.Measurement.OxygenPercent + _request.DecisionPercent, coolant, kg)];
        return _request.Heat with { Programme = p with { BlownFraction = percent / 100, Additions = additions } };
    }

    private int Nearest(double percent) => Enumerable.Range(0, _percents.Length).MinBy(k => Math.Abs(_percents[k] - percent));

    /// <summary>Odds of both windows; where none hits, what comes nearest to both aims.</summary>
    private double Score(MemberTable half, MemberTable full, double share, int k)
    {
        // A parabola through no, half and most coolant.
        double a = ((2 * share) - 1) * (share - 1), b = 4 * share * (1 - share), c = share * ((2 * share) - 1);
        double least = Math.Log(Math.Max(1e-6, _request.CarbonPercent.Least)), most = Math.Log(_request.CarbonPercent.Most);
        double joint = 0, meanK = 0, meanLogC = 0;
        for (int i = 0; i < _weights.Length; i++)
        {
            double t = (a * _none.T[i][k]) + (b * half.T[i][k]) + (c * full.T[i][k]) + _stirK;
            double logC = (a * _none.LogC[i][k]) + (b * half.LogC[i][k]) + (c * full.LogC[i][k]) + _stirLogC;
            joint += _request.TemperatureK.Holds(t) && logC >= least && logC <= most ? _weights[i] : 0;
            meanK += _weights[i] * t;
            meanLogC += _weights[i] * logC;
        }

        double widthK = Math.Max(1, _request.TemperatureK.Most - _request.TemperatureK.Least);
        double away = (Math.Abs(meanK - _request.TemperatureK.Aim) / widthK) + Math.Abs(meanLogC - Math.Log(_request.CarbonPercent.Aim));
        return joint - (0.02 * away);
    }

    private MemberTable Table(FluxMaterial? coolant, double kg)
    {
        HeatInput heat = At(coolant, kg, _request.MostOxygenPercent);
        BlowResult[] runs = _draw.Run(heat with { Programme = heat.Programme with { AfterStirS = 0 } }, _members, new BlowOptions(SnapshotPercents: _percents));
        return new MemberTable([.. runs.Select(r => Line(r, p => p.TemperatureK))], [.. runs.Select(r => Line(r, p => Math.Log(Math.Max(p.C, 1e-6))))]);
    }

    // Points are kept at the end of a time step: read between two of them at the share of oxygen asked for.
    private double[] Line(BlowResult run, Func<BlowPoint, double> value)
    {
        double[] line = new double[_percents.Length];
        for (int k = 0; k < line.Length; k++)
        {
            BlowPoint here = run.Snapshots[k];
            BlowPoint other = run.Snapshots[k > 0 ? k - 1 : Math.Min(1, line.Length - 1)];
            double span = here.OxygenPercent - other.OxygenPercent;
            double v = value(here);
            line[k] = Math.Abs(span) < 1e-6 ? v : v - ((v - value(other)) * (here.OxygenPercent - _percents[k]) / span);
        }

        return line;
    }

    private sealed record MemberTable(double[][] T, double[][] LogC);
}
