// SPDX-License-Identifier: Apache-2.0
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Heatwright.Chemistry;
using Heatwright.Converter.Charge;
using static Heatwright.Converter.Blow.BlowState;
using static Heatwright.Converter.Blow.LaneMath;

namespace Heatwright.Converter.Blow;

/// <summary>Gas that leaves, and the heat balance.</summary>
internal sealed partial class LanePack
{
    private Vector256<double> _mouthCO, _mouthCO2, _mouthO2, _mouthH2, _mouthH2O, _mouthN2, _mouthAr, _mouthHeat;

    /// <summary>Post-combustion, composition at the mouth, fume and spray.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void GasAndDust(Vector256<double>[] y, Vector256<double>[] dy)
    {
        Vector256<double> carbon = _carbonJet + _carbonEmulsion + _carbonBath;
        Vector256<double> burnt = LesserOf(_postCombustionKmol, carbon * 0.97);
        Vector256<double> shift = LesserOf(_gasH2O * 0.7, Positive(carbon - burnt) * 0.5);

        // Oxygen that finds no CO to burn meets slag and spray on its way: measured end gas shows next to none unused (chapter 90, c).
        Vector256<double> unused = Positive(_postCombustionKmol - burnt);
        Vector256<double> late = unused * BlowConstants.UnusedOxygenToIron;
        Vector256<double> lateIron = late / _oxygenPerIron;
        _metalRate[Fe] -= lateIron * Molar.Fe;
        _slagRate[FeO] += lateIron * _feOxMolar;
        _mouthCO = carbon - burnt - shift;
        _mouthCO2 = _gasCO2Direct + burnt + shift;
        _mouthO2 = (unused - late) * 0.5;
        _mouthH2 = shift;
        _mouthH2O = _gasH2O - shift;
        Vector256<double> inert = _oxygenKmol * _oxygenUse * (All(1) - _purity) * 0.5;
        Vector256<double> bottom = _bottomNm3 * (1 / Molar.NormalM3PerKmol);
        _mouthN2 = inert + (bottom * _bottomNitrogen) - (_nitrogenToMetal * (1 / (2 * Molar.N)));
        _mouthAr = inert + (bottom * (All(1) - _bottomNitrogen));
        dy[GasCO] = _mouthCO;
        dy[GasCO2] = _mouthCO2;
        dy[GasO2] = _mouthO2;
        dy[GasH2] = _mouthH2;
        dy[GasH2O] = _mouthH2O;
        dy[GasN2] = _mouthN2;
        dy[GasAr] = _mouthAr;
        dy[CarbonJet] = _carbonJet * Molar.C;
        dy[CarbonEmulsion] = _carbonEmulsion * Molar.C;
        dy[CarbonBath] = _carbonBath * Molar.C;

        // Reaction gas leaves the bath at its temperature; what post-combustion gives and the bath does not take goes with it.
        Vector256<double> t = _metalK - All(Enthalpies.ReferenceK);
        Vector256<double> released = burnt * (GasLine.At(GasLine.CO, t) - GasLine.At(GasLine.CO2, t));
        Vector256<double> share = burnt / Max(carbon, 1e-9) * BlowConstants.PostCombustionRadiation;
        Vector256<double> kept = released * (_postCombustionHeat + ((All(1) - _postCombustionHeat) * share));
        dy[HeatPostCombustion] = kept;
        _mouthHeat = (_mouthCO * GasLine.At(GasLine.CO, t)) + (_mouthCO2 * GasLine.At(GasLine.CO2, t)) + (_mouthO2 * GasLine.At(GasLine.O2, t))
            + (_mouthH2 * GasLine.At(GasLine.H2, t)) + (_mouthH2O * GasLine.At(GasLine.H2O, t)) + (_mouthN2 * GasLine.At(GasLine.N2, t))
            + (_mouthAr * GasLine.At(GasLine.Ar, t)) + (released - kept);
        dy[OutGas] = _mouthHeat;
        _heatToSlag = kept * BlowConstants.PostCombustionToSlag;

        Vector256<double> dust = _dust * ((_oxygenNm3 * BlowConstants.FumePerNm3) + (carbon * BlowConstants.SprayPerKmol));
        _metalRate[Fe] -= dust;
        dy[DustFe] = dust;
        dy[OutDust] = dust * (_metalEnthalpy[Fe] + (_metalHeatCapacity[Fe] * t));
    }

    /// <summary>Losses, lining, slag; the metal takes the exact remainder, so that the energy closes by construction.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Heat(Vector256<double>[] y, Vector256<double>[] dy)
    {
        // Mouth radiation (Stefan–Boltzmann), lance cooling while blowing, shell.
        Vector256<double> mouth = _diameter * _diameter * (Math.PI / 4 * BlowConstants.MouthOverBore * BlowConstants.MouthOverBore * BlowConstants.MouthEmissivity * 5.670374e-8);
        Vector256<double> square = _slagK * _slagK;
        Vector256<double> wall = _liningCapacity * (1 / (VesselShape.LiningActiveLayerM * VesselShape.LiningJPerM3K));
        Vector256<double> lance = Vector256.ConditionalSelect(Vector256.GreaterThan(_oxygenNm3, All(0.01)), All(BlowConstants.LanceCoolingW), Vector256<double>.Zero);
        Vector256<double> loss = _heatLoss * ((mouth * square * square) + lance + (wall * BlowConstants.ShellWPerM2));
        dy[OutLoss] = loss;
        Vector256<double> liningK = _liningStart + (y[HeatLining] / _liningCapacity);
        Vector256<double> uptake = _heatLoss * wall * BlowConstants.LiningWPerM2K * (_metalK - liningK);
        dy[HeatLining] = uptake;

        // Slag: what forms or warms in it at its own temperature, exchange with the metal, its share of two heats.
        Vector256<double> t = _slagK - All(Enthalpies.ReferenceK);
        Vector256<double> slag = _hotHeatRate;
        for (int i = 0; i < SlagCount; i++)
        {
            slag += _slagRate[i] * (_slagEnthalpy[i] + (_slagHeatCapacity[i] * t));
        }

        Vector256<double> formation = _ironFromJet * ((_metalEnthalpy[Fe] * Molar.Fe) - (_slagEnthalpy[FeO] * _feOxMolar));
        slag += (_slagHeatCapacityTotal * (_metalK - _slagK) * (1 / BlowConstants.SlagExchangeS)) + _heatToSlag
            + (formation * BlowConstants.OxidationHeatToSlag);
        dy[HeatSlag] = slag;

        Vector256<double> total = _chargedEnthalpy + dy[InLining] - dy[OutGas] - dy[OutDust] - loss;
        dy[HeatMetal] = total - slag - uptake - _otherHeatRate;
    }
}

/// <summary>
/// Gas enthalpies as lines about 1873.15 K, J/kmol, from the NASA sets: within 0.3 % of the heat content between 1573 and
/// 2173 K, steam and hydrogen within 0.8 % (tested).
/// </summary>
internal static class GasLine
{
    public static readonly (double AtReference, double Slope) CO = Of("CO");
    public static readonly (double AtReference, double Slope) CO2 = Of("CO2");
    public static readonly (double AtReference, double Slope) O2 = Of("O2");
    public static readonly (double AtReference, double Slope) H2 = Of("H2");
    public static readonly (double AtReference, double Slope) H2O = Of("H2O(g)");
    public static readonly (double AtReference, double Slope) N2 = Of("N2");
    public static readonly (double AtReference, double Slope) Ar = Of("Ar");

    public static Vector256<double> At((double AtReference, double Slope) line, Vector256<double> aboveReferenceK) =>
        All(line.AtReference) + (aboveReferenceK * line.Slope);

    private static (double AtReference, double Slope) Of(string gas)
    {
        Substance s = Substances.Get(gas);
        return (1000 * s.Enthalpy(Enthalpies.ReferenceK), 2.5 * (s.Enthalpy(2073.15) - s.Enthalpy(1673.15)));
    }
}
