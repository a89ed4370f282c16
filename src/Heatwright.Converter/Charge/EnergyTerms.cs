// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Converter.Blow;
using static Heatwright.Converter.Blow.BlowState;

namespace Heatwright.Converter.Charge;

/// <summary>Enthalpies of everything that came in and everything found at the end, MJ (elements at 25 °C = 0).</summary>
/// <param name="HotMetalMJ">Hot metal as poured.</param>
/// <param name="SlagInMJ">Retained and carried-over slag.</param>
/// <param name="ScrapInMJ">Scrap as charged.</param>
/// <param name="AdditionsInMJ">Additions that reached the vessel (formation from the elements included).</param>
/// <param name="LiningInMJ">Magnesia worn from the lining.</param>
/// <param name="MetalMJ">Liquid metal at the end.</param>
/// <param name="SlagMJ">Liquid slag with warm lumps at the end.</param>
/// <param name="SolidsMJ">Unmelted scrap, frozen metal and cold additions at the end.</param>
/// <param name="LiningMJ">Taken up by the lining's hot face.</param>
/// <param name="GasMJ">Carried out by gas.</param>
/// <param name="DustMJ">Carried out by fume and spray.</param>
/// <param name="LossMJ">Lost through mouth, lance and shell.</param>
public sealed record EnergyTerms(
    double HotMetalMJ,
    double SlagInMJ,
    double ScrapInMJ,
    double AdditionsInMJ,
    double LiningInMJ,
    double MetalMJ,
    double SlagMJ,
    double SolidsMJ,
    double LiningMJ,
    double GasMJ,
    double DustMJ,
    double LossMJ)
{
    /// <summary>Sum of what came in.</summary>
    public double InMJ => HotMetalMJ + SlagInMJ + ScrapInMJ + AdditionsInMJ + LiningInMJ;

    /// <summary>Sum of what was found.</summary>
    public double OutMJ => MetalMJ + SlagMJ + SolidsMJ + LiningMJ + GasMJ + DustMJ + LossMJ;

    /// <summary>Sum of the absolute terms.</summary>
    public double ScaleMJ => Math.Abs(HotMetalMJ) + Math.Abs(SlagInMJ) + Math.Abs(ScrapInMJ) + Math.Abs(AdditionsInMJ) + Math.Abs(LiningInMJ)
        + Math.Abs(MetalMJ) + Math.Abs(SlagMJ) + Math.Abs(SolidsMJ) + Math.Abs(LiningMJ) + Math.Abs(GasMJ) + Math.Abs(DustMJ) + Math.Abs(LossMJ);

    internal static EnergyTerms Of(HeatInput heat, ModelParameters parameters, LanePack pack, int lane)
    {
        double At(int i) => LanePack.Get(pack.State, i, lane);
        HotMetal hm = heat.HotMetal;
        double hotMetal = 0;
        for (int e = 0; e < AtomicWeights.Count; e++)
        {
            double kg = hm.MassKg * hm.Analysis[(Element)e] / 100;
            hotMetal += kg == 0 ? 0 : kg * Enthalpies.Dissolved((Element)e, hm.TemperatureK);
        }

        double slagIn = SlagIn(heat, parameters);
        double scrapIn = 0;
        foreach (ScrapCharge s in heat.Scrap)
        {
            var split = new ScrapSplit(s.Material, parameters.FerricShare);
            scrapIn += s.MassKg * (split.ColdEnthalpy + (Enthalpies.SolidSteelJPerKgK * (s.TemperatureK - HeatInput.AmbientK)));
        }

        double additions = 0;
        foreach (Addition a in heat.Programme.GivenAdditions)
        {
            additions += a.KeptKg * new FluxSplit(a.Material, parameters.FerricShare).ColdEnthalpy;
        }

        return new EnergyTerms(
            hotMetal / 1e6,
            slagIn / 1e6,
            scrapIn / 1e6,
            additions / 1e6,
            At(InLining) / 1e6,
            pack.MetalEnthalpyJ(lane) / 1e6,
            pack.SlagEnthalpyJ(lane) / 1e6,
            pack.SolidsEnthalpyJ(lane) / 1e6,
            At(HeatLining) / 1e6,
            At(OutGas) / 1e6,
            At(OutDust) / 1e6,
            At(OutLoss) / 1e6);
    }

    private static double SlagIn(HeatInput heat, ModelParameters parameters)
    {
        double joule = 0;
        double lime = 0, silica = 0, phosphate = 0;
        foreach ((SolidAnalysis a, double massKg, double temperatureK) in ((SolidAnalysis, double, double)[])
            [(heat.RetainedSlag.Analysis, heat.RetainedSlag.MassKg, heat.RetainedSlag.TemperatureK), (CarriedSlag.Analysis, heat.HotMetal.SlagCarryKg, heat.HotMetal.TemperatureK)])
        {
            (double oxide, double iron) = IronOxide.Split(a[Constituent.FeO] / 100, a[Constituent.Fe2O3] / 100, parameters.FerricShare);
            (double h, double cp) = IronOxide.Enthalpy(parameters.FerricShare);
            joule += massKg * oxide * (h + (cp * (temperatureK - Enthalpies.ReferenceK)));
            joule += massKg * iron * Enthalpies.Dissolved(Element.Fe, temperatureK);
            for (int i = 1; i < SlagCount; i++)
            {
                joule += massKg * a[SlagConstituents[i]] / 100 * Enthalpies.InSlag(SlagConstituents[i], temperatureK);
            }

            lime += massKg * a[Constituent.CaO] / 100;
            silica += massKg * a[Constituent.SiO2] / 100;
            phosphate += massKg * a[Constituent.P2O5] / 100;
        }

        return joule + SlagMixing.Heat(LaneMath.All(lime), LaneMath.All(silica), LaneMath.All(phosphate))[0];
    }
}
