// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;
using Heatwright.Journal.Store.Sqlite;
using Microsoft.Data.Sqlite;
using Npgsql;
using static Heatwright.Journal.Tests.Store.Sample;

namespace Heatwright.Journal.Tests.Store;

/// <summary>What stands in the way is named with its mend, nothing is half written, and the store goes on when it is gone.</summary>
public sealed class StoreErrorTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    private string Path => _folder.File("shop.journal");

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_full_disk_is_named_and_leaves_nothing_half_written()
    {
        using SqlJournal store = JournalPlace.Create(Path);
        store.Append(Note("A"));

        // The library's own limit gives the same error in the same place as a disk without room.
        Limit(SqliteFile.Number((SqliteConnection)store.Writing(s => s.Connection), "PRAGMA page_count") + 10);
        NewEntry[] many = [.. Enumerable.Range(0, 400).Select(i => Note("B", new string('x', 1000)))];
        var refusal = Assert.Throws<JournalException>(() => store.Append(many));
        Assert.Equal(JournalProblem.DiskFull, refusal.Problem);
        Assert.Contains(Path, refusal.Message, StringComparison.Ordinal);
        Assert.Contains("MB free", refusal.Message, StringComparison.Ordinal);
        Assert.Single(AssertChain(store));
        store.Append(Note("A"));
        Limit(1_000_000);
        store.Append(many);
        Assert.Equal(402, AssertChain(store).Count);

        void Limit(long pages) => store.Writing(s => s.Execute($"PRAGMA max_page_count = {pages}"));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_place_that_another_program_holds_is_busy_and_later_not(bool file)
    {
        string place = file ? Path : PostgresServer.Shared.NewDatabase();
        using SqlJournal store = JournalPlace.Open(place, new JournalOptions { CreateIfMissing = true, LockTimeout = TimeSpan.FromMilliseconds(1) });
        using SqlJournal other = JournalPlace.Open(place);
        other.Writing(_ =>
        {
            Assert.Equal(JournalProblem.Busy, Assert.Throws<JournalException>(() => store.Append(Note("A"))).Problem);
            Assert.Empty(store.Read());
            return 0;
        });
        store.Append(Note("A"));
        Assert.Single(AssertChain(store));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Work_that_breaks_off_leaves_nothing(bool file)
    {
        using SqlJournal store = JournalPlace.Create(file ? Path : PostgresServer.Shared.NewDatabase());
        store.Append(Note("A"));
        Assert.Throws<InvalidOperationException>(() => store.Writing<int>(s =>
        {
            s.Execute("DELETE FROM heat_row_mark");
            throw new InvalidOperationException("on purpose");
        }));
        Assert.Equal(0, store.Heats.UpTo());
        store.Append(Note("A"));
        Assert.Equal(2, AssertChain(store).Count);
    }

    [Fact]
    public void A_damaged_page_is_named()
    {
        using (SqlJournal store = JournalPlace.Create(Path))
        {
            store.Append([.. Enumerable.Range(0, 200).Select(i => Note("A", new string('x', 500)))]);
        }

        byte[] bytes = File.ReadAllBytes(Path);
        bytes[Array.IndexOf(bytes, (byte)'x', bytes.Length / 2)] ^= 1;
        File.WriteAllBytes(Path, bytes);
        using SqlJournal damaged = JournalPlace.Open(Path);
        var refusal = Assert.Throws<JournalException>(() => damaged.Read().Count());
        Assert.Equal(JournalProblem.Damaged, refusal.Problem);
        Assert.Contains(Path, refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    [System.Runtime.Versioning.UnsupportedOSPlatform("windows")]
    public void A_journal_in_a_folder_that_cannot_be_written_can_be_read()
    {
        Assert.SkipWhen(Environment.IsPrivilegedProcess, "the rights of folders do not bind this user");
        using (SqlJournal store = JournalPlace.Create(Path))
        {
            store.Append(Note("A"));
        }

        File.SetUnixFileMode(_folder.Path, UnixFileMode.UserRead | UnixFileMode.UserExecute);
        try
        {
            Assert.Equal(JournalProblem.ReadOnly, Assert.Throws<JournalException>(() => JournalPlace.Open(Path).Append(Note("A"))).Problem);
            using SqlJournal reader = JournalPlace.Open(Path, new JournalOptions { ReadOnly = true });
            Assert.Single(AssertChain(reader));
            Assert.Equal(0, reader.Heats.UpTo());
        }
        finally
        {
            File.SetUnixFileMode(_folder.Path, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        }
    }

    [Fact]
    public void A_server_that_does_not_keep_its_word_on_power_loss_is_noted()
    {
        Assert.SkipUnless(PostgresServer.Absent is null, PostgresServer.Absent ?? "");
        using var server = new PostgresServer();
        using (SqlJournal durable = JournalPlace.Create(server.NewDatabase()))
        {
            Assert.Null(durable.DurabilityNote);
        }

        PostgresServer.Execute(server.Place("postgres"), "ALTER SYSTEM SET full_page_writes = off");
        server.Stop(atOnce: false);
        server.Start();
        using SqlJournal store = JournalPlace.Create(server.NewDatabase());
        Assert.Contains("full_page_writes = off", store.DurabilityNote, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("53100", JournalProblem.DiskFull)]
    [InlineData("25006", JournalProblem.ReadOnly)]
    [InlineData("42501", JournalProblem.ReadOnly)]
    [InlineData("3D000", JournalProblem.NotFound)]
    [InlineData("28P01", JournalProblem.Unreachable)]
    [InlineData("55P03", JournalProblem.Busy)]
    [InlineData("XX001", JournalProblem.Damaged)]
    [InlineData("42P01", JournalProblem.NotAJournal)]
    [InlineData("57P01", JournalProblem.Unreachable)]
    [InlineData("53300", JournalProblem.Unreachable)]
    [InlineData("23505", JournalProblem.Failed)]
    public void What_a_server_reports_has_a_name_and_a_mend(string state, JournalProblem problem)
    {
        JournalException e = Journal.Store.Postgres.PostgresErrors.Map("postgresql://server:5432/shop", new PostgresException("words of the server", "ERROR", "ERROR", state));
        Assert.Equal(problem, e.Problem);
        Assert.Contains("postgresql://server:5432/shop", e.Message, StringComparison.Ordinal);
        Assert.Contains("Mend:", e.Message, StringComparison.Ordinal);
    }
}
