// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Learning.Validation;

/// <summary>Hot metal analysis as recorded, mass %. Carbon is not recorded.</summary>
public sealed record RecordedAnalysis(double Si, double Mn, double S, double P, double Cr, double Ni, double Cu, double V, double Ti);

/// <summary>One heat of the plant record.</summary>
/// <param name="Number">Heat number: the order in time.</param>
/// <param name="HasEndPoint">True for set A (end temperature and carbon), false for set B (oxygen).</param>
/// <param name="HotMetalKg">Hot metal, kg.</param>
/// <param name="HotMetalC">Hot metal temperature, °C.</param>
/// <param name="Analysis">Hot metal analysis, or null where none was recorded.</param>
/// <param name="ScrapKg">Scrap, kg.</param>
/// <param name="LimeKg">Burnt lime, lumps and fines, kg.</param>
/// <param name="MagnesiaKg">Magnesia fluxes, both kinds, kg.</param>
/// <param name="BlowS">Length of the blow, s.</param>
/// <param name="LiningAgeHeats">Heats on the lining.</param>
/// <param name="OxygenNm3">Oxygen blown, Nm³ (set B).</param>
/// <param name="EndC">End temperature, °C (set A).</param>
/// <param name="EndCarbonPercent">End carbon, mass % (set A).</param>
public sealed record MeasuredHeat(
    int Number,
    bool HasEndPoint,
    double HotMetalKg,
    double HotMetalC,
    RecordedAnalysis? Analysis,
    double ScrapKg,
    double LimeKg,
    double MagnesiaKg,
    double BlowS,
    double LiningAgeHeats,
    double? OxygenNm3,
    double? EndC,
    double? EndCarbonPercent)
{
    /// <summary>Hot metal and scrap, t.</summary>
    public double ChargeT => (HotMetalKg + ScrapKg) / 1000;

    /// <summary>Share of scrap in the metallic charge, %.</summary>
    public double ScrapPercent => 100 * ScrapKg / (HotMetalKg + ScrapKg);
}

/// <summary>Gas behind the hood at the end of a blow, dry volume %.</summary>
public sealed record MeasuredEndGas(int Number, double CO, double CO2, double O2, double N2, double EndC, double EndCarbonPercent)
{
    /// <summary>CO and CO2 together, volume %.</summary>
    public double CarbonGas => CO + CO2;
}

/// <summary>Mean and quartiles over the time of one blow.</summary>
public readonly record struct TimeStatistic(double Mean, double Lower, double Middle, double Upper);

/// <summary>Gas behind the hood over one blow, dry volume % and °C.</summary>
public sealed record MeasuredBlowGas(
    int Number, TimeStatistic CO, TimeStatistic CO2, TimeStatistic N2, TimeStatistic O2, TimeStatistic TemperatureC);

/// <summary>The measured heats that the model is checked against, in time order.</summary>
/// <param name="EndPoints">Set A without coal and scrap preheating.</param>
/// <param name="Oxygen">Set B without coal and scrap preheating.</param>
/// <param name="EndGas">Gas at the end of the blow.</param>
/// <param name="BlowGas">Gas during the blow.</param>
/// <param name="HeatsRead">All rows of the heats file.</param>
public sealed record MeasuredHeats(
    IReadOnlyList<MeasuredHeat> EndPoints,
    IReadOnlyList<MeasuredHeat> Oxygen,
    IReadOnlyList<MeasuredEndGas> EndGas,
    IReadOnlyList<MeasuredBlowGas> BlowGas,
    int HeatsRead)
{
    /// <summary>Charge, fluxes, end points and oxygen.</summary>
    public const string HeatsFile = "converter_2021_heats.csv";

    /// <summary>Gas at the end of the blow.</summary>
    public const string EndGasFile = "converter_2021_gas_at_blow_end.csv";

    /// <summary>Gas during the blow.</summary>
    public const string BlowGasFile = "converter_2021_offgas_during_blow.csv";

    /// <summary>Reads the three files.</summary>
    /// <exception cref="ValidationDataException">A file, column or value is missing or wrong.</exception>
    public static MeasuredHeats Read(string directory) => Of(
        MeasuredTable.Read(directory, HeatsFile), MeasuredTable.Read(directory, EndGasFile), MeasuredTable.Read(directory, BlowGasFile));

    /// <summary>The heats in three tables.</summary>
    /// <exception cref="ValidationDataException">A column or value is missing or wrong.</exception>
    public static MeasuredHeats Of(MeasuredTable heats, MeasuredTable endGas, MeasuredTable blowGas)
    {
        ArgumentNullException.ThrowIfNull(heats);
        ArgumentNullException.ThrowIfNull(endGas);
        ArgumentNullException.ThrowIfNull(blowGas);
        var ends = new List<MeasuredHeat>();
        var oxygen = new List<MeasuredHeat>();
        for (int row = 0; row < heats.Count; row++)
        {
            // Coal burnt on the scrap and preheating bring heat and carbon that no column weighs.
            if (heats.Number(row, "coal_kg", 0, 100e3) > 0 || heats.Number(row, "scrap_preheat_s", 0, 1e5) > 0)
            {
                continue;
            }

            (heats.Text(row, "set") switch
            {
                "A" => ends,
                "B" => oxygen,
                string other => throw new ValidationDataException($"{heats.Name}, heat {heats.Text(row, "heat_no")}: set is '{other}'; it must be A or B."),
            }).Add(Heat(heats, row));
        }

        return new MeasuredHeats(
            [.. ends.OrderBy(h => h.Number)],
            [.. oxygen.OrderBy(h => h.Number)],
            [.. Enumerable.Range(0, endGas.Count).Select(r => EndGasOf(endGas, r)).OrderBy(g => g.Number)],
            [.. Enumerable.Range(0, blowGas.Count).Select(r => BlowGasOf(blowGas, r)).OrderBy(g => g.Number)],
            heats.Count);
    }

    private static MeasuredHeat Heat(MeasuredTable t, int row)
    {
        bool hasEnd = t.Text(row, "set") == "A";
        return new MeasuredHeat(
            (int)t.Number(row, "heat_no", 1, int.MaxValue),
            hasEnd,
            t.Number(row, "hot_metal_kg", 1000, 600e3),
            t.Number(row, "hot_metal_T_C", 1150, 1550),
            AnalysisOf(t, row),
            t.Number(row, "scrap_kg", 0, 300e3),
            t.Number(row, "lime_kg", 0, 60e3) + t.Number(row, "lime_fines_kg", 0, 60e3),
            t.Number(row, "flux_flumag_kg", 0, 60e3) + t.Number(row, "flux_fomi_kg", 0, 60e3),
            t.Number(row, "blow_s", 1, 1e5),
            t.Number(row, "lining_age_heats", 0, 10e3),
            t.Optional(row, "oxygen_from_lance_record_Nm3", 10, 60e3),
            hasEnd ? t.Number(row, "end_T_C", 1300, 1900) : null,
            hasEnd ? t.Number(row, "end_C_pct", 0.001, 5) : null);
    }

    private static RecordedAnalysis? AnalysisOf(MeasuredTable t, int row)
    {
        if (t.Optional(row, "hm_Si_pct", 0, 5) is not { } si)
        {
            return null;
        }

        double Percent(string element) => t.Optional(row, $"hm_{element}_pct", 0, 5) ?? 0;
        return new RecordedAnalysis(si, Percent("Mn"), Percent("S"), Percent("P"), Percent("Cr"), Percent("Ni"), Percent("Cu"), Percent("V"), Percent("Ti"));
    }

    private static MeasuredEndGas EndGasOf(MeasuredTable t, int row) => new(
        (int)t.Number(row, "heat_no", 1, int.MaxValue),
        t.Number(row, "CO_pct", 0, 100),
        t.Number(row, "CO2_pct", 0, 100),
        t.Number(row, "O2_pct", 0, 100),
        t.Number(row, "N2_pct", 0, 100),
        t.Number(row, "end_T_C", 1300, 1900),
        t.Number(row, "end_C_pct", 0.001, 5));

    private static MeasuredBlowGas BlowGasOf(MeasuredTable t, int row)
    {
        TimeStatistic Of(string gas, string unit, double most) => new(
            t.Number(row, $"{gas}_mean{unit}", 0, most),
            t.Number(row, $"{gas}_p25{unit}", 0, most),
            t.Number(row, $"{gas}_p50{unit}", 0, most),
            t.Number(row, $"{gas}_p75{unit}", 0, most));
        return new MeasuredBlowGas(
            (int)t.Number(row, "heat_no", 1, int.MaxValue), Of("CO", "_pct", 100), Of("CO2", "_pct", 100), Of("N2", "_pct", 100), Of("O2", "_pct", 100), Of("gas_T_C", string.Empty, 2500));
    }
}
