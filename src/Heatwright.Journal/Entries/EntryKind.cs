// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Journal.Entries;

/// <summary>What an entry says. The stored name is the kebab-case one of <see cref="EntryKinds"/>; it never changes.</summary>
public enum EntryKind
{
    /// <summary>What must come out: grade, mass, windows. <see cref="OrderBody"/>.</summary>
    Order,
    /// <summary>What was planned to be charged and blown. <see cref="PlanBody"/>.</summary>
    Plan,
    /// <summary>What the scale read: hot metal or scrap in the vessel. <see cref="ChargeBody"/>.</summary>
    ChargeWeighed,
    /// <summary>Signals of a stretch of time, packed. <see cref="SignalBlockBody"/>.</summary>
    SignalBlock,
    /// <summary>A flux, coolant, heating agent or alloy given. <see cref="AdditionBody"/>.</summary>
    Addition,
    /// <summary>Temperature, carbon, oxygen or level by probe. <see cref="MeasurementBody"/>.</summary>
    Measurement,
    /// <summary>A laboratory's answer. <see cref="AnalysisBody"/>.</summary>
    Analysis,
    /// <summary>What someone decided, from what, and why. <see cref="DecisionBody"/>.</summary>
    Decision,
    /// <summary>Words. <see cref="NoteBody"/>.</summary>
    Note,
    /// <summary>An earlier entry put right; the earlier one stays. <see cref="CorrectionBody"/>.</summary>
    Correction,
    /// <summary>Time lost, with a reason code. <see cref="DelayBody"/>.</summary>
    Delay,
    /// <summary>An operation (ISA-88) began or ended. <see cref="OperationBody"/>.</summary>
    Operation,
    /// <summary>The heat is closed: what came out. <see cref="EndBody"/>.</summary>
    End,
    /// <summary>What the model computed from the record. <see cref="ResultBody"/>.</summary>
    Result,
    /// <summary>A lining, lance, taphole or bottom element was changed or mended. <see cref="EquipmentBody"/>.</summary>
    Equipment,
    /// <summary>The files of the works as they stood: control copy for the heats after it. <see cref="WorksBody"/>.</summary>
    Works,
    /// <summary>A file of past heats was taken in. <see cref="ImportBody"/>.</summary>
    Import,
}

/// <summary>Stored names of the kinds.</summary>
public static class EntryKinds
{
    private static readonly Dictionary<EntryKind, string> Names = Enum.GetValues<EntryKind>().ToDictionary(k => k, k => StoredName.Of(k));

    private static readonly Dictionary<string, EntryKind> Kinds = Names.ToDictionary(n => n.Value, n => n.Key, StringComparer.Ordinal);

    /// <summary>The stored name, e.g. "charge-weighed".</summary>
    public static string Name(this EntryKind kind) => Names[kind];

    /// <summary>The kind with this stored name.</summary>
    public static bool TryParse(string name, out EntryKind kind) => Kinds.TryGetValue(name, out kind);

    /// <summary>The kind of a body.</summary>
    public static EntryKind Of(EntryBody body) => body switch
    {
        OrderBody => EntryKind.Order,
        PlanBody => EntryKind.Plan,
        ChargeBody => EntryKind.ChargeWeighed,
        SignalBlockBody => EntryKind.SignalBlock,
        AdditionBody => EntryKind.Addition,
        MeasurementBody => EntryKind.Measurement,
        AnalysisBody => EntryKind.Analysis,
        DecisionBody => EntryKind.Decision,
        NoteBody => EntryKind.Note,
        CorrectionBody => EntryKind.Correction,
        DelayBody => EntryKind.Delay,
        OperationBody => EntryKind.Operation,
        EndBody => EntryKind.End,
        ResultBody => EntryKind.Result,
        EquipmentBody => EntryKind.Equipment,
        WorksBody => EntryKind.Works,
        ImportBody => EntryKind.Import,
        _ => throw new ArgumentOutOfRangeException(nameof(body), body?.GetType().Name, "Unknown body of an entry."),
    };
}
