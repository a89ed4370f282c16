// SPDX-License-Identifier: Apache-2.0
using System.Text.Json;

namespace Heatwright.Chemistry;

/// <summary>
/// Data/species.json as written. It is walked by hand over <see cref="JsonDocument"/>: a cold load costs about 25 ms of processor
/// time, half of
/// it the parse, and every command pays for it; a generated serialiser adds the compilation of its converters to that.
/// </summary>
internal sealed record SpeciesFile(double GasConstant, IReadOnlyList<SubstanceRecord> Substances, IReadOnlyDictionary<string, PhaseRecord> Phases)
{
    public static SpeciesFile Read(Stream stream)
    {
        using var document = JsonDocument.Parse(stream);
        JsonElement root = document.RootElement;
        var phases = new Dictionary<string, PhaseRecord>(StringComparer.Ordinal);
        foreach (JsonElement e in root.GetProperty("phases").EnumerateArray())
        {
            PhaseRecord phase = ReadPhase(e);
            phases.Add(phase.Id, phase);
        }

        var substances = new List<SubstanceRecord>();
        foreach (JsonElement e in root.GetProperty("substances").EnumerateArray())
        {
            substances.Add(ReadSubstance(e));
        }

        return new SpeciesFile(root.GetProperty("gas_constant_J_molK").GetDouble(), substances, phases);
    }

    private static SubstanceRecord ReadSubstance(JsonElement e)
    {
        JsonElement list = e.GetProperty("phases");
        string[] phases = new string[list.GetArrayLength()];
        for (int i = 0; i < phases.Length; i++)
        {
            phases[i] = list[i].GetString()!;
        }

        double[] transitionsK = new double[phases.Length - 1];
        for (int i = 0; i < transitionsK.Length; i++)
        {
            transitionsK[i] = e.GetProperty("transitions")[i].GetProperty("at_K").GetDouble();
        }

        return new SubstanceRecord(Text(e, "id"), Text(e, "name"), phases, transitionsK, e.TryGetProperty("undercooled", out _));
    }

    private static PhaseRecord ReadPhase(JsonElement e)
    {
        JsonElement list = e.GetProperty("ranges");
        var ranges = new RangeRecord[list.GetArrayLength()];
        for (int i = 0; i < ranges.Length; i++)
        {
            JsonElement r = list[i];
            ranges[i] = new RangeRecord(
                r.GetProperty("from_K").GetDouble(),
                r.GetProperty("to_K").GetDouble(),
                Numbers(r.GetProperty("coefficients")),
                r.TryGetProperty("powers", out JsonElement powers) ? Numbers(powers) : null,
                Optional(r, "heat_on_entry_J_mol"));
        }

        return new PhaseRecord(
            Text(e, "id"),
            Text(e, "formula"),
            Text(e, "phase"),
            Text(e, "state") switch
            {
                "solid" => StateOfMatter.Solid,
                "liquid" => StateOfMatter.Liquid,
                "gas" => StateOfMatter.Gas,
                string other => throw new InvalidDataException($"Data/species.json: state '{other}' of {Text(e, "id")} is unknown."),
            },
            Text(e, "model") switch
            {
                "NASA9" => ThermalModel.Nasa9,
                "NASA7" => ThermalModel.Nasa7,
                "Shomate" => ThermalModel.Shomate,
                "CpPower" => ThermalModel.CpPower,
                string other => throw new InvalidDataException($"Data/species.json: model '{other}' of {Text(e, "id")} is unknown."),
            },
            ranges,
            Text(e, "source"),
            e.TryGetProperty("note", out JsonElement note) ? note.GetString() : null,
            Optional(e, "reference_K"),
            Optional(e, "enthalpy_J_mol"),
            Optional(e, "entropy_J_molK"),
            Optional(e, "cold_to_K"),
            Optional(e, "undercooled_to_K"));
    }

    private static string Text(JsonElement e, string name) => e.GetProperty(name).GetString()!;

    private static double? Optional(JsonElement e, string name) => e.TryGetProperty(name, out JsonElement value) ? value.GetDouble() : null;

    private static double[] Numbers(JsonElement list)
    {
        double[] values = new double[list.GetArrayLength()];
        for (int i = 0; i < values.Length; i++)
        {
            values[i] = list[i].GetDouble();
        }

        return values;
    }
}

internal sealed record SubstanceRecord(string Id, string Name, string[] Phases, double[] TransitionsK, bool Undercooled);

internal sealed record PhaseRecord(
    string Id,
    string Formula,
    string Phase,
    StateOfMatter State,
    ThermalModel Model,
    RangeRecord[] Ranges,
    string Source,
    string? Note,
    double? ReferenceK,
    double? EnthalpyJPerMol,
    double? EntropyJPerMolK,
    double? ColdToK,
    double? UndercooledToK);

internal sealed record RangeRecord(double FromK, double ToK, double[] Coefficients, double[]? Powers, double? HeatOnEntryJPerMol);
