// SPDX-License-Identifier: Apache-2.0
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Heatwright.Chemistry.Slag;
using static Heatwright.Converter.Blow.BlowState;
using static Heatwright.Converter.Blow.LaneMath;

namespace Heatwright.Converter.Blow;

/// <summary>Emulsion, slag–metal interface and quiet bath.</summary>
internal sealed partial class LanePack
{
    private static readonly double SilicaA = BanYaTable.SiO2Cristobalite.A;
    private static readonly double SilicaB = BanYaTable.SiO2Cristobalite.B;

    /// <summary>Droplets reduce the slag's iron oxide with their carbon: the slower of metal-side supply and slag-side reduction.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Emulsion(Vector256<double>[] y)
    {
        // Carbon that the droplets bring above what iron-oxide-rich slag would leave, kmol C/s: [C][O] 0.0024 at 1600 °C and 1 atm
        // (plant texts 0.0020–0.0025, common practice).
        Vector256<double> floor = All(0.0024) / Max(_slagOxygenActivity, 0.02);
        Vector256<double> metalSide = _droplets * Positive(_percent[C] - floor) * (0.01 / Molar.C);

        // Iron oxide that the slag can give up, kmol O/s.
        Vector256<double> arrhenius = Exp((_inverseMetalK - All(1 / 1873.15)) * -BlowConstants.ReductionActivationK);
        Vector256<double> supply = _droplets / Max(_oxygenNm3 * _dropletBirth * BlowConstants.ReferenceDroplets, 1e-6);
        Vector256<double> slagSide = _slagReduction * BlowConstants.ReductionPerS * Sqrt(supply) * arrhenius
            * Positive(y[Slag + FeO]) * _oxygenPerIron / _feOxMolar;
        Vector256<double> rate = metalSide * slagSide / Max(metalSide + slagSide, 1e-12);
        rate = Within(rate * Molar.C, y[Metal + C], 4) * (1 / Molar.C);
        rate = Within(rate / _oxygenPerIron * _feOxMolar, y[Slag + FeO], 4) * _oxygenPerIron / _feOxMolar;
        _carbonEmulsion = rate;
        Vector256<double> iron = rate / _oxygenPerIron;
        _metalRate[C] -= rate * Molar.C;
        _metalRate[Fe] += iron * Molar.Fe;
        _slagRate[FeO] -= iron * _feOxMolar;

        // Droplets fall back with some of the oxygen that this slag would give them.
        Vector256<double> pickUp = _droplets * Positive(_slagOxygenActivity - _percent[O]) * (BlowConstants.DropletOxygen * 0.01 / Molar.O);
        pickUp = Within(pickUp / _oxygenPerIron * _feOxMolar, y[Slag + FeO], 6) * _oxygenPerIron / _feOxMolar;
        Vector256<double> reduced = pickUp / _oxygenPerIron;
        _metalRate[O] += pickUp * Molar.O;
        _metalRate[Fe] += reduced * Molar.Fe;
        _slagRate[FeO] -= reduced * _feOxMolar;
    }

    /// <summary>
    /// One interface for Si, Mn, P, Ti, V, Cr, O and FeO: the oxygen activity there is the root at which the oxygen given up by
    /// the slag's iron oxide and the metal's oxygen equals what the elements take (the idea of Robertson, Deo &amp; Grundy 1984 and of Ohguchi et al. 1984).
    /// Carbon is left out: it needs a CO bubble.
    /// </summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Interface(Vector256<double>[] y)
    {
        // Stirring by CO and by bottom gas, 1 at mid-blow.
        Vector256<double> co = (_carbonJet + _carbonEmulsion) * Molar.NormalM3PerKmol;
        _stir = All(0.15) + Sqrt((co + (_bottomNm3 * 12)) / (_metal * 6.0e-5)) * 0.85;

        Vector256<double> metalFlow = _interface * _stir * _metal * BlowConstants.InterfaceMetalPerS;
        Vector256<double> slagFlow = _interface * _stir * _slagMass * BlowConstants.InterfaceSlagPerS;

        Vector256<double> c = _percent[C];
        Vector256<double> dilute = Min(c, 1.0);
        Vector256<double> t = _inverseMetalK * 1873.15;
        Vector256<double> si = _percent[Si];

        // Activity coefficients, log10, 1 mass % state: JSPS 1988 first-order terms scaled with 1/T.
        Vector256<double> fSi = t * ((c * 0.18) + (si * 0.103) - (_percent[O] * 0.119));
        Vector256<double> fMn = t * ((c * -0.0538) - (si * 0.0327));
        Vector256<double> fP = t * ((c * 0.126) + (si * 0.099));
        Vector256<double> fV = t * (c * -0.14);
        Vector256<double> fCr = t * (c * -0.114);
        Vector256<double> fO = t * ((dilute * -0.421) - (_percent[O] * 0.174) - (si * 0.066));

        // Distribution L = (%oxide)/[%element] = E·h_O^n. Each E in one exponential; RS conversions after Ban-ya 1993 (from memory).
        Vector256<double> lnKmol = Log(_slagKmolPer100);
        Vector256<double> invR = _inverseMetalK * (1 / GasConstant);
        Vector256<double> eSi = Exp(((fSi + (_inverseMetalK * 30110) - All(11.40)) * Ln10) + lnKmol - _lnGamma[(int)SlagCation.Si]
            - ((invR * SilicaA) + All(SilicaB / GasConstant))) * Molar.SiO2;

        // Manganese: Park & Dzo (abstract), log kMn with kMn = (%MnO)/([%Mn](%FetO)) against low-carbon steel, so f_Mn is added.
        Vector256<double> fetO = _slagPercent[FeO] * (Molar.Fe + Molar.O) / _feOxMolar;
        Vector256<double> logKMn = ((_slagPercent[CaO] * -1.651) + (_slagPercent[MgO] * 39.13) + (fetO * 4.64) + (_slagPercent[MnO] * 5.133)
            + (_slagPercent[SiO2] * 11.86) - (Min(_slagPercent[P2O5], 3) * 99.7)) * 0.001;
        Vector256<double> slagOxygen = Max(_slagOxygenActivity, 1e-6);
        Vector256<double> eMn = Exp((logKMn + (_inverseMetalK * 8086) - All(4.262) + _manganeseOffset + fMn) * Ln10) * fetO / slagOxygen;
        Vector256<double> totalIron = Max(_slagPercent[FeO] * Molar.Fe / _feOxMolar, 0.5);
        Vector256<double> logLp = (_lp[0] * _slagPercent[CaO]) + (_lp[1] * _slagPercent[MgO]) + (_lp[2] * _slagPercent[P2O5])
            + (_lp[3] * _slagPercent[MnO]) + (_lp[4] * _slagPercent[SiO2]) + (_lp[5] * _slagPercent[Al2O3])
            + (_lp[6] * _inverseMetalK) + _lp[7] + _phosphorusOffset + fP;
        Vector256<double> eP = Exp((logLp * Ln10) + (Log(totalIron) * _lp[8]) - (Log(slagOxygen) * 2.5)) * (Molar.P2O5 / (2 * Molar.P));

        // Vanadium: log K(V2O3) −4.64 at 1873 K by the substances of chapter 10 (JANAF: −5.01); chromium: Itoh, Nagasaka & Hino 2000;
        // titanium: Cha et al. 2007 (handbook, chapter 12).
        Vector256<double> eV = Exp(((fV + (_inverseMetalK * 20950) - All(8.865)) * Ln10) + lnKmol) * (Molar.V2O3 / 2);
        Vector256<double> eCr = Exp(((fCr + (_inverseMetalK * 18100) - All(8.05)) * Ln10) + lnKmol) * (Molar.Cr2O3 / 2);
        Vector256<double> eTi = Exp((((_inverseMetalK * 21470) - All(6.47)) * Ln10) + lnKmol) * (Molar.TiO2 * 5);

        // Resistances, s·%/kmol: metal side and slag side.
        Vector256<double> perMetal = All(100) / metalFlow;
        Vector256<double> perSlag = All(100) / slagFlow;
        Vector256<double> rmSi = perMetal * Molar.Si, rsSi = perSlag * Molar.SiO2;
        Vector256<double> rmMn = perMetal * Molar.Mn, rsMn = perSlag * Molar.MnO;
        Vector256<double> rmP = perMetal * Molar.P, rsP = perSlag * (Molar.P2O5 / 2);
        Vector256<double> rmV = perMetal * Molar.V, rsV = perSlag * (Molar.V2O3 / 2);
        Vector256<double> rmCr = perMetal * Molar.Cr, rsCr = perSlag * (Molar.Cr2O3 / 2);
        Vector256<double> rmTi = perMetal * Molar.Ti, rsTi = perSlag * Molar.TiO2;
        Vector256<double> aluminium = _percent[Al] / (perMetal * Molar.Al);

        // Oxygen supply = a − b·h: iron oxide (4 × slag transport, linear in h) and dissolved oxygen.
        Vector256<double> perActivity = _slagPercent[FeO] / slagOxygen;
        Vector256<double> oxideFlow = _oxygenPerIron / (perSlag * _feOxMolar) * BlowConstants.OxideAhead;
        Vector256<double> oxygenFlow = All(1) / (perMetal * Molar.O);
        Vector256<double> invFo = Exp(fO * -Ln10);
        Vector256<double> supply = (oxideFlow * _slagPercent[FeO]) + (oxygenFlow * _percent[O]) - (aluminium * 1.5);
        Vector256<double> perH = (oxideFlow * perActivity) + (oxygenFlow * invFo);

        // Newton in s = √h within a bracket; supply − demand falls monotonically with s, so each sign tightens it. Where Newton would
        // leave the bracket its geometric middle is taken. Starts from the root of the evaluation before.
        Vector256<double> s = Min(Max(_interfaceRoot, 1e-4), 1.5);
        Vector256<double> low = All(1e-5);
        Vector256<double> high = All(3.0);
        Vector256<double> converged = Vector256<double>.Zero;
        Vector256<double> jSi = default, jMn = default, jP = default, jV = default, jCr = default, jTi = default;
        for (int iteration = 0; ; iteration++)
        {
            Vector256<double> s2 = s * s;
            Vector256<double> s3 = s2 * s;
            Vector256<double> s4 = s2 * s2;
            Vector256<double> s5 = s4 * s;
            Vector256<double> slope = perH * s * -2;
            Vector256<double> gap = supply - (perH * s2);
            jSi = Flux(eSi * s4, si, _slagPercent[SiO2], rmSi, rsSi, 2, 4, ref gap, ref slope, s);
            jMn = Flux(eMn * s2, _percent[Mn], _slagPercent[MnO], rmMn, rsMn, 1, 2, ref gap, ref slope, s);
            jP = Flux(eP * s5, _percent[P], _slagPercent[P2O5], rmP, rsP, 2.5, 5, ref gap, ref slope, s);
            jV = Flux(eV * s3, _percent[V], _slagPercent[V2O3], rmV, rsV, 1.5, 3, ref gap, ref slope, s);
            jCr = Flux(eCr * s3, _percent[Cr], _slagPercent[Cr2O3], rmCr, rsCr, 1.5, 3, ref gap, ref slope, s);
            jTi = Flux(eTi * s4, _percent[Ti], _slagPercent[TiO2], rmTi, rsTi, 2, 4, ref gap, ref slope, s);
            Vector256<double> below = Vector256.GreaterThan(gap, Vector256<double>.Zero);
            low = Vector256.ConditionalSelect(below, s, low);
            high = Vector256.ConditionalSelect(below, high, s);
            Vector256<double> next = s - (gap / slope);
            Vector256<double> inside = Vector256.GreaterThan(next, low) & Vector256.LessThan(next, high);
            next = Vector256.ConditionalSelect(inside, next, Sqrt(low * high));

            // A lane that has converged stays where it is, so that its result does not depend on its neighbours.
            converged |= Vector256.LessThan(Vector256.Abs(next - s), s * BlowConstants.InterfaceTolerance);
            if (iteration >= BlowConstants.MostInterfaceIterations || Vector256.EqualsAll(converged.AsInt64(), Vector256<long>.AllBitsSet))
            {
                break;
            }

            s = Vector256.ConditionalSelect(converged, s, next);
        }

        _interfaceRoot = s;
        Vector256<double> h = s * s;
        Vector256<double> jO = oxygenFlow * (_percent[O] - (h * invFo));

        // What iron oxide gives is the exact remainder, so that the oxygen closes whatever the root's last digit.
        Vector256<double> demand = (jSi * 2) + jMn + (jP * 2.5) + ((jV + jCr) * 1.5) + (jTi * 2) + (aluminium * 1.5);
        Vector256<double> iron = (demand - jO) / _oxygenPerIron;

        // A slag with next to no iron oxide can't give it in one step: all fluxes shrink together, so the root's proportions stay.
        Vector256<double> wanted = Positive(iron) * _feOxMolar;
        Vector256<double> scale = (Within(wanted, y[Slag + FeO], 4) + All(1e-12)) / (wanted + All(1e-12));
        jSi *= scale;
        jMn *= scale;
        jP *= scale;
        jV *= scale;
        jCr *= scale;
        jTi *= scale;
        jO *= scale;
        iron *= scale;
        aluminium *= scale;
        React(Si, SiO2, jSi, Molar.Si, 1, Molar.SiO2);
        React(Mn, MnO, jMn, Molar.Mn, 1, Molar.MnO);
        React(P, P2O5, jP, Molar.P, 0.5, Molar.P2O5);
        React(V, V2O3, jV, Molar.V, 0.5, Molar.V2O3);
        React(Cr, Cr2O3, jCr, Molar.Cr, 0.5, Molar.Cr2O3);
        React(Ti, TiO2, jTi, Molar.Ti, 1, Molar.TiO2);
        React(Al, Al2O3, aluminium, Molar.Al, 0.5, Molar.Al2O3);
        _metalRate[O] -= jO * Molar.O;
        _metalRate[Fe] += iron * Molar.Fe;
        _slagRate[FeO] -= iron * _feOxMolar;

        // Sulphur: (CaO) + [S] = (CaS) + [O].
        Vector256<double> sulphur = (_percent[S] - (_slagPercent[CaS] * (Molar.S / Molar.CaS / BlowConstants.SulphurPartition)))
            / ((perMetal + (perSlag / BlowConstants.SulphurPartition)) * Molar.S);
        Vector256<double> lime = Positive(y[Slag + CaO]);
        sulphur *= lime / (lime + All(20));
        _metalRate[S] -= sulphur * Molar.S;
        _metalRate[O] += sulphur * Molar.O;
        _slagRate[CaO] -= sulphur * Molar.CaO;
        _slagRate[CaS] += sulphur * Molar.CaS;
    }

    /// <summary>Flux of an element to the slag, kmol/s, positive outward, and its part in the oxygen balance.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Flux(
        Vector256<double> distribution,
        Vector256<double> metalPercent,
        Vector256<double> oxidePercent,
        Vector256<double> metalResistance,
        Vector256<double> slagResistance,
        double oxygen,
        double power,
        ref Vector256<double> gap,
        ref Vector256<double> slope,
        Vector256<double> s)
    {
        // J = (L x − y)/(L R_m + R_s); dJ/dL = (x R_s + y R_m)/(L R_m + R_s)².
        Vector256<double> below = All(1) / ((distribution * metalResistance) + slagResistance);
        Vector256<double> flux = ((distribution * metalPercent) - oxidePercent) * below;
        gap -= flux * oxygen;
        slope -= ((metalPercent * slagResistance) + (oxidePercent * metalResistance)) * below * below * distribution / s * (oxygen * power);
        return flux;
    }

    /// <summary>CO boil of the bath away from jet and slag, nitrogen, helped by bottom gas.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void QuietBath(Vector256<double>[] y)
    {
        Vector256<double> co = (_carbonJet + _carbonEmulsion) * Molar.NormalM3PerKmol;

        // Bottom gas dilutes the bubbles and gives nuclei: the CO pressure falls with its share of the rising gas.
        Vector256<double> pressure = _bathCo * (All(1) - (_bottomNm3 * 6 / Max((_bottomNm3 * 6) + co + All(0.5), 1e-6) * 0.45));
        Vector256<double> c = _percent[C];
        Vector256<double> o = _percent[O];

        // Ban-ya & Matoba 1962: log K = 1160/T + 2.00, p = K f_C f_O [%C][%O] below 1 % C.
        Vector256<double> dilute = Min(c, 1.0);
        Vector256<double> logF = _inverseMetalK * 1873.15 * ((dilute * (0.243 - 0.421)) - (o * 0.49));
        Vector256<double> product = pressure * Exp(((_inverseMetalK * -1160) - All(2.00) - logF) * Ln10);
        Vector256<double> excess = Positive(o - (product / Max(c, 1e-4)));
        Vector256<double> rate = (All(BlowConstants.BoilPerS) * _stir + (_bottomNm3 * 1e3 / _metal * BlowConstants.BoilByBottomGas))
            * excess * (c / (c + All(0.02))) * _metal * (0.01 / Molar.O);
        rate = Within(rate * Molar.O, y[Metal + O], 4) * (1 / Molar.O);
        rate = Within(rate * Molar.C, y[Metal + C], 4) * (1 / Molar.C);
        _carbonBath = rate;
        _metalRate[C] -= rate * Molar.C;
        _metalRate[O] -= rate * Molar.O;

        Vector256<double> total = _carbonJet + _carbonEmulsion + rate;
        Vector256<double> uptake = _bottomNm3 * _bottomNitrogen * (2 * Molar.N / Molar.NormalM3PerKmol * BlowConstants.NitrogenUptake);
        Vector256<double> removal = total * Positive(_percent[N] - All(BlowConstants.NitrogenFloorPercent)) * (BlowConstants.NitrogenKgPerKmol * 0.01);
        _nitrogenToMetal = uptake - Within(removal, y[Metal + N], 4);
        _metalRate[N] += _nitrogenToMetal;
    }
}
