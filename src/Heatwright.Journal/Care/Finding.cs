// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Store;
using Heatwright.Journal.Views;

namespace Heatwright.Journal.Care;

/// <summary>How much a finding matters.</summary>
public enum Severity
{
    /// <summary>Worth knowing; nothing is wrong.</summary>
    Note,
    /// <summary>The record is whole, but what it says does not agree with itself.</summary>
    Doubt,
    /// <summary>What is there is not what was written, or something that was written is not there.</summary>
    Damage,
}

/// <summary>Which check found it.</summary>
public enum Check
{
    /// <summary>Length and header of the file.</summary>
    File,
    /// <summary>Seal of a page.</summary>
    Page,
    /// <summary>Frames of the write-ahead log.</summary>
    Log,
    /// <summary>Structure of the database.</summary>
    Structure,
    /// <summary>Hashes, sequence, versions, ids.</summary>
    Chain,
    /// <summary>Bodies and references.</summary>
    Schema,
    /// <summary>Bookkeeping of heats.</summary>
    Balance,
    /// <summary>Cached rows against the entries.</summary>
    Views,
}

/// <summary>Something that verification found.</summary>
/// <param name="Check">By which check.</param>
/// <param name="Severity">How much it matters.</param>
/// <param name="Text">What and where, in words, with the mend where there is one.</param>
/// <param name="Sequence">Entry, if one can be named.</param>
/// <param name="Heat">Heat, if one can be named.</param>
/// <param name="Page">Page of the file, from 1.</param>
/// <param name="FirstByte">First byte of the place in the file, from 0.</param>
/// <param name="LastByte">Last byte of the place.</param>
public sealed record Finding(
    Check Check, Severity Severity, string Text, long? Sequence = null, string? Heat = null, long? Page = null, long? FirstByte = null, long? LastByte = null)
{
    /// <inheritdoc/>
    public override string ToString() => $"{Severity.ToString().ToLowerInvariant()}: {Text}";
}

/// <summary>What verification is asked for.</summary>
public sealed record VerifyOptions
{
    /// <summary>A head that was noted earlier ("sequence:hash"): it must be in the chain.</summary>
    public string? ExpectedHead { get; init; }

    /// <summary>Findings that are listed in full; the others are counted.</summary>
    public int MostFindings { get; init; } = 1000;

    /// <summary>Told now and then what is being checked and how far it is, 0 to 1.</summary>
    public Action<string, double>? Progress { get; init; }

    /// <summary>Bookkeeping of heats too, and their cached rows.</summary>
    public bool Balances { get; init; } = true;

    /// <summary>Shifts of the works; rows that were cached with others are not compared. Null: <see cref="ShiftPlan.Default"/>.</summary>
    public ShiftPlan? Shifts { get; init; }

    /// <summary>Stops it.</summary>
    public CancellationToken Cancel { get; init; }
}

/// <summary>What verification found.</summary>
/// <param name="Place">Which journal.</param>
/// <param name="Entries">Entries read.</param>
/// <param name="Heats">Heats read.</param>
/// <param name="Head">End of the chain as read.</param>
/// <param name="Findings">In the order of the checks.</param>
/// <param name="Unlisted">Findings beyond those listed.</param>
/// <param name="Damaged">True when any finding, listed or not, is damage.</param>
public sealed record VerifyReport(
    string Place, long Entries, long Heats, JournalHead Head, IReadOnlyList<Finding> Findings, long Unlisted, bool Damaged)
{
    /// <summary>Nothing is damaged.</summary>
    public bool Whole => !Damaged;
}

/// <summary>Collects findings, and only counts them when there are too many.</summary>
internal sealed class FindingList(VerifyOptions options)
{
    private readonly List<Finding> _listed = [];

    public IReadOnlyList<Finding> Listed => _listed;

    public VerifyOptions Options => options;

    public long Unlisted { get; private set; }

    public bool Damaged { get; private set; }

    public void Add(Finding finding)
    {
        Damaged |= finding.Severity == Severity.Damage;
        if (_listed.Count < options.MostFindings)
        {
            _listed.Add(finding);
        }
        else
        {
            Unlisted++;
        }
    }

    public void Progress(string what, double part)
    {
        options.Cancel.ThrowIfCancellationRequested();
        options.Progress?.Invoke(what, Math.Clamp(part, 0, 1));
    }
}
