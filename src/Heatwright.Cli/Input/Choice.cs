// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;
using System.CommandLine.Parsing;
using Heatwright.Journal.Entries;

namespace Heatwright.Cli.Input;

/// <summary>A word of a closed list, written with hyphens: hot-metal for HotMetal.</summary>
internal static class Choice
{
    public static Argument<T> Argument<T>(string name, string description)
        where T : struct, Enum =>
        new(name) { HelpName = name, Description = $"{description} One of {List<T>()}.", CustomParser = result => Parse<T>(result, name) };

    public static Option<T> Option<T>(string name, T fallback, string description)
        where T : struct, Enum =>
        new(name) { Description = $"{description} One of {List<T>()}; default {Word(fallback)}.", HelpName = "WORD", DefaultValueFactory = _ => fallback, CustomParser = result => Parse<T>(result, name) };

    public static string Word<T>(T value)
        where T : struct, Enum =>
        StoredName.Of(value);

    private static string List<T>()
        where T : struct, Enum =>
        string.Join(", ", Enum.GetValues<T>().Select(Word));

    private static T Parse<T>(ArgumentResult result, string name)
        where T : struct, Enum
    {
        string text = result.Tokens.Count == 1 ? result.Tokens[0].Value : "";
        foreach (T value in Enum.GetValues<T>())
        {
            if (Word(value) == text)
            {
                return value;
            }
        }

        result.AddError($"{name}: '{text}' is not known. Mend: write one of {List<T>()}.");
        return default;
    }
}
