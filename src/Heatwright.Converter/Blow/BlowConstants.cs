// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Converter.Blow;

/// <summary>
/// Magnitudes of the rates. None is published for an industrial converter to better than a factor of two; they are set so that
/// the known course of a heat comes out (handbook, chapter 40) and each has a scale among the parameters that learning may move.
/// </summary>
internal static class BlowConstants
{
    /// <summary>Lance height at which the post-combustion parameter holds, m.</summary>
    public const double ReferenceLanceM = 1.9;

    /// <summary>Nearer to the bath the jet is computed as at this distance, m; a flag says so.</summary>
    public const double LeastLanceM = 0.6;

    /// <summary>Film coefficient in the cavities at 0.2 m depth, m/s: carries about 140 kg metal/s in a 160 t heat.</summary>
    public const double JetFilmMPerS = 4.0e-3;

    /// <summary>How well silicon and manganese compete with carbon in the hot spot (2000–3000 °C).</summary>
    public const double JetSilicon = 1.0;
    public const double JetManganese = 0.5;

    /// <summary>Rate of reduction of iron oxide by droplets at 1873 K and reference droplet supply, 1/s of the oxide.</summary>
    public const double ReductionPerS = 0.064;

    /// <summary>Activation temperature of that reduction, K (carbon–iron-oxide reaction, 80–100 kJ/mol and more; from memory).</summary>
    public const double ReductionActivationK = 12000;

    /// <summary>Droplet rate of the published correlation at which it holds, kg/Nm³.</summary>
    public const double ReferenceDroplets = 15;

    /// <summary>How far a droplet comes to the slag's oxygen before it falls back.</summary>
    public const double DropletOxygen = 0.25;

    /// <summary>Metal-side transport to the slag–metal interface at reference stirring, kg metal per s and kg metal.</summary>
    public const double InterfaceMetalPerS = 7.0e-3;

    /// <summary>Slag-side transport, kg slag per s and kg slag.</summary>
    public const double InterfaceSlagPerS = 0.02;

    /// <summary>Iron oxide moves faster through the slag than network formers.</summary>
    public const double OxideAhead = 4;

    /// <summary>CO boil of the quiet bath, 1/s.</summary>
    public const double BoilPerS = 0.12;

    /// <summary>What bottom gas adds to it, 1/s per Nm³/(s·t).</summary>
    public const double BoilByBottomGas = 4;

    /// <summary>Most Newton steps for the interface, and the relative change of √h that ends them.</summary>
    public const int MostInterfaceIterations = 40;
    public const double InterfaceTolerance = 1e-7;

    /// <summary>Removal of nitrogen, kg metal stripped per kmol of CO, and nitrogen left with CO bubbles, mass % (set to end at 15–30 ppm, from memory).</summary>
    public const double NitrogenKgPerKmol = 660;
    public const double NitrogenFloorPercent = 0.0012;

    /// <summary>Share of bottom nitrogen that dissolves.</summary>
    public const double NitrogenUptake = 0.02;

    /// <summary>Sulphur partition of the converter slag (plant values 3–8, from memory).</summary>
    public const double SulphurPartition = 5;

    /// <summary>Lime dissolution, m/s at the slag–lump film, at reference stirring.</summary>
    public const double LimeFilmMPerS = 4.0e-4;

    /// <summary>Magnesia transport at the lining, m/s.</summary>
    public const double LiningFilmMPerS = 1.2e-5;

    /// <summary>Heat exchange of slag with metal: time constant of the slag, s.</summary>
    public const double SlagExchangeS = 40;

    /// <summary>Shares of two heats that arise in the slag: post-combustion kept in the vessel, and iron oxide formed by the jet.</summary>
    public const double PostCombustionToSlag = 0.5;
    public const double OxidationHeatToSlag = 0.2;

    /// <summary>The hotter the gas, the more of its heat radiates down: part of the remaining heat that goes with the CO2 share.</summary>
    public const double PostCombustionRadiation = 1.0;

    /// <summary>Share of the jets' gas that rises through the slag rather than through the jets' own openings.</summary>
    public const double JetGasThroughSlag = 0.15;

    /// <summary>Surface tension of converter slag, N/m (450–500 mN/m with P2O5 and sulphur; from memory).</summary>
    public const double SlagSurfaceTension = 0.45;

    /// <summary>Brings the laboratory foam index to a converter: a plain foam of a third to two thirds of the freeboard at mid-blow.</summary>
    public const double FoamIndexScale = 4;

    /// <summary>Share of the oxygen that finds no CO and oxidises iron instead of leaving.</summary>
    public const double UnusedOxygenToIron = 0.9;

    /// <summary>Iron fume per Nm³ oxygen, kg, and spray per kmol CO, kg: together 10–13 kg Fe per t steel (raw dust 15–20 kg/t; EU BREF 2013, from memory).</summary>
    public const double FumePerNm3 = 0.12;
    public const double SprayPerKmol = 2.2;

    /// <summary>Lance cooling, W per lance; emissivity of the mouth and its width over the bore; shell loss, W/m² of wetted wall (from memory).</summary>
    public const double LanceCoolingW = 1.0e6;
    public const double MouthEmissivity = 0.6;
    public const double MouthOverBore = 0.6;
    public const double ShellWPerM2 = 9e3;

    /// <summary>Heat transfer from bath to the lining's active layer, W/(m² K): conductivity 8 W/(m K) over half the layer.</summary>
    public const double LiningWPerM2K = 230;
}
