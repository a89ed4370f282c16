// SPDX-License-Identifier: Apache-2.0
using System.Text;
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

    [Theory]
    [InlineData("{}")]
    [InlineData("null")]
    [InlineData("{\"what\":\"Porridge\",\"massKg\":1}")]
    [InlineData("{\"what\":1e400}")]
    [InlineData("")]
    public void What_is_no_charge_is_refused(string text) =>
        Assert.Throws<EntryFormatException>(() => EntryText.Read(EntryKind.ChargeWeighed, 1, Encoding.UTF8.GetBytes(text)));
}
