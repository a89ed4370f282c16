// SPDX-License-Identifier: Apache-2.0
using System.Text;
using CsCheck;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Files;
using Heatwright.Journal.Files.Export;
using Heatwright.Journal.Files.Import;
using Heatwright.Journal.Files.Mapping;
using Heatwright.Journal.Files.Tables;
using Heatwright.Journal.Store;
using Heatwright.Journal.Tests.Entries;

namespace Heatwright.Journal.Tests.Files;

/// <summary>What goes out comes back: the table of heats to the last bit through every format, entries by their hashes.</summary>
public sealed class RoundTripTests
{
    private static readonly string[] NastyTexts =
    [
        "=1+1", "+49", "-5.2", "@x", "\tx", "\rx", "\nx", "'", "'=1", "''x", "\"=1+1\"", "\"", "a,b;c|d\te", "line\nline", "a\r\nb", "0012", "1e5", "NULL", "n/a", "-", "<0.002", "#x", " lead", "trail ",
        " ", "\u00a0", "Ünïcödé °C", "漢字", "😀", "_x0041_", "_x000D_", "\u0001", "\uFFFE", "＝1", "true", "2024-01-01", "x below", "a [kg]",
    ];

    private static readonly Gen<double> Number = Gen.OneOf(
        Gen.OneOf(0d, -0d, 5e-324, -5e-324, 1e300, -1e300, 0.1 + 0.2, -5.2, 273.15, 1650 + 273.15, 1923.1500000000001, 142_700), Gen.Double[-1e4, 1e4], Gen.Double[0, 1]);

    private static readonly Gen<string> Text = Gen.OneOf(Gen.OneOf(NastyTexts), Gen.String[Gen.Char['\u0020', '\u007e'], 1, 30], Gen.Const(new string('=', 3_000)));

    private static readonly Gen<DateTimeOffset> Time = Gen.OneOf(
        Gen.Long[631_152_000_000, 946_684_800_000], Gen.Long[1_711_846_800_000 - 5_400_000, 1_711_846_800_000 + 5_400_000]).Select(DateTimeOffset.FromUnixTimeMilliseconds);

    private static readonly Gen<EntryBody> Body = Gen.OneOf(
        EntryGen.Plain.Where(b => b is not SignalBlockBody),
        Gen.Select(Text, Number, (t, n) => (EntryBody)new OrderBody(t, t, t, n, new Window(Aim: n))),
        Gen.Select(Text, Number, (t, n) => (EntryBody)new AdditionBody(t, n)),
        Gen.Select(Text, Number, (t, n) => (EntryBody)new ChargeBody(ChargeKind.Scrap, n, t)),
        Gen.Select(Gen.OneOf("C", "Si", "Al-total", "x y", "=P"), Number, Gen.Bool, Gen.Enum<HeatPoint>(), (e, n, below, p) =>
            (EntryBody)new AnalysisBody(p, SampledMatter.Metal, new Dictionary<string, Heatwright.Journal.Entries.Reading> { [e] = new(n, below) })),
        Gen.Select(Number, n => (EntryBody)new MeasurementBody(HeatPoint.EndOfBlow, n, n, n)),
        Gen.Select(Number, n => (EntryBody)new EquipmentBody("North", WearPart.Lining, false, n, null, true)),
        Text.Select(t => (EntryBody)new NoteBody(t)),
        Text.Select(t => (EntryBody)new EndBody(1, Outcome: t)));

    private static readonly Gen<NewEntry> Entry = Gen.Select(Gen.OneOf("0012", "1e5", "=A1", "-7", "Ü 7", "#9", "'4", "L;1,\"2\""), Body, Time, (h, b, t) => NewEntry.Of(h, b, t, "person:anna", "as written"));

    [Theory]
    [InlineData(ExportFormat.Csv)]
    [InlineData(ExportFormat.Xlsx)]
    [InlineData(ExportFormat.Parquet)]
    public void The_table_of_heats_comes_back_to_the_last_bit(ExportFormat format) => Entry.Array[1, 60].Sample(
        entries =>
        {
            using var desk = new Desk();
            IJournalStore from = desk.Journal("from.journal");
            from.Append(entries);
            string path = desk.Path("heats." + format);
            ExportOutcome exported = HeatExport.WriteHeats(from, path, format, new ExportOptions { Clock = desk.Clock });
            if (exported.Rows == 0)
            {
                return;
            }

            ImportMapping layout = OwnLayout.For(TableSource.Open(path))!;
            IJournalStore to = desk.Journal("to.journal");
            ImportOutcome imported = HeatImport.Write(to, path, layout);
            Assert.True(imported.Status == ImportStatus.Written, string.Join('\n', imported.Preview.Rejects.Select(r => r.ToString()).Concat(imported.Differences.Select(d => d.ToString()))));
            Assert.Equal(exported.Rows, imported.NewHeats);
            foreach (string heat in entries.Select(e => e.Heat).Distinct())
            {
                var before = WideHeat.Of(heat, from.ReadHeat(heat));
                var after = WideHeat.Of(heat, to.ReadHeat(heat));
                Assert.Equal(Say(before), Say(after));
                if (before.Facts.Count > 0)
                {
                    Assert.Equal(before.Time, after.Time);
                }
            }

            // And into the journal that it came from it brings nothing.
            Assert.Equal(ImportStatus.NothingNew, HeatImport.Write(from, path, layout).Status);
        },
        iter: 40, threads: 1);

    [Fact]
    public void Entries_in_json_come_back_by_their_hashes() => EntryGen.Body.Array[1, 40].Sample(
        bodies =>
        {
            using var desk = new Desk();
            IJournalStore from = desk.Journal("from.journal");
            from.Append(Written(bodies, desk.Clock.Now));
            string path = desk.Path("entries.json");
            EntryExport.Write(from, path, ExportFormat.Json, new ExportOptions { Clock = desk.Clock });
            Entry[] read = [.. EntryFile.Read(path)];
            Assert.Equal(from.Read().Select(All), read.Select(All));
            using var document = System.Text.Json.JsonDocument.Parse(File.ReadAllBytes(path));
            Assert.Equal(read.Length, document.RootElement.GetProperty("entries").GetArrayLength());

            // In an empty journal they make the same one, and a second time nothing.
            IJournalStore to = desk.Journal("to.journal");
            Assert.Equal(read.Length, EntryImport.Write(to, path));
            Assert.Equal(from.Read().Select(All), to.Read().Select(All));
            Assert.Equal((from.Head().ToString(), 0), (to.Head().ToString(), EntryImport.Write(to, path)));
        },
        iter: 40, threads: 1);

    [Theory]
    [InlineData(ExportFormat.Csv)]
    [InlineData(ExportFormat.Xlsx)]
    [InlineData(ExportFormat.Parquet)]
    public void Entries_in_tables_hold_every_field(ExportFormat format) => EntryGen.Body.Array[1, 40].Sample(
        bodies =>
        {
            using var desk = new Desk();
            IJournalStore from = desk.Journal();
            from.Append(Written(bodies, desk.Clock.Now));
            string path = desk.Path("entries." + format);
            EntryExport.Write(from, path, format, new ExportOptions { Clock = desk.Clock });
            TableSource table = TableSource.Open(path);
            string Plain(Cell c) => c.Kind == CellKind.Time ? c.Time.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'") : table.Typed ? c.AsText() : FormulaText.Unescape(c.AsText());
            Assert.Equal(
                from.Read().Select(e => string.Join('\u0001', e.Sequence, e.Id, e.Heat, e.HeatVersion, e.Kind.Name(), e.SchemaVersion, Utc(e.SourceTime), Utc(e.ArrivalTime), e.Actor, e.Reason,
                    e.Kind == EntryKind.SignalBlock ? Convert.ToBase64String(e.BodyBytes.Span) : Encoding.UTF8.GetString(e.BodyBytes.Span), Convert.ToHexStringLower(e.Hash.Span))),
                table.Rows().Select(r => string.Join('\u0001', r.Cells.Select(Plain))));
        },
        iter: 25, threads: 1);

    [Fact]
    public void Any_text_survives_the_escape_of_formulas_and_no_escaped_one_opens_a_formula() => Gen.OneOf(Text, Gen.String).Sample(text =>
    {
        string escaped = FormulaText.Escape(text);
        Assert.Equal(text, FormulaText.Unescape(escaped));
        Assert.DoesNotContain(escaped.Length == 0 ? ' ' : escaped[0], "=+-@\t\r\n");
    });

    [Fact]
    public void Numbers_are_never_escaped_or_quoted()
    {
        using var desk = new Desk();
        IJournalStore store = desk.Journal();
        store.Append(NewEntry.Of("-7", new OrderBody("=1+1", "+x"), desk.Clock.Now, "person:anna"), NewEntry.Of("-7", new EndBody(-5.2), desk.Clock.Now, "person:anna"));
        string path = desk.Path("a.csv");
        HeatExport.WriteHeats(store, path, ExportFormat.Csv);
        Assert.Equal("'-7,2031-03-04T05:06:07.891Z,'+x,'=1+1,-5.2", File.ReadAllLines(path)[1]);
    }

    [Fact]
    public void A_workbook_says_what_it_is()
    {
        using var desk = new Desk();
        IJournalStore store = desk.Journal();
        store.Append(NewEntry.Of("7", new MeasurementBody(HeatPoint.EndOfBlow, 1923.15), desk.Clock.Now, "person:anna"));
        string path = desk.Path("a.xlsx");
        HeatExport.WriteHeats(store, path, ExportFormat.Xlsx, new ExportOptions { Clock = desk.Clock, Filter = "March", Program = "Heatwright 9" });
        string about = string.Join('\n', TableSource.Open(path, new TableLayout(Sheet: "about", HeaderRow: 1)).Rows().Select(r => string.Join(" | ", r.Cells.Select(c => c.AsText()))));
        Assert.All([store.Place, store.Head().ToString(), "March", "Heatwright 9", "2031-03-04 05:06:07Z", "end.temperature [°C] | °C | steel temperature"], w => Assert.Contains(w, about, StringComparison.Ordinal));
        Assert.Equal(1650, TableSource.Open(path).Rows().Single()[2].Number);
    }

    [Fact]
    public void An_export_writes_over_no_file_but_its_own()
    {
        using var desk = new Desk();
        IJournalStore store = desk.Journal();
        store.Append(NewEntry.Of("7", new NoteBody("n"), desk.Clock.Now, "person:anna"));
        string mine = desk.Put("a.csv.part", "mine");
        HeatExport.WriteHeats(store, desk.Path("a.csv"), ExportFormat.Csv);
        Assert.Equal("mine", File.ReadAllText(mine));
        Assert.Equal(["a.csv", "a.csv.part"], Directory.GetFiles(Path.GetDirectoryName(mine)!, "a.csv*").Select(Path.GetFileName).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void A_text_too_long_for_a_workbook_is_refused_and_fits_elsewhere()
    {
        using var desk = new Desk();
        IJournalStore store = desk.Journal();
        store.Append(NewEntry.Of("7", new NoteBody(new string('n', 40_000)), desk.Clock.Now, "person:anna"));
        Assert.Equal(TableProblem.CannotHold, Assert.Throws<FileRefusedException>(() => HeatExport.WriteHeats(store, desk.Path("a.xlsx"), ExportFormat.Xlsx)).Problems[0].Code);
        Assert.Empty(Directory.GetFiles(Path.GetDirectoryName(desk.Path("a"))!, "a.xlsx*"));
        Assert.Equal(1, HeatExport.WriteHeats(store, desk.Path("a.csv"), ExportFormat.Csv).Rows);
        Assert.Throws<FileRefusedException>(() => HeatExport.WriteHeats(store, desk.Path("a.csv"), ExportFormat.Csv));
    }

    [Fact]
    public void Entries_of_two_journals_are_not_mixed_and_a_part_is_no_journal()
    {
        using var desk = new Desk();
        IJournalStore store = desk.Journal();
        store.Append(NewEntry.Of("7", new NoteBody("a"), desk.Clock.Now, "person:anna"), NewEntry.Of("8", new NoteBody("b"), desk.Clock.Now, "person:anna"));
        EntryExport.Write(store, desk.Path("all.json"), ExportFormat.Json);
        EntryExport.Write(store, desk.Path("part.json"), ExportFormat.Json, new ExportOptions { Heats = ["8"] });
        IJournalStore other = desk.Journal("other.journal");
        Assert.Throws<FileRefusedException>(() => EntryImport.Write(other, desk.Path("part.json")));
        other.Append(NewEntry.Of("7", new NoteBody("c"), desk.Clock.Now, "person:anna"));
        Assert.Equal(JournalProblem.Exists, Assert.Throws<JournalException>(() => EntryImport.Write(other, desk.Path("all.json"))).Problem);
        Assert.Equal(1, other.Head().Sequence);
    }

    [Fact]
    public void An_export_whose_end_was_left_out_is_a_part_too_and_what_cannot_be_checked_is_told()
    {
        using var desk = new Desk();
        IJournalStore store = desk.Journal();
        store.Append([.. new[] { "7", "8", "7", "8", "8" }.Select((h, i) => NewEntry.Of(h, new NoteBody($"n{i}"), desk.Clock.Now, "person:anna"))]);
        EntryExport.Write(store, desk.Path("seven.json"), ExportFormat.Json, new ExportOptions { Heats = ["7"] });
        var told = new List<long>();
        Assert.Equal([1, 3], EntryFile.Read(desk.Path("seven.json"), told.Add).Select(e => e.Sequence));
        Assert.Equal([3], told);

        // Without its last entries a file has no gap; only its first line tells.
        EntryExport.Write(store, desk.Path("all.json"), ExportFormat.Json);
        string[] lines = File.ReadAllLines(desk.Path("all.json"));
        string cut = desk.Put("cut.json", string.Join('\n', lines[..3]).TrimEnd(',') + "\n]}\n");
        told.Clear();
        Assert.Equal(2, EntryFile.Read(cut, told.Add).Count());
        Assert.Empty(told);
        IJournalStore other = desk.Journal("other.journal");
        var problem = Assert.Throws<FileRefusedException>(() => EntryImport.Write(other, cut)).Problems.Single();
        Assert.Contains("--no-signals", problem.Mend, StringComparison.Ordinal);
        Assert.Equal((0L, 5L), (other.Head().Sequence, EntryImport.Check(desk.Path("all.json"))));
    }

    [Fact]
    public void A_changed_letter_in_exported_entries_is_found()
    {
        using var desk = new Desk();
        IJournalStore store = desk.Journal();
        store.Append(NewEntry.Of("7", new NoteBody("lime late"), desk.Clock.Now, "person:anna"), NewEntry.Of("7", new NoteBody("more"), desk.Clock.Now, "person:anna"));
        EntryExport.Write(store, desk.Path("e.json"), ExportFormat.Json);
        string text = File.ReadAllText(desk.Path("e.json"));
        Refused(text.Replace("lime late", "lime soon", StringComparison.Ordinal), "hash does not fit");
        Refused(text[..^4], "ends before its end");
        Refused("{\"layout\":\"other\"}", "no export of entries");

        void Refused(string changed, string why) => Assert.Contains(
            why, Assert.Throws<FileRefusedException>(() => EntryFile.Read(desk.Put("changed.json", changed)).ToList()).Message, StringComparison.Ordinal);
    }

    // A correction needs an earlier entry of its heat, and a reason.
    private static NewEntry[] Written(EntryBody[] bodies, DateTimeOffset time)
    {
        var last = new Dictionary<string, Guid>(StringComparer.Ordinal);
        var entries = new List<NewEntry>();
        for (int i = 0; i < bodies.Length; i++)
        {
            string heat = i % 3 == 0 ? "" : "=L" + (i % 3);
            EntryBody body = bodies[i] is CorrectionBody c ? last.TryGetValue(heat, out Guid id) ? c with { Corrects = id } : new NoteBody("first") : bodies[i];
            bool needsReason = body is CorrectionBody or DecisionBody;
            entries.Add(NewEntry.Of(heat, body, time.AddMilliseconds(i), "person:anna", i % 2 == 0 && !needsReason ? "" : "@why \"=1\"\nso"));
            last[heat] = entries[^1].Id;
        }

        return [.. entries];
    }

    private static string Say(WideHeat heat) => string.Join('\n', heat.Facts.OrderBy(f => f.Key, StringComparer.Ordinal).Select(f => $"{f.Key}\u0001{f.Value.Value}\u0001{BitConverter.DoubleToInt64Bits(f.Value.Value.Number)}"));

    private static string Utc(DateTimeOffset time) => time.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'");

    private static string All(Entry e) => $"{e.Sequence} {e.HeatVersion} {Utc(e.ArrivalTime)} {e.SchemaVersion} {Convert.ToHexStringLower(e.Hash.Span)} {Content(e)}";

    private static string Content(Entry e) => $"{e.Id} {e.Heat} {e.Kind} {Utc(e.SourceTime)} {e.Actor} {e.Reason} {Convert.ToHexStringLower(e.BodyBytes.Span)}";
}
