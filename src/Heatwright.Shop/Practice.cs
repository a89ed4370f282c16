// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter;

namespace Heatwright.Shop;

/// <summary>
/// A written practice: procedure, unit procedures, operations and phases in the sense of ISA-88. A phase is one act of one
/// piece of equipment at a point of the blow.
/// </summary>
/// <param name="Id">Name.</param>
/// <param name="Title">Name for people.</param>
/// <param name="Version">Version, from 1.</param>
/// <param name="MeasurementPercent">In-blow measurement, % of the planned oxygen; null without.</param>
/// <param name="ChargeToBlowS">From hot metal on the scrap to ignition, s.</param>
/// <param name="UnitProcedures">In order.</param>
/// <param name="Note">Free remark.</param>
public sealed record Practice(
    string Id,
    string Title,
    int Version,
    double? MeasurementPercent,
    double ChargeToBlowS,
    IReadOnlyList<UnitProcedure> UnitProcedures,
    string? Note)
{
    /// <summary>All phases in written order.</summary>
    public IEnumerable<Phase> Phases => UnitProcedures.SelectMany(u => u.Operations).SelectMany(o => o.Phases);

    /// <summary>The share of the planned oxygen at which a phase begins, %.</summary>
    public double OxygenPercent(PracticePoint point) => point.Event switch
    {
        BlowEvent.BeforeBlow => 0,
        BlowEvent.Ignition => 0,
        BlowEvent.Measurement => MeasurementPercent ?? 100,
        BlowEvent.EndOfBlow => 100,
        _ => point.Percent,
    };
}

/// <summary>What one unit does.</summary>
public sealed record UnitProcedure(string Name, IReadOnlyList<Operation> Operations);

/// <summary>A part of it that the crew names.</summary>
public sealed record Operation(string Name, IReadOnlyList<Phase> Phases);

/// <summary>What a phase waits for.</summary>
public enum BlowEvent
{
    /// <summary>A share of the planned oxygen.</summary>
    Oxygen,
    /// <summary>Before the blow, with the scrap.</summary>
    BeforeBlow,
    /// <summary>Light-up: the zero of the oxygen axis.</summary>
    Ignition,
    /// <summary>The in-blow measurement.</summary>
    Measurement,
    /// <summary>Oxygen off.</summary>
    EndOfBlow,
}

/// <summary>A point of the blow.</summary>
/// <param name="Event">Event, or <see cref="BlowEvent.Oxygen"/>.</param>
/// <param name="Percent">% of the planned oxygen when no event is named.</param>
public readonly record struct PracticePoint(BlowEvent Event, double Percent);

/// <summary>One act at a point of the blow.</summary>
public abstract record Phase(PracticePoint At);

/// <summary>Lance to a height over the quiet bath, m.</summary>
public sealed record SetLance(PracticePoint At, double HeightM) : Phase(At);

/// <summary>Oxygen to a flow: Nm³/s, or Nm³/s for each tonne of steel to be tapped.</summary>
public sealed record SetOxygen(PracticePoint At, double Flow, bool PerTonne) : Phase(At);

/// <summary>Bottom gas to a flow: Nm³/s, or Nm³/s for each tonne of steel to be tapped.</summary>
public sealed record SetBottomGas(PracticePoint At, double Flow, bool PerTonne, StirringGas Gas) : Phase(At);

/// <summary>Skirt: 0 down on the mouth, 1 fully up.</summary>
public sealed record SetSkirt(PracticePoint At, double OpenFraction) : Phase(At);

/// <summary>A batch: a share of what the charge holds of one material, or of all materials of a role that no other batch names.</summary>
public sealed record AddBatch(PracticePoint At, string? Material, AdditionRole? Role, double ShareFraction, double DosingS) : Phase(At);

/// <summary>Take the in-blow measurement.</summary>
public sealed record Measure(PracticePoint At) : Phase(At);

/// <summary>Stir with bottom gas after the oxygen is off.</summary>
public sealed record AfterStir(PracticePoint At, double Flow, bool PerTonne, double ForS) : Phase(At);
