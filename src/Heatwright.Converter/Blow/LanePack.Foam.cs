// SPDX-License-Identifier: Apache-2.0
using System.Runtime.Intrinsics;
using Heatwright.Chemistry;
using Heatwright.Chemistry.Slag;
using static Heatwright.Converter.Blow.BlowState;

namespace Heatwright.Converter.Blow;

/// <summary>Foam over the bath.</summary>
/// <param name="HeightM">Slag and foam over the quiet bath, m.</param>
/// <param name="FreeboardM">Quiet bath to mouth, m.</param>
internal readonly record struct FoamState(double HeightM, double FreeboardM);

/// <summary>What is read off a point and does not feed back on the equations.</summary>
internal sealed partial class LanePack
{
    private readonly double[,,] _inertShare = new double[LaneMath.Lanes, 4, HeatInput.MaxScrapClasses + 1];
    private readonly double[] _foamScale = new double[LaneMath.Lanes];
    private readonly double[] _height = new double[LaneMath.Lanes];

    private void SetInert(int lane, HeatInput heat)
    {
        _height[lane] = heat.Vessel.InnerHeightM;
        for (int e = 0; e < InertElements.Length; e++)
        {
            _inertShare[lane, e, 0] = heat.HotMetal.Analysis[InertElements[e]] / 100;
            for (int k = 0; k < HeatInput.MaxScrapClasses; k++)
            {
                ScrapMaterial? m = k < heat.Scrap.Count ? heat.Scrap[k].Material : null;
                double metallic = m?.MetallicShare ?? 0;
                _inertShare[lane, e, k + 1] = m is null ? 0 : metallic * m.Analysis[InertElements[e]] / 100;
            }
        }
    }

    /// <summary>Mass of an element that does not react, in the liquid metal, kg.</summary>
    public double InertKg(Element element, int lane)
    {
        int e = Array.IndexOf(InertElements, element);
        double shell = 0;
        double melted = 0;
        for (int k = 0; k < _scraps; k++)
        {
            shell += Get(State, ScrapShell + k, lane);
            double start = _scrapCharged[k].GetElement(lane);
            melted += (start - Get(State, ScrapMass + k, lane)) * _inertShare[lane, e, k + 1];
        }

        return ((_hotMetalMass.GetElement(lane) - shell) * _inertShare[lane, e, 0]) + melted;
    }

    private double InertPercent(Element element, int lane, double metalKg) => 100 * InertKg(element, lane) / metalKg;

    /// <summary>
    /// Foam height = slag layer + index × gas velocity through the slag. Index after Jiang &amp; Fruehan 1991, 115 μ/√(σρ), with the
    /// viscosity after Urbain thickened by undissolved solids (Roscoe 1952). The gas that foams is the CO born in the slag by droplets
    /// and <see cref="BlowConstants.JetGasThroughSlag"/> of that of the jets, which pass mostly through their own channels. Published
    /// indices differ tenfold and were measured at cm/s, not m/s: the height is a likelihood, not a level (handbook, chapter 40).
    /// </summary>
    private FoamState Foam(int lane, double lumpsKg)
    {
        double At(Vector256<double> v) => v.GetElement(lane);
        double area = At(_bathArea);
        double bath = (At(_metal) + Math.Max(0, At(_steelNominal - _metal))) / VesselShape.SteelKgM3 / area;
        double freeboard = _height[lane] - bath;
        double slag = At(_slagMass);
        if (slag < 50)
        {
            return new FoamState(0, freeboard);
        }

        double solid = Math.Min(0.35, lumpsKg / (lumpsKg + slag));
        double glass = At(_cation[(int)SlagCation.Si] + _cation[(int)SlagCation.P]);
        double amphoteric = At(_cation[(int)SlagCation.Al]) / 2;
        double modifier = 1 - At(_cation[(int)SlagCation.Si] + _cation[(int)SlagCation.P] + _cation[(int)SlagCation.Al]);
        double groups = glass + amphoteric + modifier;
        double viscosity = SlagViscosity.WithSolids(
            SlagViscosity.UrbainFromGroups(glass / groups, modifier / groups, amphoteric / groups, At(_slagK)), solid);
        double index = SlagFoam.IndexJiangFruehan1991(viscosity, BlowConstants.SlagSurfaceTension, VesselShape.SlagKgM3);
        double inSlag = At(_carbonEmulsion) + (BlowConstants.JetGasThroughSlag * At(_carbonJet)) + (At(_carbonBath) * 0.5);
        double velocity = inSlag * Molar.NormalM3PerKmol * At(_slagK) / 273.15 / area;
        double layer = slag / VesselShape.SlagKgM3 / area;

        // Gas hold-up can't exceed what the slag can hold as foam: at most 95 % gas.
        double gasLayer = Math.Min(index * velocity * BlowConstants.FoamIndexScale * _foamScale[lane], layer * 19);
        return new FoamState(layer + gasLayer, freeboard);
    }
}
