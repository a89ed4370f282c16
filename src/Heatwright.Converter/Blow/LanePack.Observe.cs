// SPDX-License-Identifier: Apache-2.0
using System.Runtime.Intrinsics;
using Heatwright.Chemistry;
using Heatwright.Converter.Charge;
using static Heatwright.Converter.Blow.BlowState;
using static Heatwright.Converter.Blow.LaneMath;

namespace Heatwright.Converter.Blow;

/// <summary>Set points in, readable points out.</summary>
internal sealed partial class LanePack
{
    private readonly Vector256<double>[] _scratch = new Vector256<double>[BlowState.Count];

    /// <summary>Forgets the heat before.</summary>
    public void Begin()
    {
        Array.Clear(_fed);
        _interfaceRoot = All(0.05);
    }

    /// <summary>Sets what the crew does during a step.</summary>
    public void Apply(ProgrammeGrid grid, int step)
    {
        _oxygenNm3 = grid.OxygenNm3PerS(step);
        _lance = grid.LanceM(step);
        _bottomNm3 = grid.BottomNm3PerS(step);
        _bottomNitrogen = grid.BottomNitrogen(step);
        for (int j = 0; j < _fluxes; j++)
        {
            _feed[j] = grid.Feed(step, j);
        }
    }

    /// <summary>Counts what has been charged by the end of the step.</summary>
    public void Fed(ProgrammeGrid grid, int step)
    {
        Vector256<double> dt = grid.Dt(step);
        for (int j = 0; j < _fluxes; j++)
        {
            _fed[j] += _feed[j] * dt;
        }
    }

    /// <summary>States what has been charged so far, kg by slot.</summary>
    public void SetFed(Func<int, double> fedKg)
    {
        for (int j = 0; j < _fluxes; j++)
        {
            _fed[j] = All(fedKg(j));
        }
    }

    /// <summary>A point of one lane after evaluating the present state under the present set points.</summary>
    public BlowPoint ObserveFresh(int lane, double timeS, double percent)
    {
        // Looking must not move the starting point of the next root search: a result may not depend on who watches.
        Vector256<double> root = _interfaceRoot;
        Evaluate(State, _scratch);
        _interfaceRoot = root;
        return Observe(lane, timeS, percent);
    }

    /// <summary>A point of one lane from the last evaluation.</summary>
    public BlowPoint Observe(int lane, double timeS, double percent)
    {
        double At(Vector256<double> v) => v.GetElement(lane);
        double metal = At(_metal);
        double carbon = At(_carbonJet + _carbonEmulsion + _carbonBath);
        double gas = At(_mouthCO + _mouthCO2 + _mouthO2 + _mouthH2 + _mouthH2O + _mouthN2 + _mouthAr);
        double perGas = gas > 1e-9 ? 100 / gas : 0;
        double feO = At(_slagPercent[FeO]) * (Molar.Fe + Molar.O) / At(_feOxMolar);
        double[] scrap = new double[_scraps];
        double shell = 0;
        for (int k = 0; k < _scraps; k++)
        {
            scrap[k] = Get(State, ScrapMass + k, lane);
            shell += Get(State, ScrapShell + k, lane);
        }

        double lumps = 0;
        for (int j = 0; j < _fluxes; j++)
        {
            lumps += Get(State, FluxHot + j, lane) + Get(State, FluxCold + j, lane);
        }

        double co = At(_mouthCO + _mouthCO2);
        FoamState foam = Foam(lane, lumps);
        return new BlowPoint
        {
            TimeS = timeS,
            OxygenPercent = percent,
            MetalKg = metal,
            TemperatureK = At(_metalK),
            C = At(_percent[C]),
            Si = At(_percent[Si]),
            Mn = At(_percent[Mn]),
            P = At(_percent[P]),
            S = At(_percent[S]),
            Ti = At(_percent[Ti]),
            V = At(_percent[V]),
            Cr = At(_percent[Cr]),
            Ni = InertPercent(Element.Ni, lane, metal),
            Cu = InertPercent(Element.Cu, lane, metal),
            Mo = InertPercent(Element.Mo, lane, metal),
            Sn = InertPercent(Element.Sn, lane, metal),
            OxygenPpm = At(_percent[O]) * 1e4,
            NitrogenPpm = At(_percent[N]) * 1e4,
            SlagKg = At(_slagMass),
            SlagTemperatureK = At(_slagK),
            FeO = feO,
            SiO2 = At(_slagPercent[SiO2]),
            CaO = At(_slagPercent[CaO]),
            MgO = At(_slagPercent[MgO]),
            MnO = At(_slagPercent[MnO]),
            P2O5 = At(_slagPercent[P2O5]),
            Al2O3 = At(_slagPercent[Al2O3]),
            TiO2 = At(_slagPercent[TiO2]),
            MgOSaturation = At(_mgOSaturation),
            Basicity = At(_slagPercent[CaO]) / Math.Max(At(_slagPercent[SiO2]), 1e-6),
            UndissolvedFluxKg = lumps,
            ScrapKg = scrap,
            ShellKg = shell,
            CarbonKgPerS = carbon * Molar.C,
            CarbonInJetPercent = carbon > 1e-9 ? 100 * At(_carbonJet) / carbon : 0,
            CarbonInEmulsionPercent = carbon > 1e-9 ? 100 * At(_carbonEmulsion) / carbon : 0,
            GasNm3PerS = gas * Molar.NormalM3PerKmol,
            GasCO = At(_mouthCO) * perGas,
            GasCO2 = At(_mouthCO2) * perGas,
            GasO2 = At(_mouthO2) * perGas,
            GasH2 = At(_mouthH2) * perGas,
            GasN2 = At(_mouthN2) * perGas,
            GasAr = At(_mouthAr) * perGas,
            GasTemperatureK = GasTemperature(lane),
            PostCombustionPercent = co > 1e-9 ? 100 * At(_mouthCO2) / co : 0,
            CavityM = At(_cavityDepth),
            LanceOverBathM = At(_lanceDistance),
            OxygenNm3PerS = At(_oxygenNm3),
            BottomNm3PerS = At(_bottomNm3),
            FoamM = foam.HeightM,
            FreeboardM = foam.FreeboardM,
            SlagOxygenPercent = At(_slagOxygenActivity),
        };
    }

    /// <summary>Mixed temperature of the gas at the mouth, K, by the same straight lines that the balance uses.</summary>
    private double GasTemperature(int lane)
    {
        double At(Vector256<double> v) => v.GetElement(lane);
        double constant = 0, slope = 0;
        void Add(Vector256<double> flow, (double AtReference, double Slope) line)
        {
            constant += At(flow) * line.AtReference;
            slope += At(flow) * line.Slope;
        }

        Add(_mouthCO, GasLine.CO);
        Add(_mouthCO2, GasLine.CO2);
        Add(_mouthO2, GasLine.O2);
        Add(_mouthH2, GasLine.H2);
        Add(_mouthH2O, GasLine.H2O);
        Add(_mouthN2, GasLine.N2);
        Add(_mouthAr, GasLine.Ar);
        return slope > 1e-6 ? Enthalpies.ReferenceK + ((At(_mouthHeat) - constant) / slope) : At(_metalK);
    }
}
