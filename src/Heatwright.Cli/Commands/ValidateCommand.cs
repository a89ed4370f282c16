// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;
using System.Text;
using Heatwright.Cli.Input;
using Heatwright.Cli.Output;
using Heatwright.Journal.Files.Mapping;
using Heatwright.Shop;
using Heatwright.Shop.Files;

namespace Heatwright.Cli.Commands;

/// <summary><c>heatwright validate</c>: every problem of every file at once.</summary>
internal static class ValidateCommand
{
    public static readonly string[] Examples =
    [
        "heatwright validate examples/heats/ordinary.yaml",
        "heatwright validate examples/plant.yaml examples/practices/*.yaml --json",
        "heatwright validate examples/heats/ordinary.yaml --materials examples/materials.yaml",
    ];

    private const string Mapping = "mapping";

    public static Command Create()
    {
        var files = new Argument<string[]>("FILE")
        {
            Description = "Files of any kind: plant, materials, grades, practice, heat, mapping. A heat is checked against its works too.",
            Arity = ArgumentArity.OneOrMore,
        };
        var works = new WorksOptions();
        var output = new OutputOptions();
        var command = new Command("validate", "Check files and list every problem with its place, limit and mend.") { files };
        works.AddTo(command, withHeat: false);
        output.AddTo(command);
        command.SetAction(parsed => output.Write(parsed, Answer(parsed, parsed.GetValue(files)!, works)));
        return command;
    }

    private static Answer Answer(ParseResult parsed, string[] files, WorksOptions works)
    {
        var problems = new List<Problem>();
        var checkedFiles = new List<(string File, string Kind, int Problems)>();
        foreach (string file in files)
        {
            (string found, IReadOnlyList<Problem> list) = Check(parsed, file, works);
            checkedFiles.Add((file, found, list.Count));

            // A fault of the works shows up once, however many heats stand on it.
            problems.AddRange(list.Where(p => !problems.Contains(p)));
        }

        var sheet = new Sheet();
        foreach ((string file, string found, int count) in checkedFiles)
        {
            sheet.Words($"{file}: {found}, {(count == 0 ? "no problem" : count == 1 ? "1 problem" : $"{count} problems")}");
        }

        foreach (Problem p in problems)
        {
            sheet.Heading(Place(p)).Words(Detail(p));
        }

        return new Answer(
            problems.Count == 0 ? ExitCode.Done : ExitCode.BadInput,
            sheet,
            json =>
            {
                json.Value("format", "heatwright.validate/1");
                json.Array("files", checkedFiles, f =>
                {
                    json.Value("file", f.File).Value("kind", f.Kind);
                    json.WriteNumber("problems", f.Problems);
                });
                json.Array("problems", problems, p =>
                {
                    json.Value("code", p.Code).Value("file", p.File);
                    json.WriteNumber("line", p.Line);
                    json.WriteNumber("column", p.Column);
                    json.Value("field", p.Field).Value("value", p.Value).Value("message", p.Message).Value("limit", p.Limit).Value("mend", p.Mend);
                });
            },
            new CsvTable(
                ["file", "line", "column", "code", "field", "value", "message", "limit", "mend"],
                [.. problems.Select(p => (IReadOnlyList<object>)[p.File, p.Line, p.Column, p.Code, p.Field, p.Value ?? "", p.Message, p.Limit ?? "", p.Mend])]));
    }

    private static (string Kind, IReadOnlyList<Problem> Problems) Check(ParseResult parsed, string file, WorksOptions works)
    {
        string kind = KindOf(file);
        if (kind == Mapping)
        {
            return (kind, MappingFormat.Check(File.ReadAllBytes(file), file));
        }

        if (kind is not ("heat" or "practice"))
        {
            return (kind, ShopLoader.CheckFile(file));
        }

        // A heat and a practice use names that the works gives; without a works only the file itself can be judged.
        Loaded<Works> loaded = works.LoadWorks(parsed, file).Works;
        IReadOnlyList<Problem> own = ShopLoader.CheckFile(file, loaded.Value);
        return (kind, kind == "heat" ? [.. loaded.Problems, .. own] : own);
    }

    // The word after "kind:", to say what was checked; the reader itself complains where it is missing or wrong.
    private static string KindOf(string file)
    {
        byte[] start = new byte[4096];
        try
        {
            using FileStream stream = File.OpenRead(file);
            int length = stream.ReadAtLeast(start, start.Length, throwOnEndOfStream: false);
            string? line = Encoding.UTF8.GetString(start, 0, length).Split('\n').FirstOrDefault(l => l.StartsWith("kind:", StringComparison.Ordinal));
            string word = line is null ? "" : line["kind:".Length..].Split('#')[0].Trim().Trim('"', '\'');
            return ShopLoader.Kinds.Contains(word) || word == Mapping ? word : "unknown kind";
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return "unknown kind";
        }
    }

    private static string Place(Problem p) => p.Line > 0 ? $"{p.File}:{p.Line}:{p.Column}" : p.File;

    private static string Detail(Problem p)
    {
        var text = new StringBuilder();
        if (p.Field.Length > 0)
        {
            text.AppendLine($"  field  {p.Field}");
        }

        if (p.Value is not null)
        {
            text.AppendLine($"  value  {p.Value}");
        }

        text.AppendLine($"  wrong  {p.Message}");
        if (p.Limit is not null)
        {
            text.AppendLine($"  limit  {p.Limit}");
        }

        return text.Append($"  mend   {p.Mend}  [{p.Code}]").ToString();
    }
}
