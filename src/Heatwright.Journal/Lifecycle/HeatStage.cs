// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Journal.Lifecycle;

/// <summary>
/// Where a heat stands. In the words of ISA-88 (IEC 61512) the heat is the batch, the practice its master recipe, and the version named
/// in the plan the control recipe. The converter is the unit; Charge, Blow, Tap and Finish vessel are the unit procedures, each of
/// operations (<see cref="Entries.HeatOperation"/>) that run, are held, complete or are aborted. A reblow is a repeat of an operation
/// with an index: the heat goes back to blowing and ends again, and stays the same heat.
/// </summary>
public enum HeatStage
{
    /// <summary>There is an order, or at least a heat number.</summary>
    Ordered,
    /// <summary>There is a plan.</summary>
    Planned,
    /// <summary>Hot metal was weighed in, or charging it is complete.</summary>
    Charged,
    /// <summary>Oxygen is on.</summary>
    Blowing,
    /// <summary>Oxygen is on, and the in-blow measurement was taken.</summary>
    Measured,
    /// <summary>Oxygen is off.</summary>
    Ended,
    /// <summary>Tap is complete.</summary>
    Tapped,
    /// <summary>The heat is closed.</summary>
    Closed,
}

/// <summary>Stored names of the stages.</summary>
public static class HeatStages
{
    /// <summary>All, in the order of a heat.</summary>
    public static IReadOnlyList<HeatStage> All { get; } = Enum.GetValues<HeatStage>();

    /// <summary>The stored name, e.g. "blowing".</summary>
    public static string Name(this HeatStage stage) => stage.ToString().ToLowerInvariant();
}
