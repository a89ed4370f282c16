// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;

namespace Heatwright.Journal.Store;

/// <summary>
/// Reads a long run of entries in portions, each on its own, so that neither memory nor a transaction grows with the journal. A
/// portion holds about <see cref="AimBytes"/> of bodies: many notes or a few blocks of signals.
/// </summary>
internal sealed class EntryPortion
{
    private const int AimBytes = 2 * 1024 * 1024;
    private const int FewestRows = 8;
    private const int MostRows = 1000;
    private const string Sql = $"SELECT {SqlSession.EntryColumns} FROM entry WHERE sequence >= @from ORDER BY sequence LIMIT @most";

    private int _rows = 100;

    /// <summary>The entries from a sequence on; none at the end.</summary>
    public List<Entry> Next(SqlSession session, long from)
    {
        long bytes = 0;
        List<Entry> entries = session.Query(Sql, Row, ("@from", from), ("@most", _rows));
        if (entries.Count > 0)
        {
            long wanted = AimBytes / Math.Max(1, bytes / entries.Count);

            // At most four times as many as before: after a run of notes the next may be signals.
            _rows = (int)Math.Clamp(Math.Min(wanted, 4L * _rows), FewestRows, MostRows);
        }

        return entries;

        Entry Row(System.Data.Common.DbDataReader row)
        {
            Entry entry = session.ReadEntry(row);
            bytes += entry.BodyBytes.Length;
            return entry;
        }
    }
}
