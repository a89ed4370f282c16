// SPDX-License-Identifier: Apache-2.0
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Heatwright.Chemistry.Slag;
using Heatwright.Converter.Charge;
using static Heatwright.Converter.Blow.BlowState;
using static Heatwright.Converter.Blow.LaneMath;

namespace Heatwright.Converter.Blow;

/// <summary>The right-hand side: one effect per method, in the order in which oxygen meets the heat.</summary>
internal sealed partial class LanePack
{
    private const double GasConstant = BanYa.GasConstant;
    private const double NotionalSlagJPerK = 1e4;
    private static readonly double[] Alpha = BanYa.InteractionRowMajor.ToArray();

    // What the crew does during the step: set from the grid before each step.
    private Vector256<double> _oxygenNm3, _lance, _bottomNm3, _bottomNitrogen;
    private readonly Vector256<double>[] _feed = new Vector256<double>[HeatInput.MaxFluxes];
    private readonly Vector256<double>[] _fed = new Vector256<double>[HeatInput.MaxFluxes];

    // What the state says.
    private Vector256<double> _metal, _metalK, _slagMass, _slagKmolPer100, _slagK, _slagHeatCapacityTotal, _inverseMetalK;
    private readonly Vector256<double>[] _percent = new Vector256<double>[MetalCount];
    private readonly Vector256<double>[] _slagPercent = new Vector256<double>[SlagCount];
    private readonly Vector256<double>[] _lnGamma = new Vector256<double>[BanYa.CationCount];
    private readonly Vector256<double>[] _cation = new Vector256<double>[BanYa.CationCount];
    private Vector256<double> _slagOxygenActivity;

    // What the blocks hand on.
    private Vector256<double> _oxygenKmol, _jetMetal, _cavityDepth, _droplets, _postCombustionKmol;
    private Vector256<double> _carbonJet, _carbonEmulsion, _carbonBath, _gasH2O, _gasCO2Direct, _stir, _lanceDistance;
    private Vector256<double> _interfaceRoot, _nitrogenToMetal, _heatToSlag, _chargedEnthalpy, _ironFromJet, _mgOSaturation;
    private readonly Vector256<double>[] _slagRate = new Vector256<double>[SlagCount];
    private readonly Vector256<double>[] _metalRate = new Vector256<double>[MetalCount];
    private Vector256<double> _hotHeatRate, _otherHeatRate;

    /// <summary>Rates of change of the state <paramref name="y"/> under the present set points.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Evaluate(Vector256<double>[] y, Vector256<double>[] dy)
    {
        Array.Clear(_slagRate);
        Array.Clear(_metalRate);
        _gasH2O = _gasCO2Direct = _hotHeatRate = _otherHeatRate = _chargedEnthalpy = Vector256<double>.Zero;
        MetalState(y);
        SlagState(y);
        Jet();
        OxygenShare(y);
        Emulsion(y);
        Interface(y);
        QuietBath(y);
        ScrapMelting(y, dy);
        FluxDissolution(y, dy);
        Lining(y, dy);
        GasAndDust(y, dy);
        Heat(y, dy);
        for (int i = 0; i < MetalCount; i++)
        {
            dy[Metal + i] = _metalRate[i];
        }

        for (int i = 0; i < SlagCount; i++)
        {
            dy[Slag + i] = _slagRate[i];
        }
    }

    /// <summary>Mass, analysis and temperature of the liquid metal.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void MetalState(Vector256<double>[] y)
    {
        // What does not react: hot metal's part less what is frozen on scrap, plus what has melted.
        Vector256<double> inert = _hotMetalInert;
        for (int k = 0; k < _scraps; k++)
        {
            inert += ((_scrapCharged[k] - y[ScrapMass + k]) * _scrapInert[k]) - (y[ScrapShell + k] * _shellInert);
        }

        Vector256<double> mass = inert;
        Vector256<double> capacity = inert * _metalHeatCapacity[Fe];
        Vector256<double> reference = inert * _metalEnthalpy[Fe];
        for (int i = 0; i < MetalCount; i++)
        {
            mass += y[Metal + i];
            capacity += y[Metal + i] * _metalHeatCapacity[i];
            reference += y[Metal + i] * _metalEnthalpy[i];
        }

        _metal = Max(mass, 1);
        Vector256<double> toPercent = All(100) / _metal;
        for (int i = 0; i < MetalCount; i++)
        {
            _percent[i] = Positive(y[Metal + i] * toPercent);
        }

        // Held within 1000 and 3500 K for the rates only; the enthalpy itself is never touched.
        _metalK = Min(Max(All(Enthalpies.ReferenceK) + ((y[HeatMetal] - reference) / Max(capacity, 1)), 1000), 3500);
        _inverseMetalK = All(1) / _metalK;
    }

    /// <summary>Mass, analysis, temperature and activities of the liquid slag.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void SlagState(Vector256<double>[] y)
    {
        Vector256<double> mass = All(1e-3);
        Vector256<double> kmol = Vector256<double>.Zero;

        // 8 kg of notional slag at bath temperature keep the temperature defined when there is none.
        Vector256<double> capacity = All(NotionalSlagJPerK);
        Vector256<double> reference = Vector256<double>.Zero;
        for (int i = 0; i < SlagCount; i++)
        {
            mass += y[Slag + i];
            capacity += y[Slag + i] * _slagHeatCapacity[i];
            reference += y[Slag + i] * _slagEnthalpy[i];
        }

        for (int j = 0; j < _fluxes; j++)
        {
            Vector256<double> hot = y[FluxHot + j];
            for (int i = 0; i < SlagCount; i++)
            {
                Vector256<double> part = hot * _fluxSlag[(j * SlagCount) + i];
                capacity += part * _slagHeatCapacity[i];
                reference += part * _slagEnthalpy[i];
            }

            Vector256<double> iron = hot * _fluxMetal[(j * MetalCount) + Fe];
            capacity += iron * _metalHeatCapacity[Fe];
            reference += iron * _metalEnthalpy[Fe];
        }

        _slagMass = mass;
        Vector256<double> toPercent = All(100) / mass;
        for (int i = 0; i < SlagCount; i++)
        {
            Vector256<double> percent = Positive(y[Slag + i] * toPercent);
            _slagPercent[i] = percent;
            kmol += percent * _slagKmolPerKg[i];
        }

        Vector256<double> mixing = SlagMixing.Heat(y[Slag + CaO], y[Slag + SiO2], y[Slag + P2O5]);
        Vector256<double> offset = (All(NotionalSlagJPerK) * (_metalK - All(Enthalpies.ReferenceK))) + y[HeatSlag] - mixing - reference;
        _slagK = Min(Max(All(Enthalpies.ReferenceK) + (offset / capacity), 1000), 4000);
        _slagHeatCapacityTotal = capacity;

        // Cation fractions for Ban-ya; V and Cr oxides are left out (no published pairs).
        Vector256<double> ferric = (_oxygenPerIron - All(1)) * 2;
        Vector256<double> nFe = _slagPercent[FeO] * _slagKmolPerKg[FeO];
        _cation[(int)SlagCation.Fe2] = nFe * (All(1) - ferric);
        _cation[(int)SlagCation.Fe3] = nFe * ferric;
        _cation[(int)SlagCation.Ca] = (_slagPercent[CaO] * _slagKmolPerKg[CaO]) + (_slagPercent[CaF2] * _slagKmolPerKg[CaF2]);
        _cation[(int)SlagCation.Mg] = _slagPercent[MgO] * _slagKmolPerKg[MgO];
        _cation[(int)SlagCation.Mn] = _slagPercent[MnO] * _slagKmolPerKg[MnO];
        _cation[(int)SlagCation.Si] = _slagPercent[SiO2] * _slagKmolPerKg[SiO2];
        _cation[(int)SlagCation.P] = _slagPercent[P2O5] * _slagKmolPerKg[P2O5] * 2;
        _cation[(int)SlagCation.Ti] = _slagPercent[TiO2] * _slagKmolPerKg[TiO2];
        _cation[(int)SlagCation.Al] = _slagPercent[Al2O3] * _slagKmolPerKg[Al2O3] * 2;
        Vector256<double> sum = All(1e-9);
        for (int i = 0; i < BanYa.CationCount; i++)
        {
            sum += _cation[i];
        }

        _slagKmolPer100 = sum;
        Vector256<double> scale = All(1) / sum;
        Vector256<double> twice = Vector256<double>.Zero;
        Vector256<double> inverseRT = _inverseMetalK * (1 / GasConstant);
        for (int i = 0; i < BanYa.CationCount; i++)
        {
            _cation[i] *= scale;
        }

        for (int i = 0; i < BanYa.CationCount; i++)
        {
            Vector256<double> w = Vector256<double>.Zero;
            for (int j = 0; j < BanYa.CationCount; j++)
            {
                w += _cation[j] * Alpha[(i * BanYa.CationCount) + j];
            }

            twice += w * _cation[i];
            _lnGamma[i] = w;
        }

        for (int i = 0; i < BanYa.CationCount; i++)
        {
            _lnGamma[i] = (_lnGamma[i] - (twice * 0.5)) * inverseRT;
        }

        // Oxygen activity (1 mass % state) in equilibrium with the slag's FeO: a(FeO, l) × saturation of iron with FeO
        // (log %O = −6320/T + 2.734, Taylor & Chipman 1943; f_O 0.911 at saturation with e_O^O −0.174).
        Vector256<double> lnActivity = _lnGamma[(int)SlagCation.Fe2] + (((All(-8540) * _inverseMetalK) + All(7.142)) * (1 / GasConstant))
            + (((_inverseMetalK * -6320) + All(2.734)) * Ln10);
        _slagOxygenActivity = Exp(lnActivity) * _cation[(int)SlagCation.Fe2] * 0.911;
    }

    /// <summary>The oxygen jets: distance, cavities, droplets.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Jet()
    {
        // Bath level follows metal and solids; the crew's height counts from the nominal quiet bath.
        Vector256<double> solids = _steelNominal - _metal;
        Vector256<double> level = (_metal + Positive(solids)) / (All(VesselShape.SteelKgM3) * _bathArea);
        _lanceDistance = Max(_lance + _nominalLevel - level, BlowConstants.LeastLanceM);

        // Metered oxygen, Nm³/s to kmol/s.
        _oxygenKmol = _oxygenNm3 * (1 / Molar.NormalM3PerKmol);
        Vector256<double> kgPerS = _oxygenKmol * Molar.O2;
        Vector256<double> stagnationBar = kgPerS * _throatPressure * 1e-5;

        // Koria & Lange, Steel Res. 58 (1987) 421 (coefficients from memory): dimensionless momentum, depth, diameter.
        Vector256<double> momentum = All(0.7854e5 * 1.01325) * _throat * _throat * Positive((stagnationBar * (1.27 / 1.01325)) - All(1)) * _cosine
            / (All(7000 * 9.81) * _lanceDistance * _lanceDistance * _lanceDistance);
        Vector256<double> lnMomentum = Log(Max(momentum, 1e-12));
        Vector256<double> blowing = Vector256.ConditionalSelect(Vector256.GreaterThan(momentum, All(1e-9)), All(1), Vector256<double>.Zero);
        Vector256<double> depth = _lanceDistance * Exp(lnMomentum * 0.66) * 4.469 * blowing;
        Vector256<double> radius = _lanceDistance * Exp(lnMomentum * 0.282) * (0.5 * 2.813);
        _cavityDepth = depth;

        // Metal carried to the cavities: a cone of that depth and width, film coefficient growing with the root of the depth.
        Vector256<double> area = _nozzles * All(Math.PI) * radius * Sqrt((radius * radius) + (depth * depth));
        _jetMetal = Within(_jetTransfer * area * Sqrt(depth * 5) * (VesselShape.SteelKgM3 * BlowConstants.JetFilmMPerS), _metal, 8);

        // Droplets: Subagyo et al., ISIJ Int. 43 (2003) 983 (from memory). Blowing number from the pressure that holds the cavity open,
        // ½ρu² = ρ_l g n, with u_g = 0.447 u.
        Vector256<double> number = depth * (0.447 * 0.447 * VesselShape.SteelKgM3 * 9.81 / 341.7);
        Vector256<double> lnNumber = Log(Max(number, 1e-3));
        Vector256<double> twelfth = Exp(lnNumber * 12);
        Vector256<double> perNm3 = Exp((lnNumber * 3.2) - (Log(All(2.6e6) + (twelfth * 2.0e-4)) * 0.2));
        _droplets = _dropletBirth * perNm3 * _oxygenNm3 * blowing;
    }

    /// <summary>Where the oxygen goes: post-combustion, the elements the jet finds, iron.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void OxygenShare(Vector256<double>[] y)
    {
        Vector256<double> oxygen = _oxygenKmol * _oxygenUse * _purity;
        Vector256<double> burnt = Min(_postCombustion * _lanceDistance * (1 / BlowConstants.ReferenceLanceM), 0.4);
        Vector256<double> toBath = oxygen * (All(1) - burnt) * 2;

        // Demand of what the metal brings to the cavities, kmol O/s. Silicon and manganese compete below carbon in the hot spot.
        Vector256<double> perPercent = _jetMetal * 0.01;
        Vector256<double> c = perPercent * _percent[C] * (1 / Molar.C);
        Vector256<double> si = perPercent * _percent[Si] * (BlowConstants.JetSilicon / Molar.Si);
        Vector256<double> mn = perPercent * _percent[Mn] * (BlowConstants.JetManganese / Molar.Mn);
        Vector256<double> ti = perPercent * _percent[Ti] * (1 / Molar.Ti);
        Vector256<double> al = perPercent * _percent[Al] * (1 / Molar.Al);
        Vector256<double> demand = c + (si * 2) + mn + (ti * 2) + (al * 1.5);
        Vector256<double> served = LesserOf(toBath, demand) / Max(demand, 1e-12);
        c *= served;
        si *= served;
        mn *= served;
        ti *= served;
        al *= served;
        _carbonJet = c;
        Vector256<double> leftover = Positive(toBath - (demand * served));
        Vector256<double> unmet = leftover / Max(toBath, 1e-9);
        unmet *= unmet;
        unmet *= unmet;
        Vector256<double> leftoverToIron = leftover * (All(1) - ((All(1) - _ironOxidation) * unmet * unmet));
        Vector256<double> escaped = leftover - leftoverToIron;
        _postCombustionKmol = (oxygen * burnt * 2) + escaped;

        Vector256<double> iron = leftoverToIron / _oxygenPerIron;
        _ironFromJet = iron;
        _metalRate[C] -= c * Molar.C;
        React(Si, SiO2, si, Molar.Si, 1, Molar.SiO2);
        React(Mn, MnO, mn, Molar.Mn, 1, Molar.MnO);
        React(Ti, TiO2, ti, Molar.Ti, 1, Molar.TiO2);
        React(Al, Al2O3, al, Molar.Al, 0.5, Molar.Al2O3);
        _metalRate[Fe] -= iron * Molar.Fe;
        _slagRate[FeO] += iron * _feOxMolar;
    }

    /// <summary>Element to oxide: kmol/s of element, its atomic weight, oxides per atom and molar mass of the oxide. Oxygen is the caller's.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void React(int element, int oxide, Vector256<double> kmol, double atomic, double perAtom, double molar)
    {
        _metalRate[element] -= kmol * atomic;
        _slagRate[oxide] += kmol * (perAtom * molar);
    }
}
