// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using System.Text;

namespace Heatwright.Learning.Tests.Validation;

/// <summary>Small tables in the layout of the plant record, with invented numbers.</summary>
internal static class InventedTables
{
    public const string HeatsHeader =
        "heat_no,set,hot_metal_kg,hot_metal_T_C,hm_Si_pct,hm_Mn_pct,hm_S_pct,hm_P_pct,hm_Cr_pct,hm_Ni_pct,hm_Cu_pct,hm_V_pct,hm_Ti_pct,"
        + "scrap_kg,scrap_grades,lime_kg,lime_fines_kg,flux_flumag_kg,flux_fomi_kg,coal_kg,scrap_preheat_s,blow_s,lining_age_heats,"
        + "oxygen_from_lance_record_Nm3,end_T_C,end_C_pct";

    public const string EndGasHeader = "heat_no,CO_pct,CO2_pct,O2_pct,N2_pct,end_T_C,end_C_pct";

    public static string BlowGasHeader { get; } = "heat_no," + string.Join(
        ',',
        new[] { "CO", "CO2", "N2", "O2" }.SelectMany(g => new[] { "mean", "p25", "p50", "p75" }.Select(s => $"{g}_{s}_pct"))
            .Concat(new[] { "mean", "p25", "p50", "p75" }.Select(s => $"gas_T_C_{s}")));

    public static string Heats(params string[] rows) => "# invented\n# second remark\n" + HeatsHeader + "\n" + string.Join('\n', rows) + "\n";

    public static string EndGas(params string[] rows) => "# invented\n" + EndGasHeader + "\n" + string.Join('\n', rows) + "\n";

    public static string BlowGas(params string[] rows) => "# invented\n" + BlowGasHeader + "\n" + string.Join('\n', rows) + "\n";

    public static string Heat(
        int number,
        string set = "A",
        double hotMetalKg = 262000,
        double hotMetalC = 1390,
        double? si = 0.45,
        double scrapKg = 71000,
        double limeKg = 14000,
        double coalKg = 0,
        double? oxygenNm3 = null,
        double? endC = 1650,
        double? endCarbon = 0.06)
    {
        string analysis = si is { } v ? $"{N(v)},0.31,0.02,0.09,0.02,0.01,0.02,0.06,0.05" : ",,,,,,,,";
        string end = set == "A" ? $",{N(endC)},{N(endCarbon)}" : $"{N(oxygenNm3)},,";
        return $"{number},{set},{N(hotMetalKg)},{N(hotMetalC)},{analysis},{N(scrapKg)},\"light, heavy\",{N(limeKg)},0,2500,0,{N(coalKg)},0,1150,500,{end}";
    }

    public static string GasAtEnd(int number, double co, double co2, double carbon) =>
        string.Create(CultureInfo.InvariantCulture, $"{number},{co},{co2},8,79,1650,{carbon}");

    public static string GasOfBlow(int number)
    {
        var row = new StringBuilder().Append(number);
        foreach (double middle in new[] { 38.0, 23, 36, 0.2, 750 })
        {
            row.Append(CultureInfo.InvariantCulture, $",{middle},{0.8 * middle},{middle},{1.2 * middle}");
        }

        return row.ToString();
    }

    private static string N(double? value) => value?.ToString("R", CultureInfo.InvariantCulture) ?? string.Empty;
}
