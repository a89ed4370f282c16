// SPDX-License-Identifier: Apache-2.0
using System.Text.Json;
using Heatwright.Cli.Output;
using Heatwright.Journal.Entries;

namespace Heatwright.Cli.Commands;

/// <summary>Entries in the JSON of answers.</summary>
internal static class EntryJsonText
{
    /// <summary>The properties of an entry; the body as it is stored, signals by their length only.</summary>
    public static void Write(Utf8JsonWriter json, Entry entry)
    {
        json.WriteNumber("sequence", entry.Sequence);
        json.Value("id", entry.Id.ToString()).Value("heat", entry.Heat);
        json.WriteNumber("heatVersion", entry.HeatVersion);
        json.Value("kind", entry.Kind.Name());
        json.Value("sourceTime", Times.Utc(entry.SourceTime)).Value("arrivalTime", Times.Utc(entry.ArrivalTime));
        json.Value("actor", entry.Actor).Value("reason", entry.Reason);
        if (entry.Kind == EntryKind.SignalBlock)
        {
            json.WriteNumber("packedBytes", entry.BodyBytes.Length);
        }
        else
        {
            json.WritePropertyName("body");
            json.WriteRawValue(entry.BodyBytes.Span);
        }

        json.Value("hash", Convert.ToHexStringLower(entry.Hash.Span));
    }
}
