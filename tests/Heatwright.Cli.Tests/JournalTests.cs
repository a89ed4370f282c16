// SPDX-License-Identifier: Apache-2.0
using System.Text.Json;

namespace Heatwright.Cli.Tests;

/// <summary>A journal as its user meets it: filled, looked at, damaged, backed up, taken in and out.</summary>
public sealed class JournalTests : IClassFixture<DemoTerminal>
{
    private readonly Terminal _terminal;

    public JournalTests(DemoTerminal demo) => _terminal = demo.Terminal;

    [Fact]
    public void Heats_are_listed_filtered_and_counted()
    {
        JsonElement all = Json("journal", "heats", "--json", "--take", "5");
        Assert.Equal("heatwright.journal-heats/1", all.GetProperty("format").GetString());
        Assert.Equal(DemoTerminal.Heats, all.GetProperty("count").GetInt32());
        Assert.Equal(5, all.GetProperty("heats").GetArrayLength());
        JsonElement north = Json("journal", "heats", "--json", "--unit", "North", "--take", "100");
        JsonElement south = Json("journal", "heats", "--json", "--unit", "South", "--take", "100");
        Assert.Equal(DemoTerminal.Heats, north.GetProperty("heats").GetArrayLength() + south.GetProperty("heats").GetArrayLength());
        Assert.All(north.GetProperty("heats").EnumerateArray(), h => Assert.Equal("North", h.GetProperty("unit").GetString()));
    }

    [Fact]
    public void A_heat_can_be_seen_as_it_was_known_at_an_earlier_entry()
    {
        string heat = Json("journal", "heats", "--json", "--take", "1", "--order", "oldest").GetProperty("heats")[0].GetProperty("heat").GetString()!;
        JsonElement now = Json("journal", "show", heat, "--json");
        long[] sequences = [.. now.GetProperty("entries").EnumerateArray().Select(e => e.GetProperty("sequence").GetInt64()).Order()];
        JsonElement then = Json("journal", "show", heat, "--json", "--as-of", sequences[2].ToString());
        Assert.Equal(3, then.GetProperty("entries").GetArrayLength());
        Assert.Equal("closed", now.GetProperty("stage").GetString());
        Assert.NotEqual("closed", then.GetProperty("stage").GetString());
        Assert.Contains("no entry of heat 'L-9'", _terminal.Run("journal", "show", "L-9").Ends(2).Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void Material_use_of_a_range_is_the_sum_of_what_was_weighed()
    {
        JsonElement use = Json("journal", "materials", "--from", "2025-01-01", "--to", "2025-12-31", "--json");
        Assert.Equal(DemoTerminal.Heats, use.GetProperty("heats").GetInt32());
        double hotMetal = use.GetProperty("materials").EnumerateArray().Single(m => m.GetProperty("material").GetString() == "hot metal").GetProperty("usedKg").GetDouble();
        double summed = Json("journal", "heats", "--json", "--take", "100").GetProperty("heats").EnumerateArray().Sum(h => h.GetProperty("summary").GetProperty("hotMetalKg").GetDouble());
        Assert.Equal(summed, hotMetal, 1e-6 * summed);
        Assert.Contains("--to lies before", _terminal.Run("journal", "materials", "--from", "2025-02-01", "--to", "2025-01-01").Ends(2).Errors, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("csv")]
    [InlineData("xlsx")]
    [InlineData("parquet")]
    public void Heats_go_out_and_come_back_the_same(string kind)
    {
        _terminal.Run("journal", "export", $"out.{kind}", "--replace").Ends(0);
        string copy = $"copy-{kind}.journal";
        Assert.Contains($"{DemoTerminal.Heats} new heats", _terminal.Run("journal", "import", $"out.{kind}", "--journal", copy).Ends(0).Output, StringComparison.Ordinal);
        Assert.Contains("nothing was written", _terminal.Run("journal", "import", $"out.{kind}", "--journal", copy).Ends(0).Output, StringComparison.Ordinal);
        _terminal.Run("journal", "export", $"back-{kind}.csv", "--journal", copy, "--replace").Ends(0);
        _terminal.Run("journal", "export", "first.csv", "--replace").Ends(0);
        Assert.Equal(File.ReadAllText(_terminal.File("first.csv")), File.ReadAllText(_terminal.File($"back-{kind}.csv")));
    }

    [Fact]
    public void Exported_entries_make_the_same_journal_and_a_part_makes_none()
    {
        _terminal.Run("journal", "export", "entries.json", "--replace").Ends(0);
        Assert.Contains("Nothing was written", _terminal.Run("journal", "import", "entries.json", "--journal", "twin.journal", "--preview").Ends(0).Output, StringComparison.Ordinal);
        Assert.False(File.Exists(_terminal.File("twin.journal")));
        _terminal.Run("journal", "import", "entries.json", "--journal", "twin.journal").Ends(0);
        string head = Json("journal", "verify", "--json").GetProperty("head").GetString()!;
        Assert.Equal(head, Json("journal", "verify", "--json", "--journal", "twin.journal").GetProperty("head").GetString());
        Assert.Contains("nothing was written", _terminal.Run("journal", "import", "entries.json", "--journal", "twin.journal").Ends(0).Output, StringComparison.Ordinal);

        _terminal.Run("record", "note", "L-1", "mine", "--journal", "other-entries.journal", "--new").Ends(0);
        Assert.Contains("not mixed", _terminal.Run("journal", "import", "entries.json", "--journal", "other-entries.journal").Ends(2).Errors, StringComparison.Ordinal);
        _terminal.Run("journal", "export", "quiet.json", "--no-signals", "--replace").Ends(0);
        Assert.Contains("without --no-signals", _terminal.Run("journal", "import", "quiet.json", "--journal", "never.journal").Ends(2).Errors, StringComparison.Ordinal);
        Assert.False(File.Exists(_terminal.File("never.journal")));
    }

    [Fact]
    public void A_choice_that_no_heat_meets_writes_no_file_and_says_so()
    {
        Assert.Contains("was not written", _terminal.Run("journal", "export", "nothing.csv", "--grade", "NO-SUCH").Ends(0).Output, StringComparison.Ordinal);
        Assert.False(File.Exists(_terminal.File("nothing.csv")));
    }

    [Fact]
    public void A_table_without_a_mapping_is_not_guessed_at()
    {
        _terminal.Write("strange.csv", "A,B\n1,2\n");
        Ran ran = _terminal.Run("journal", "import", "strange.csv", "--journal", "none.journal").Ends(2);
        Assert.Contains("draft-mapping", ran.Errors, StringComparison.Ordinal);
        Assert.False(File.Exists(_terminal.File("none.journal")));
    }

    [Fact]
    public void A_changed_byte_is_found_and_a_backup_puts_it_right()
    {
        _terminal.Run("journal", "backup", "whole.journal").Ends(0);
        File.Copy(_terminal.File("whole.journal"), _terminal.File("spoilt.journal"));
        byte[] bytes = File.ReadAllBytes(_terminal.File("spoilt.journal"));
        bytes[(bytes.Length / 2) + 77] ^= 0x10;
        File.WriteAllBytes(_terminal.File("spoilt.journal"), bytes);
        Ran damaged = _terminal.Run("journal", "verify", "--journal", "spoilt.journal", "--json").Ends(1);
        JsonElement finding = JsonDocument.Parse(damaged.Output).RootElement.GetProperty("findings")[0];
        Assert.InRange((bytes.Length / 2) + 77, finding.GetProperty("firstByte").GetInt64(), finding.GetProperty("lastByte").GetInt64());
        _terminal.Run("journal", "restore", "whole.journal", "--journal", "spoilt.journal").Ends(2);
        _terminal.Run("journal", "restore", "whole.journal", "--journal", "spoilt.journal", "--replace").Ends(0);
        string head = Json("journal", "verify", "--json").GetProperty("head").GetString()!;
        Assert.Equal(head, Json("journal", "verify", "--journal", "spoilt.journal", "--json", "--head", head).GetProperty("head").GetString());
    }

    [Fact]
    public void The_demonstration_does_not_go_among_other_heats()
    {
        _terminal.Run("plan", "examples/heats/ordinary.yaml", "--record", "--members", "60", "--journal", "own.journal").Ends(0);
        string head = Json("journal", "verify", "--json", "--journal", "own.journal").GetProperty("head").GetString()!;
        Assert.Contains("Nothing was written", _terminal.Run("demo", "--heats", "2", "--journal", "own.journal").Ends(2).Errors, StringComparison.Ordinal);
        Assert.Contains("Nothing was written", _terminal.Run("demo", "--heats", "2", "--seed", "2").Ends(2).Errors, StringComparison.Ordinal);
        Assert.Equal(head, Json("journal", "verify", "--json", "--journal", "own.journal").GetProperty("head").GetString());
    }

    [Fact]
    public void A_shift_lists_its_heats_and_what_is_open()
    {
        JsonElement row = Json("journal", "heats", "--json", "--take", "1", "--zone", "Europe/London").GetProperty("heats")[0];
        JsonElement shift = Json("journal", "shift", row.GetProperty("shiftDate").GetString()!, row.GetProperty("shift").GetString()!, "--zone", "Europe/London", "--json");
        Assert.Contains(shift.GetProperty("heats").EnumerateArray(), h => h.GetProperty("heat").GetString() == row.GetProperty("heat").GetString());
        Assert.Contains("early, late, night", _terminal.Run("journal", "shift", "2025-01-07", "lunch").Ends(2).Errors, StringComparison.Ordinal);
        Assert.Contains("--zone", _terminal.Run("journal", "heats", "--zone", "Atlantis").Ends(2).Errors, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("there is none", "journal", "heats", "--journal", "absent.journal")]
    [InlineData("no journal", "journal", "verify", "--journal", "examples/plant.yaml")]
    [InlineData("no kind of table", "journal", "export", "out.docx")]
    [InlineData("date", "journal", "heats", "--from", "yesterday")]
    [InlineData("unknown stage", "journal", "heats", "--stage", "porridge")]
    [InlineData("nothing of this heat", "journal", "ask", "L-9", "forecast")]
    [InlineData("head", "journal", "verify", "--head", "one")]
    [InlineData("no place", "journal", "verify", "--journal", "")]
    [InlineData("no host", "journal", "verify", "--journal", "Host=;Database=x")]
    [InlineData("no port", "journal", "verify", "--journal", "postgresql://u@h/db?port=99999999999")]
    public void Bad_input_is_refused_with_its_mend(string what, params string[] arguments)
    {
        Ran ran = _terminal.Run(arguments).Ends(2);
        Assert.True(ran.Errors.Contains("Mend: ", StringComparison.Ordinal), what + ": " + ran.Errors);
        Assert.False(File.Exists(_terminal.File("absent.journal")));
    }

    private JsonElement Json(params string[] arguments) => JsonDocument.Parse(_terminal.Run(arguments).Ends(0).Output).RootElement;
}

/// <summary>A folder with a demonstration journal of some heats.</summary>
public sealed class DemoTerminal : IDisposable
{
    public const int Heats = 16;

    public DemoTerminal() => Terminal.Run("demo", "--heats", Heats.ToString(), "--with-signals", "2").Ends(0);

    public Terminal Terminal { get; } = new();

    public void Dispose() => Terminal.Dispose();
}
