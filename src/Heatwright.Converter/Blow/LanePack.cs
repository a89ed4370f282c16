// SPDX-License-Identifier: Apache-2.0
using System.Runtime.Intrinsics;
using Heatwright.Chemistry;
using Heatwright.Converter.Charge;
using static Heatwright.Converter.Blow.BlowState;

namespace Heatwright.Converter.Blow;

/// <summary>
/// Four heats side by side: their constants, their state and the workspace of the equations. One per worker thread; loaded
/// again for every four heats; a step allocates nothing.
/// </summary>
internal sealed partial class LanePack
{
    /// <summary>State and rates of change, one vector per entry of <see cref="BlowState"/>.</summary>
    public readonly Vector256<double>[] State = new Vector256<double>[BlowState.Count];
    public readonly Vector256<double>[] Rate = new Vector256<double>[BlowState.Count];

    private readonly Vector256<double>[] _fluxSlag = new Vector256<double>[HeatInput.MaxFluxes * SlagCount];
    private readonly Vector256<double>[] _fluxMetal = new Vector256<double>[HeatInput.MaxFluxes * MetalCount];
    private readonly Vector256<double>[] _fluxCO2 = new Vector256<double>[HeatInput.MaxFluxes];
    private readonly Vector256<double>[] _fluxH2O = new Vector256<double>[HeatInput.MaxFluxes];
    private readonly Vector256<double>[] _fluxColdEnthalpy = new Vector256<double>[HeatInput.MaxFluxes];
    private readonly Vector256<double>[] _fluxWarmPerS = new Vector256<double>[HeatInput.MaxFluxes];
    private readonly Vector256<double>[] _fluxDissolves = new Vector256<double>[HeatInput.MaxFluxes];
    private readonly Vector256<double>[] _fluxHotYield = new Vector256<double>[HeatInput.MaxFluxes];
    private readonly Vector256<double>[] _fluxAreaPerKg = new Vector256<double>[HeatInput.MaxFluxes];
    private readonly Vector256<double>[] _fluxLimeShare = new Vector256<double>[HeatInput.MaxFluxes];
    private readonly Vector256<double>[] _fluxMagnesiaShare = new Vector256<double>[HeatInput.MaxFluxes];

    private readonly Vector256<double>[] _scrapSlag = new Vector256<double>[HeatInput.MaxScrapClasses * SlagCount];
    private readonly Vector256<double>[] _scrapMetal = new Vector256<double>[HeatInput.MaxScrapClasses * MetalCount];
    private readonly Vector256<double>[] _scrapH2O = new Vector256<double>[HeatInput.MaxScrapClasses];
    private readonly Vector256<double>[] _scrapInert = new Vector256<double>[HeatInput.MaxScrapClasses];
    private readonly Vector256<double>[] _scrapColdEnthalpy = new Vector256<double>[HeatInput.MaxScrapClasses];
    private readonly Vector256<double>[] _scrapCarbon = new Vector256<double>[HeatInput.MaxScrapClasses];
    private readonly Vector256<double>[] _scrapAreaPerKg = new Vector256<double>[HeatInput.MaxScrapClasses];
    private readonly Vector256<double>[] _scrapHalfThickness = new Vector256<double>[HeatInput.MaxScrapClasses];
    private readonly Vector256<double>[] _scrapCharged = new Vector256<double>[HeatInput.MaxScrapClasses];
    private readonly Vector256<double>[] _scrapStart = new Vector256<double>[HeatInput.MaxScrapClasses];

    private readonly Vector256<double>[] _metalEnthalpy = new Vector256<double>[MetalCount];
    private readonly Vector256<double>[] _metalHeatCapacity = new Vector256<double>[MetalCount];
    private readonly Vector256<double>[] _slagEnthalpy = new Vector256<double>[SlagCount];
    private readonly Vector256<double>[] _slagHeatCapacity = new Vector256<double>[SlagCount];
    private readonly Vector256<double>[] _slagKmolPerKg = new Vector256<double>[SlagCount];

    private Vector256<double> _hotMetalMass, _hotMetalInert, _shellInert, _shellEnthalpy, _steelNominal;
    private Vector256<double> _diameter, _bathArea, _nominalLevel, _nozzles, _throat, _throatPressure, _cosine;
    private Vector256<double> _liningStart, _liningCapacity, _liningMgO, _purity;
    private int _fluxes, _scraps;

    // Parameters, broadcast per lane.
    private Vector256<double> _heatLoss, _oxygenUse, _postCombustion, _postCombustionHeat, _ironOxidation, _jetTransfer, _dropletBirth,
        _slagReduction, _interface, _limeDissolution, _scrapTransfer, _phosphorusOffset, _manganeseOffset, _dust, _oxygenPerIron,
        _feOxMolar, _bathCo, _liningWear;

    // Phosphorus partition: log10 L_P = Σ a_i (%i) + b/T + c + n log10(%T.Fe).
    private readonly Vector256<double>[] _lp = new Vector256<double>[9];

    public int FluxCount => _fluxes;

    /// <summary>Sets one lane to a heat at the moment before the first step.</summary>
    public void Load(int lane, HeatInput heat, ModelParameters p, PhosphorusLine partition)
    {
        double ferric = p.FerricShare;
        SetParameters(lane, p, partition);
        SetMatter(lane, ferric);
        SetVessel(lane, heat);
        for (int i = 0; i < BlowState.Count; i++)
        {
            Set(State, i, lane, 0);
        }

        SetFluxes(lane, heat, ferric);
        SetScrap(lane, heat, ferric);
        SetInert(lane, heat);
        _foamScale[lane] = p.FoamScale;

        // Hot metal.
        HotMetal hm = heat.HotMetal;
        double heatMetal = 0;
        double inert = 0;
        foreach (Element e in InertElements)
        {
            inert += hm.Analysis[e] / 100;
        }

        for (int i = 0; i < MetalCount; i++)
        {
            double share = hm.Analysis[MetalElements[i]] / 100;
            Set(State, Metal + i, lane, hm.MassKg * share);
            heatMetal += hm.MassKg * share * Enthalpies.Dissolved(MetalElements[i], hm.TemperatureK);
        }

        heatMetal += hm.MassKg * inert * Enthalpies.Dissolved(Element.Ni, hm.TemperatureK);
        Set(State, HeatMetal, lane, heatMetal);
        Set(ref _hotMetalMass, lane, hm.MassKg);
        Set(ref _hotMetalInert, lane, hm.MassKg * inert);
        Set(ref _shellInert, lane, inert);
        double liquidus = Scrap.LiquidusK(hm.Analysis[Element.C]);
        double shellEnthalpy = -Enthalpies.FusionJPerKg;
        for (int i = 0; i < MetalCount; i++)
        {
            shellEnthalpy += hm.Analysis[MetalElements[i]] / 100 * Enthalpies.Dissolved(MetalElements[i], liquidus);
        }

        Set(ref _shellEnthalpy, lane, shellEnthalpy + (inert * Enthalpies.Dissolved(Element.Ni, liquidus)));

        // Slag kept from the heat before and slag poured with the hot metal.
        double heatSlag = AddSlag(lane, heat.RetainedSlag.Analysis, heat.RetainedSlag.MassKg, heat.RetainedSlag.TemperatureK, ferric)
            + AddSlag(lane, CarriedSlag.Analysis, hm.SlagCarryKg, hm.TemperatureK, ferric);
        Set(State, HeatSlag, lane, heatSlag + SlagMixing.Heat(State, lane));
    }

    internal static double Get(Vector256<double>[] a, int i, int lane) => a[i].GetElement(lane);

    internal static void Set(Vector256<double>[] a, int i, int lane, double value) => a[i] = a[i].WithElement(lane, value);

    private static void Set(ref Vector256<double> v, int lane, double value) => v = v.WithElement(lane, value);

    private double AddSlag(int lane, SolidAnalysis analysis, double massKg, double temperatureK, double ferric)
    {
        double heat = 0;
        (double oxide, double iron) = IronOxide.Split(analysis[Constituent.FeO] / 100, analysis[Constituent.Fe2O3] / 100, ferric);
        for (int i = 0; i < SlagCount; i++)
        {
            double w = i == FeO ? oxide : analysis[SlagConstituents[i]] / 100;
            Set(State, Slag + i, lane, Get(State, Slag + i, lane) + (massKg * w));
            heat += massKg * w * (Get(_slagEnthalpy, i, lane) + (Get(_slagHeatCapacity, i, lane) * (temperatureK - Enthalpies.ReferenceK)));
        }

        double ironKg = massKg * iron;
        Set(State, Metal + Fe, lane, Get(State, Metal + Fe, lane) + ironKg);
        Set(State, HeatMetal, lane, Get(State, HeatMetal, lane) + (ironKg * Enthalpies.Dissolved(Element.Fe, temperatureK)));
        return heat;
    }

    private void SetParameters(int lane, ModelParameters p, PhosphorusLine line)
    {
        Set(ref _heatLoss, lane, p.HeatLossScale);
        Set(ref _oxygenUse, lane, p.OxygenUse);
        Set(ref _postCombustion, lane, p.PostCombustion);
        Set(ref _postCombustionHeat, lane, p.PostCombustionHeatShare);
        Set(ref _ironOxidation, lane, p.IronOxidationShare);
        Set(ref _jetTransfer, lane, p.JetTransfer);
        Set(ref _dropletBirth, lane, p.DropletBirth);
        Set(ref _slagReduction, lane, p.SlagReduction);
        Set(ref _interface, lane, p.Interface);
        Set(ref _limeDissolution, lane, p.LimeDissolution);
        Set(ref _scrapTransfer, lane, p.ScrapTransfer);
        Set(ref _phosphorusOffset, lane, p.PhosphorusOffset);
        Set(ref _manganeseOffset, lane, p.ManganeseOffset);
        Set(ref _dust, lane, p.DustScale);
        Set(ref _oxygenPerIron, lane, IronOxide.OxygenPerIron(p.FerricShare));
        Set(ref _feOxMolar, lane, IronOxide.MolarMass(p.FerricShare));
        Set(ref _bathCo, lane, p.BathCoPressure);
        Set(ref _liningWear, lane, p.LiningWear);
        ReadOnlySpan<double> coefficients = line.Coefficients;
        for (int i = 0; i < _lp.Length; i++)
        {
            Set(_lp, i, lane, coefficients[i]);
        }
    }

    private void SetMatter(int lane, double ferric)
    {
        for (int i = 0; i < MetalCount; i++)
        {
            (double h, double cp) = Enthalpies.Dissolved(MetalElements[i]);
            Set(_metalEnthalpy, i, lane, h);
            Set(_metalHeatCapacity, i, lane, cp);
        }

        for (int i = 0; i < SlagCount; i++)
        {
            (double h, double cp) = i == FeO ? IronOxide.Enthalpy(ferric) : Enthalpies.InSlag(SlagConstituents[i]);
            Set(_slagEnthalpy, i, lane, h);
            Set(_slagHeatCapacity, i, lane, cp);
            Set(_slagKmolPerKg, i, lane, 1 / (i == FeO ? IronOxide.MolarMass(ferric) : Constituents.MolarMass(SlagConstituents[i])));
        }
    }

    private void SetVessel(int lane, HeatInput heat)
    {
        Vessel v = heat.Vessel;
        double metal = heat.HotMetal.MassKg + heat.Scrap.Sum(s => s.MassKg);
        double worn = v.InnerDiameterM + (2 * VesselShape.WearMPerHeat * v.LiningAgeHeats);
        Set(ref _diameter, lane, worn);
        Set(ref _bathArea, lane, Math.PI / 4 * worn * worn);
        Set(ref _steelNominal, lane, metal);
        Set(ref _nominalLevel, lane, metal / VesselShape.SteelKgM3 / (Math.PI / 4 * v.InnerDiameterM * v.InnerDiameterM));
        Set(ref _nozzles, lane, v.NozzleCount);
        Set(ref _throat, lane, v.NozzleThroatM);
        Set(ref _throatPressure, lane, NozzleConstants.Of(v).StagnationPaPerKgS);
        Set(ref _cosine, lane, Math.Cos(v.NozzleAngleDegrees * Math.PI / 180));
        Set(ref _liningStart, lane, v.LiningStartK);
        Set(ref _liningMgO, lane, v.LiningMgoPercent / 100);
        double wall = (Math.PI * worn * v.InnerHeightM * 0.5) + (Math.PI / 4 * worn * worn);
        Set(ref _liningCapacity, lane, wall * VesselShape.LiningActiveLayerM * VesselShape.LiningJPerM3K);
        Set(ref _purity, lane, heat.Programme.OxygenPurity);
    }

    private void SetFluxes(int lane, HeatInput heat, double ferric)
    {
        IReadOnlyList<FluxMaterial> slots = ProgrammeGrid.Slots(heat);
        _fluxes = lane == 0 ? slots.Count : Math.Max(_fluxes, slots.Count);
        for (int j = 0; j < HeatInput.MaxFluxes; j++)
        {
            if (j >= slots.Count)
            {
                ClearFlux(lane, j);
                continue;
            }

            FluxMaterial m = slots[j];
            var split = new FluxSplit(m, ferric);
            bool dissolves = m.Behaviour == FluxBehaviour.DissolvesIntoSlag;
            double hot = split.Slag.Sum() + split.Metal.Sum();
            for (int i = 0; i < SlagCount; i++)
            {
                Set(_fluxSlag, (j * SlagCount) + i, lane, dissolves ? split.Slag[i] / hot : split.Slag[i]);
            }

            for (int i = 0; i < MetalCount; i++)
            {
                Set(_fluxMetal, (j * MetalCount) + i, lane, dissolves ? split.Metal[i] / hot : split.Metal[i]);
            }

            Set(_fluxCO2, j, lane, split.CO2Kmol);
            Set(_fluxH2O, j, lane, split.H2OKmol);
            Set(_fluxColdEnthalpy, j, lane, split.ColdEnthalpy);
            Set(_fluxDissolves, j, lane, dissolves ? 1 : 0);
            Set(_fluxHotYield, j, lane, hot);
            Set(_fluxWarmPerS, j, lane, 1 / Lumps.WarmingTimeS(m, split.CO2Kmol));
            Set(_fluxAreaPerKg, j, lane, 6 / (Lumps.LumpDensityKgM3 * m.ParticleDiameterM));
            double basic = split.Slag[CaO] + split.Slag[MgO];
            Set(_fluxLimeShare, j, lane, basic > 0 ? split.Slag[CaO] / basic : 1);
            Set(_fluxMagnesiaShare, j, lane, basic > 0 ? split.Slag[MgO] / basic : 0);
        }
    }

    private void ClearFlux(int lane, int j)
    {
        for (int i = 0; i < SlagCount; i++)
        {
            Set(_fluxSlag, (j * SlagCount) + i, lane, 0);
        }

        for (int i = 0; i < MetalCount; i++)
        {
            Set(_fluxMetal, (j * MetalCount) + i, lane, 0);
        }

        foreach (Vector256<double>[] a in (Vector256<double>[][])[_fluxCO2, _fluxH2O, _fluxColdEnthalpy, _fluxDissolves, _fluxHotYield, _fluxWarmPerS, _fluxAreaPerKg, _fluxLimeShare, _fluxMagnesiaShare])
        {
            Set(a, j, lane, 0);
        }
    }

    private void SetScrap(int lane, HeatInput heat, double ferric)
    {
        _scraps = lane == 0 ? heat.Scrap.Count : Math.Max(_scraps, heat.Scrap.Count);
        for (int k = 0; k < HeatInput.MaxScrapClasses; k++)
        {
            bool used = k < heat.Scrap.Count && heat.Scrap[k].MassKg > 0;
            ScrapSplit split = used ? new ScrapSplit(heat.Scrap[k].Material, ferric) : default;
            for (int i = 0; i < SlagCount; i++)
            {
                Set(_scrapSlag, (k * SlagCount) + i, lane, used ? split.Slag[i] : 0);
            }

            for (int i = 0; i < MetalCount; i++)
            {
                Set(_scrapMetal, (k * MetalCount) + i, lane, used ? split.Metal[i] : 0);
            }

            Set(_scrapH2O, k, lane, split.H2OKmol);
            Set(_scrapInert, k, lane, split.Inert);
            Set(_scrapColdEnthalpy, k, lane, split.ColdEnthalpy);
            Set(_scrapCarbon, k, lane, split.CarbonPercent);
            double half = used ? heat.Scrap[k].Material.HalfThicknessM : 0.01;
            Set(_scrapHalfThickness, k, lane, half);
            Set(_scrapAreaPerKg, k, lane, 1 / (Scrap.DensityKgM3 * half));
            double mass = used ? heat.Scrap[k].MassKg : 0;
            Set(_scrapCharged, k, lane, mass);
            Set(_scrapStart, k, lane, Math.Max(mass, 1e-6));
            Set(State, ScrapMass + k, lane, mass);
            Set(State, ScrapHeat + k, lane, used ? mass * Enthalpies.SolidSteelJPerKgK * (heat.Scrap[k].TemperatureK - HeatInput.AmbientK) : 0);
        }
    }
}
