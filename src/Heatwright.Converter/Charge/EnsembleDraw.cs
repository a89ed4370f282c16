// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Converter.Blow;

namespace Heatwright.Converter.Charge;

/// <summary>
/// Equally likely truths behind one written heat: parameter sets and weighing errors. The same count, seed, spreads and
/// centre give the same members on every machine; the errors belong to the member, not to the heat, so that two charges are
/// compared on common random numbers.
/// </summary>
public sealed class EnsembleDraw
{
    // One column of the design per thing that may err; the names say which.
    private const int Parameters = 17;
    private const int HotMetalMass = 17, HotMetalTemperature = 18, HotMetalAnalysis = 19;
    private const int Oxygen = 24, Lance = 25, Retained = 26, Lining = 27, ScrapMass = 28;
    private const int ScrapResidual = ScrapMass + HeatInput.MaxScrapClasses;
    private const int AdditionMass = ScrapResidual + HeatInput.MaxScrapClasses;
    private const int Columns = AdditionMass + HeatInput.MaxFluxes;

    private static readonly Element[] Residuals = [Element.Cu, Element.Sn, Element.Ni, Element.Cr, Element.Mo, Element.S];

    private readonly double[][] _normal;
    private readonly InputSpread _inputs;

    /// <param name="count">Members, 1 to 100 000. The first is not special: all are draws.</param>
    /// <param name="seed">Seed.</param>
    /// <param name="parameters">Spread of the parameters.</param>
    /// <param name="inputs">Spread of what is weighed.</param>
    /// <param name="centre">Parameters about which is drawn.</param>
    /// <exception cref="ArgumentOutOfRangeException">Count outside its range.</exception>
    public EnsembleDraw(
        int count, int seed, ParameterSpread? parameters = null, InputSpread? inputs = null, ModelParameters? centre = null)
    {
        Check.InRange(count, 1, 100_000, "members", "size of the ensemble");
        Seed = seed;
        _inputs = inputs ?? InputSpread.Default;
        _normal = Stratified.Normal(count, Columns, seed);
        ParameterSpread spread = parameters ?? ParameterSpread.Default;
        var sets = new ModelParameters[count];
        for (int i = 0; i < count; i++)
        {
            sets[i] = Set(centre ?? ModelParameters.Default, spread, _normal[i], _inputs.OxygenPercent / 100 * _normal[i][Oxygen]);
        }

        Sets = sets;
    }

    /// <summary>Number of members.</summary>
    public int Count => Sets.Count;

    /// <summary>Seed it was drawn with.</summary>
    public int Seed { get; }

    /// <summary>
    /// Parameters by member. The error of the oxygen meter stands in <see cref="ModelParameters.OxygenUse"/>: a meter that
    /// reads low and a lance that delivers better cannot be told apart.
    /// </summary>
    public IReadOnlyList<ModelParameters> Sets { get; }

    /// <summary>What the member says was really charged when the heat sheet says <paramref name="written"/>.</summary>
    public HeatInput Truth(HeatInput written, int member)
    {
        ArgumentNullException.ThrowIfNull(written);
        double[] z = _normal[member];
        var scrap = new ScrapCharge[written.Scrap.Count];
        for (int k = 0; k < scrap.Length; k++)
        {
            ScrapCharge s = written.Scrap[k];
            scrap[k] = s with
            {
                Material = Residue(s.Material, Math.Exp(_inputs.ScrapResidualPercent / 100 * z[ScrapResidual + k])),
                MassKg = s.MassKg * Scale(_inputs.ScrapMassPercent, z[ScrapMass + k]),
            };
        }

        return written with
        {
            HotMetal = Iron(written.HotMetal, z),
            Scrap = scrap,
            RetainedSlag = written.RetainedSlag with
            {
                MassKg = written.RetainedSlag.MassKg * Scale(_inputs.RetainedSlagPercent, z[Retained]),
            },
            Vessel = written.Vessel with
            {
                LiningStartK = Math.Clamp(written.Vessel.LiningStartK + (_inputs.LiningStartK * z[Lining]), 300, 1900),
            },
            Programme = Programme(written.Programme, z),
        };
    }

    /// <summary>Blows the written heat under every member's truth.</summary>
    public BlowResult[] Run(HeatInput written, BlowOptions? options = null) => Run(written, [.. Enumerable.Range(0, Count)], options);

    /// <summary>Blows the written heat under the truths of some members, in their order.</summary>
    public BlowResult[] Run(HeatInput written, IReadOnlyList<int> members, BlowOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(members);
        return BlowModel.Run([.. members.Select(i => Truth(written, i))], [.. members.Select(i => Sets[i])], options);
    }

    private static ModelParameters Set(ModelParameters c, ParameterSpread s, double[] z, double meter)
    {
        int next = 0;
        double Log(double centre, double spread) => centre * Math.Exp(spread * z[next++]);
        double Add(double centre, double spread, double least, double most) => Math.Clamp(centre + (spread * z[next++]), least, most);
        var set = new ModelParameters(
            HeatLossScale: Log(c.HeatLossScale, s.HeatLossScale),
            OxygenUse: Add(c.OxygenUse, s.OxygenUse, 0.5, 1.2) * (1 + meter),
            PostCombustion: Add(c.PostCombustion, s.PostCombustion, 0, 0.5),
            PostCombustionHeatShare: Add(c.PostCombustionHeatShare, s.PostCombustionHeatShare, 0, 1),
            IronOxidationShare: Add(c.IronOxidationShare, s.IronOxidationShare, 0, 1),
            JetTransfer: Log(c.JetTransfer, s.JetTransfer),
            DropletBirth: Log(c.DropletBirth, s.DropletBirth),
            SlagReduction: Log(c.SlagReduction, s.SlagReduction),
            Interface: Log(c.Interface, s.Interface),
            LimeDissolution: Log(c.LimeDissolution, s.LimeDissolution),
            ScrapTransfer: Log(c.ScrapTransfer, s.ScrapTransfer),
            PhosphorusOffset: Add(c.PhosphorusOffset, s.PhosphorusOffset, -3, 3),
            ManganeseOffset: Add(c.ManganeseOffset, s.ManganeseOffset, -3, 3),
            FoamScale: Log(c.FoamScale, s.FoamScale),
            DustScale: Log(c.DustScale, s.DustScale),
            FerricShare: c.FerricShare,
            BathCoPressure: Log(c.BathCoPressure, s.BathCoPressure),
            LiningWear: Log(c.LiningWear, s.LiningWear));
        System.Diagnostics.Debug.Assert(next == Parameters, "one column per parameter");
        return set;
    }

    private static double Scale(double percent, double z) => Math.Max(0, 1 + (percent / 100 * z));

    private HotMetal Iron(HotMetal written, double[] z)
    {
        MetalAnalysis a = written.Analysis;
        var percent = new Dictionary<Element, double>(AtomicWeights.Count);
        foreach (Element e in Enum.GetValues<Element>())
        {
            percent[e] = a[e];
        }

        void Err(Element e, double spread, int column, double least, double most)
        {
            // A written zero is a statement that the element is absent, not a reading.
            if (a[e] > 0)
            {
                percent[e] = Math.Clamp(a[e] + (spread * z[column]), Math.Min(least, a[e]), Math.Max(most, a[e]));
            }
        }

        Err(Element.C, _inputs.HotMetalCarbonPercent, HotMetalAnalysis, 2.5, 5.2);
        Err(Element.Si, _inputs.HotMetalSiliconPercent, HotMetalAnalysis + 1, 0, 2.5);
        Err(Element.Mn, _inputs.HotMetalManganesePercent, HotMetalAnalysis + 2, 0, 3);
        Err(Element.P, _inputs.HotMetalPhosphorusPercent, HotMetalAnalysis + 3, 0, 0.5);
        Err(Element.S, _inputs.HotMetalSulphurPercent, HotMetalAnalysis + 4, 0, 0.5);
        return written with
        {
            MassKg = written.MassKg * Scale(_inputs.HotMetalMassPercent, z[HotMetalMass]),
            TemperatureK = Math.Clamp(written.TemperatureK + (_inputs.HotMetalTemperatureK * z[HotMetalTemperature]), 1423, 1823),
            Analysis = new MetalAnalysis(percent),
        };
    }

    private static ScrapMaterial Residue(ScrapMaterial material, double factor)
    {
        if (factor == 1)
        {
            return material;
        }

        var percent = new Dictionary<Element, double>(AtomicWeights.Count);
        foreach (Element e in Enum.GetValues<Element>())
        {
            percent[e] = material.Analysis[e];
        }

        foreach (Element e in Residuals)
        {
            percent[e] *= factor;
        }

        return material with { Analysis = new MetalAnalysis(percent) };
    }

    private BlowProgramme Programme(BlowProgramme written, double[] z)
    {
        var names = new List<FluxMaterial>(HeatInput.MaxFluxes);
        var additions = new Addition[written.Additions.Count];
        for (int i = 0; i < additions.Length; i++)
        {
            Addition a = written.Additions[i];
            int slot = names.IndexOf(a.Material);
            if (slot < 0)
            {
                slot = names.Count;
                names.Add(a.Material);
            }

            // The scale errs for a material, not for each of its batches.
            additions[i] = a with { MassKg = a.MassKg * Scale(_inputs.AdditionMassPercent, z[AdditionMass + (slot % HeatInput.MaxFluxes)]) };
        }

        double offset = _inputs.LanceHeightM * z[Lance];
        SetPoint[] lance = [.. written.LanceHeightM.Select(p => p with { Value = Math.Clamp(p.Value + offset, 0.5, 5) })];
        return written with { LanceHeightM = lance, Additions = additions };
    }
}

/// <summary>Stratified standard normal numbers (Latin hypercube; McKay, Beckman and Conover, Technometrics 21 (1979) 239).</summary>
internal static class Stratified
{
    /// <summary>Rows of members, each column a shuffled set of the normal quantiles at the jittered middles of equal strata.</summary>
    public static double[][] Normal(int rows, int columns, int seed)
    {
        var random = new SplitMix64((ulong)seed);
        double[][] z = new double[rows][];
        for (int i = 0; i < rows; i++)
        {
            z[i] = new double[columns];
        }

        int[] order = new int[rows];
        for (int c = 0; c < columns; c++)
        {
            for (int i = 0; i < rows; i++)
            {
                order[i] = i;
            }

            for (int i = rows - 1; i > 0; i--)
            {
                int k = (int)(random.NextUnit() * (i + 1));
                (order[i], order[k]) = (order[k], order[i]);
            }

            for (int i = 0; i < rows; i++)
            {
                z[i][c] = NormalDistribution.Quantile((order[i] + random.NextUnit()) / rows);
            }
        }

        return z;
    }
}

/// <summary>SplitMix64 (Steele, Lea and Flood, OOPSLA 2014): small, seeded, the same on every machine.</summary>
internal struct SplitMix64(ulong seed)
{
    private ulong _state = seed;

    /// <summary>A number in the open interval (0, 1).</summary>
    public double NextUnit()
    {
        ulong z = _state += 0x9E3779B97F4A7C15UL;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
        z ^= z >> 31;
        return ((z >> 11) + 0.5) / (1UL << 53);
    }
}

/// <summary>The normal distribution.</summary>
internal static class NormalDistribution
{
    /// <summary>
    /// Quantile of the standard normal distribution by the rational approximations of P. J. Acklam (2003), relative error
    /// below 1.15e-9 (from memory; checked in the tests against tabulated quantiles).
    /// </summary>
    public static double Quantile(double p)
    {
        Check.InRange(p, double.Epsilon, 1, "", "probability");
        const double Low = 0.02425;
        if (p < Low)
        {
            return Tail(Math.Sqrt(-2 * Math.Log(p)));
        }

        if (p > 1 - Low)
        {
            return -Tail(Math.Sqrt(-2 * Math.Log(1 - p)));
        }

        double q = p - 0.5;
        double r = q * q;
        return ((((((((((-3.969683028665376e+01 * r) + 2.209460984245205e+02) * r) - 2.759285104469687e+02) * r) + 1.383577518672690e+02) * r)
            - 3.066479806614716e+01) * r) + 2.506628277459239e+00) * q
            / ((((((((((-5.447609879822406e+01 * r) + 1.615858368580409e+02) * r) - 1.556989798598866e+02) * r) + 6.680131188771972e+01) * r)
            - 1.328068155288572e+01) * r) + 1);
    }

    /// <summary>
    /// P(|Z| ≤ z) by Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 7.1.26: error below 1.5e-7 of erf.
    /// </summary>
    public static double TwoSided(double z)
    {
        double x = Math.Abs(z) / Math.Sqrt(2);
        double t = 1 / (1 + (0.3275911 * x));
        double poly = t * (0.254829592 + (t * (-0.284496736 + (t * (1.421413741 + (t * (-1.453152027 + (t * 1.061405429))))))));
        return 1 - (poly * Math.Exp(-x * x));
    }

    private static double Tail(double q) =>
        ((((((((((-7.784894002430293e-03 * q) - 3.223964580411365e-01) * q) - 2.400758277161838e+00) * q) - 2.549732539343734e+00) * q)
            + 4.374664141464968e+00) * q) + 2.938163982698783e+00)
            / ((((((((7.784695709041462e-03 * q) + 3.224671290700398e-01) * q) + 2.445134137142996e+00) * q) + 3.754408661907416e+00) * q) + 1);
}
