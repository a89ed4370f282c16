// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Blow.Jet;
using Heatwright.Converter.Blow.Stirring;
using Heatwright.Tests;

namespace Heatwright.Converter.Tests.Blow;

/// <summary>
/// The rows of jet_and_stirring_checks.csv. All of them prove implementations: the isentropic rows equal the exact relations and the
/// printed
/// NACA Report 1135 figures as remembered; the rest come from the formulas themselves.
/// </summary>
public class JetAndStirringCheckRowTests
{
    private static readonly IReadOnlyList<CheckRow> Rows = CheckRows.Read("jet_and_stirring_checks.csv");

    public static TheoryData<string> ImplementationRows => [.. Rows.Select(r => r.Id)];

    [Theory]
    [MemberData(nameof(ImplementationRows))]
    public void ImplementationGivesTheFormulasNumber(string id)
    {
        CheckRow row = Rows.Single(r => r.Id == id);
        Assert.Equal(row.Expected, Evaluate(row), row.Tolerance);
    }

    private static double Evaluate(CheckRow r) => r.Function switch
    {
        "isen_p" => IsentropicFlow.PressureRatio(r["M"]),
        "isen_T" => IsentropicFlow.TemperatureRatio(r["M"]),
        "isen_A" => IsentropicFlow.AreaRatio(r["M"]),
        "mach_from_pr" => IsentropicFlow.MachFromPressureRatio(r["p0_over_pe"]),
        "choked_flow" => IsentropicFlow.ChokedMassFlow(r["p0"], r["T0"], r["d"], r["Cd"]),
        "nm3_per_min" => r["kgps"] * IsentropicFlow.OxygenNm3PerKg * 60,
        "exit_velocity" => IsentropicFlow.Velocity(r["M"], r["T0"]),
        "core_length_lau" => FreeJet.CoherentLengthM(1, r["M"]),
        "koria_momentum" => Cavity.KoriaLangeMomentum(r["dt"], r["p0"] * 1e5, r["pa"] * 1e5, r["incl_deg"], r["rho_l"], r["h"]),
        "koria_depth" => Cavity.KoriaLangeDepthM(r["Mh"], r["h"]),
        "koria_diameter" => Cavity.KoriaLangeDiameterM(r["Md"], r["h"]),
        "penetration_banks" => Cavity.BanksChandrasekharaDepthM(r["Mdot"], r["rho_l"], r["h"], r["K"]),
        "penetration_segawa" => 1000 * Cavity.SegawaDepthM(r["F_nm3h"] / 3600, (int)r["n"], r["d_mm"] / 1000, r["h_mm"] / 1000, r["k"]),
        "blowing_number" => Droplets.BlowingNumber(r["rho_g"], r["u_j"], r["sig"], r["rho_l"]),
        "droplet_rate" => Droplets.RateKgPerNm3(r["NB"]),
        "stir_power" => StirringPower.WattPerTonne(r["Q_nm3min"] / 60, r["T"], r["M_t"], r["H"]),
        "stir_power_msts" => StirringPower.WattPerTonneTextbook(r["Q_nm3min"] / 60, r["T"], r["M_t"], r["H"]),
        "mix_nakanishi" => MixingTime.Nakanishi1975(r["eps_w_t"]),
        "mix_mazumdar_guthrie" => MixingTime.MazumdarGuthrie1986(r["eps_w_kg"], r["L"], r["Rv"]),
        "mix_dual_plug" => MixingTime.DualPlug2005(r["Q"], r["L"], r["Rv"]),
        _ => throw new InvalidOperationException($"Row {r.Id} names the unknown function {r.Function}."),
    };
}
