// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Converter.Blow;
using static Heatwright.Converter.Blow.BlowState;

namespace Heatwright.Converter.Charge;

/// <summary>Where each element is at the end of a run, kg.</summary>
internal sealed class FoundElements
{
    public double[] Metal { get; } = new double[AtomicWeights.Count];

    public double[] Slag { get; } = new double[AtomicWeights.Count];

    public double[] Gas { get; } = new double[AtomicWeights.Count];

    public double[] Dust { get; } = new double[AtomicWeights.Count];

    public double[] Solids { get; } = new double[AtomicWeights.Count];

    public static FoundElements Of(HeatInput heat, LanePack pack, int lane, ModelParameters parameters)
    {
        var found = new FoundElements();
        double At(int i) => LanePack.Get(pack.State, i, lane);
        for (int i = 0; i < MetalCount; i++)
        {
            found.Metal[(int)MetalElements[i]] += At(BlowState.Metal + i);
        }

        foreach (Element e in InertElements)
        {
            found.Metal[(int)e] += pack.InertKg(e, lane);
        }

        double feOxMolar = IronOxide.MolarMass(parameters.FerricShare);
        double oxygenPerIron = IronOxide.OxygenPerIron(parameters.FerricShare);
        AddOxides(found.Slag, i => At(BlowState.Slag + i), feOxMolar, oxygenPerIron);
        found.AddSolids(heat, parameters, At, feOxMolar, oxygenPerIron);
        double carbon = At(GasCO) + At(GasCO2);
        found.Gas[(int)Element.C] += carbon * AtomicWeights.Of(Element.C);
        found.Gas[(int)Element.O] += (At(GasCO) + (2 * At(GasCO2)) + (2 * At(GasO2)) + At(GasH2O)) * AtomicWeights.Of(Element.O);
        found.Gas[(int)Element.H] += 2 * (At(GasH2) + At(GasH2O)) * AtomicWeights.Of(Element.H);
        found.Gas[(int)Element.N] += 2 * At(GasN2) * AtomicWeights.Of(Element.N);
        found.Gas[(int)Element.Ar] += At(GasAr) * AtomicWeights.Of(Element.Ar);
        found.Dust[(int)Element.Fe] += At(DustFe);
        return found;
    }

    private static void AddOxides(double[] kg, Func<int, double> mass, double feOxMolar, double oxygenPerIron)
    {
        double iron = mass(FeO) / feOxMolar;
        kg[(int)Element.Fe] += iron * AtomicWeights.Of(Element.Fe);
        kg[(int)Element.O] += iron * oxygenPerIron * AtomicWeights.Of(Element.O);
        for (int i = 1; i < SlagCount; i++)
        {
            ChargedElements.AddConstituent(kg, SlagConstituents[i], mass(i));
        }
    }

    private void AddSolids(HeatInput heat, ModelParameters parameters, Func<int, double> at, double feOxMolar, double oxygenPerIron)
    {
        for (int k = 0; k < heat.Scrap.Count; k++)
        {
            ChargedElements.AddScrap(Solids, heat.Scrap[k].Material, at(ScrapMass + k));
            foreach (Element e in InertElements)
            {
                Solids[(int)e] += at(ScrapShell + k) * heat.HotMetal.Analysis[e] / 100;
            }
        }

        for (int i = 0; i < MetalCount; i++)
        {
            Solids[(int)MetalElements[i]] += at(ShellMetal + i);
        }

        IReadOnlyList<FluxMaterial> slots = ProgrammeGrid.Slots(heat);
        for (int j = 0; j < slots.Count; j++)
        {
            ChargedElements.AddSolid(Solids, slots[j].Analysis, at(FluxCold + j));
            var split = new FluxSplit(slots[j], parameters.FerricShare);
            double yield = split.Slag.Sum() + split.Metal.Sum();
            double hot = at(FluxHot + j) / yield;
            AddOxides(Solids, i => hot * split.Slag[i], feOxMolar, oxygenPerIron);
            for (int i = 0; i < MetalCount; i++)
            {
                Solids[(int)MetalElements[i]] += hot * split.Metal[i];
            }
        }

        foreach (Addition a in heat.Programme.GivenAdditions)
        {
            ChargedElements.AddSolid(Dust, a.Material.Analysis, a.FinesKg);
        }
    }
}
