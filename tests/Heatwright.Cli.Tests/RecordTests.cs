// SPDX-License-Identifier: Apache-2.0
using System.Text.Json;

namespace Heatwright.Cli.Tests;

public sealed class RecordTests : IDisposable
{
    private readonly Terminal _terminal = new();

    public void Dispose() => _terminal.Dispose();

    [Fact]
    public void Facts_of_a_heat_stand_in_the_journal_as_they_were_said()
    {
        Assert.Equal("Entry 1, heat L-1: charge-weighed: hot metal 142.7 t, at 1350 °C.\n", Record("weigh", "L-1", "hot-metal", "142.7 t", "--temperature", "1350 °C"));
        Assert.Equal("Entry 2, heat L-1: charge-weighed: scrap heavy 6.7 t.\n", Record("weigh", "L-1", "scrap", "6700 kg", "--material", "heavy"));
        Assert.Equal("Entry 3, heat L-1: operation: blow began, North.\n", Record("mark", "L-1", "blow", "running", "--unit", "North"));
        Assert.Equal("Entry 4, heat L-1: addition: ore 400 kg, at 6900 Nm3.\n", Record("add", "L-1", "ore", "400 kg", "--oxygen", "6900 Nm3"));
        Assert.Equal("Entry 5, heat L-1: measurement: in blow, 1550 °C, C 0.48 %, at 6760 Nm3.\n", Record("measure", "L-1", "in-blow", "--temperature", "1550", "--carbon", "0.48", "--oxygen", "6760"));
        Assert.Equal("Entry 6, heat L-1: operation: blow complete, 8240 Nm3.\n", Record("mark", "L-1", "blow", "complete", "--oxygen", "8240 Nm3"));
        Assert.Equal("Entry 7, heat L-1: analysis: end of blow, C 0.045 %, S below 0.005 %.\n", Record("analyse", "L-1", "end-of-blow", "C=0.045", "S=<0.005"));
        Assert.Equal("Entry 8, heat L-1: decision: tap or blow on: tap.\n", Record("decide", "L-1", "tap or blow on", "tap", "--based-on", "5", "--reason", "inside the window"));
        Assert.Equal("Entry 9, heat L-1: delay: wait-ladle, North, 8 min.\n", Record("delay", "L-1", "wait-ladle", "--from", "2026-11-25T08:12Z", "--until", "2026-11-25T08:20Z", "--unit", "North"));
        Assert.Equal("Entry 10, heat L-1: note: slopped a little.\n", Record("note", "L-1", "slopped a little"));
        Assert.Equal("Entry 11, heat L-1: correction: put right: scrap heavy 7.6 t.\n", Record("correct", "L-1", "2", "mass=7.6 t", "--reason", "scale read again"));
        Assert.Equal("Entry 12, heat L-1: end: cast, steel 160.4 t, oxygen 8300 Nm3.\n", Record("close", "L-1", "--steel", "160.4 t", "--oxygen", "8300 Nm3", "--outcome", "cast", "--as-fact"));
        Assert.Equal("Entry 13: equipment: North: lance renewed, after 212 heats.\n", Record("renew", "North", "lance", "--age", "212 heats"));
    }

    [Fact]
    public void Json_gives_the_entry_with_its_hash()
    {
        string text = _terminal.Run("record", "note", "L-1", "as told", "--by", "anna", "--time", "2026-11-25T08:12:30Z", "--json").Ends(0).Output;
        JsonElement entry = JsonDocument.Parse(text).RootElement.GetProperty("entry");
        Assert.Equal("person:anna", entry.GetProperty("actor").GetString());
        Assert.Equal("2026-11-25T08:12:30.000Z", entry.GetProperty("sourceTime").GetString());
        Assert.Equal("as told", entry.GetProperty("body").GetProperty("text").GetString());
        Assert.Equal(64, entry.GetProperty("hash").GetString()!.Length);
    }

    [Fact]
    public void A_correction_of_a_correction_keeps_what_the_first_put_right()
    {
        Record("measure", "L-1", "hot-metal", "--temperature", "1352", "--carbon", "4.45");
        Record("correct", "L-1", "1", "temperature=1362 °C", "--reason", "read again");
        Assert.Equal(
            "Entry 3, heat L-1: correction: put right: hot metal, 1362 °C, C 4.55 %.\n",
            Record("correct", "L-1", "1", "carbon=4.55", "--reason", "typed wrongly"));
    }

    [Fact]
    public void What_does_not_fit_the_stage_is_refused_in_words_and_taken_when_it_was_so()
    {
        Record("weigh", "L-1", "hot-metal", "142.7 t");
        Ran refused = _terminal.Run("record", "mark", "L-1", "tap", "running").Ends(2);
        Assert.Contains("Mend: ", refused.Errors, StringComparison.Ordinal);
        Assert.Contains("--as-fact", refused.Errors, StringComparison.Ordinal);
        Assert.Equal("Entry 2, heat L-1: operation: tap began.\n", Record("mark", "L-1", "tap", "running", "--as-fact"));
        Assert.Contains("What does not fit", _terminal.Run("journal", "show", "L-1").Ends(0).Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_correction_stands_on_what_holds_and_not_on_what_was_withdrawn()
    {
        Record("add", "L-1", "lime", "6.2 t");
        Record("correct", "L-1", "1", "mass=3 t", "--reason", "misread");
        Record("correct", "L-1", "2", "--withdraw", "--reason", "it was right at first");
        Assert.Equal("Entry 4, heat L-1: correction: put right: lime 6.2 t.\n", Record("correct", "L-1", "1", "lot=L7", "--reason", "lot was missing"));
        Ran ran = _terminal.Run("record", "correct", "L-1", "2", "mass=4 t", "--reason", "x").Ends(2);
        Assert.Contains("itself a correction", ran.Errors, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("mass=-12 t", "impossible")]
    [InlineData("mass=61 t", "outside")]
    [InlineData("material=Kalk", "lime, ")]
    public void A_correction_has_the_limits_of_the_entry_that_it_puts_right(string change, string says)
    {
        _terminal.Run("plan", "examples/heats/ordinary.yaml", "--record", "--members", "60").Ends(0);
        Record("add", "L-1001", "lime", "6.2 t");
        Ran ran = _terminal.Run("record", "correct", "L-1001", "4", change, "--reason", "x").Ends(2);
        Assert.Contains(says, ran.Errors, StringComparison.Ordinal);
        Assert.Contains("Mend: ", ran.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void A_slip_in_the_name_of_the_journal_begins_no_other()
    {
        Ran ran = _terminal.Run("record", "note", "L-1", "x", "--journal", "typo.journal").Ends(2);
        Assert.Contains("--new", ran.Errors, StringComparison.Ordinal);
        Assert.False(File.Exists(_terminal.File("typo.journal")));
        _terminal.Run("record", "note", "L-1", "x", "--journal", "other.journal", "--new").Ends(0);
    }

    [Fact]
    public void A_recorded_plan_brings_order_and_works_with_it_and_the_works_only_once()
    {
        Ran first = _terminal.Run("plan", "examples/heats/ordinary.yaml", "--record", "--by", "anna", "--members", "60").Ends(0);
        Assert.Contains("entry 1 (works), entry 2 (order), entry 3 (plan)", first.Errors, StringComparison.Ordinal);
        Ran second = _terminal.Run("plan", "examples/heats/ordinary.yaml", "--record", "--by", "bert", "--members", "60", "--objective", "most-scrap").Ends(0);
        Assert.Contains("L-1001: entry 4 (plan).", second.Errors, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("temperature", "1652", "has no unit", "°C or K")]
    [InlineData("mass", "7.6 t", "has no 'mass'", "temperature, carbon")]
    [InlineData("temperature", "warm", "is not a temperature", "1385 °C")]
    [InlineData("point", "Attic", "cannot be read", "point")]
    public void A_correction_that_does_not_fit_says_what_would(string field, string value, string wrong, string mend)
    {
        Record("measure", "L-1", "hot-metal", "--temperature", "1352");
        Ran ran = _terminal.Run("record", "correct", "L-1", "1", $"{field}={value}", "--reason", "x").Ends(2);
        Assert.Contains(wrong, ran.Errors, StringComparison.Ordinal);
        Assert.Contains(mend, ran.Errors, StringComparison.Ordinal);
    }

    public static TheoryData<string, string[], string> Bad() => new()
    {
        { "no reason", ["decide", "L-1", "tap or blow on", "tap"], "reason" },
        { "unknown word", ["weigh", "L-1", "porridge", "5 t"], "hot-metal, scrap, retained-slag" },
        { "unit of another kind", ["weigh", "L-1", "hot-metal", "5 m"], "t or kg" },
        { "negative", ["weigh", "L-1", "hot-metal", "-5 t"], "outside 0 to 1000 t" },
        { "scrap without class", ["weigh", "L-1", "scrap", "5 t"], "--material" },
        { "nothing read", ["measure", "L-1", "in-blow"], "--status bad" },
        { "element", ["analyse", "L-1", "end-of-blow", "Xx=1"], "'Xx'" },
        { "two elements in one", ["analyse", "L-1", "hot-metal", "C,Si=1"], "'C,Si'" },
        { "cold hot metal", ["weigh", "L-1", "hot-metal", "142 t", "--temperature", "135 °C"], "1100 °C to 1550 °C" },
        { "much silicon", ["analyse", "L-1", "hot-metal", "Si=45"], "0 mass % to 3 mass %" },
        { "class of hot metal", ["weigh", "L-1", "hot-metal", "142 t", "--material", "heavy"], "--lot" },
        { "element twice", ["analyse", "L-1", "end-of-blow", "C=1", "C=2"], "twice" },
        { "percent", ["analyse", "L-1", "end-of-blow", "C=101"], "0 to 100" },
        { "slag constituent without --slag", ["analyse", "L-1", "end-of-blow", "CaO=46"], "--slag" },
        { "time", ["note", "L-1", "x", "--time", "yesterday"], "2026-11-25 08:12" },
        { "until before from", ["delay", "L-1", "c", "--from", "2026-11-25T08:20Z", "--until", "2026-11-25T08:12Z"], "before" },
        { "entry of no one", ["correct", "L-1", "99", "mass=1 t", "--reason", "x"], "no entry '99'" },
        { "fields and withdraw", ["correct", "L-1", "1", "mass=1 t", "--withdraw", "--reason", "x"], "--withdraw" },
        { "empty heat", ["note", " ", "x"], "heat" },
        { "index", ["measure", "L-1", "in-blow", "--temperature", "1600", "--index", "0"], "--index" },
    };

    [Theory]
    [MemberData(nameof(Bad))]
    public void Bad_input_is_refused_with_its_mend_and_leaves_nothing_behind(string what, string[] arguments, string says)
    {
        Record("note", "L-1", "before");
        Ran ran = _terminal.Run(["record", .. arguments]).Ends(2);
        Assert.True(ran.Errors.Contains(says, StringComparison.Ordinal), what + ": " + ran.Errors);
        Assert.Contains("Mend: ", ran.Errors, StringComparison.Ordinal);
        Assert.StartsWith("Entry 2,", Record("note", "L-1", "after"), StringComparison.Ordinal);
    }

    private string Record(params string[] arguments) => _terminal.Run(["record", .. arguments]).Ends(0).Output;
}
