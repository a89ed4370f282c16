// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;
using System.Text;
using Heatwright.Cli.Input;
using Heatwright.Cli.Output;
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
        "heatwright validate my-heat.yaml --materials my-materials.yaml",
    ];

    public static Command Create()
    {
        var files = new Argument<string[]>("FILE")
        {
            Description = "Files of any kind: plant, materials, grades, practice, heat. A heat is checked against its works too.",
            Arity = ArgumentArity.OneOrMore,
        };
        var kind = new Option<string?>("--kind") { Description = "Kind of file, for those that do not say it in 'kind:'.", HelpName = string.Join("|", ShopLoader.Kinds) };
        kind.AcceptOnlyFromAmong([.. ShopLoader.Kinds]);
        var works = new WorksOptions();
        var output = new OutputOptions();
        var command = new Command("validate", "Check files and list every problem with its place, limit and mend.") { files, kind };
        works.AddTo(command, withHeat: false);
        output.AddTo(command);
        command.SetAction(parsed => output.Write(parsed, Answer(parsed, parsed.GetValue(files)!, parsed.GetValue(kind), works)));
        return command;
    }

    private static Answer Answer(ParseResult parsed, string[] files, string? kind, WorksOptions works)
    {
        var problems = new List<Problem>();
        var checkedFiles = new List<(string File, string Kind, int Problems)>();
        foreach (string file in files)
        {
            (string found, IReadOnlyList<Problem> list) = Check(parsed, file, kind, works);
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

    private static (string Kind, IReadOnlyList<Problem> Problems) Check(ParseResult parsed, string file, string? kind, WorksOptions works)
    {
        byte[] bytes;
        try
        {
            bytes = ReadAtMost(file);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            string code = e is FileNotFoundException or DirectoryNotFoundException ? ProblemCode.FileMissing : ProblemCode.FileUnreadable;
            string message = code == ProblemCode.FileMissing ? "The file is not there." : "The file cannot be read.";
            return ("unknown kind", [new Problem(code, file, 0, 0, "", null, message, null, "check the name and that it is a file that may be read")]);
        }

        string found = kind ?? KindOf(bytes) ?? "heat";
        if (found != "heat")
        {
            Works? names = found == "practice" ? works.LoadWorks(parsed, file).Works.Value : null;
            return (found, ShopLoader.Check(found, bytes, file, names));
        }

        Loaded<Works> loaded = works.LoadWorks(parsed, file).Works;
        return (found, loaded.Value is null ? [.. loaded.Problems, .. ShopLoader.Check(found, bytes, file)] : ShopLoader.Check(found, bytes, file, loaded.Value));
    }

    // One byte more than any kind of file may have: enough for the reader to refuse it, whatever the size of the file or device.
    private static byte[] ReadAtMost(string file)
    {
        using FileStream stream = File.OpenRead(file);
        byte[] buffer = new byte[(4 * 1024 * 1024) + 1];
        return buffer[..stream.ReadAtLeast(buffer, buffer.Length, throwOnEndOfStream: false)];
    }

    // The first line "kind: word"; the reader itself complains where it is missing or wrong.
    private static string? KindOf(byte[] bytes)
    {
        foreach (string line in Encoding.UTF8.GetString(bytes, 0, Math.Min(bytes.Length, 4096)).Split('\n'))
        {
            if (line.StartsWith("kind:", StringComparison.Ordinal))
            {
                string word = line["kind:".Length..].Split('#')[0].Trim().Trim('"', '\'');
                return ShopLoader.Kinds.Contains(word) ? word : null;
            }
        }

        return null;
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
