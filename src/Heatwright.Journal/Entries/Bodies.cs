// SPDX-License-Identifier: Apache-2.0
using System.Text.Json.Serialization;

namespace Heatwright.Journal.Entries;

/// <summary>What an entry says. Immutable. Units stand in the names; percent are mass % unless the name says otherwise.</summary>
public abstract record EntryBody
{
    /// <summary>Kind under which it is stored.</summary>
    [JsonIgnore]
    public EntryKind Kind => EntryKinds.Of(this);
}

/// <summary>Least, most and aim of a quantity; what is null was not asked for.</summary>
public sealed record Window(double? Least = null, double? Most = null, double? Aim = null);

/// <summary>A computed value with the band that holds it four times in five (10th and 90th percentile), or without.</summary>
public sealed record Expected(double Value, double? Low = null, double? High = null);

/// <summary>An order: what must come out.</summary>
/// <param name="Grade">Grade.</param>
/// <param name="Converter">Unit that is to make it.</param>
/// <param name="Practice">Practice (master recipe) to follow.</param>
/// <param name="TappedMassKg">Steel to be tapped, kg.</param>
/// <param name="TemperatureK">End temperature, K.</param>
/// <param name="CarbonPercent">End carbon, mass %.</param>
/// <param name="EndPercent">Other limits at the end by element, mass %.</param>
/// <param name="Basicity">CaO/SiO2 of the end slag by mass.</param>
/// <param name="SlagMgoPercent">Least MgO in the end slag, mass %.</param>
/// <param name="Confidence">Probability with which the windows are to be met, 0 to 1.</param>
/// <param name="Due">When the ladle is wanted.</param>
public sealed record OrderBody(
    string Grade,
    string? Converter = null,
    string? Practice = null,
    double? TappedMassKg = null,
    Window? TemperatureK = null,
    Window? CarbonPercent = null,
    IReadOnlyDictionary<string, Window>? EndPercent = null,
    double? Basicity = null,
    double? SlagMgoPercent = null,
    double? Confidence = null,
    DateTimeOffset? Due = null) : EntryBody;

/// <summary>A plan: what is to be charged and blown, and what is expected of it.</summary>
/// <param name="ScrapKg">Scrap by class, kg.</param>
/// <param name="AdditionsKg">Additions by material, kg.</param>
/// <param name="Practice">Practice it follows.</param>
/// <param name="PracticeVersion">Version of it: the control copy.</param>
/// <param name="HotMetalKg">Hot metal, kg.</param>
/// <param name="HotMetalTemperatureK">Hot metal temperature it reckons with, K.</param>
/// <param name="HotMetalPercent">Hot metal analysis it reckons with, mass % by element.</param>
/// <param name="OxygenNm3">Oxygen, Nm³ (0 °C, 101.325 kPa).</param>
/// <param name="Expected">What is expected by quantity (<see cref="ResultQuantity"/>).</param>
/// <param name="CostEur">What it costs, EUR.</param>
/// <param name="Probability">Probability of meeting the order, 0 to 1.</param>
/// <param name="Basis">How it was computed; null for a plan made by hand.</param>
public sealed record PlanBody(
    IReadOnlyDictionary<string, double> ScrapKg,
    IReadOnlyDictionary<string, double> AdditionsKg,
    string? Practice = null,
    int? PracticeVersion = null,
    double? HotMetalKg = null,
    double? HotMetalTemperatureK = null,
    IReadOnlyDictionary<string, double>? HotMetalPercent = null,
    double? OxygenNm3 = null,
    IReadOnlyDictionary<string, Expected>? Expected = null,
    double? CostEur = null,
    double? Probability = null,
    Basis? Basis = null) : EntryBody;

/// <summary>Where a computed thing comes from.</summary>
/// <param name="Model">Program and version, e.g. "Heatwright 0.1.0".</param>
/// <param name="Works">Id of the works entry whose files were used; null: the demonstration works.</param>
/// <param name="Seed">Seed of the ensemble.</param>
/// <param name="Members">Members of the ensemble; 1 without.</param>
/// <param name="Parameters">Model parameters that differ from the defaults.</param>
/// <param name="Inputs">Ids of the entries that were read.</param>
public sealed record Basis(
    string Model,
    Guid? Works = null,
    int? Seed = null,
    int? Members = null,
    IReadOnlyDictionary<string, double>? Parameters = null,
    IReadOnlyList<Guid>? Inputs = null);

/// <summary>What goes into the vessel before the blow.</summary>
public enum ChargeKind
{
    /// <summary>Hot metal.</summary>
    HotMetal,
    /// <summary>Scrap of one class.</summary>
    Scrap,
    /// <summary>Slag kept from the heat before.</summary>
    RetainedSlag,
}

/// <summary>What a scale read.</summary>
/// <param name="What">What was weighed.</param>
/// <param name="MassKg">Net mass, kg.</param>
/// <param name="Material">Scrap class (material class, ISA-95); null for hot metal and retained slag.</param>
/// <param name="TemperatureK">Temperature when charged, K.</param>
/// <param name="SlagKg">Ladle slag poured with hot metal, kg.</param>
/// <param name="Lot">Delivered lot or hot-metal ladle.</param>
/// <param name="Scale">Scale that read it.</param>
public sealed record ChargeBody(
    ChargeKind What,
    double MassKg,
    string? Material = null,
    double? TemperatureK = null,
    double? SlagKg = null,
    string? Lot = null,
    string? Scale = null) : EntryBody;

/// <summary>Where an addition went.</summary>
public enum AdditionPlace
{
    /// <summary>Into the vessel.</summary>
    Converter,
    /// <summary>Into the ladle.</summary>
    Ladle,
}

/// <summary>An addition that fell.</summary>
/// <param name="Material">Material.</param>
/// <param name="MassKg">Mass as weighed, kg.</param>
/// <param name="Place">Where to.</param>
/// <param name="OxygenNm3">Oxygen blown when it fell, Nm³; null: not known.</param>
/// <param name="Lot">Lot.</param>
public sealed record AdditionBody(
    string Material, double MassKg, AdditionPlace Place = AdditionPlace.Converter, double? OxygenNm3 = null, string? Lot = null) : EntryBody;

/// <summary>Where in a heat something was measured or sampled.</summary>
public enum HeatPoint
{
    /// <summary>Hot metal before charging.</summary>
    HotMetal,
    /// <summary>During the blow, oxygen on.</summary>
    InBlow,
    /// <summary>At the end of a blow, before the tap.</summary>
    EndOfBlow,
    /// <summary>In the ladle.</summary>
    Ladle,
    /// <summary>At the caster: the heat's final analysis.</summary>
    Caster,
}

/// <summary>How far a reading may be used.</summary>
public enum ReadingStatus
{
    /// <summary>As read.</summary>
    Good,
    /// <summary>Read, but doubted.</summary>
    Uncertain,
    /// <summary>Not to be used; kept for the record.</summary>
    Bad,
}

/// <summary>A probe's reading. A probe that failed is an entry too, with status Bad.</summary>
/// <param name="Point">Where in the heat.</param>
/// <param name="TemperatureK">Temperature, K.</param>
/// <param name="CarbonPercent">Carbon by solidification or by cell, mass %.</param>
/// <param name="OxygenPpm">Dissolved oxygen, mass ppm.</param>
/// <param name="BathLevelM">Bath level under the vessel's datum, m.</param>
/// <param name="OxygenNm3">Oxygen blown at the time, Nm³.</param>
/// <param name="Status">Whether it may be used.</param>
/// <param name="Index">Which of several at this point, from 1.</param>
/// <param name="Probe">Probe type or serial.</param>
public sealed record MeasurementBody(
    HeatPoint Point,
    double? TemperatureK = null,
    double? CarbonPercent = null,
    double? OxygenPpm = null,
    double? BathLevelM = null,
    double? OxygenNm3 = null,
    ReadingStatus Status = ReadingStatus.Good,
    int Index = 1,
    string? Probe = null) : EntryBody;

/// <summary>What was sampled.</summary>
public enum SampledMatter
{
    /// <summary>Metal: percent by element.</summary>
    Metal,
    /// <summary>Slag: percent by constituent.</summary>
    Slag,
}

/// <summary>A laboratory's answer.</summary>
/// <param name="Point">Where in the heat the sample was taken; the entry's source time is that of the sample.</param>
/// <param name="Matter">Metal or slag.</param>
/// <param name="Percent">Mass % by element or constituent.</param>
/// <param name="Sample">Sample number.</param>
/// <param name="Index">Which of several at this point, from 1.</param>
public sealed record AnalysisBody(
    HeatPoint Point, SampledMatter Matter, IReadOnlyDictionary<string, Reading> Percent, string? Sample = null, int Index = 1) : EntryBody;

/// <summary>What someone decided. The entry's reason says why.</summary>
/// <param name="Question">What was to be decided, e.g. "tap or blow on".</param>
/// <param name="Chosen">What was chosen.</param>
/// <param name="Options">What else there was, with odds as shown at the time.</param>
/// <param name="BasedOn">Ids of the results and readings in view.</param>
public sealed record DecisionBody(string Question, string Chosen, IReadOnlyList<string>? Options = null, IReadOnlyList<Guid>? BasedOn = null) : EntryBody;

/// <summary>Words.</summary>
public sealed record NoteBody(string Text) : EntryBody;

/// <summary>An earlier entry put right. The entry's reason says why; the earlier entry stays as it was.</summary>
/// <param name="Corrects">Id of the entry that is put right (of the same heat).</param>
/// <param name="Replacement">What holds instead; null: the entry was wrong altogether and nothing holds.</param>
public sealed record CorrectionBody(Guid Corrects, [property: JsonConverter(typeof(ReplacementConverter))] EntryBody? Replacement = null) : EntryBody;

/// <summary>Time lost.</summary>
/// <param name="Code">Reason code of the works, e.g. "wait-ladle".</param>
/// <param name="From">Since when.</param>
/// <param name="Until">Until when; null while it lasts.</param>
/// <param name="Unit">Unit that waited.</param>
/// <param name="Text">Words.</param>
public sealed record DelayBody(string Code, DateTimeOffset From, DateTimeOffset? Until = null, string? Unit = null, string? Text = null) : EntryBody;

/// <summary>Operations of a heat (ISA-88: parts of the unit procedures Charge, Blow, Tap and Finish vessel).</summary>
public enum HeatOperation
{
    /// <summary>Scrap into the vessel.</summary>
    ChargeScrap,
    /// <summary>Hot metal onto the scrap.</summary>
    ChargeHotMetal,
    /// <summary>Oxygen on, from ignition to oxygen off.</summary>
    Blow,
    /// <summary>Oxygen on again after the end; a repeat with an index, not a new heat.</summary>
    Reblow,
    /// <summary>Steel into the ladle.</summary>
    Tap,
    /// <summary>Slag splashed onto the lining.</summary>
    Splash,
    /// <summary>Slag poured off.</summary>
    SlagOff,
    /// <summary>Lining mended.</summary>
    Fettle,
}

/// <summary>States of an operation that a journal needs (ISA-88 knows more).</summary>
public enum OperationState
{
    /// <summary>It began.</summary>
    Running,
    /// <summary>It was held.</summary>
    Held,
    /// <summary>It ended as meant.</summary>
    Complete,
    /// <summary>It was broken off.</summary>
    Aborted,
}

/// <summary>An operation changed its state at the source time.</summary>
/// <param name="Operation">Which.</param>
/// <param name="State">Into which state.</param>
/// <param name="Index">Which repeat, from 1.</param>
/// <param name="Unit">Unit on which it ran.</param>
/// <param name="OxygenNm3">Oxygen blown in this operation when it ended, Nm³ (blow and reblow).</param>
public sealed record OperationBody(HeatOperation Operation, OperationState State, int Index = 1, string? Unit = null, double? OxygenNm3 = null) : EntryBody;

/// <summary>The heat is closed: what came out.</summary>
/// <param name="SteelKg">Steel in the ladle, kg.</param>
/// <param name="SlagKg">Slag poured off, kg.</param>
/// <param name="OxygenNm3">Oxygen of all blows, Nm³.</param>
/// <param name="Outcome">"cast", "returned", "downgraded" or the like.</param>
public sealed record EndBody(double? SteelKg = null, double? SlagKg = null, double? OxygenNm3 = null, string? Outcome = null) : EntryBody;

/// <summary>What the model was asked.</summary>
public enum ResultQuestion
{
    /// <summary>End of the blow from what was charged.</summary>
    Forecast,
    /// <summary>End of the blow from what was charged and the in-blow measurement.</summary>
    Correction,
}

/// <summary>What the model computed. A later one with the same question may replace it; both stay.</summary>
/// <param name="Question">What was asked.</param>
/// <param name="Values">By quantity (<see cref="ResultQuantity"/>).</param>
/// <param name="Basis">How.</param>
/// <param name="Reads">Slots of the record that it depends on (<see cref="Slot"/>), patterns with a closing * allowed.</param>
/// <param name="Replaces">Id of the result that became stale.</param>
/// <param name="BalanceResidual">Largest relative residual of the element and energy balances.</param>
public sealed record ResultBody(
    ResultQuestion Question,
    IReadOnlyDictionary<string, Expected> Values,
    Basis Basis,
    IReadOnlyList<string> Reads,
    Guid? Replaces = null,
    double? BalanceResidual = null) : EntryBody;

/// <summary>Parts whose age in heats is counted.</summary>
public enum WearPart
{
    /// <summary>Working lining: a new one begins a campaign.</summary>
    Lining,
    /// <summary>Lance head.</summary>
    Lance,
    /// <summary>Taphole.</summary>
    Taphole,
    /// <summary>Bottom elements.</summary>
    BottomElements,
}

/// <summary>A part was renewed or mended, or its age was written down.</summary>
/// <param name="Unit">Converter.</param>
/// <param name="Part">Part.</param>
/// <param name="Renewed">True: its age counts from zero; false: mended, unless <paramref name="Counted"/>.</param>
/// <param name="AgeHeats">Age that it had by the works' own count, heats.</param>
/// <param name="Serial">Serial or name of the new one.</param>
/// <param name="Counted">True: nothing was done to it; its age at a heat was written down (records of past heats).</param>
public sealed record EquipmentBody(
    string Unit, WearPart Part, bool Renewed, double? AgeHeats = null, string? Serial = null, bool? Counted = null) : EntryBody;

/// <summary>The files of a works: what plans and results were computed with.</summary>
/// <param name="Name">Name of the works.</param>
/// <param name="Files">Text by path ("plant.yaml", "practices/ordinary.yaml").</param>
public sealed record WorksBody(string Name, IReadOnlyDictionary<string, string> Files) : EntryBody;

/// <summary>A file of past heats was taken in.</summary>
/// <param name="File">File name without folder.</param>
/// <param name="Sha256">Of its bytes, hex.</param>
/// <param name="Mapping">Name of the mapping.</param>
/// <param name="MappingText">The mapping itself.</param>
/// <param name="Rows">Rows read.</param>
/// <param name="Heats">Heats found.</param>
/// <param name="Rejected">Rows left out, with the reason.</param>
public sealed record ImportBody(
    string File, string Sha256, string Mapping, string MappingText, int Rows, int Heats, IReadOnlyList<string> Rejected) : EntryBody;

/// <summary>Signals of a stretch of time, packed by Series/SignalPacking: the bytes are the body.</summary>
public sealed record SignalBlockBody(ReadOnlyMemory<byte> Packed) : EntryBody
{
    /// <inheritdoc/>
    public bool Equals(SignalBlockBody? other) => other is not null && Packed.Span.SequenceEqual(other.Packed.Span);

    /// <inheritdoc/>
    public override int GetHashCode() => Packed.Length;
}
