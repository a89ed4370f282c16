// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Lifecycle;

namespace Heatwright.Journal.Care;

/// <summary>Checks heat by heat: versions without gaps, corrections that meet an entry of the same heat, and bookkeeping.</summary>
internal static class HeatCheck
{
    /// <summary>Largest relative residual that a result's balances may have; the model's own close to rounding.</summary>
    public const double MostResidual = 1e-9;

    /// <summary>How far the blows' oxygen may be from the heat's, as a part: two totals read from one meter at different times (common practice, no source).</summary>
    public const double OxygenTolerance = 0.02;

    /// <summary>Goes through all heats.</summary>
    /// <returns>Heats read.</returns>
    public static long Run(IStoredRows rows, long entries, FindingList findings)
    {
        var heat = new List<StoredRow>();
        var cache = new CacheCheck(rows, findings);
        long heats = 0, read = 0;
        try
        {
            foreach (StoredRow row in rows.ByHeat())
            {
                if (heat.Count > 0 && heat[0].Heat != row.Heat)
                {
                    heats += Heat(heat, cache, findings);
                    heat.Clear();
                }

                // What belongs to no heat may be as long as the journal: it is not held together.
                if (row.Heat.Length == 0 && heat.Count > 0)
                {
                    Versions(heat[^1], row, findings);
                    heat[0] = row;
                }
                else
                {
                    if (heat.Count > 0 || row.HeatVersion != 1)
                    {
                        Versions(heat.Count > 0 ? heat[^1] : null, row, findings);
                    }

                    heat.Add(row);
                }

                if ((++read & 1023) == 0)
                {
                    findings.Progress("heats", entries > 0 ? (double)read / entries : 0);
                }
            }
        }
        catch (StoredRowException e)
        {
            findings.Add(new Finding(Check.Chain, Severity.Damage, $"Heats cannot be read on: {e.Message}.", Heat: heat.Count > 0 ? heat[^1].Heat : null));
            return heats;
        }

        return heats + Heat(heat, cache, findings);
    }

    /// <summary>What the entries of one heat say against each other.</summary>
    public static IEnumerable<Finding> Balances(string heat, IEnumerable<Entry> entries)
    {
        var facts = HeatFacts.Of(heat, entries);
        foreach (Irregularity odd in facts.Irregularities.Where(i => i.Text.StartsWith("A correction", StringComparison.Ordinal)))
        {
            long? sequence = facts.Entries.FirstOrDefault(e => e.Id == odd.Entry)?.Sequence;
            yield return new Finding(Check.Schema, Severity.Damage, $"Heat {heat}, entry {sequence}: a correction of an entry that this heat does not have.", sequence, heat);
        }

        foreach (Fact<ResultBody> result in facts.Of<ResultBody>().Where(r => Math.Abs(r.Body.BalanceResidual ?? 0) > MostResidual))
        {
            yield return new Finding(
                Check.Balance,
                Severity.Doubt,
                $"Heat {heat}, entry {result.Entry.Sequence}: the balances of this result are off by {Number(result.Body.BalanceResidual!.Value)}; they close to {Number(MostResidual)}.",
                result.Entry.Sequence,
                heat);
        }

        if (facts.Of<EndBody>().LastOrDefault() is not { } end)
        {
            yield break;
        }

        double blown = HeatLife.Of(facts).Operations.Where(o => o.IsBlow).Sum(o => o.OxygenNm3 ?? 0);
        if (end.Body.OxygenNm3 is { } total && blown > 0 && Math.Abs(blown - total) > OxygenTolerance * total)
        {
            yield return new Finding(
                Check.Balance,
                Severity.Doubt,
                $"Heat {heat}: its blows took {Number(blown)} Nm3 of oxygen, its end (entry {end.Entry.Sequence}) says {Number(total)}; they agree to {OxygenTolerance * 100:0} %. Mend: correct what was read wrong.",
                end.Entry.Sequence,
                heat);
        }

        double metal = facts.Of<ChargeBody>().Where(c => c.Body.What is ChargeKind.HotMetal or ChargeKind.Scrap).Sum(c => c.Body.MassKg);
        double added = facts.Of<AdditionBody>().Sum(a => a.Body.MassKg); // Alloys, and ore that gives iron.
        bool charged = facts.Of<ChargeBody>().Any(c => c.Body.What == ChargeKind.HotMetal);
        if (charged && end.Body.SteelKg > metal + added)
        {
            yield return new Finding(
                Check.Balance,
                Severity.Doubt,
                $"Heat {heat}: {Number(end.Body.SteelKg.Value)} kg of steel (entry {end.Entry.Sequence}) from {Number(metal)} kg of metal and {Number(added)} kg of additions: more came out than went in. Mend: correct what was read wrong.",
                end.Entry.Sequence,
                heat);
        }
    }

    private static long Heat(List<StoredRow> rows, CacheCheck cache, FindingList findings)
    {
        if (rows.Count == 0 || rows[0].Heat.Length == 0)
        {
            return 0;
        }

        if (findings.Options.Balances)
        {
            var entries = new List<Entry>(rows.Count);
            foreach (StoredRow row in rows)
            {
                // What cannot be read is named by the chain already.
                if (row.Kind != EntryKind.SignalBlock.Name() && row.TryEntry(out Entry? entry, out _))
                {
                    entries.Add(entry);
                }
            }

            try
            {
                foreach (Finding finding in Balances(rows[0].Heat, entries))
                {
                    findings.Add(finding);
                }

                if (entries.Count == rows.Count(r => r.Kind != EntryKind.SignalBlock.Name()))
                {
                    cache.Heat(rows[0].Heat, entries);
                }
            }
            catch (Exception e) when (e is not (OperationCanceledException or OutOfMemoryException))
            {
                // What a flipped byte makes of an entry may be read and still be more than views are made for.
                findings.Add(new Finding(Check.Balance, Severity.Damage, $"Heat {rows[0].Heat} cannot be reckoned with: {e.Message}", Heat: rows[0].Heat));
            }
        }

        return 1;
    }

    private static void Versions(StoredRow? before, StoredRow row, FindingList findings)
    {
        long expected = (before?.HeatVersion ?? 0) + 1;
        string name = row.Heat.Length > 0 ? "Heat " + row.Heat : "What belongs to no heat";
        if (row.HeatVersion != expected)
        {
            findings.Add(new Finding(
                Check.Chain, Severity.Damage, $"{name}: version {row.HeatVersion} (entry {row.Sequence}) stands where {expected} is due.", row.Sequence, row.Heat));
        }
        else if (before is not null && row.Sequence <= before.Sequence)
        {
            findings.Add(new Finding(
                Check.Chain, Severity.Damage, $"{name}: version {row.HeatVersion} is entry {row.Sequence}, earlier than the version before it (entry {before.Sequence}).", row.Sequence, row.Heat));
        }
    }

    private static string Number(double value) => value.ToString("G6", CultureInfo.InvariantCulture);
}
