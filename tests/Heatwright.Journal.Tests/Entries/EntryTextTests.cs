// SPDX-License-Identifier: Apache-2.0
using System.Text;
using CsCheck;
using Heatwright.Journal.Entries;

namespace Heatwright.Journal.Tests.Entries;

public class EntryTextTests
{
    [Fact]
    public void A_body_is_plain_json_with_units_in_its_names() =>
        Assert.Equal(
            """{"what":"HotMetal","massKg":142700,"temperatureK":1623.15}""",
            Encoding.UTF8.GetString(EntryText.Write(new ChargeBody(ChargeKind.HotMetal, 142700, null, 1623.15))));

    [Fact]
    public void A_correction_carries_the_replacement_with_its_kind()
    {
        var body = new CorrectionBody(Guid.CreateVersion7(), new NoteBody("as weighed again"));
        byte[] bytes = EntryText.Write(body);
        Assert.Contains("""{"kind":"note","body":{"text":"as weighed again"}}""", Encoding.UTF8.GetString(bytes), StringComparison.Ordinal);
        Assert.Equal(body, EntryText.Read(EntryKind.Correction, 1, bytes));
    }

    [Fact]
    public void Below_the_limit_is_text_in_json()
    {
        var body = new AnalysisBody(HeatPoint.EndOfBlow, SampledMatter.Metal, new Dictionary<string, Reading> { ["S"] = new(0.002, true) });
        byte[] bytes = EntryText.Write(body);
        Assert.Contains("\"S\":\"<0.002\"", Encoding.UTF8.GetString(bytes), StringComparison.Ordinal);
        Assert.Equal(new Reading(0.002, true), ((AnalysisBody)EntryText.Read(EntryKind.Analysis, 1, bytes)).Percent["S"]);
    }

    [Fact]
    public void Every_body_comes_back_as_it_was_written() => EntryGen.Body.Sample(
        body =>
        {
            byte[] bytes = EntryText.Write(body);
            EntryBody back = EntryText.Read(body.Kind, EntryText.SchemaVersion, bytes);
            Assert.Equal(body.GetType(), back.GetType());
            Assert.Equal(bytes, EntryText.Write(back));
        },
        seed: "0000Jb8Wd1D2",
        iter: 20_000);

    [Fact]
    public void A_number_that_is_none_is_not_written() =>
        Assert.ThrowsAny<ArgumentException>(() => EntryText.Write(new EndBody(double.NaN)));

    [Fact]
    public void A_later_layout_is_refused_with_both_versions()
    {
        var e = Assert.Throws<EntryFormatException>(() => EntryText.Read(EntryKind.Note, 2, "{\"text\":\"\"}"u8.ToArray()));
        Assert.Contains("schema version 2; this program knows 1", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_kind_has_a_name_a_body_and_no_other_has_it()
    {
        EntryKind[] kinds = Enum.GetValues<EntryKind>();
        Assert.Equal(kinds.Length, kinds.Select(EntryKinds.Name).Distinct().Count());
        Assert.All(kinds, kind =>
        {
            Assert.True(EntryKinds.TryParse(kind.Name(), out EntryKind back));
            Assert.Equal(kind, back);
            Assert.Equal(kind.Name(), kind.Name().ToLowerInvariant());
        });
        Assert.Equal("charge-weighed", EntryKind.ChargeWeighed.Name());
        Assert.Equal(kinds.Length, kinds.Select(EntryText.TypeOf).Distinct().Count());
    }

    [Theory]
    [InlineData("{}")]
    [InlineData("null")]
    [InlineData("{\"what\":\"Porridge\",\"massKg\":1}")]
    [InlineData("{\"what\":1e400}")]
    [InlineData("")]
    public void What_is_no_charge_is_refused(string text) =>
        Assert.Throws<EntryFormatException>(() => EntryText.Read(EntryKind.ChargeWeighed, 1, Encoding.UTF8.GetBytes(text)));

    [Fact]
    public void Changed_bytes_are_read_or_refused_as_no_body() =>
        Gen.Select(EntryGen.Body, Gen.Int[0, 1 << 20], Gen.Byte).Sample((body, at, value) =>
        {
            byte[] bytes = EntryText.Write(body);
            if (bytes.Length > 0)
            {
                bytes[at % bytes.Length] = value;
            }

            try
            {
                EntryText.Read(body.Kind, EntryText.SchemaVersion, bytes);
            }
            catch (EntryFormatException)
            {
                // Said so.
            }
        });

    [Fact]
    public void A_correction_without_the_kind_of_its_replacement_is_refused() =>
        Assert.Throws<EntryFormatException>(() => EntryText.Read(
            EntryKind.Correction, 1, """{"corrects":"00000000-0000-0000-0000-000000000001","replacement":{"jind":"note","body":{"text":"x"}}}"""u8.ToArray()));
}
