// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;
using Heatwright.Journal.Store.Append;

namespace Heatwright.Journal.Tests.Store;

/// <summary>What is no entry is refused before the journal is touched, with field, value, limit and mend.</summary>
public sealed class EntryCheckTests
{
    private static readonly NewEntry Good = Sample.Note("4711");

    private static readonly Dictionary<string, (NewEntry[] Entries, string Field)> Bad = new(StringComparer.Ordinal)
    {
        ["no entry"] = ([], "no entry"),
        ["id of zeros"] = ([Good with { Id = Guid.Empty }], "id"),
        ["id twice"] = ([Good, Good], "id"),
        ["no body"] = ([Good with { Body = null! }], "body"),
        ["no heat"] = ([Good with { Heat = null! }], "heat"),
        ["long heat"] = ([Good with { Heat = new string('1', 65) }], "heat"),
        ["line in heat"] = ([Good with { Heat = "47\n11" }], "heat"),
        ["delete sign in heat"] = ([Good with { Heat = "47\u007f11" }], "heat"),
        ["space before heat"] = ([Good with { Heat = " 4711" }], "heat"),
        ["space after heat"] = ([Good with { Heat = "4711\u00a0" }], "heat"),
        ["half a character"] = ([Good with { Heat = "47\ud83d" }], "heat"),
        ["wrong half first"] = ([Good with { Heat = "47\udd25\ud83d" }], "heat"),
        ["no actor"] = ([Good with { Actor = null! }], "actor"),
        ["empty actor"] = ([Good with { Actor = "" }], "actor"),
        ["blank actor"] = ([Good with { Actor = " " }], "actor"),
        ["long actor"] = ([Good with { Actor = new string('a', 201) }], "actor"),
        ["tab in actor"] = ([Good with { Actor = "person:\tanna" }], "actor"),
        ["no reason"] = ([Good with { Reason = null! }], "reason"),
        ["long reason"] = ([Good with { Reason = new string('a', 4001) }], "reason"),
        ["zero in reason"] = ([Good with { Reason = "a\0b" }], "reason"),
        ["early"] = ([Good with { SourceTime = new DateTimeOffset(1989, 12, 31, 23, 59, 59, TimeSpan.Zero) }], "sourceTime"),
        ["late"] = ([Good with { SourceTime = new DateTimeOffset(2200, 1, 1, 0, 0, 0, TimeSpan.Zero) }], "sourceTime"),
        ["early in UTC"] = ([Good with { SourceTime = new DateTimeOffset(1990, 1, 1, 0, 30, 0, TimeSpan.FromHours(1)) }], "sourceTime"),
        ["correction without reason"] = ([Good with { Body = new CorrectionBody(Guid.CreateVersion7()) }], "reason"),
        ["decision with blank reason"] = ([Good with { Body = new DecisionBody("Tap?", "yes"), Reason = " " }], "reason"),
        ["not a number"] = ([Good with { Body = new ChargeBody(ChargeKind.HotMetal, double.NaN) }], "body"),
        ["too large"] = ([Good with { Body = new SignalBlockBody(new byte[EntryCheck.BodyLength + 1]) }], "body"),
    };

    public static TheoryData<string> BadNames() => [.. Bad.Keys];

    [Theory]
    [MemberData(nameof(BadNames))]
    public void What_is_no_entry_is_refused(string name)
    {
        (NewEntry[] entries, string field) = Bad[name];
        var refusal = Assert.Throws<JournalException>(() => AppendBatch.Prepare([new AppendRequest(entries)]));
        Assert.Equal(JournalProblem.BadEntry, refusal.Problem);
        Assert.Contains(field, refusal.Message, StringComparison.Ordinal);
        Assert.Contains("Limit:", refusal.Message, StringComparison.Ordinal);
        Assert.Contains("Mend:", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void What_stands_at_the_limits_is_taken()
    {
        NewEntry[] entries =
        [
            Sample.Note(new string('1', 64)) with { Actor = new string('a', 200), Reason = new string('ä', 4000) },
            Sample.Note("") with { Actor = "x", SourceTime = new DateTimeOffset(1990, 1, 1, 0, 0, 0, TimeSpan.Zero) },
            Sample.Note("47 11/Ä-🔥") with { Reason = "a\r\n\tb", SourceTime = new DateTimeOffset(2199, 12, 31, 23, 59, 59, TimeSpan.Zero) },
        ];
        Assert.Equal(3, AppendBatch.Prepare([new AppendRequest(entries)]).Ids.Count);
    }
}
