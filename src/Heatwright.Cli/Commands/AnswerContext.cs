// SPDX-License-Identifier: Apache-2.0
using System.Reflection;
using System.Text.Json;
using Heatwright.Cli.Output;
using Heatwright.Shop;

namespace Heatwright.Cli.Commands;

/// <summary>What every answer names at its head, so that it can be had again.</summary>
internal sealed record AnswerContext(Works Works, Heat Heat, string Source, int Seed, int Members)
{
    public static string Version { get; } =
        typeof(AnswerContext).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion.Split('+')[0] ?? "0";

    public void Head(Sheet sheet)
    {
        sheet.Title($"Heat {Heat.Id}{(Heat.Title is { } title ? ": " + title : "")}");
        sheet.Words(
            $"{Works.Plant.Name}, converter {Heat.Converter.Id}; grade {Heat.Order.Grade.Id}, {Numbers.Fixed(Heat.Order.TappedMassKg / 1000, 0)} t; practice {Heat.Practice.Id} v{Heat.Practice.Version}.");
        sheet.Words($"Works: {Source}. Ensemble: {Members} members, seed {Seed}.");
    }

    public void Json(Utf8JsonWriter json, string format)
    {
        json.Value("format", format).Value("version", Version);
        json.Object("heat", () =>
        {
            json.Value("id", Heat.Id).Value("title", Heat.Title).Value("converter", Heat.Converter.Id);
            json.Value("practice", Heat.Practice.Id).Value("grade", Heat.Order.Grade.Id).Value("tappedMassKg", Heat.Order.TappedMassKg);
        });
        json.Object("works", () => json.Value("name", Works.Plant.Name).Value("source", Source));
        json.Object("ensemble", () =>
        {
            json.WriteNumber("members", Members);
            json.WriteNumber("seed", Seed);
        });
    }
}
