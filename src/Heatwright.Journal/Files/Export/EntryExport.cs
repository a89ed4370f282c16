// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using System.Text;
using System.Text.Json;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;

namespace Heatwright.Journal.Files.Export;

/// <summary>
/// Writes entries exactly as they stand: JSON with each body's own bytes, ids and hashes, from which an equal journal can be made; or
/// CSV, XLSX and Parquet with one row for each entry, the body in a column.
/// </summary>
public static class EntryExport
{
    internal const string Layout = "heatwright entries 1";


    private static readonly SinkColumn[] Columns =
    [
        new("sequence", SinkKind.Whole, "", "place in the journal"),
        new("id", SinkKind.Text, "", "id that the writer chose"),
        new("heat", SinkKind.Text, "", "heat number, empty for what belongs to no heat"),
        new("heat version", SinkKind.Whole, "", "place among the heat's entries"),
        new("kind", SinkKind.Text, "", "kind of the entry"),
        new("schema version", SinkKind.Whole, "", "version of the body's layout"),
        new("source time [UTC]", SinkKind.Time, "", "when it was so"),
        new("arrival time [UTC]", SinkKind.Time, "", "when the journal took it"),
        new("actor", SinkKind.Text, "", "who says it"),
        new("reason", SinkKind.Text, "", "why"),
        new("body", SinkKind.Text, "", "JSON, units in the names (Kg, K, Percent by mass, Nm3 at 0 °C and 101.325 kPa); signal blocks in base64"),
        new("hash", SinkKind.Text, "", "SHA-256 over the hash before and all of the above"),
    ];

    /// <summary>Writes entries.</summary>
    /// <param name="store">The journal; what is written to it meanwhile is left out.</param>
    /// <param name="path">The file.</param>
    /// <param name="format">Its kind.</param>
    /// <param name="options">Which heats (null: every entry, also of no heat), and what to say of them.</param>
    /// <exception cref="FileRefusedException">The file cannot be written, or cannot hold a text.</exception>
    /// <exception cref="JournalException">The journal cannot be read.</exception>
    public static ExportOutcome Write(IJournalStore store, string path, ExportFormat format, ExportOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(store);
        options ??= new ExportOptions();
        JournalHead head = store.Head();
        var about = new ExportAbout("entries as they stand", store.Place, head.ToString(), options.Clock.GetUtcNow(), options.Filter, options.Program);
        return ExportFile.Write(path, options.Replace, stream =>
        {
            int rows = 0;
            int leftOut = 0;
            IEnumerable<Entry> Taken()
            {
                foreach (Entry e in Entries(store, options.Heats, head.Sequence))
                {
                    bool taken = !(options.LeaveSignalsOut && e.Kind == EntryKind.SignalBlock);
                    rows += taken ? 1 : 0;
                    leftOut += taken ? 0 : 1;
                    if (taken)
                    {
                        yield return e;
                    }
                }
            }

            if (format == ExportFormat.Json)
            {
                WriteJson(stream, Taken(), about);
            }
            else
            {
                using var sink = TableSink.Create(format, stream, "entries", Columns, about, Layout);
                foreach (Entry e in Taken())
                {
                    sink.Row(Cells(e), "entry " + e.Sequence.ToString(CultureInfo.InvariantCulture));
                }

                sink.Finish();
            }

            return new ExportOutcome(rows, Columns.Length, leftOut, head.ToString());
        });
    }

    private static IEnumerable<Entry> Entries(IJournalStore store, IReadOnlyList<string>? heats, long upTo) => heats is null
        ? store.Read().TakeWhile(e => e.Sequence <= upTo)
        : heats.SelectMany(h => store.ReadHeat(h)).Where(e => e.Sequence <= upTo);

    private static SinkCell[] Cells(Entry e)
    {
        static SinkCell Text(string text) => text.Length == 0 ? SinkCell.None : SinkCell.Of(text);
        return
        [
            SinkCell.Of(e.Sequence), SinkCell.Of(e.Id.ToString()), Text(e.Heat), SinkCell.Of(e.HeatVersion), SinkCell.Of(e.Kind.Name()), SinkCell.Of(e.SchemaVersion),
            SinkCell.Of(e.SourceTime), SinkCell.Of(e.ArrivalTime), Text(e.Actor), Text(e.Reason), Text(BodyText(e)), SinkCell.Of(Convert.ToHexStringLower(e.Hash.Span)),
        ];
    }

    private static string BodyText(Entry e) =>
        e.Kind == EntryKind.SignalBlock ? Convert.ToBase64String(e.BodyBytes.Span) : Encoding.UTF8.GetString(e.BodyBytes.Span);

    // One entry to the line: the whole is one JSON object, and can be read line by line.
    private static void WriteJson(Stream stream, IEnumerable<Entry> entries, ExportAbout about)
    {
        using (var head = new MemoryStream())
        {
            using (var json = new Utf8JsonWriter(head, new JsonWriterOptions { Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping }))
            {
                json.WriteStartObject();
                json.WriteString("layout", Layout);
                json.WriteString("units", Columns[10].Meaning);
                foreach ((string key, string value) in about.Lines())
                {
                    json.WriteString(key, value);
                }

                json.WriteEndObject();
            }

            stream.Write(head.GetBuffer().AsSpan(0, (int)head.Length - 1));
            stream.Write(",\"entries\":[\n"u8);
        }

        using var line = new MemoryStream();
        bool first = true;
        foreach (Entry e in entries)
        {
            stream.Write(first ? ""u8 : ",\n"u8);
            first = false;
            line.SetLength(0);
            using (var json = new Utf8JsonWriter(line, new JsonWriterOptions { Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping }))
            {
                WriteEntry(json, e);
            }

            stream.Write(line.GetBuffer().AsSpan(0, (int)line.Length));
        }

        stream.Write("\n]}\n"u8);
    }

    private static void WriteEntry(Utf8JsonWriter json, Entry e)
    {
        json.WriteStartObject();
        json.WriteNumber("sequence", e.Sequence);
        json.WriteString("id", e.Id);
        json.WriteString("heat", e.Heat);
        json.WriteNumber("heatVersion", e.HeatVersion);
        json.WriteString("kind", e.Kind.Name());
        json.WriteNumber("schemaVersion", e.SchemaVersion);
        json.WriteString("sourceTime", e.SourceTime.UtcDateTime.ToString(OwnLayout.TimeFormat, CultureInfo.InvariantCulture));
        json.WriteString("arrivalTime", e.ArrivalTime.UtcDateTime.ToString(OwnLayout.TimeFormat, CultureInfo.InvariantCulture));
        json.WriteString("actor", e.Actor);
        json.WriteString("reason", e.Reason);
        if (e.Kind == EntryKind.SignalBlock)
        {
            json.WriteBase64String("body", e.BodyBytes.Span);
        }
        else
        {
            // The body's own bytes: the hash covers them.
            json.WritePropertyName("body");
            json.WriteRawValue(e.BodyBytes.Span);
        }

        json.WriteString("hash", Convert.ToHexStringLower(e.Hash.Span));
        json.WriteEndObject();
    }
}
