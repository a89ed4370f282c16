// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Files;
using Heatwright.Journal.Files.Export;
using Heatwright.Journal.Files.Import;
using Heatwright.Journal.Files.Mapping;
using Heatwright.Journal.Files.Tables;
using Heatwright.Journal.Lifecycle;
using Heatwright.Journal.Store;
using Heatwright.Journal.Views;
using Heatwright.Shop.Files;

namespace Heatwright.Journal.Tests.Files;

public sealed class HeatImportTests : IDisposable
{
    private const string Columns = """
        HM t: {quantity: hot-metal.mass, unit: t}
        T HM: {quantity: hot-metal.temperature, unit: °C}
        Si: {quantity: hot-metal.analysis.Si, unit: mass %}
        S end: {quantity: analysis.end.S, unit: mass %}
        T end: {quantity: end.temperature, unit: °C}
        lime: {quantity: addition.lime.mass, unit: kg, zero: missing}
        grade: {quantity: order.grade}
        """;

    private const string Good = """
        heat,HM t,T HM,Si,S end,T end,lime,grade,melter
        0012,142.7,1350 °C,0.45,<0.002,1650,7 300,S235JR,Smith
        0013,140.25,n/a,0.5,0.012,1923.15 K,0,S355J2,Jones

        """;

    private static readonly ImportMapping Map = Desk.Mapping(Columns);

    private readonly Desk _desk = new();

    public void Dispose() => _desk.Dispose();

    [Fact]
    public void A_preview_shows_units_figures_and_what_is_not_taken()
    {
        ImportPreview preview = HeatImport.Preview(_desk.Put("a.csv", Good), Map);
        Assert.Equal((2, 2, 0), (preview.Rows, preview.Heats, preview.RejectedRows));
        Assert.Equal(["melter"], preview.Unmapped);
        ColumnSummary mass = preview.Columns[0];
        Assert.Equal(("t", "kg", 140_250, 141_475, 142_700, 0), (mass.Unit, mass.Quantity.ShownUnit!.Symbol, mass.Least, mass.Median, mass.Most, mass.Doubtful));
        Assert.Equal((1, 1, 0), (preview.Columns[1].Values, preview.Columns[1].Missing, preview.Columns[1].Doubtful));
        Assert.Equal(1, preview.Columns[3].Below);
        Assert.Equal((1, 1), (preview.Columns[1].UnitsInCells["°C"], preview.Columns[4].UnitsInCells["K"]));
        Assert.Equal((1650, 1650), (preview.Columns[4].Least, preview.Columns[4].Most));
        Assert.Contains(preview.Lines(), l => l.Contains("melter", StringComparison.Ordinal));
    }

    [Fact]
    public void A_wrong_unit_is_seen()
    {
        ImportPreview preview = HeatImport.Preview(_desk.Put("a.csv", "heat,m,T\n1,142,2460\n2,139,2480\n"), Desk.Mapping("m: {quantity: hot-metal.mass, unit: kg}\nT: {quantity: hot-metal.temperature, unit: °C}"));
        Assert.All(preview.Columns, c => Assert.True(c.UnitDoubtful));
        Assert.Equal((2, 2), (preview.Columns[0].Doubtful, preview.Columns[0].FirstDoubtfulRow));
        Assert.Equal(2, preview.Lines().Count(l => l.Contains("check the unit", StringComparison.Ordinal)));
    }

    [Fact]
    public void A_wrong_unit_stops_the_import_unless_it_is_insisted_on()
    {
        IJournalStore store = _desk.Journal();
        string path = _desk.Put("a.csv", "heat,m\n1,142\n2,139\n");
        ImportMapping wrong = Desk.Mapping("m: {quantity: hot-metal.mass, unit: kg}");
        ImportOutcome stopped = HeatImport.Write(store, path, wrong, new ImportOptions { AcceptRejects = true });
        Assert.Equal((ImportStatus.Doubtful, 0L), (stopped.Status, store.Head().Sequence));
        Assert.Equal("m", stopped.Preview.DoubtfulColumns.Single().Column);
        Assert.Equal(ImportStatus.Written, HeatImport.Write(store, path, wrong, new ImportOptions { AcceptDoubtful = true }).Status);
        Assert.Equal(142, Desk.Values(store, "1")["hot-metal.mass"].Number);

        // What a journal holds goes out and comes back without being doubted again.
        string own = _desk.Path("own.csv");
        HeatExport.WriteHeats(store, own, ExportFormat.Csv);
        Assert.Equal(ImportStatus.Written, HeatImport.Write(_desk.Journal("copy.journal"), own, OwnLayout.For(TableSource.Open(own))!).Status);
    }

    [Fact]
    public void A_value_far_off_the_rest_is_pointed_out()
    {
        string text = "heat,m\n" + string.Concat(Enumerable.Range(1, 50).Select(i => $"{i},{70 + (i % 5)}\n")) + "51,243.25\n";
        ColumnSummary steel = HeatImport.Preview(_desk.Put("a.csv", text), Desk.Mapping("m: {quantity: steel.mass, unit: t}")).Columns[0];
        Assert.Equal((0, 1, 243_250, 52), (steel.Doubtful, steel.FarOff, steel.FarthestOff, steel.FarthestRow));
    }

    [Fact]
    public void Entries_are_what_the_row_says()
    {
        IJournalStore store = _desk.Journal();
        ImportOutcome outcome = HeatImport.Write(store, _desk.Put("a.csv", Good), Map);
        Assert.Equal((ImportStatus.Written, 2), (outcome.Status, outcome.NewHeats));
        Assert.Equal(new ChargeBody(ChargeKind.HotMetal, 142_700), Desk.Bodies<ChargeBody>(store, "0012").Single());
        Assert.Equal(
            [new MeasurementBody(HeatPoint.HotMetal, TemperatureK: 1350 + 273.15), new MeasurementBody(HeatPoint.EndOfBlow, TemperatureK: 1650 + 273.15)], Desk.Bodies<MeasurementBody>(store, "0012"));
        Assert.Equal(new Heatwright.Journal.Entries.Reading(0.002, Below: true), Desk.Bodies<AnalysisBody>(store, "0012")[1].Percent["S"]);
        Assert.Equal(new AdditionBody("lime", 7300), Desk.Bodies<AdditionBody>(store, "0012").Single());
        Assert.Equal(new OrderBody("S235JR"), Desk.Bodies<OrderBody>(store, "0012").Single());
        Assert.Empty(Desk.Bodies<AdditionBody>(store, "0013"));
        Assert.All(store.ReadHeat("0012"), e => Assert.Contains("time assumed", e.Reason, StringComparison.Ordinal));
        Assert.Equal(TimeSpan.FromMinutes(1), store.ReadHeat("0013")[0].SourceTime - store.ReadHeat("0012")[0].SourceTime);
        var record = HeatRecord.Read(store, "0012");
        Assert.Equal(HeatStage.Closed, record.Stage);
        Assert.Empty(record.Irregularities);
        var import = (ImportBody)store.ReadHeat("").Single().Body;
        Assert.Equal(("a.csv", 2, 2, Map.Text), (import.File, import.Rows, import.Heats, import.MappingText));
    }

    [Fact]
    public void A_blow_of_known_length_parts_what_was_before_from_what_came_after()
    {
        IJournalStore store = _desk.Journal();
        HeatImport.Write(store, _desk.Put("a.csv", "heat,t,hm,s,O2,Ti,Te,FeMn\n7,05.03.2024 06:00,140,1020,8240,1560,1650,900\n"), Desk.Mapping(
            """
            hm: {quantity: hot-metal.mass, unit: t}
            s: {quantity: blow.duration, unit: s}
            O2: {quantity: blow.oxygen, unit: Nm3}
            Ti: {quantity: in-blow.temperature, unit: °C}
            Te: {quantity: end.temperature, unit: °C}
            FeMn: {quantity: ladle.FeMn.mass, unit: kg}
            """, "", "{column: t, pattern: dd.MM.yyyy HH:mm, zone: Europe/Berlin}"));
        var start = new DateTimeOffset(2024, 3, 5, 5, 0, 0, TimeSpan.Zero);
        var record = HeatRecord.Read(store, "7");
        Assert.Empty(record.Irregularities);
        Assert.Equal(
            [
                (EntryKind.ChargeWeighed, 0), (EntryKind.Operation, 0), (EntryKind.Measurement, 0), (EntryKind.Operation, 1020), (EntryKind.Measurement, 1020),
                (EntryKind.Operation, 1020), (EntryKind.Addition, 1020), (EntryKind.Operation, 1020), (EntryKind.End, 1020),
            ],
            store.ReadHeat("7").Select(e => (e.Kind, (int)(e.SourceTime - start).TotalSeconds)));
        Assert.Equal((1020, 8240), (Desk.Values(store, "7")["blow.duration"].Number, Desk.Values(store, "7")["blow.oxygen"].Number));
    }

    [Fact]
    public void One_bad_row_stops_all_unless_it_is_let_go()
    {
        IJournalStore store = _desk.Journal();
        string path = _desk.Put("a.csv", Good + "0014,abc,1350,0.4,0.01,1650,0,X,Y\n0015,140,1350,101,0.01,1650,0,X,Y\n,140,1350,1,0.01,1650,0,X,Y\n0016,140 m,1350,1,0.01,1650,0,X,Y\n0017,1\n");
        ImportOutcome refused = HeatImport.Write(store, path, Map);
        Assert.Equal((ImportStatus.Rejected, 5, 0L), (refused.Status, refused.Preview.RejectedRows, store.Head().Sequence));
        Assert.Equal(
            [(4, "HM t", "abc", ProblemCode.NotANumber), (5, "Si", "101", TableProblem.Impossible), (6, "heat", null, TableProblem.NoHeat), (7, "HM t", "140 m", ProblemCode.WrongUnit), (8, "", null, TableProblem.RowLength)],
            refused.Preview.Rejects.Select(p => (p.Line, p.Field, p.Value, p.Code)));
        Assert.All(refused.Preview.Rejects, p => Assert.NotEmpty(p.Mend));

        ImportOutcome written = HeatImport.Write(store, path, Map, new ImportOptions { AcceptRejects = true });
        Assert.Equal((ImportStatus.Written, 2), (written.Status, written.NewHeats));
        Assert.Equal(5, ((ImportBody)store.ReadHeat("").Single().Body).Rejected.Count);
    }

    [Fact]
    public void A_time_that_does_not_fit_is_shown_and_the_other_columns_keep_their_figures()
    {
        ImportPreview preview = HeatImport.Preview(
            _desk.Put("a.csv", "heat,t,m\n1,2024-03-05 06:00,140\n2,5 March,141\n3,,x\n"),
            Desk.Mapping("m: {quantity: hot-metal.mass, unit: t}", "", "{column: t, pattern: dd.MM.yyyy HH:mm, zone: UTC}"));
        Assert.Equal((3, 0), (preview.RejectedRows, preview.Heats));
        Assert.Contains("The time '2024-03-05 06:00' is not a time written as dd.MM.yyyy HH:mm", preview.Rejects[0].ToString(), StringComparison.Ordinal);
        Assert.Contains("The row has no time", preview.Rejects[2].ToString(), StringComparison.Ordinal);
        Assert.Equal((2, 140_000, 141_000), (preview.Columns[0].Values, preview.Columns[0].Least, preview.Columns[0].Most));
        Assert.Contains(preview.Lines(), l => l.StartsWith("every row is rejected", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("hot-metal.analysis.N, unit: ppm", "1200000", "hot-metal.analysis.N = 1200000 ppm.", "0 to 1000000 ppm")]
    [InlineData("hot-metal.analysis.Si, unit: mass %", "900", "hot-metal.analysis.Si = 900 %.", "0 to 100 %")]
    [InlineData("hot-metal.temperature, unit: °C", "-300", "hot-metal.temperature = -300 °C.", "-273.15 °C or more")]
    [InlineData("blow.duration, unit: min", "1441", "blow.duration = 1441 min.", "more than 0 and at most 1440 min")]
    public void Limits_are_told_in_the_unit_of_the_cell(string quantity, string value, string message, string limit)
    {
        Problem problem = HeatImport.Preview(_desk.Put("a.csv", $"heat;m\n1;{value}\n"), Desk.Mapping($"m: {{quantity: {quantity}}}")).Rejects.Single();
        Assert.Equal(("No heat has " + message, limit), (problem.Message, problem.Limit));
    }

    [Fact]
    public void A_second_time_nothing_is_written()
    {
        IJournalStore store = _desk.Journal();
        string path = _desk.Put("a.csv", Good);
        HeatImport.Write(store, path, Map);
        JournalHead head = store.Head();
        ImportOutcome again = HeatImport.Write(store, path, Map);
        Assert.Equal((ImportStatus.NothingNew, 2, 0), (again.Status, again.Unchanged, again.Entries));
        Assert.Equal(head.ToString(), store.Head().ToString());
    }

    [Fact]
    public void Of_two_imports_at_once_the_second_looks_again()
    {
        IJournalStore store = _desk.Journal();
        string path = _desk.Put("a.csv", Good);
        using var late = new OvertakenStore(store, () => HeatImport.Write(store, path, Map));
        Assert.Equal((ImportStatus.NothingNew, 2), (HeatImport.Write(late, path, Map).Status, HeatImport.Write(late, path, Map).Unchanged));

        // Another file of the same heats: what differs is told, not thrown.
        IJournalStore two = _desk.Journal("two.journal");
        string other = _desk.Put("b.csv", Good.Replace("142.7", "143.7", StringComparison.Ordinal));
        using var beaten = new OvertakenStore(two, () => HeatImport.Write(two, other, Map));
        Assert.Equal(ImportStatus.Differs, HeatImport.Write(beaten, path, Map).Status);
        Assert.Equal(143_700, Desk.Values(two, "0012")["hot-metal.mass"].Number);
    }

    [Fact]
    public void Corrections_are_not_made_again_over_what_someone_wrote_meanwhile()
    {
        IJournalStore store = _desk.Journal();
        HeatImport.Write(store, _desk.Put("a.csv", Good), Map);
        string mine = _desk.Put("b.csv", Good.Replace("142.7", "143.7", StringComparison.Ordinal));
        string theirs = _desk.Put("c.csv", Good.Replace("142.7", "144.7", StringComparison.Ordinal));
        ImportOptions Correcting(string why) => new() { Correct = true, Reason = why, Clock = _desk.Clock };
        using var late = new OvertakenStore(store, () => HeatImport.Write(store, theirs, Map, Correcting("theirs")));
        Assert.Equal(ImportStatus.Overtaken, HeatImport.Write(late, mine, Map, Correcting("mine")).Status);
        Assert.Equal(144_700, Desk.Values(store, "0012")["hot-metal.mass"].Number);
    }

    [Fact]
    public void A_longer_file_adds_only_what_is_new()
    {
        IJournalStore store = _desk.Journal();
        HeatImport.Write(store, _desk.Put("a.csv", Good), Map);
        ImportOutcome more = HeatImport.Write(store, _desk.Put("b.csv", Good.TrimEnd() + "\n0014,141,1350,0.4,0.01,1650,0,X,Y\n"), Map);
        Assert.Equal((ImportStatus.Written, 1, 0, 2), (more.Status, more.NewHeats, more.AddedTo, more.Unchanged));
        ImportOutcome other = HeatImport.Write(store, _desk.Put("c.csv", "heat,steel\n0012,151\n"), Desk.Mapping("steel: {quantity: scrap.heavy.mass, unit: t}"));
        Assert.Equal((0, 1, 2), (other.NewHeats, other.AddedTo, other.Entries));
        Assert.Single(Desk.Bodies<EndBody>(store, "0012"));
    }

    [Fact]
    public void What_differs_is_told_and_put_right_only_when_asked_with_a_reason()
    {
        IJournalStore store = _desk.Journal();
        HeatImport.Write(store, _desk.Put("a.csv", Good), Map);
        JournalHead head = store.Head();
        string path = _desk.Put("b.csv", Good.Replace("142.7", "143.7", StringComparison.Ordinal).Replace("n/a", "1361", StringComparison.Ordinal).Replace("<0.002", "0.003", StringComparison.Ordinal));
        ImportOutcome told = HeatImport.Write(store, path, Map);
        Assert.Equal(ImportStatus.Differs, told.Status);
        Assert.Equal(head.ToString(), store.Head().ToString());
        Assert.Equal(
            [(2, "0012", "hot-metal.mass"), (2, "0012", "analysis.end.S")], told.Differences.Select(d => (d.Row, d.Heat, d.Quantity.Name)));
        Assert.Equal("row 2, heat 0012: hot-metal.mass is 142700 kg in the journal and 143700 kg in the file", told.Differences[0].ToString());

        Assert.Throws<FileRefusedException>(() => HeatImport.Write(store, path, Map, new ImportOptions { Correct = true }));
        ImportOutcome put = HeatImport.Write(store, path, Map, new ImportOptions { Correct = true, Reason = "weighed again", Clock = _desk.Clock });
        Assert.Equal((ImportStatus.Written, 2, 2), (put.Status, put.Corrected, put.AddedTo));
        Assert.Equal((143_700, false), (Desk.Values(store, "0012")["hot-metal.mass"].Number, Desk.Values(store, "0012")["analysis.end.S"].Below));
        Assert.Equal(1634.15, Desk.Values(store, "0013")["hot-metal.temperature"].Number);
        Assert.Equal(new ChargeBody(ChargeKind.HotMetal, 142_700), Desk.Bodies<ChargeBody>(store, "0012").Single());
        Assert.All(store.ReadHeat("0012").Where(e => e.Kind == EntryKind.Correction), e => Assert.Equal("weighed again", e.Reason));
        Assert.Equal(ImportStatus.NothingNew, HeatImport.Write(store, path, Map).Status);
    }

    [Fact]
    public void Corrections_and_the_import_itself_are_by_the_person_who_made_them()
    {
        IJournalStore store = _desk.Journal();
        HeatImport.Write(store, _desk.Put("a.csv", Good), Map);
        string path = _desk.Put("b.csv", Good.Replace("142.7", "143.7", StringComparison.Ordinal));
        HeatImport.Write(store, path, Map, new ImportOptions { Correct = true, Reason = "weighed again", Actor = "person:anna", Clock = _desk.Clock });
        Assert.Equal("person:anna", store.ReadHeat("0012").Single(e => e.Kind == EntryKind.Correction).Actor);
        Assert.Equal(["program:import", "person:anna"], store.ReadHeat("").Select(e => e.Actor));
        Assert.Equal("program:import", store.ReadHeat("0012")[0].Actor);
    }

    [Fact]
    public void None_given_makes_no_entry_and_differs_from_some()
    {
        IJournalStore store = _desk.Journal();
        ImportMapping map = Desk.Mapping("m: {quantity: hot-metal.mass, unit: t}\nlime: {quantity: addition.lime.mass, unit: kg}\nscrap: {quantity: scrap.heavy.mass, unit: t}\nFeMn: {quantity: ladle.FeMn.mass, unit: kg}");
        string path = _desk.Put("a.csv", "heat,m,lime,scrap,FeMn\n1,140,0,0,0\n2,140,7000,38,900\n");
        Assert.Equal(ImportStatus.Written, HeatImport.Write(store, path, map).Status);
        Assert.Equal((0, 1), (Desk.Bodies<AdditionBody>(store, "1").Count, Desk.Bodies<ChargeBody>(store, "1").Count));
        Assert.Equal(2, Desk.Bodies<AdditionBody>(store, "2").Count);
        Assert.Equal(ImportStatus.NothingNew, HeatImport.Write(store, path, map).Status);
        ImportOutcome differs = HeatImport.Write(store, _desk.Put("b.csv", "heat,m,lime,scrap,FeMn\n2,140,0,38,900\n"), map);
        Assert.Equal((ImportStatus.Differs, "addition.lime.mass"), (differs.Status, differs.Differences.Single().Quantity.Name));
    }

    [Fact]
    public void A_quantity_more_for_an_entry_that_is_there_is_a_difference_too()
    {
        IJournalStore store = _desk.Journal();
        HeatImport.Write(store, _desk.Put("a.csv", Good), Map);
        ImportMapping more = Desk.Mapping("P: {quantity: hot-metal.analysis.P, unit: mass %}");
        string path = _desk.Put("b.csv", "heat,P\n0012,0.082\n");
        Assert.Contains("is not there in the journal", HeatImport.Write(store, path, more).Differences.Single().ToString(), StringComparison.Ordinal);
        HeatImport.Write(store, path, more, new ImportOptions { Correct = true, Reason = "laboratory sent P later", Clock = _desk.Clock });
        Assert.Equal((0.45, 0.082), (Desk.Values(store, "0012")["hot-metal.analysis.Si"].Number, Desk.Values(store, "0012")["hot-metal.analysis.P"].Number));
    }

    [Fact]
    public void A_sum_of_several_entries_is_not_put_right_as_one()
    {
        IJournalStore store = _desk.Journal();
        store.Append(
            NewEntry.Of("0012", new AdditionBody("lime", 3000), _desk.Clock.Now, "person:anna"), NewEntry.Of("0012", new AdditionBody("lime", 4000), _desk.Clock.Now, "person:anna"));
        ImportMapping lime = Desk.Mapping("lime: {quantity: addition.lime.mass, unit: kg}");
        Assert.Equal(ImportStatus.NothingNew, HeatImport.Write(store, _desk.Put("a.csv", "heat,lime\n0012,7000\n"), lime).Status);
        ImportOutcome differs = HeatImport.Write(store, _desk.Put("b.csv", "heat,lime\n0012,7300\n"), lime, new ImportOptions { Correct = true, Reason = "the log says so" });
        Assert.Equal(ImportStatus.Differs, differs.Status);
        Assert.Contains("2 entries", differs.Differences.Single().Hindrance, StringComparison.Ordinal);
    }

    [Fact]
    public void What_a_person_withdrew_does_not_come_back()
    {
        IJournalStore store = _desk.Journal();
        string path = _desk.Put("a.csv", Good);
        HeatImport.Write(store, path, Map);
        Entry charge = store.ReadHeat("0012").First(e => e.Kind == EntryKind.ChargeWeighed);
        store.Append(NewEntry.Of("0012", new CorrectionBody(charge.Id), _desk.Clock.Now, "person:anna", "another heat's weight"));
        ImportOutcome again = HeatImport.Write(store, path, Map, new ImportOptions { Correct = true, Reason = "again" });
        Assert.Equal(ImportStatus.Differs, again.Status);
        Assert.Contains("withdrawn", again.Differences.Single().Hindrance, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", null, null)]
    [InlineData("sameHeat: first", 140.0, null)]
    [InlineData("sameHeat: last", 141.0, 1350.0)]
    public void A_heat_in_two_rows(string how, double? tonnes, double? celsius)
    {
        IJournalStore store = _desk.Journal();
        string path = _desk.Put("a.csv", "heat,m,T\n1,140,\n2,139,1340\n1,141,1350\n");
        ImportMapping map = Desk.Mapping("m: {quantity: hot-metal.mass, unit: t}\nT: {quantity: hot-metal.temperature, unit: °C}", how);
        ImportOutcome outcome = HeatImport.Write(store, path, map);
        if (tonnes is null)
        {
            Assert.Equal((ImportStatus.Rejected, 2), (outcome.Status, outcome.Preview.RejectedRows));
            Assert.Equal([2, 4], outcome.Preview.Rejects.Select(p => p.Line));
            Assert.All(outcome.Preview.Rejects, p => Assert.Contains("rows 2 and 4", p.Message, StringComparison.Ordinal));
            return;
        }

        Assert.Equal(tonnes * 1000, Desk.Values(store, "1")["hot-metal.mass"].Number);
        Assert.Equal(celsius is not null, Desk.Values(store, "1").ContainsKey("hot-metal.temperature"));
    }

    [Fact]
    public void Rows_of_a_heat_are_merged_where_the_mapping_says_so_and_a_clash_is_rejected()
    {
        ImportMapping map = Desk.Mapping("m: {quantity: hot-metal.mass, unit: t}\nT: {quantity: hot-metal.temperature, unit: °C}", "sameHeat: merge");
        IJournalStore store = _desk.Journal();
        Assert.Equal(ImportStatus.Written, HeatImport.Write(store, _desk.Put("a.csv", "heat,m,T\n1,140,\n1,,1350\n1,140,1350\n"), map).Status);
        Assert.Equal(2, Desk.Values(store, "1").Count);
        ImportPreview clash = HeatImport.Preview(_desk.Put("b.csv", "heat,m,T\n1,140,\n1,141,1350\n2,139,1340\n"), map);
        Assert.Equal((1, 2), (clash.Heats, clash.RejectedRows));
        Assert.Contains("another hot-metal.mass", clash.Rejects[0].Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_decimal_sign_that_nothing_shows_is_asked_for()
    {
        string path = _desk.Put("a.csv", "heat;m\n1;1.234\n2;2.345\n");
        const string Column = "m: {quantity: addition.lime.mass, unit: kg}";
        Problem problem = Assert.Throws<FileRefusedException>(() => HeatImport.Preview(path, Desk.Mapping(Column))).Problems.Single();
        Assert.Equal((TableProblem.DecimalUnclear, "m", "1.234"), (problem.Code, problem.Field, problem.Value));
        Assert.Equal(1.234, HeatImport.Preview(path, Desk.Mapping(Column, "table: {decimal: point}")).Columns[0].Least, 12);
        ColumnSummary comma = HeatImport.Preview(path, Desk.Mapping(Column, "table: {decimal: comma}")).Columns[0];
        Assert.Equal(1234, comma.Least);
        Assert.Contains("two ways", comma.Decimals, StringComparison.Ordinal);
    }

    [Fact]
    public void A_stated_decimal_sign_holds_against_a_cell_and_the_preview_says_so()
    {
        string path = _desk.Put("a.csv", "heat;m\n1;1.234\n2;2.345\n3;12.5\n4;0.450\n");
        ImportPreview preview = HeatImport.Preview(path, Desk.Mapping("m: {quantity: addition.lime.mass, unit: kg}", "table: {decimal: comma}"));
        Assert.Equal((1234, 2345), (preview.Columns[0].Least, preview.Columns[0].Most));
        Assert.Equal([(4, "12.5"), (5, "0.450")], preview.Rejects.Select(p => (p.Line, p.Value)));
        Assert.All(preview.Rejects, p => Assert.Contains("state decimal: point for column m", p.Mend, StringComparison.Ordinal));
        Assert.Contains(preview.Lines(), l => l.Contains("'12.5' has no decimal comma", StringComparison.Ordinal));

        string commas = _desk.Put("b.csv", "heat;m\n1;1,234\n2;12,5\n");
        ImportPreview other = HeatImport.Preview(commas, Desk.Mapping("m: {quantity: addition.lime.mass, unit: kg}", "table: {decimal: point}"));
        Assert.Contains(other.Lines(), l => l.Contains("'12,5' has no decimal point", StringComparison.Ordinal));
        Assert.Equal(1234, other.Columns[0].Most);
        Assert.Equal(1.234, HeatImport.Preview(commas, Desk.Mapping("m: {quantity: addition.lime.mass, unit: kg, decimal: comma}", "table: {decimal: point}")).Columns[0].Least);
    }

    [Fact]
    public void Columns_decide_their_decimal_sign_each_for_itself()
    {
        ImportPreview preview = HeatImport.Preview(_desk.Put("a.csv", "heat;a;b\n1;1.234,5;0.45\n2;980;0.5\n"), Desk.Mapping("a: {quantity: addition.lime.mass, unit: kg}\nb: {quantity: hot-metal.analysis.Si, unit: mass %}"));
        Assert.Equal((1234.5, 0.45), (preview.Columns[0].Most, preview.Columns[1].Least));
    }

    [Fact]
    public void A_length_of_time_finer_than_the_record_is_no_difference_later()
    {
        IJournalStore store = _desk.Journal();
        string path = _desk.Put("a.csv", "heat,s\n1,1181.7447\n2,17.33333\n");
        ImportMapping map = Desk.Mapping("s: {quantity: blow.duration, unit: min}");
        Assert.Equal(ImportStatus.Written, HeatImport.Write(store, path, map).Status);
        Assert.Equal(1040, Desk.Values(store, "2")["blow.duration"].Number);
        Assert.Equal(ImportStatus.NothingNew, HeatImport.Write(store, path, map).Status);
    }

    [Fact]
    public void Progress_is_told()
    {
        var steps = new List<string>();
        string text = "heat,m\n" + string.Concat(Enumerable.Range(1, 2500).Select(i => $"{i},140\n"));
        HeatImport.Write(_desk.Journal(), _desk.Put("a.csv", text), Desk.Mapping("m: {quantity: hot-metal.mass, unit: t}"), new ImportOptions { Progress = p => steps.Add(p.Step) });
        Assert.Equal(["reading", "comparing", "writing"], steps.Distinct());
    }

    [Fact]
    public void A_missing_column_is_refused_with_the_name_that_was_meant()
    {
        Problem problem = Assert.Throws<FileRefusedException>(() => HeatImport.Preview(_desk.Put("a.csv", "heat,hot_metal\n1,2\n"), Desk.Mapping("hotmetal: {quantity: hot-metal.mass, unit: t}"))).Problems.Single();
        Assert.Equal((TableProblem.NoSuchColumn, "write hot_metal"), (problem.Code, problem.Mend));
    }
}
