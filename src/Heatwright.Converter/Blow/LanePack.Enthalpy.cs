// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Charge;
using static Heatwright.Converter.Blow.BlowState;

namespace Heatwright.Converter.Blow;

/// <summary>Enthalpies worked out again from masses and temperatures, for the balance.</summary>
internal sealed partial class LanePack
{
    /// <summary>Liquid metal, J.</summary>
    public double MetalEnthalpyJ(int lane)
    {
        double t = _metalK[lane] - Enthalpies.ReferenceK;
        double joule = 0;
        double reacting = 0;
        for (int i = 0; i < MetalCount; i++)
        {
            joule += Get(State, Metal + i, lane) * (_metalEnthalpy[i][lane] + (_metalHeatCapacity[i][lane] * t));
            reacting += Get(State, Metal + i, lane);
        }

        return joule + ((_metal[lane] - reacting) * (_metalEnthalpy[Fe][lane] + (_metalHeatCapacity[Fe][lane] * t)));
    }

    /// <summary>Liquid slag with the warm lumps in it, J.</summary>
    public double SlagEnthalpyJ(int lane)
    {
        double t = _slagK[lane] - Enthalpies.ReferenceK;
        double joule = SlagMixing.Heat(State, lane);
        for (int i = 0; i < SlagCount; i++)
        {
            double kg = Get(State, Slag + i, lane);
            for (int j = 0; j < _fluxes; j++)
            {
                kg += Get(State, FluxHot + j, lane) * _fluxSlag[(j * SlagCount) + i][lane];
            }

            joule += kg * (_slagEnthalpy[i][lane] + (_slagHeatCapacity[i][lane] * t));
        }

        for (int j = 0; j < _fluxes; j++)
        {
            double iron = Get(State, FluxHot + j, lane) * _fluxMetal[(j * MetalCount) + Fe][lane];
            joule += iron * (_metalEnthalpy[Fe][lane] + (_metalHeatCapacity[Fe][lane] * t));
        }

        // The notional 8 kg that keep the temperature of no slag defined hold this much against the metal.
        return joule + (NotionalSlagJPerK * (_slagK[lane] - _metalK[lane]));
    }

    /// <summary>Unmelted scrap, frozen metal and cold additions, J.</summary>
    public double SolidsEnthalpyJ(int lane)
    {
        double joule = 0;
        for (int k = 0; k < _scraps; k++)
        {
            joule += Get(State, ScrapHeat + k, lane)
                + (Get(State, ScrapMass + k, lane) * _scrapColdEnthalpy[k][lane])
                + (Get(State, ScrapShell + k, lane) * _shellEnthalpy[lane]);
        }

        for (int j = 0; j < _fluxes; j++)
        {
            joule += Get(State, FluxCold + j, lane) * _fluxColdEnthalpy[j][lane];
        }

        return joule;
    }
}
