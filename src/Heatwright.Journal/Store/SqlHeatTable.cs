// SPDX-License-Identifier: Apache-2.0
using System.Text;
using Dapper;

namespace Heatwright.Journal.Store;

/// <summary>The list of heats in a table beside the entries.</summary>
internal sealed class SqlHeatTable(ISqlWork work) : IHeatTable
{
    /// <summary>Version of the layout that brought the table.</summary>
    public const int SinceLayout = 2;

    private const string Columns = "heat, opened, stage, grade, unit, shift_date AS ShiftDate, shift, stale, summary";

    private const string SaveSql = """
        INSERT INTO heat_row (heat, opened, stage, grade, unit, shift_date, shift, stale, summary)
        VALUES (@heat, @opened, @stage, @grade, @unit, @shift_date, @shift, @stale, @summary)
        ON CONFLICT (heat) DO UPDATE SET
          opened = excluded.opened, stage = excluded.stage, grade = excluded.grade, unit = excluded.unit,
          shift_date = excluded.shift_date, shift = excluded.shift, stale = excluded.stale, summary = excluded.summary
        """;

    // Clearings as they stood when the rows that are being computed were begun.
    private long _clearings;

    public long UpTo()
    {
        (long upTo, long clearings) = work.Reading(Mark);
        Interlocked.Exchange(ref _clearings, clearings);
        return upTo;
    }

    public void Save(IReadOnlyList<HeatRow> rows, long upTo)
    {
        ArgumentNullException.ThrowIfNull(rows);
        work.Writing(session =>
        {
            (long stored, long clearings) = Mark(session);
            if (stored > upTo || clearings != Interlocked.Read(ref _clearings))
            {
                return false;
            }

            foreach (HeatRow row in rows)
            {
                session.Execute(
                    SaveSql,
                    ("@heat", row.Heat), ("@opened", row.Opened.ToUnixTimeMilliseconds()), ("@stage", row.Stage), ("@grade", row.Grade),
                    ("@unit", row.Unit), ("@shift_date", row.ShiftDate), ("@shift", row.Shift), ("@stale", row.Stale), ("@summary", row.Summary));
            }

            session.Execute("UPDATE heat_row_mark SET up_to = @up_to", ("@up_to", upTo));
            return true;
        });
    }

    public IReadOnlyDictionary<string, HeatRow> Get(IReadOnlyCollection<string> heats)
    {
        ArgumentNullException.ThrowIfNull(heats);
        return work.Reading(session =>
        {
            var rows = new Dictionary<string, HeatRow>(StringComparer.Ordinal);

            // SQLite takes a limited number of parameters in one statement.
            foreach (string[] part in heats.Distinct(StringComparer.Ordinal).Chunk(500))
            {
                foreach (Line line in session.Connection.Query<Line>($"SELECT {Columns} FROM heat_row WHERE heat {session.OneOf("@part")}", new { part }))
                {
                    rows[line.Heat] = line.Row();
                }
            }

            return rows;
        });
    }

    public IReadOnlyList<HeatRow> Query(HeatFilter filter)
    {
        ArgumentNullException.ThrowIfNull(filter);
        (string where, DynamicParameters values) = Where(filter);
        values.Add("take", Math.Max(0, filter.Take));
        values.Add("skip", Math.Max(0, filter.Skip));
        string sql = $"SELECT {Columns} FROM heat_row {where} ORDER BY {OrderOf(filter)} LIMIT @take OFFSET @skip";
        return work.Reading(session => session.Connection.Query<Line>(sql, values).Select(l => l.Row()).ToList());
    }

    public IReadOnlyList<string> Numbers(HeatFilter filter)
    {
        ArgumentNullException.ThrowIfNull(filter);
        (string where, DynamicParameters values) = Where(filter);
        return work.Reading(session => session.Connection.Query<string>($"SELECT heat FROM heat_row {where} ORDER BY {OrderOf(filter)}", values).ToList());
    }

    public long Count(HeatFilter filter)
    {
        ArgumentNullException.ThrowIfNull(filter);
        (string where, DynamicParameters values) = Where(filter);
        return work.Reading(session => session.Connection.ExecuteScalar<long>($"SELECT count(*) FROM heat_row {where}", values));
    }

    public void Clear()
    {
        work.Writing(session =>
        {
            session.Execute("DELETE FROM heat_row");
            return session.Execute("UPDATE heat_row_mark SET up_to = 0, clearings = clearings + 1");
        });
        UpTo();
    }

    private static string OrderOf(HeatFilter filter) => filter.Order switch
    {
        HeatOrder.Newest => "opened DESC, heat DESC",
        HeatOrder.Oldest => "opened, heat",
        HeatOrder.Number => "heat",
        HeatOrder.Grade => "grade, opened DESC, heat DESC",
        HeatOrder.Stage => "stage, opened DESC, heat DESC",
        _ => throw new ArgumentOutOfRangeException(nameof(filter), filter.Order, "Unknown order of heats."),
    };

    private static (long UpTo, long Clearings) Mark(SqlSession session) =>
        session.Query("SELECT up_to, clearings FROM heat_row_mark", r => (r.GetInt64(0), r.GetInt64(1)))[0];

    private static (string Where, DynamicParameters Values) Where(HeatFilter filter)
    {
        var text = new StringBuilder();
        var values = new DynamicParameters();
        Add("stage = @stage", "stage", filter.Stage);
        Add("grade = @grade", "grade", filter.Grade);
        Add("unit = @unit", "unit", filter.Unit);
        Add("shift_date >= @fromDate", "fromDate", filter.FromShiftDate);
        Add("shift_date <= @toDate", "toDate", filter.ToShiftDate);
        Add("shift = @shift", "shift", filter.Shift);

        // Not LIKE: its wildcards may stand in a heat number. replace() finds a text in both databases.
        Add("replace(lower(heat), lower(@part), '') <> lower(heat)", "part", filter.HeatContains is "" ? null : filter.HeatContains);
        if (filter.StaleOnly)
        {
            text.Append(text.Length == 0 ? "WHERE " : " AND ").Append("stale > 0");
        }

        return (text.ToString(), values);

        void Add(string condition, string name, string? value)
        {
            if (value is not null)
            {
                text.Append(text.Length == 0 ? "WHERE " : " AND ").Append(condition);
                values.Add(name, value);
            }
        }
    }

    // What Dapper fills: both databases' integers fit.
    private sealed class Line
    {
        public string Heat { get; set; } = "";

        public long Opened { get; set; }

        public string Stage { get; set; } = "";

        public string Grade { get; set; } = "";

        public string Unit { get; set; } = "";

        public string ShiftDate { get; set; } = "";

        public string Shift { get; set; } = "";

        public int Stale { get; set; }

        public string Summary { get; set; } = "";

        public HeatRow Row() => new(Heat, DateTimeOffset.FromUnixTimeMilliseconds(Opened), Stage, Grade, Unit, ShiftDate, Shift, Stale, Summary);
    }
}
