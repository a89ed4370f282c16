// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Converter.Blow;

namespace Heatwright.Converter.Charge;

/// <summary>A decision with what the full model makes of it.</summary>
/// <param name="X">Decision vector: hot metal, scrap, additions (kg), oxygen (Nm³).</param>
/// <param name="Y">Quantities in inner units.</param>
/// <param name="VesselCo2Kg">All carbon in the gas, as CO2.</param>
/// <param name="Run">The run.</param>
internal sealed record PlanPoint(double[] X, double[] Y, double VesselCo2Kg, BlowResult Run);

/// <summary>The model as a function of the decision vector, many points to a call.</summary>
internal sealed class PlanModel
{
    private readonly PlanRequest _request;
    private readonly IReadOnlyList<PlanMaterial> _materials;
    private readonly BlowOptions _options;

    public PlanModel(PlanRequest request, int blows = 0)
    {
        Blows = blows;
        _request = request;
        _materials = request.Materials;
        double late = request.ScrapMoltenByPercent;
        Snapshots = request.Confidence?.Measurement is { } m ? [m.OxygenPercent, late - 0.5, late + 0.5] : [late - 0.5, late + 0.5];
        _options = new BlowOptions(SnapshotPercents: Snapshots);
        PlanLimit mass = request.Limits.First(l => l.Quantity == PlanQuantity.TappedMass);
        TappedKg = mass.Aim ?? mass.Least ?? mass.Most ?? throw new PlanRequestException("The limit on tapped mass has neither least nor most.");
        double size = TappedKg / 160e3;
        Scale = new double[_materials.Count];
        for (int j = 0; j < Scale.Length; j++)
        {
            Scale[j] = size * (j <= request.Scrap.Count ? 6000 : j == Scale.Length - 1 ? 240 : 1500);
        }
    }

    /// <summary>Steel wanted, kg.</summary>
    public double TappedKg { get; }

    /// <summary>Amount by which each decision is usefully moved.</summary>
    public double[] Scale { get; }

    public double[] Snapshots { get; }

    public int Blows { get; private set; }

    public PlanPoint At(double[] x) => At([x])[0];

    public PlanPoint[] At(IReadOnlyList<double[]> xs)
    {
        HeatInput[] heats = [.. xs.Select(x => _request.Build(_request.Decision(x)))];
        return Blow(heats, xs);
    }

    public PlanPoint[] Blow(HeatInput[] heats, IReadOnlyList<double[]> xs)
    {
        var parameters = new ModelParameters[heats.Length];
        Array.Fill(parameters, _request.Parameters);
        BlowResult[] runs = BlowModel.Run(heats, parameters, _options);
        Blows += heats.Length;
        var points = new PlanPoint[heats.Length];
        for (int i = 0; i < points.Length; i++)
        {
            points[i] = new PlanPoint(xs[i], Read(runs[i], xs[i]), VesselCo2(runs[i]), runs[i]);
        }

        return points;
    }

    /// <summary>Quantities of an ensemble's members at one decision.</summary>
    public (BlowResult[] Runs, double[][] Y) Ensemble(double[] x, EnsembleDraw draw)
    {
        BlowResult[] runs = draw.Run(_request.Build(_request.Decision(x)), _options);
        Blows += runs.Length;
        return (runs, [.. runs.Select(r => Read(r, x))]);
    }

    /// <summary>One-sided differences: rows by decision, columns by quantity, the last column the vessel's CO2. One batched call.</summary>
    /// <param name="at">Where.</param>
    /// <param name="fixedToo">Also for materials that the request leaves no room to move.</param>
    public double[][] Jacobian(PlanPoint at, bool fixedToo = false)
    {
        int[] moved = [.. Enumerable.Range(0, at.X.Length).Where(j => fixedToo || _materials[j].Most > _materials[j].Least)];
        double[][] xs = [.. moved.Select(j => Moved(at.X, j, 0.08 * Scale[j]))];
        PlanPoint[] points = At(xs);
        double[][] jacobian = new double[at.X.Length][];
        for (int j = 0; j < jacobian.Length; j++)
        {
            jacobian[j] = new double[PlanQuantities.All.Count + 1];
        }

        for (int i = 0; i < moved.Length; i++)
        {
            Slope(at, points[i], 0.08 * Scale[moved[i]], jacobian[moved[i]]);
        }

        return jacobian;
    }

    public static void Slope(PlanPoint from, PlanPoint to, double step, double[] slope)
    {
        for (int q = 0; q < PlanQuantities.All.Count; q++)
        {
            slope[q] = (to.Y[q] - from.Y[q]) / step;
        }

        slope[^1] = (to.VesselCo2Kg - from.VesselCo2Kg) / step;
    }

    public static double[] Moved(double[] x, int j, double step)
    {
        double[] moved = [.. x];
        moved[j] += step;
        return moved;
    }

    public double Volume(double[] x)
    {
        double volume = 0;
        for (int k = 0; k < _request.Scrap.Count; k++)
        {
            volume += x[1 + k] / _request.Scrap[k].BulkDensityKgM3;
        }

        return volume;
    }

    public double[] Read(BlowResult run, double[] x) => PlanQuantities.Read(run, Volume(x), _request.ScrapMoltenByPercent);

    /// <summary>Carbon in the gas as CO2, kg: CO is counted as if it burnt, wherever it burns.</summary>
    public static double VesselCo2(BlowResult run) =>
        run.Balance.Elements[(int)Element.C].GasKg * (AtomicWeights.Of(Element.C) + (2 * AtomicWeights.Of(Element.O))) / AtomicWeights.Of(Element.C);

    public PlanCosts Costs(PlanPoint p)
    {
        double cost = 0, co2 = p.VesselCo2Kg;
        for (int j = 0; j < p.X.Length; j++)
        {
            cost += _materials[j].Price * p.X[j];
            co2 += _materials[j].Co2 * p.X[j];
        }

        return new PlanCosts(cost, co2, p.VesselCo2Kg, _request.Decision(p.X).TotalScrapKg);
    }
}
