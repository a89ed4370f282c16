// SPDX-License-Identifier: Apache-2.0
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Heatwright.Converter.Charge;
using static Heatwright.Converter.Blow.BlowState;
using static Heatwright.Converter.Blow.LaneMath;

namespace Heatwright.Converter.Blow;

/// <summary>Scrap, fluxes and lining: what is solid and goes into metal or slag.</summary>
internal sealed partial class LanePack
{
    /// <summary>
    /// Each class melts from a surface at the liquidus of its carburised layer. Heat: h(T − T_i) = κ(T_i − T̄) + ρ v (L + c(T_i − T̄)).
    /// Carbon: v = k ln((C_b − C_s)/(C_i − C_s)). Cold scrap first freezes a shell of hot metal, which must melt off again.
    /// </summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void ScrapMelting(Vector256<double>[] y, Vector256<double>[] dy)
    {
        const double c = Enthalpies.SolidSteelJPerKgK;
        Vector256<double> transfer = _scrapTransfer * _stir;
        Vector256<double> h = transfer * Scrap.HeatTransfer;
        Vector256<double> film = transfer * Scrap.CarbonTransfer;
        Vector256<double> bathCarbon = _percent[C];
        Vector256<double> bathLiquidus = Liquidus(bathCarbon);
        Vector256<double> shellLiquidus = Liquidus(ShellCarbon(y, bathCarbon));
        Vector256<double> frozen = Vector256<double>.Zero;
        Vector256<double> thawed = Vector256<double>.Zero;
        for (int k = 0; k < _scraps; k++)
        {
            Vector256<double> mass = Positive(y[ScrapMass + k]);
            Vector256<double> shell = Positive(y[ScrapShell + k]);
            Vector256<double> start = _scrapStart[k];
            Vector256<double> left = mass / start;
            Vector256<double> mean = Min(Max(All(HeatInput.AmbientK) + (y[ScrapHeat + k] / (Vector256.Max(mass, start * 1e-9) * c)), 273), 1810);

            // A plate keeps its area while it thins; the last 8 % break up.
            Vector256<double> area = _scrapAreaPerKg[k] * start * left / (left + All(0.08)) * 1.08;

            // Conduction into the plate, 3k/L over its heat content; no faster than 3 s, however thin.
            Vector256<double> half = _scrapHalfThickness[k] * left;
            Vector256<double> perS = All(3 * Scrap.Conductivity / (Scrap.DensityKgM3 * c)) / Max(half * (half + All(0.002)), 1e-12);
            perS /= All(1) + (perS * 3);
            Vector256<double> kappa = mass * perS * c / Max(area, 1e-12);

            // Shell of frozen hot metal: the bath freezes at its own liquidus where it meets bare scrap, the shell grows or thaws at the
            // liquidus of what it is made of (and never takes more than leaves a fifth of the hot metal liquid: a box too big for its
            // hot metal stays a cold lump, not a numeric one).
            Vector256<double> covered = shell / (shell + (start * 0.01));
            Vector256<double> onScrap = (h * (_metalK - bathLiquidus)) - (kappa * (bathLiquidus - mean));
            Vector256<double> onShell = (h * (_metalK - shellLiquidus)) - (kappa * (shellLiquidus - mean));
            Vector256<double> freezing = ((All(1) - covered) * Positive(-onScrap)) + (covered * Positive(-onShell));
            Vector256<double> freeze = Within(
                area * freezing * (1 / Enthalpies.FusionJPerKg),
                Positive(_metal - (_hotMetalMass * 0.2)),
                12);
            Vector256<double> remelt = Within(area * Positive(onShell) * covered * (1 / Enthalpies.FusionJPerKg), shell, 4);
            Vector256<double> shellRate = freeze - remelt;

            // Carburised surface: Newton on w = (C_i − C_s)/(C_b − C_s) with ln(1/w) ≈ 3(1 − w²)/(1 + 4w + w²) (Padé, within 1 % above 0.2).
            Vector256<double> span = Positive(bathCarbon - _scrapCarbon[k]);
            Vector256<double> t0 = Liquidus(_scrapCarbon[k]);
            Vector256<double> t1 = span * (All(Scrap.LiquidusLinear) + (_scrapCarbon[k] * (2 * Scrap.LiquidusSquare)));
            Vector256<double> t2 = span * span * Scrap.LiquidusSquare;
            Vector256<double> both = h + kappa;
            Vector256<double> q0 = (h * _metalK) + (kappa * mean) - (both * t0);
            Vector256<double> q1 = both * t1;
            Vector256<double> q2 = both * t2;
            Vector256<double> latent = (All(Enthalpies.FusionJPerKg) + (Positive(t0 - (t1 * 0.5) - (t2 * 0.25) - mean) * c)) * Scrap.DensityKgM3;
            Vector256<double> w = All(1);
            for (int i = 0; i < 4; i++)
            {
                Vector256<double> w2 = w * w;
                Vector256<double> p = All(1) + (w * 4) + w2;
                Vector256<double> q = q0 + (q1 * w) + (q2 * w2);
                Vector256<double> g = (latent * film * 3 * (All(1) - w2)) - (p * q);
                Vector256<double> slope = (latent * film * w * -6) - (p * (q1 + (q2 * w * 2))) - (q * (All(4) + (w * 2)));
                w = Min(Positive(w - (g / Vector256.Min(slope, All(-1e-6)))), 1);
            }

            Vector256<double> surface = t0 - (t1 * w) - (t2 * w * w);
            Vector256<double> speed = Positive((h * (_metalK - surface)) - (kappa * (surface - mean))) / latent;
            Vector256<double> melt = Within(area * speed * Scrap.DensityKgM3 * (All(1) - covered), mass, 4);

            Vector256<double> contact = Vector256.Min(surface + (covered * (shellLiquidus - surface)), _metalK);
            Vector256<double> heating = mass * perS * c * (contact - mean);
            Vector256<double> heatRate = heating - (melt * (mean - All(HeatInput.AmbientK)) * c);
            dy[ScrapMass + k] = -melt;
            dy[ScrapShell + k] = shellRate;
            dy[ScrapHeat + k] = heatRate;
            for (int i = 0; i < MetalCount; i++)
            {
                _metalRate[i] += melt * _scrapMetal[(k * MetalCount) + i];
            }

            frozen += freeze;
            thawed += remelt;

            _slagRate[FeO] += melt * _scrapSlag[(k * SlagCount) + FeO];
            _slagRate[SiO2] += melt * _scrapSlag[(k * SlagCount) + SiO2];
            _slagRate[Al2O3] += melt * _scrapSlag[(k * SlagCount) + Al2O3];
            _gasH2O += melt * _scrapH2O[k];
            _otherHeatRate += heatRate - (melt * _scrapColdEnthalpy[k]) + (shellRate * _shellEnthalpy);
        }

        Shell(y, dy, frozen, thawed);
    }

    /// <summary>Carbon of what has frozen, mass %; the bath's where nothing has.</summary>
    private static Vector256<double> ShellCarbon(Vector256<double>[] y, Vector256<double> bathCarbon)
    {
        Vector256<double> solid = All(1.0);
        for (int i = 0; i < MetalCount; i++)
        {
            solid += y[ShellMetal + i];
        }

        return ((y[ShellMetal + C] * 100) + bathCarbon) / solid;
    }

    /// <summary>The bath freezes as it is; what thaws is the mixture that has frozen. Ni, Cu, Mo and Sn go by the hot metal's share.</summary>
    private void Shell(Vector256<double>[] y, Vector256<double>[] dy, Vector256<double> frozen, Vector256<double> thawed)
    {
        Vector256<double> liquid = All(1e-9);
        Vector256<double> solid = All(1e-9);
        for (int i = 0; i < MetalCount; i++)
        {
            liquid += y[Metal + i];
            solid += y[ShellMetal + i];
        }

        Vector256<double> reacting = All(1) - _shellInert;
        Vector256<double> perLiquid = frozen * reacting / liquid;
        Vector256<double> perSolid = thawed * reacting / solid;
        for (int i = 0; i < MetalCount; i++)
        {
            Vector256<double> rate = (y[Metal + i] * perLiquid) - (y[ShellMetal + i] * perSolid);
            dy[ShellMetal + i] = rate;
            _metalRate[i] -= rate;
        }
    }

    private static Vector256<double> Liquidus(Vector256<double> carbonPercent) =>
        All(Scrap.LiquidusOfIronK) - (carbonPercent * (All(Scrap.LiquidusLinear) + (carbonPercent * Scrap.LiquidusSquare)));

    /// <summary>Additions warm up, give off CO2 and water, and dissolve: limited by transport of lime and magnesia, and by the silicate shell.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void FluxDissolution(Vector256<double>[] y, Vector256<double>[] dy)
    {
        Vector256<double> caO = _slagPercent[CaO];
        Vector256<double> siO2 = _slagPercent[SiO2];
        Vector256<double> feO = _slagPercent[FeO];
        _mgOSaturation = SlagLimits.MagnesiaSaturation(caO, siO2, feO * (Molar.Fe + Molar.O) / _feOxMolar, _slagK);
        Vector256<double> shell = SlagLimits.SilicateShell(siO2, feO);
        Vector256<double> limeDrive = Positive(SlagLimits.LimeSaturation(siO2, _slagK) - caO) * 0.01 * shell;
        Vector256<double> magnesiaDrive = Positive(_mgOSaturation - _slagPercent[MgO]) * 0.015;
        Vector256<double> film = _limeDissolution * _stir * (BlowConstants.LimeFilmMPerS * VesselShape.SlagKgM3);
        for (int j = 0; j < _fluxes; j++)
        {
            Vector256<double> cold = Positive(y[FluxCold + j]);
            Vector256<double> hot = Positive(y[FluxHot + j]);
            Vector256<double> warm = cold * _fluxWarmPerS[j];
            _gasCO2Direct += warm * _fluxCO2[j];
            _gasH2O += warm * _fluxH2O[j];
            dy[FluxCold + j] = _feed[j] - warm;

            // Lumps shrink at constant number: area ~ m^(2/3).
            Vector256<double> whole = Max(_fed[j] * _fluxHotYield[j] / Max(hot, 1e-6), 1);
            Vector256<double> area = _fluxAreaPerKg[j] * hot * Exp(Log(Min(whole, 1e4)) * (1 / 3.0));
            Vector256<double> wetted = _slagMass / (_slagMass + hot + All(1));
            Vector256<double> drive = (limeDrive * _fluxLimeShare[j]) + (magnesiaDrive * _fluxMagnesiaShare[j]);
            Vector256<double> dissolving = Within(film * area * wetted * drive, hot, 6) * _fluxDissolves[j];
            Vector256<double> toHot = warm * _fluxHotYield[j] * _fluxDissolves[j];
            Vector256<double> hotRate = toHot - dissolving;
            dy[FluxHot + j] = hotRate;
            Vector256<double> leaving = dissolving + (warm * (All(1) - _fluxDissolves[j]));
            for (int i = 0; i < SlagCount; i++)
            {
                Vector256<double> share = _fluxSlag[(j * SlagCount) + i];
                _slagRate[i] += leaving * share;
                _hotHeatRate += hotRate * share * (_slagEnthalpy[i] + (_slagHeatCapacity[i] * (_slagK - All(Enthalpies.ReferenceK))));
            }

            for (int i = 0; i < MetalCount; i++)
            {
                _metalRate[i] += leaving * _fluxMetal[(j * MetalCount) + i];
            }

            _hotHeatRate += hotRate * _fluxMetal[(j * MetalCount) + Fe] * (_metalEnthalpy[Fe] + (_metalHeatCapacity[Fe] * (_slagK - All(Enthalpies.ReferenceK))));
            _otherHeatRate += dy[FluxCold + j] * _fluxColdEnthalpy[j];
            _chargedEnthalpy += _feed[j] * _fluxColdEnthalpy[j];
        }
    }

    /// <summary>Magnesia from the lining while the slag is short of it.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Lining(Vector256<double>[] y, Vector256<double>[] dy)
    {
        Vector256<double> area = _diameter * (Math.PI * SlagLimits.WettedHeightM);
        Vector256<double> rate = _liningWear * _liningMgO * _stir * area * Positive(_mgOSaturation - _slagPercent[MgO])
            * (0.01 * BlowConstants.LiningFilmMPerS * VesselShape.SlagKgM3) * _slagMass / (_slagMass + All(1000));
        _slagRate[MgO] += rate;
        dy[LiningMgO] = rate;
        dy[InLining] = rate * (_slagEnthalpy[MgO] + (_slagHeatCapacity[MgO] * (_slagK - All(Enthalpies.ReferenceK))));
    }
}
