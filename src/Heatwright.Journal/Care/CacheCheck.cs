// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Views;

namespace Heatwright.Journal.Care;

/// <summary>
/// Compares cached rows of heats with what the entries give. They are no part of the record, so a wrong one is a doubt; but a list
/// that was made from more entries than there are tells of an end that was cut off, without any note of the head.
/// </summary>
internal sealed class CacheCheck
{
    private readonly IStoredRows _rows;
    private readonly FindingList _findings;
    private readonly ShiftPlan _shifts;
    private readonly string _mark;
    private readonly long _upTo;

    public CacheCheck(IStoredRows rows, FindingList findings)
    {
        (_rows, _findings, _shifts) = (rows, findings, findings.Options.Shifts ?? ShiftPlan.Default);
        _mark = HeatSummary.MarkOf(_shifts);
        try
        {
            _upTo = rows.CachedTo();
            long last = rows.Last();
            if (_upTo > last)
            {
                findings.Add(new Finding(
                    Check.Views,
                    Severity.Damage,
                    $"The list of heats was made from entries up to {_upTo}, the last one here is {last}: the end is missing. Mend: restore a backup that has it.",
                    last + 1));
            }
        }
        catch (StoredRowException e)
        {
            findings.Add(new Finding(Check.Views, Severity.Damage, $"The cached list of heats cannot be read: {e.Message}."));
        }
    }

    /// <summary>Compares the row of a heat.</summary>
    /// <param name="heat">Heat number.</param>
    /// <param name="entries">All its entries but signal blocks.</param>
    public void Heat(string heat, IReadOnlyList<Entry> entries)
    {
        if (_upTo == 0 || entries.Count == 0 || entries[^1].Sequence > _upTo)
        {
            return;
        }

        try
        {
            if (_rows.Cached(heat) is { } row && HeatSummary.MarkOf(row) == _mark && HeatSummary.RowOf(HeatRecord.Of(heat, entries), _shifts) != row)
            {
                _findings.Add(new Finding(
                    Check.Views,
                    Severity.Doubt,
                    $"Heat {heat}: its row in the list of heats is not what its entries give. The record is not touched. Mend: have the list made anew.",
                    Heat: heat));
            }
        }
        catch (StoredRowException e)
        {
            _findings.Add(new Finding(Check.Views, Severity.Damage, $"Heat {heat}: its row in the list of heats cannot be read: {e.Message}.", Heat: heat));
        }
    }
}
