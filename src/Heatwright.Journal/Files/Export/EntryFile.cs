// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using System.Text;
using System.Text.Json;
using Heatwright.Journal.Entries;
using Heatwright.Shop.Files;

namespace Heatwright.Journal.Files.Export;

/// <summary>
/// Reads the JSON that <see cref="EntryExport"/> writes, one entry after the other. A hash covers the entry before as well, so that it
/// can be checked only where that one stands in the file: in an export of all entries everywhere, in one of some heats or without
/// signal blocks not behind a gap. What could not be checked is told.
/// </summary>
public static class EntryFile
{
    private const int LongestLine = 128 * 1024 * 1024;

    /// <summary>The entries, exactly as they stood.</summary>
    /// <param name="path">The file.</param>
    /// <param name="uncheckedEntry">Told the sequence of each entry whose hash could not be checked, because the entry before it is not in the file.</param>
    /// <exception cref="FileRefusedException">The file is no such export, or an entry that can be checked was changed since.</exception>
    public static IEnumerable<Entry> Read(string path, Action<long>? uncheckedEntry = null)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        using StreamReader reader = Open(path);
        ReadFirstLine(reader, path);

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
            // Written out, for a bare null would become an empty hash, which fits nothing.
            ReadOnlyMemory<byte>? previous = entry.Sequence == 1 ? EntryHash.Origin : before is { } b && b.Sequence + 1 == entry.Sequence ? b.Hash : default(ReadOnlyMemory<byte>?);
            if (previous is null)
            {
                uncheckedEntry?.Invoke(entry.Sequence);
            }
            else if (previous is { } p && !EntryHash.Of(p.Span, entry).AsSpan().SequenceEqual(entry.Hash.Span))
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

    /// <summary>The end of the journal that the file was exported from, as <see cref="Store.JournalHead"/> writes it.</summary>
    internal static string Head(string path)
    {
        using StreamReader reader = Open(path);
        string line = ReadFirstLine(reader, path);
        try
        {
            using var about = JsonDocument.Parse(line + "]}");
            return about.RootElement.GetProperty("head").GetString() ?? "";
        }
        catch (Exception e) when (e is JsonException or KeyNotFoundException or InvalidOperationException)
        {
            throw Refused(path, 1, "The first line does not say which journal this is of: " + e.Message.TrimEnd('.') + ".", "give the file as it was exported");
        }
    }

    private static string ReadFirstLine(StreamReader reader, string path)
    {
        string? line = ReadLine(reader, path, 1);
        return line is not null && line.StartsWith("{\"layout\":\"" + EntryExport.Layout + "\"", StringComparison.Ordinal) && line.EndsWith("\"entries\":[", StringComparison.Ordinal)
            ? line
            : throw Refused(path, 1, "This is no export of entries, or it was written anew by another program.", "give the file as it was exported");
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
        e.GetProperty(name).GetString()!, OwnLayout.TimeFormat, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal);

    private static FileRefusedException Refused(string path, int line, string message, string mend) =>
        FileRefusedException.Of(TableProblem.NotATable, path, message, mend, null, line);
}
