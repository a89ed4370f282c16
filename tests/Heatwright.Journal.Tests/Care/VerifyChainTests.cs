// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Care;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;
using Heatwright.Journal.Store.Sqlite;
using Heatwright.Journal.Tests.Store;
using Heatwright.Journal.Views;
using Microsoft.Data.Sqlite;

namespace Heatwright.Journal.Tests.Care;

/// <summary>Changes made through the database itself, seals and structure right: only the chain and the bookkeeping can find them.</summary>
public sealed class VerifyChainTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly string _path;

    public VerifyChainTests() => _path = _folder.File("works.journal");

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("UPDATE entry SET body = CAST(replace(CAST(body AS TEXT), '140000', '141000') AS BLOB) WHERE sequence = 24", 24)]
    [InlineData("UPDATE entry SET hash = zeroblob(32) WHERE sequence = 24", 24)]
    [InlineData("UPDATE entry SET actor = 'person:ben' WHERE sequence = 1", 1)]
    [InlineData("UPDATE entry SET reason = '' WHERE sequence = 33", 33)]
    [InlineData("UPDATE entry SET source_time = source_time + 1 WHERE sequence = 2", 2)]
    [InlineData("UPDATE entry SET arrival_time = 9000000000000000 WHERE sequence = 2", 2)]
    [InlineData("UPDATE entry SET id = randomblob(16) WHERE sequence = 5", 5)]
    [InlineData("UPDATE entry SET kind = 'order' WHERE sequence = 8", 8)]
    [InlineData("UPDATE entry SET kind = 'porridge' WHERE sequence = 8", 8)]
    [InlineData("UPDATE entry SET schema_version = 2 WHERE sequence = 8", 8)]
    public void A_changed_entry_is_named_and_no_other(string sql, long sequence)
    {
        CareJournal.Make(_path);
        Change(sql);
        Finding finding = Assert.Single(JournalVerify.Run(_path).Findings, f => f.Severity == Severity.Damage);
        Assert.Equal((Check.Chain, sequence), (finding.Check, finding.Sequence));
        Assert.Contains($"Entry {sequence}", finding.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_removed_entry_leaves_a_gap()
    {
        CareJournal.Make(_path);
        Change("DELETE FROM entry WHERE sequence = 40");
        VerifyReport report = JournalVerify.Run(_path);
        Assert.Contains(report.Findings, f => f.Sequence == 40 && f.Text.Contains("Entry 40 is missing", StringComparison.Ordinal));
        Assert.Contains(report.Findings, f => f.Text.Contains("stands where", StringComparison.Ordinal));
    }

    [Fact]
    public void Two_entries_in_each_others_place_are_found()
    {
        CareJournal.Make(_path);
        Change("UPDATE entry SET sequence = -sequence WHERE sequence IN (50, 51); UPDATE entry SET sequence = CASE sequence WHEN -50 THEN 51 ELSE 50 END WHERE sequence < 0", checks: false);
        Assert.Equal([50L, 51L], JournalVerify.Run(_path).Findings.Where(f => f.Check == Check.Chain).Select(f => f.Sequence!.Value).Distinct().Order().Take(2));
    }

    [Fact]
    public void A_cut_off_end_and_a_record_written_anew_are_found_by_a_noted_head()
    {
        JournalHead head = CareJournal.Make(_path);
        Change($"DELETE FROM entry WHERE sequence > {head.Sequence - 3}");
        Assert.Contains("was made from entries up to", Assert.Single(JournalVerify.Run(_path).Findings).Text, StringComparison.Ordinal);
        Change("UPDATE heat_row_mark SET up_to = 0", triggers: false);
        Assert.True(JournalVerify.Run(_path).Whole);
        Finding finding = Assert.Single(JournalVerify.Run(_path, new VerifyOptions { ExpectedHead = head.ToString() }).Findings);
        Assert.Equal((Severity.Damage, head.Sequence - 2), (finding.Severity, finding.Sequence));
        Assert.Contains("The end is missing", finding.Text, StringComparison.Ordinal);

        using (var store = SqliteJournal.Open(_path))
        {
            store.Append(Sample.Note("L-1"), Sample.Note("L-2"), Sample.Note("L-3"));
        }

        Assert.True(JournalVerify.Run(_path).Whole);
        finding = Assert.Single(JournalVerify.Run(_path, new VerifyOptions { ExpectedHead = head.ToString() }).Findings);
        Assert.Contains("is another than when its hash was noted", finding.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Bookkeeping_that_does_not_agree_is_doubted_not_damage()
    {
        using (var store = SqliteJournal.Open(_path, new JournalOptions { CreateIfMissing = true }))
        {
            Put(store, "A", new ChargeBody(ChargeKind.HotMetal, 140_000), new ChargeBody(ChargeKind.Scrap, 30_000, "heavy"), new EndBody(170_001));
            Put(store, "B", new OperationBody(HeatOperation.Blow, OperationState.Complete, OxygenNm3: 8_000), new OperationBody(HeatOperation.Reblow, OperationState.Complete, OxygenNm3: 300), new EndBody(OxygenNm3: 8_500));
            Put(store, "C", new ResultBody(ResultQuestion.Forecast, new Dictionary<string, Expected>(StringComparer.Ordinal), new Basis("Heatwright"), [], BalanceResidual: 2e-9));
            Put(store, "D", new ResultBody(ResultQuestion.Forecast, new Dictionary<string, Expected>(StringComparer.Ordinal), new Basis("Heatwright"), [], BalanceResidual: 1e-12));
            Put(store, "E", new ChargeBody(ChargeKind.HotMetal, 140_000), new AdditionBody("FeMn", 1_500, AdditionPlace.Ladle), new OperationBody(HeatOperation.Blow, OperationState.Complete, OxygenNm3: 8_000), new EndBody(141_400, OxygenNm3: 8_100));
            CareJournal.Fill(store, 3);
        }

        VerifyReport report = JournalVerify.Run(_path);
        Assert.True(report.Whole);
        Assert.Equal(["A", "B", "C"], report.Findings.Select(f => f.Heat!));
        Assert.All(report.Findings, f => Assert.Equal((Check.Balance, Severity.Doubt), (f.Check, f.Severity)));
        Assert.Contains("170001 kg of steel", report.Findings[0].Text, StringComparison.Ordinal);
        Assert.Contains("8300 Nm3 of oxygen, its end (entry 6) says 8500", report.Findings[1].Text, StringComparison.Ordinal);
        Assert.Contains("off by 2E-09", report.Findings[2].Text, StringComparison.Ordinal);
        Assert.Empty(JournalVerify.Run(_path, new VerifyOptions { Balances = false }).Findings);
    }

    [Fact]
    public void Progress_is_told_and_findings_beyond_the_most_are_counted()
    {
        CareJournal.Make(_path);
        Change("UPDATE entry SET actor = 'nobody'");
        var told = new List<string>();
        VerifyReport report = JournalVerify.Run(_path, new VerifyOptions { MostFindings = 5, Progress = (what, _) => told.Add(what) });
        Assert.Equal((5, 12 * 11, true), (report.Findings.Count, report.Findings.Count + report.Unlisted, report.Damaged));
        Assert.Contains("structure", told);
        Assert.Equal("done", told[^1]);
    }

    private static void Put(SqliteJournal store, string heat, params EntryBody[] bodies) =>
        store.Append([.. bodies.Select(b => NewEntry.Of(heat, b, CareJournal.Start, "program:test"))]);

    [Fact]
    public void A_cached_row_that_the_entries_do_not_give_is_doubted()
    {
        using (var store = SqliteJournal.Open(_path, new JournalOptions { CreateIfMissing = true }))
        {
            CareJournal.Fill(store, 4);
            var list = new HeatList(store);
            list.Rebuild();
            Assert.Equal(4, list.Count());
        }

        Assert.Empty(JournalVerify.Run(_path).Findings);
        Change("UPDATE heat_row SET grade = 'DC04' WHERE heat = 'L-1002'", triggers: false);
        Finding finding = Assert.Single(JournalVerify.Run(_path).Findings);
        Assert.Equal((Check.Views, Severity.Doubt, "L-1002"), (finding.Check, finding.Severity, finding.Heat));
    }

    private void Change(string sql, bool checks = true, bool triggers = true)
    {
        using SqliteConnection connection = SealedFile.Open(_path);
        SealedFile.Do(connection, $"PRAGMA ignore_check_constraints={(checks ? 0 : 1)}");
        SealedFile.Do(connection, triggers ? "DROP TRIGGER entry_is_never_changed; DROP TRIGGER entry_is_never_removed" : "SELECT 1");
        SealedFile.Do(connection, sql);
    }
}
