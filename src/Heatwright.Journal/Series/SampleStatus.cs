// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Journal.Series;

/// <summary>How far a sample may be used. Families and reasons carry the names of OPC UA's status codes (OPC 10000-4 and 10000-8).</summary>
public enum SampleReason
{
    /// <summary>As read.</summary>
    Good = 0x00,
    /// <summary>Doubted, for no reason given.</summary>
    Uncertain = 0x10,
    /// <summary>The source has stopped; this is the last value it gave.</summary>
    UncertainLastUsableValue = 0x11,
    /// <summary>The sensor is at its limit or out of calibration.</summary>
    UncertainSensorNotAccurate = 0x12,
    /// <summary>Put in by hand or by a rule.</summary>
    UncertainSubstituteValue = 0x13,
    /// <summary>Outside the range that the source is set up for.</summary>
    UncertainEngineeringUnitsExceeded = 0x14,
    /// <summary>Not to be used, for no reason given.</summary>
    Bad = 0x20,
    /// <summary>No contact with the source, and no value from before.</summary>
    BadNoCommunication = 0x21,
    /// <summary>Nothing has come yet.</summary>
    BadWaitingForInitialData = 0x22,
    /// <summary>The sensor reports that it is broken.</summary>
    BadSensorFailure = 0x23,
    /// <summary>Taken out of service.</summary>
    BadOutOfService = 0x24,
}

/// <summary>Status of a sample: whether it may be used and why not, and whether it came at the time or was filled in later.</summary>
/// <param name="Reason">Good, uncertain or bad, with the reason.</param>
/// <param name="Historical">Filled in later from a history, not seen as it happened.</param>
public readonly record struct SampleStatus(SampleReason Reason, bool Historical = false)
{
    private const int HistoricalBit = 0x80;

    /// <summary>As read, seen as it happened.</summary>
    public static SampleStatus Good => default;

    /// <summary>May be used without doubt.</summary>
    public bool IsGood => ((int)Reason & 0x30) == 0x00;

    /// <summary>May be used with doubt; never dropped in silence.</summary>
    public bool IsUncertain => ((int)Reason & 0x30) == 0x10;

    /// <summary>Not to be used: a gap, never a point.</summary>
    public bool IsBad => ((int)Reason & 0x30) == 0x20;

    /// <summary>The code under which it is stored.</summary>
    internal byte Code => (byte)((int)Reason | (Historical ? HistoricalBit : 0));

    /// <summary>The status with this code; false when there is none.</summary>
    internal static bool TryFrom(int code, out SampleStatus status)
    {
        var reason = (SampleReason)(code & ~HistoricalBit);
        status = new SampleStatus(reason, (code & HistoricalBit) != 0);
        return Enum.IsDefined(reason);
    }
}
