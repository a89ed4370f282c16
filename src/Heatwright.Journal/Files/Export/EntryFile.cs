// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using System.Text;
using System.Text.Json;
using Heatwright.Journal.Entries;
using Heatwright.Shop.Files;

namespace Heatwright.Journal.Files.Export;

/// <summary>
/// Reads the JSON that <see cref="EntryExport"/> writes, one entry after the other. Every hash is checked over the bytes read; where
/// sequences follow each other the chain is checked too.
/// </summary>
public static class EntryFile
{
    private const int LongestLine = 128 * 1024 * 1024;

    /// <summary>The entries, exactly as they stood.</summary>
    /// <exception cref="FileRefusedException">The file is no such export, or was changed since.</exception>
    public static IEnumerable<Entry> Read(string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        using StreamReader reader = Open(path);
        string? head = ReadLine(reader, path, 1);
        if (head is null || !head.StartsWith("{\"layout\":\"" + EntryExport.Layout + "\"", StringComparison.Ordinal) || !head.EndsWith("\"entries\":[", StringComparison.Ordinal))
        {
            throw Refused(path, 1, "This is no export of entries, or it was written anew by another program.", "give the file as it was exported");
        }

        Entry? before = null;
        bool ended = false;
        int line = 1;
        while (ReadLine(reader, path, ++line) is { } text)
        {
            if (text.StartsWith(']'))
            {
                ended = true;
                break;
            }

            if (text.Length == 0)
            {
                continue;
            }

            Entry entry = Parse(path, line, text.TrimEnd(','));
            ReadOnlyMemory<byte>? previous = entry.Sequence == 1 ? EntryHash.Origin : before is { } b && b.Sequence + 1 == entry.Sequence ? b.Hash : null;
            if (previous is { } p && !EntryHash.Of(p.Span, entry).AsSpan().SequenceEqual(entry.Hash.Span))
            {
                throw Refused(path, line, $"Entry {entry.Sequence} is not what was exported: its hash does not fit.", "give the file as it was exported");
            }

            before = entry;
            yield return entry;
        }

        if (!ended)
        {
            throw Refused(path, line, "The file ends before its end: a part is missing.", "copy it again, or export again");
        }
    }

    private static StreamReader Open(string path)
    {
        try
        {
            return new StreamReader(path, new UTF8Encoding(false, throwOnInvalidBytes: true));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw FileRefusedException.Of(ProblemCode.FileUnreadable, path, "The file cannot be read: " + e.Message.TrimEnd('.') + ".", "check the name, the folder and the rights");
        }
    }

    private static string? ReadLine(StreamReader reader, string path, int line)
    {
        try
        {
            var text = new StringBuilder();
            int c;
            while ((c = reader.Read()) >= 0 && c != '\n')
            {
                text.Append((char)c);
                if (text.Length > LongestLine)
                {
                    throw Refused(path, line, "The line is longer than any entry.", "give the file as it was exported");
                }
            }

            return c < 0 && text.Length == 0 ? null : text.ToString().TrimEnd('\r');
        }
        catch (Exception e) when (e is IOException or DecoderFallbackException)
        {
            throw Refused(path, line, "The line cannot be read: " + e.Message.TrimEnd('.') + ".", "copy the file again");
        }
    }

    private static Entry Parse(string path, int line, string text)
    {
        try
        {
            using var document = JsonDocument.Parse(text);
            JsonElement e = document.RootElement;
            if (!EntryKinds.TryParse(e.GetProperty("kind").GetString() ?? "", out EntryKind kind))
            {
                throw Refused(path, line, "The entry is of a kind that this program does not know.", "read it with the program that wrote it, or a later one");
            }

            JsonElement body = e.GetProperty("body");
            return new Entry(
                e.GetProperty("sequence").GetInt64(), e.GetProperty("id").GetGuid(), e.GetProperty("heat").GetString()!, e.GetProperty("heatVersion").GetInt64(), kind,
                e.GetProperty("schemaVersion").GetInt32(), Time(e, "sourceTime"), Time(e, "arrivalTime"), e.GetProperty("actor").GetString()!, e.GetProperty("reason").GetString()!,
                kind == EntryKind.SignalBlock ? body.GetBytesFromBase64() : Encoding.UTF8.GetBytes(body.GetRawText()), Convert.FromHexString(e.GetProperty("hash").GetString()!));
        }
        catch (Exception e) when (e is JsonException or KeyNotFoundException or InvalidOperationException or FormatException or ArgumentException)
        {
            throw Refused(path, line, "The line is no entry: " + e.Message.TrimEnd('.') + ".", "give the file as it was exported");
        }
    }

    private static DateTimeOffset Time(JsonElement e, string name) => DateTimeOffset.ParseExact(
        e.GetProperty(name).GetString()!, EntryExport.TimeFormat, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal);

    private static FileRefusedException Refused(string path, int line, string message, string mend) =>
        FileRefusedException.Of(TableProblem.NotATable, path, message, mend, null, line);
}
