// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Converter.Blow;
using static Heatwright.Converter.Blow.BlowState;

namespace Heatwright.Converter.Charge;

/// <summary>One row of an element balance, kg.</summary>
/// <param name="Element">Element.</param>
/// <param name="InKg">Charged: hot metal, scrap, slags, additions, oxygen, bottom gas, lining.</param>
/// <param name="MetalKg">In the liquid metal.</param>
/// <param name="SlagKg">In the liquid slag.</param>
/// <param name="GasKg">Gone with the gas.</param>
/// <param name="DustKg">Gone as fume, spray and fines.</param>
/// <param name="SolidsKg">In unmelted scrap, frozen metal and undissolved additions.</param>
public sealed record ElementRow(Element Element, double InKg, double MetalKg, double SlagKg, double GasKg, double DustKg, double SolidsKg)
{
    /// <summary>Everything found again, kg.</summary>
    public double OutKg => MetalKg + SlagKg + GasKg + DustKg + SolidsKg;

    /// <summary>(in − out) over what was charged; over 1 g where less was charged.</summary>
    public double Residual => (InKg - OutKg) / Math.Max(InKg, 1e-3);
}

/// <summary>
/// The balance of a heat: what was charged, from the analyses alone, against what is found at the end in metal, slag and solids and
/// has been counted out as gas, dust and loss. It would show a leak between the stores. It can't show a wrong heat of gas or a
/// wrong loss: the metal's heat is what these leave over (the heat account's tests hold them to tabulated heats).
/// </summary>
/// <param name="Elements">A row per element.</param>
/// <param name="EnergyInMJ">Enthalpy charged (elements at 25 °C = 0), MJ.</param>
/// <param name="EnergyOutMJ">Enthalpy found in metal, slag, solids, lining, gas, dust and losses, MJ.</param>
/// <param name="EnergyScaleMJ">Sum of the absolute terms, MJ, for the relative residual.</param>
/// <param name="LeastMassKg">The smallest mass in the final state: never negative beyond rounding.</param>
/// <param name="Account">Terms of the energy balance, MJ.</param>
public sealed record HeatBalance(
    IReadOnlyList<ElementRow> Elements,
    double EnergyInMJ,
    double EnergyOutMJ,
    double EnergyScaleMJ,
    double LeastMassKg,
    EnergyTerms Account)
{
    /// <summary>Gas through the mouth over the whole heat, kmol.</summary>
    public GasTotals Gas { get; init; } = new(0, 0, 0, 0, 0, 0, 0);

    /// <summary>(in − out) over the sum of the absolute terms.</summary>
    public double EnergyResidual => (EnergyInMJ - EnergyOutMJ) / EnergyScaleMJ;

    /// <summary>Largest relative residual of any element.</summary>
    public double WorstElementResidual => Elements.Max(e => Math.Abs(e.Residual));

    internal static HeatBalance Of(HeatInput heat, ModelParameters parameters, LanePack pack, ProgrammeGrid grid, int lane)
    {
        double[] input = ChargedElements.Of(heat, parameters, grid.BottomTotals(lane), LanePack.Get(pack.State, LiningMgO, lane));
        FoundElements found = FoundElements.Of(heat, pack, lane, parameters);
        var rows = new ElementRow[AtomicWeights.Count];
        for (int e = 0; e < rows.Length; e++)
        {
            rows[e] = new ElementRow((Element)e, input[e], found.Metal[e], found.Slag[e], found.Gas[e], found.Dust[e], found.Solids[e]);
        }

        EnergyTerms terms = EnergyTerms.Of(heat, parameters, pack, lane);
        double least = double.MaxValue;
        for (int i = 0; i < ScrapHeat; i++)
        {
            least = Math.Min(least, LanePack.Get(pack.State, i, lane));
        }

        return new HeatBalance(rows, terms.InMJ, terms.OutMJ, terms.ScaleMJ, least, terms)
        {
            Gas = GasTotals.Of(pack, lane),
        };
    }
}

/// <summary>What was charged, kg by element, from the analyses alone.</summary>
internal static class ChargedElements
{
    public static double[] Of(HeatInput heat, ModelParameters parameters, (double Nitrogen, double Argon) bottomNm3, double liningMgOKg)
    {
        double[] kg = new double[AtomicWeights.Count];
        AddMetal(kg, heat.HotMetal.Analysis, heat.HotMetal.MassKg);
        AddSolid(kg, CarriedSlag.Analysis, heat.HotMetal.SlagCarryKg);
        foreach (ScrapCharge s in heat.Scrap)
        {
            AddScrap(kg, s.Material, s.MassKg);
        }

        AddSolid(kg, heat.RetainedSlag.Analysis, heat.RetainedSlag.MassKg);
        BlowProgramme p = heat.Programme;
        foreach (Addition a in p.GivenAdditions)
        {
            AddSolid(kg, a.Material.Analysis, a.MassKg);
        }

        double oxygen = p.OxygenNm3 * p.BlownFraction / Molar.NormalM3PerKmol * parameters.OxygenUse;
        kg[(int)Element.O] += oxygen * p.OxygenPurity * 2 * AtomicWeights.Of(Element.O);
        double inert = oxygen * (1 - p.OxygenPurity) * 0.5;
        kg[(int)Element.N] += (inert + (bottomNm3.Nitrogen / Molar.NormalM3PerKmol)) * 2 * AtomicWeights.Of(Element.N);
        kg[(int)Element.Ar] += (inert + (bottomNm3.Argon / Molar.NormalM3PerKmol)) * AtomicWeights.Of(Element.Ar);
        AddConstituent(kg, Constituent.MgO, liningMgOKg);
        return kg;
    }

    public static void AddMetal(double[] kg, MetalAnalysis analysis, double massKg)
    {
        for (int e = 0; e < kg.Length; e++)
        {
            kg[e] += massKg * analysis[(Element)e] / 100;
        }
    }

    /// <summary>Scrap as weighed: metal, rust, dirt (silica and alumina 3 : 1) and moisture.</summary>
    public static void AddScrap(double[] kg, ScrapMaterial material, double massKg)
    {
        AddMetal(kg, material.Analysis, massKg * material.MetallicShare);
        AddConstituent(kg, Constituent.Fe2O3, massKg * material.RustPercent / 100);
        AddConstituent(kg, Constituent.SiO2, massKg * 0.75 * material.DirtPercent / 100);
        AddConstituent(kg, Constituent.Al2O3, massKg * 0.25 * material.DirtPercent / 100);
        AddConstituent(kg, Constituent.H2O, massKg * material.MoisturePercent / 100);
    }

    public static void AddSolid(double[] kg, SolidAnalysis analysis, double massKg)
    {
        for (int c = 0; c < Constituents.Count; c++)
        {
            AddConstituent(kg, (Constituent)c, massKg * analysis[(Constituent)c] / 100);
        }
    }

    public static void AddConstituent(double[] kg, Constituent constituent, double massKg)
    {
        if (massKg == 0)
        {
            return;
        }

        foreach ((Element element, int atoms) in Constituents.Formula(constituent))
        {
            kg[(int)element] += massKg * atoms * AtomicWeights.Of(element) / Constituents.MolarMass(constituent);
        }
    }
}
