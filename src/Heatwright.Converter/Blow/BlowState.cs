// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;

namespace Heatwright.Converter.Blow;

/// <summary>
/// Where each number of the state stands. All masses are kg, enthalpies J (elements at 298.15 K = 0), gas totals kmol.
/// Every entry is extensive and enters the equations linearly, so that a Runge–Kutta step conserves each element and the
/// energy exactly.
/// </summary>
internal static class BlowState
{
    /// <summary>Elements dissolved in the liquid metal, in state order. Ni, Cu, Mo and Sn do not react and follow from what has melted.</summary>
    public static readonly Element[] MetalElements =
    [
        Element.Fe, Element.C, Element.Si, Element.Mn, Element.P, Element.S,
        Element.Ti, Element.V, Element.Cr, Element.Al, Element.O, Element.N,
    ];

    /// <summary>Elements that stay in the metal whatever is blown; they count as iron for heat.</summary>
    public static readonly Element[] InertElements = [Element.Ni, Element.Cu, Element.Mo, Element.Sn];

    /// <summary>Constituents of the liquid slag, in state order. FeO stands for FeOx with the ferric share of the parameters.</summary>
    public static readonly Constituent[] SlagConstituents =
    [
        Constituent.FeO, Constituent.SiO2, Constituent.MnO, Constituent.P2O5, Constituent.CaO, Constituent.MgO,
        Constituent.Al2O3, Constituent.TiO2, Constituent.V2O3, Constituent.Cr2O3, Constituent.CaF2, Constituent.CaS,
    ];

    public const int MetalCount = 12;
    public const int SlagCount = 12;

    // Offsets within the metal block.
    public const int Fe = 0, C = 1, Si = 2, Mn = 3, P = 4, S = 5, Ti = 6, V = 7, Cr = 8, Al = 9, O = 10, N = 11;

    // Offsets within the slag block.
    public const int FeO = 0, SiO2 = 1, MnO = 2, P2O5 = 3, CaO = 4, MgO = 5, Al2O3 = 6, TiO2 = 7, V2O3 = 8, Cr2O3 = 9, CaF2 = 10, CaS = 11;

    public const int Metal = 0;
    public const int Slag = Metal + MetalCount;

    /// <summary>Additions as charged, not yet warm, by slot.</summary>
    public const int FluxCold = Slag + SlagCount;

    /// <summary>Lime, dolomite and magnesia lumps, warm and calcined, not yet dissolved, by slot.</summary>
    public const int FluxHot = FluxCold + HeatInput.MaxFluxes;

    /// <summary>Unmelted scrap by slot.</summary>
    public const int ScrapMass = FluxHot + HeatInput.MaxFluxes;

    /// <summary>Hot metal frozen onto that scrap.</summary>
    public const int ScrapShell = ScrapMass + HeatInput.MaxScrapClasses;

    /// <summary>What the frozen hot metal of all classes together is made of, by element.</summary>
    public const int ShellMetal = ScrapShell + HeatInput.MaxScrapClasses;

    /// <summary>Sensible heat of the unmelted scrap above 298.15 K.</summary>
    public const int ScrapHeat = ShellMetal + MetalCount;

    /// <summary>Enthalpy of the liquid metal.</summary>
    public const int HeatMetal = ScrapHeat + HeatInput.MaxScrapClasses;

    /// <summary>Enthalpy of the liquid slag with the warm undissolved lumps in it.</summary>
    public const int HeatSlag = HeatMetal + 1;

    /// <summary>Heat stored in the hot face of the lining, counted from its start.</summary>
    public const int HeatLining = HeatSlag + 1;

    // Totals of what has left or come from the lining, for the balances.
    public const int GasCO = HeatLining + 1;
    public const int GasCO2 = GasCO + 1;
    public const int GasO2 = GasCO2 + 1;
    public const int GasH2 = GasO2 + 1;
    public const int GasH2O = GasH2 + 1;
    public const int GasN2 = GasH2O + 1;
    public const int GasAr = GasN2 + 1;

    /// <summary>Iron carried off as fume and spray, kg.</summary>
    public const int DustFe = GasAr + 1;

    /// <summary>MgO worn from the lining into the slag, kg.</summary>
    public const int LiningMgO = DustFe + 1;

    /// <summary>Enthalpy carried out by gas, J.</summary>
    public const int OutGas = LiningMgO + 1;

    /// <summary>Enthalpy carried out by dust, J.</summary>
    public const int OutDust = OutGas + 1;

    /// <summary>Heat lost through the mouth, the lance and the shell, J.</summary>
    public const int OutLoss = OutDust + 1;

    /// <summary>Enthalpy that came in with worn lining, J.</summary>
    public const int InLining = OutLoss + 1;

    /// <summary>Carbon burnt in the jet zone, in the emulsion and in the quiet bath, kg: where the carbon went.</summary>
    public const int CarbonJet = InLining + 1;
    public const int CarbonEmulsion = CarbonJet + 1;
    public const int CarbonBath = CarbonEmulsion + 1;

    /// <summary>Heat of post-combustion that stayed in the vessel, J (for the account).</summary>
    public const int HeatPostCombustion = CarbonBath + 1;

    public const int Count = HeatPostCombustion + 1;
}
