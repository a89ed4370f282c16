// SPDX-License-Identifier: Apache-2.0
using System.Security.Cryptography;
using System.Text;
using CsCheck;
using Heatwright.Journal.Entries;

namespace Heatwright.Journal.Tests.Entries;

public class EntryHashTests
{
    private static readonly Entry First = new(
        1,
        new Guid("00112233-4455-6677-8899-aabbccddeeff"),
        "L-1001",
        1,
        EntryKind.Note,
        1,
        DateTimeOffset.FromUnixTimeMilliseconds(1_700_000_000_123),
        DateTimeOffset.FromUnixTimeMilliseconds(1_700_000_001_000),
        "person:anna",
        "",
        "{\"text\":\"light-up\"}"u8.ToArray(),
        ReadOnlyMemory<byte>.Empty);

    // The layout of the hashed bytes written out once more, by hand: whoever keeps a journal may check it with other tools.
    [Fact]
    public void The_hash_is_sha256_over_tag_previous_and_length_prefixed_fields()
    {
        var bytes = new List<byte>();
        bytes.AddRange("heatwright entry 1\n"u8);
        bytes.AddRange(new byte[32]);
        Number(1);
        bytes.AddRange(Convert.FromHexString("00112233445566778899AABBCCDDEEFF"));
        Text("L-1001");
        Number(1);
        Text("note");
        Number(1);
        Number(1_700_000_000_123);
        Number(1_700_000_001_000);
        Text("person:anna");
        Text("");
        Text("{\"text\":\"light-up\"}");
        Assert.Equal(SHA256.HashData(bytes.ToArray()), EntryHash.Of(EntryHash.Origin.Span, First));

        void Number(long n)
        {
            for (int shift = 56; shift >= 0; shift -= 8)
            {
                bytes.Add((byte)(n >> shift));
            }
        }

        void Text(string t)
        {
            byte[] utf8 = Encoding.UTF8.GetBytes(t);
            Number(utf8.Length);
            bytes.AddRange(utf8);
        }
    }

    public static TheoryData<string, Entry> Changes() => new()
    {
        { "sequence", First with { Sequence = 2 } },
        { "id", First with { Id = Guid.Empty } },
        { "heat", First with { Heat = "L-1002" } },
        { "heat version", First with { HeatVersion = 2 } },
        { "kind", First with { Kind = EntryKind.Delay } },
        { "schema version", First with { SchemaVersion = 2 } },
        { "source time", First with { SourceTime = First.SourceTime.AddMilliseconds(1) } },
        { "arrival time", First with { ArrivalTime = First.ArrivalTime.AddMilliseconds(1) } },
        { "actor", First with { Actor = "person:anne" } },
        { "reason", First with { Reason = "x" } },
        { "actor moved into reason", First with { Actor = "person:ann", Reason = "a" } },
        { "body", First with { BodyBytes = "{\"text\":\"light-Up\"}"u8.ToArray() } },
    };

    [Theory]
    [MemberData(nameof(Changes))]
    public void Any_change_shows(string what, Entry changed) =>
        Assert.False(EntryHash.Of(EntryHash.Origin.Span, First).AsSpan().SequenceEqual(EntryHash.Of(EntryHash.Origin.Span, changed)), what);

    [Fact]
    public void The_entry_before_is_part_of_it() => Gen.Byte.Array[32].Sample(previous =>
        Assert.False(EntryHash.Of(previous, First).AsSpan().SequenceEqual(EntryHash.Of(EntryHash.Origin.Span, First))));
}
