// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Series;
using Heatwright.Journal.Store;

namespace Heatwright.Journal.Care;

/// <summary>
/// Recomputes the hash of every entry. After one that does not hold the check goes on from its stored hash, so that a flipped
/// byte names one entry and not all that follow.
/// </summary>
internal static class ChainCheck
{
    /// <summary>Goes through all rows.</summary>
    /// <returns>Entries read and the end of the chain.</returns>
    public static (long Entries, JournalHead Head) Run(IStoredRows rows, FindingList findings)
    {
        var state = new State(findings);
        long last = Try(rows.Last, 0L);
        long from = 1;
        for (int jumps = 0; jumps < 64;)
        {
            try
            {
                foreach (StoredRow row in rows.From(from))
                {
                    state.Take(row);
                    if ((state.Entries & 1023) == 0)
                    {
                        findings.Progress("chain", last > 0 ? (double)row.Sequence / last : 0);
                    }
                }

                break;
            }
            catch (StoredRowException e)
            {
                // Over the place that cannot be read: one entry on, then two, four and so on.
                if (state.Sequence >= from)
                {
                    jumps = 0;
                }

                findings.Add(new Finding(
                    Check.Chain, Severity.Damage, $"Entries after {Math.Max(state.Sequence, from - 1)} cannot be read: {e.Message}.", Math.Max(state.Sequence, from - 1) + 1));
                from = Math.Max(from, state.Sequence + 1) + (1L << Math.Min(jumps++, 40));
                if (from > last)
                {
                    break;
                }
            }
        }

        state.Finish();
        Doubled(rows, findings);
        return (state.Entries, state.Head);
    }

    /// <summary>The check of a journal without a single row: only a noted head can be missed.</summary>
    public static void Nothing(FindingList findings) => new State(findings).Finish();

    /// <summary>A head as text ("sequence:hash"), or null.</summary>
    public static JournalHead? ParseHead(string text)
    {
        string[] parts = text.Split(':');
        return parts.Length == 2
            && long.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out long sequence)
            && parts[1].Length == 2 * EntryHash.Length
            && parts[1].All(char.IsAsciiHexDigit)
                ? new JournalHead(sequence, Convert.FromHexString(parts[1]))
                : null;
    }

    private static void Doubled(IStoredRows rows, FindingList findings)
    {
        try
        {
            foreach (byte[] id in rows.DoubledIds())
            {
                findings.Add(new Finding(Check.Chain, Severity.Damage, $"The id {Convert.ToHexStringLower(id)} stands in several entries."));
            }
        }
        catch (StoredRowException e)
        {
            findings.Add(new Finding(Check.Chain, Severity.Damage, $"The ids cannot be compared: {e.Message}."));
        }
    }

    private static T Try<T>(Func<T> get, T otherwise)
    {
        try
        {
            return get();
        }
        catch (StoredRowException)
        {
            return otherwise;
        }
    }

    private sealed class State
    {
        private readonly FindingList _findings;
        private readonly JournalHead? _expected;
        private ReadOnlyMemory<byte> _hash = EntryHash.Origin;
        private byte[]? _otherHash; // What the last entry's hash should be, when it is not.
        private bool _expectedSeen;

        public State(FindingList findings)
        {
            _findings = findings;
            _expected = findings.Options.ExpectedHead is { Length: > 0 } text ? ParseHead(text) : null;
        }

        public long Sequence { get; private set; }

        public long Entries { get; private set; }

        public JournalHead Head => new(Sequence, _hash);

        public void Take(StoredRow row)
        {
            bool gap = row.Sequence != Sequence + 1;
            if (gap)
            {
                string missing = row.Sequence == Sequence + 2 ? $"Entry {Sequence + 1} is missing" : $"Entries {Sequence + 1} to {row.Sequence - 1} are missing";
                Damage(row.Sequence > Sequence ? $"{missing}: {row.Sequence} follows {Sequence}." : $"Entry {row.Sequence} follows {Sequence}.", row, Sequence + 1);
            }

            byte[]? computed = null;
            if (!row.TryEntry(out Entry? entry, out string? fault))
            {
                Damage($"Entry {row.Sequence} is not what was written: {fault}.", row, row.Sequence);
            }
            else
            {
                computed = EntryHash.Of(_hash.Span, entry);
                bool holds = computed.AsSpan().SequenceEqual(row.Hash)
                    || (_otherHash is not null && EntryHash.Of(_otherHash, entry).AsSpan().SequenceEqual(row.Hash));
                if (!holds && gap)
                {
                    // What it is chained to is not there: nothing can be said of the entry itself.
                    computed = null;
                }
                else if (!holds)
                {
                    Damage($"Entry {row.Sequence} ({row.Kind}{(row.Heat.Length > 0 ? " of heat " + row.Heat : "")}) is not what was written: its hash does not follow from what it says.", row, row.Sequence);
                }
                else
                {
                    computed = null;
                }

                if (computed is null)
                {
                    Body(entry);
                }
            }

            _otherHash = computed;
            _hash = row.Hash;
            Sequence = row.Sequence;
            Entries++;
            if (_expected is not null && _expected.Sequence == row.Sequence)
            {
                _expectedSeen = true;
                if (!_expected.Hash.Span.SequenceEqual(row.Hash))
                {
                    Damage($"Entry {row.Sequence} is another than when its hash was noted ({Convert.ToHexStringLower(_expected.Hash.Span)}; now {Convert.ToHexStringLower(row.Hash)}): the record was written anew from here or before.", row, row.Sequence);
                }
            }
        }

        public void Finish()
        {
            if (_expected is { Sequence: > 0 } && !_expectedSeen)
            {
                _findings.Add(new Finding(
                    Check.Chain,
                    Severity.Damage,
                    _expected.Sequence > Sequence
                        ? $"The end is missing: entry {_expected.Sequence} was noted, the last one here is {Sequence}. Mend: restore a backup that has it."
                        : $"Entry {_expected.Sequence}, which was noted, is missing.",
                    Sequence + 1));
            }
        }

        /// <summary>What was written and is unreadable was written by a program with a fault, or by a later one.</summary>
        private void Body(Entry entry)
        {
            try
            {
                if (entry.Body is SignalBlockBody signals)
                {
                    SignalPacking.FromBody(signals);
                }
            }
            catch (Exception e) when (e is not (OperationCanceledException or OutOfMemoryException))
            {
                _findings.Add(new Finding(
                    Check.Schema, Severity.Damage, $"Entry {entry.Sequence} is as it was written and cannot be read: {e.Message}", entry.Sequence, entry.Heat.Length > 0 ? entry.Heat : null));
            }
        }

        private void Damage(string text, StoredRow row, long sequence) =>
            _findings.Add(new Finding(Check.Chain, Severity.Damage, text, sequence, row.Heat.Length > 0 ? row.Heat : null));
    }
}
