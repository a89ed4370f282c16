// SPDX-License-Identifier: Apache-2.0
using System.Text.Json;
using Heatwright.Chemistry.Slag;
using Heatwright.Tests;

namespace Heatwright.Chemistry.Tests.Slag;

/// <summary>The rows of slag_checks.csv; each row carries its published source and status.</summary>
public class SlagCheckRowTests
{
    private static readonly IReadOnlyList<CheckRow> Rows = CheckRows.Read("slag_checks.csv");

    public static TheoryData<string> IndependentRows => [.. Rows.Where(r => r.IsIndependent).Select(r => r.Id)];

    public static TheoryData<string> ImplementationRows => [.. Rows.Where(r => !r.IsIndependent).Select(r => r.Id)];

    [Theory]
    [MemberData(nameof(IndependentRows))]
    public void TableValueIsMet(string id) => Check(id);

    [Theory]
    [MemberData(nameof(ImplementationRows))]
    public void ImplementationGivesTheFormulasNumber(string id) => Check(id);

    private static void Check(string id)
    {
        CheckRow row = Rows.Single(r => r.Id == id);
        Assert.Equal(row.Expected, Evaluate(row), row.Tolerance);
    }

    private static double Evaluate(CheckRow r) => r.Function switch
    {
        "lp_healy" => Ten(PhosphorusCorrelations.LogLpHealy1970(r["T"], r["CaO"], r["TFe"])),
        "lp_suito84" => Ten(PhosphorusCorrelations.LogLpSuitoInoue1984(r["T"], r["CaO"], r["MgO"], r["P2O5"], r["MnO"], r["TFe"])),
        "logkp_suito84_i" => PhosphorusCorrelations.LogKpSuitoInoue1984Linear(r["T"], r["CaO"], r["MgO"], r["P2O5"], r["MnO"]),
        "logkp_suito84_ii" => PhosphorusCorrelations.LogKpSuitoInoue1984Logarithmic(r["T"], r["CaO"], r["MgO"], r["FetO"], r["P2O5"], r["MnO"]),
        "log_gamma_p2o5_suito84" => PhosphorusCorrelations.LogGammaP2O5SuitoInoue1984(r["T"], r["N_CaO"], r["N_MgO"], r["N_FetO"], r["N_P2O5"], r["N_MnO"]),
        "logkp_suito82_caf2" => PhosphorusCorrelations.LogKpSuitoInoue1982Fluorspar(r["T"], r["CaO"], r["CaF2"], r["MgO"]),
        "lp_tetsu86" => Ten(PhosphorusCorrelations.LogLpTetsu1986(r["T"], r["CaO"], r["MgO"], r["TFe"])),
        "lp_assis" => Ten(PhosphorusCorrelations.LogLpAssis2015(r["T"], r["CaO"], r["MgO"], r["P2O5"], r["SiO2"], r["Al2O3"], r["TFe"])),
        "lp_ide_fruehan" => Ten(PhosphorusCorrelations.LogLpIdeFruehan2000(r["T"], r["CaO"], r["MgO"], r["P2O5"], r["MnO"], r["TFe"])),
        "lp_turkdogan" => Ten(PhosphorusCorrelations.LogLpTurkdogan1996(r["T"], r["CaO"], r["MgO"], r["O"])),
        "slag_for_p" => PhosphorusCorrelations.SlagKgPerTonne(r["P0"], r["P1"], r["LP"]),
        "p_final" => PhosphorusCorrelations.EndPhosphorus(r["P0"], r["slag_kg_per_t"], r["LP"]),
        "logkmn_park" => ManganesePartition.LogKParkDzo(r["T"], r["CaO"], r["MgO"], r["FetO"], r["MnO"], r["SiO2"], r["P2O5"]),
        "log_gamma_mno_park" => ManganesePartition.LogGammaMnOParkDzo(r["N_MnO"], r["N_FetO"]),
        "logK_mn_feo_1963" => ManganesePartition.LogKEquilibrium1963(r["T"]),
        "logCs_sosinsky" => SulphurPartition.LogSulphideCapacity(r["T"], r["L"]),
        "logLs" => SulphurPartition.LogPartition(r["T"], r["logCs"], r["fS"], r["aO"]),
        "s_ratio" => SulphurPartition.MetalShare(r["slag_kg_per_t"], r["LS"]),
        "o_sat" => PhosphorusPartition.SaturationOxygenPercent(r["T"]),
        "optical_basicity" => OpticalBasicity.Of(Slag(r)),
        "visc_riboud" => SlagViscosity.Riboud(Slag(r), r["T"]),
        "visc_urbain" => SlagViscosity.Urbain(Slag(r), r["T"]),
        "einstein_roscoe" => SlagViscosity.WithSolids(r["eta"], r["phi"]),
        "density_mills" => SlagDensity.KgPerM3(Slag(r), r["T"]),
        "surface_tension_mills" => SlagSurfaceTension.NewtonPerM(Slag(r), r["T"]),
        "foam_ito" => SlagFoam.IndexItoFruehan1989(r["mu"], r["sig"], r["rho"]),
        "foam_jiang" => SlagFoam.IndexJiangFruehan1991(r["mu"], r["sig"], r["rho"]),
        "foam_zhang" => SlagFoam.IndexZhangFruehan1995(r["mu"], r["sig"], r["rho"], r["d"]),
        "co_superficial_velocity" => SlagFoam.SuperficialVelocity(r["dCdt_pct_per_min"], r["steel_t"], r["area"], r["T"]),
        "foam_height" => SlagFoam.Height(r["sigma"], r["v"]),
        _ => throw new InvalidOperationException($"Row {r.Id} names the unknown function {r.Function}."),
    };

    private static double Ten(double log) => Math.Pow(10, log);

    private static SlagComposition Slag(CheckRow row)
    {
        var parts = new Dictionary<Constituent, double>();
        foreach (JsonProperty p in row.Inputs.GetProperty("wt").EnumerateObject())
        {
            parts[Enum.Parse<Constituent>(p.Name)] = p.Value.GetDouble();
        }

        return SlagComposition.FromMasses(parts);
    }
}
