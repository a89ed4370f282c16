// SPDX-License-Identifier: Apache-2.0
using System.Text;
using Heatwright.Shop.Files;

namespace Heatwright.Shop.Tests;

public sealed class WholeFileTests
{
    private const string Heat = "heats/ordinary.yaml";

    private static readonly (string Name, byte[] Bytes, string Code, int Line)[] Cases =
    [
        ("empty", [], ProblemCode.EmptyFile, 0),
        ("blank lines", "\n\n  \n"u8.ToArray(), ProblemCode.EmptyFile, 0),
        ("comments only", "# kind: heat\n# format: 1\n"u8.ToArray(), ProblemCode.EmptyFile, 0),
        ("document mark only", "---\n"u8.ToArray(), ProblemCode.MissingValue, 2),
        ("a list", "- kind: heat\n"u8.ToArray(), ProblemCode.WrongShape, 1),
        ("a word", "heat\n"u8.ToArray(), ProblemCode.WrongShape, 1),
        ("a picture", [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A], ProblemCode.NotText, 1),
        ("Latin-1", Encoding.Latin1.GetBytes("kind: heat\nhotMetal: {temperature: 1350 °C}\n"), ProblemCode.NotText, 2),
        ("a zero byte", "kind: heat\nformat: \0\n"u8.ToArray(), ProblemCode.NotText, 2),
        ("more than a megabyte", new byte[NodeReader.MaxBytes + 1], ProblemCode.FileTooLarge, 0),
        ("a megabyte of open brackets", Encoding.ASCII.GetBytes("kind: " + new string('[', 1_000_000)), ProblemCode.TooDeep, 1),
        ("deep blocks", Encoding.ASCII.GetBytes(Deep(40)), ProblemCode.TooDeep, 32),
        ("alias bomb", Encoding.ASCII.GetBytes(Bomb()), ProblemCode.TooManyValues, 6),
        ("alias of itself", "kind: &a [*a]\n"u8.ToArray(), ProblemCode.UnknownAlias, 1),
        ("many values", Encoding.ASCII.GetBytes("kind: [" + string.Concat(Enumerable.Repeat("1,", 30_000)) + "]"), ProblemCode.TooManyValues, 1),
        ("a list as key", "? [a, b]\n: heat\n"u8.ToArray(), ProblemCode.KeyNotText, 1),
        ("a custom tag", "kind: !system.object {a: b}\n"u8.ToArray(), ProblemCode.TagNotAllowed, 1),
        ("hundreds of unknown fields", Encoding.ASCII.GetBytes("kind: heat\n" + string.Concat(Enumerable.Range(0, 500).Select(i => $"f{i}: 1\n"))),
            ProblemCode.MoreProblems, int.MaxValue),
        ("text too long", Encoding.ASCII.GetBytes("kind: heat\nheat: " + new string('x', 5000) + "\n"), ProblemCode.BadName, 2),
        ("cut off in a bracket", "kind: heat\nhotMetal: {temperature: 1350\n"u8.ToArray(), ProblemCode.NotYaml, 3),
    ];

    /// <summary>Codes told here or in the tests of files on disk.</summary>
    public static IEnumerable<string> Codes => Cases.Select(c => c.Code)
        .Concat([ProblemCode.FileMissing, ProblemCode.FileUnreadable, ProblemCode.DuplicateName]);

    public static TheoryData<int, string> Rows
    {
        get
        {
            var data = new TheoryData<int, string>();
            for (int i = 0; i < Cases.Length; i++)
            {
                data.Add(i, Cases[i].Name);
            }

            return data;
        }
    }

    [Theory]
    [MemberData(nameof(Rows))]
    public void A_spoilt_file_is_refused_with_a_mend(int row, string name)
    {
        (string _, byte[] bytes, string code, int line) = Cases[row];

        IReadOnlyList<Problem> problems = Example.Check(Heat, bytes);

        Problem? problem = problems.FirstOrDefault(p => p.Code == code);
        Assert.True(problem is not null, $"{name}: {string.Join(Environment.NewLine, problems.Take(3))}");
        Assert.Equal(line, problem.Line);
        Assert.NotEmpty(problem.Mend);
        Assert.True(problems.Count <= Reading.MaxProblems + 1);
    }

    [Theory]
    [InlineData("heats/ordinary.yaml")]
    [InlineData("plant.yaml")]
    [InlineData("practices/ordinary.yaml")]
    public void A_file_cut_off_before_its_last_required_field_is_refused(string file)
    {
        byte[] whole = Example.Bytes(file);

        // The second half of each of these files holds required fields.
        for (int length = 0; length < whole.Length / 2; length += 7)
        {
            Assert.NotEmpty(Example.Check(file, whole.AsSpan(0, length)));
        }
    }

    [Fact]
    public void Byte_order_mark_and_Windows_line_ends_are_accepted()
    {
        byte[] bytes = [0xEF, 0xBB, 0xBF, .. Encoding.UTF8.GetBytes(Example.Text(Heat).Replace("\n", "\r\n", StringComparison.Ordinal))];

        Assert.Empty(Example.Check(Heat, bytes));
    }

    [Fact]
    public void A_reused_block_is_told_once()
    {
        string text = Example.Text("plant.yaml").Replace("CaO: 46 %", "CaO: 64 %", StringComparison.Ordinal);

        Problem problem = Assert.Single(Example.Check("plant.yaml", text));

        Assert.Equal(ProblemCode.MassPercentOver100, problem.Code);
    }

    private static string Deep(int levels) =>
        string.Concat(Enumerable.Range(0, levels).Select(i => new string(' ', i) + "a:\n"));

    private static string Bomb() =>
        "a: &a [x,x,x,x,x,x,x,x,x,x]\n"
        + "b: &b [*a,*a,*a,*a,*a,*a,*a,*a,*a,*a]\n"
        + "c: &c [*b,*b,*b,*b,*b,*b,*b,*b,*b,*b]\n"
        + "d: &d [*c,*c,*c,*c,*c,*c,*c,*c,*c,*c]\n"
        + "e: &e [*a]\n"
        + "f: &f [*d,*d,*d,*d,*d,*d,*d,*d,*d,*d]\n";
}
