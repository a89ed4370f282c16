// SPDX-License-Identifier: Apache-2.0
using System.Text.Json.Serialization;

namespace Heatwright.Chemistry;

/// <summary>Data/species.json as written.</summary>
internal sealed record SpeciesFile(
    [property: JsonPropertyName("gas_constant_J_molK")] double GasConstant,
    SubstanceRecord[] Substances,
    PhaseRecord[] Phases);

internal sealed record SubstanceRecord(
    string Id,
    string Name,
    string[] Phases,
    TransitionRecord[]? Transitions,
    bool Undercooled);

internal sealed record TransitionRecord(
    [property: JsonPropertyName("at_K")] double AtK,
    [property: JsonPropertyName("heat_J_mol")] double? HeatJPerMol);

internal sealed record PhaseRecord(
    string Id,
    string Formula,
    string State,
    string Phase,
    string Model,
    RangeRecord[] Ranges,
    string Source,
    string? Note,
    [property: JsonPropertyName("reference_K")] double? ReferenceK,
    [property: JsonPropertyName("enthalpy_J_mol")] double? EnthalpyJPerMol,
    [property: JsonPropertyName("entropy_J_molK")] double? EntropyJPerMolK,
    [property: JsonPropertyName("cold_to_K")] double? ColdToK,
    [property: JsonPropertyName("undercooled_to_K")] double? UndercooledToK);

internal sealed record RangeRecord(
    [property: JsonPropertyName("from_K")] double FromK,
    [property: JsonPropertyName("to_K")] double ToK,
    double[] Coefficients,
    double[]? Powers,
    [property: JsonPropertyName("heat_on_entry_J_mol")] double? HeatOnEntryJPerMol);

[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, GenerationMode = JsonSourceGenerationMode.Metadata)]
[JsonSerializable(typeof(SpeciesFile))]
internal sealed partial class SpeciesJson : JsonSerializerContext;
