// SPDX-License-Identifier: Apache-2.0
using Heatwright.Shop.Files;

namespace Heatwright.Shop.Tests;

public sealed class BadInputTests
{
    public static TheoryData<int, string> Rows
    {
        get
        {
            var data = new TheoryData<int, string>();
            for (int i = 0; i < BadInputTable.Rows.Count; i++)
            {
                data.Add(i, BadInputTable.Rows[i].ToString());
            }

            return data;
        }
    }

    [Theory]
    [MemberData(nameof(Rows))]
    public void Bad_input_is_named_by_code_line_field_and_mend(int row, string name)
    {
        BadInput bad = BadInputTable.Rows[row];
        string text = bad.Spoilt();

        IReadOnlyList<Problem> problems = Example.Check(bad.File, text);

        string all = $"{name}: {string.Join(Environment.NewLine, problems)}";
        Problem? problem = problems.FirstOrDefault(p => p.Code == bad.Code && p.Field == bad.Field);
        Assert.True(problem is not null, all);
        Assert.Equal(BadInput.LineOf(text, bad.Line), problem.Line);
        Assert.Equal(bad.Mend, problem.Mend);
        Assert.Equal(bad.File, problem.File);
        Assert.True(problem.Column > 0);
    }

    [Fact]
    public void The_table_holds_at_least_fifty_kinds_and_most_codes()
    {
        string[] untold =
        [
            .. typeof(ProblemCode).GetFields().Select(f => (string)f.GetRawConstantValue()!)
                .Except(BadInputTable.Rows.Select(r => r.Code))
                .Except(WholeFileTests.Codes),
        ];

        Assert.True(BadInputTable.Rows.Count >= 50);
        Assert.Empty(untold);
    }

    [Fact]
    public void All_problems_of_a_file_are_told_at_once_in_order_of_line()
    {
        string text = Example.Text("heats/ordinary.yaml")
            .Replace("tappedMass: 160 t", "tappedMass: 160", StringComparison.Ordinal)
            .Replace("Si: 0.45 %", "Si: 0,45 %", StringComparison.Ordinal)
            .Replace("    heavy: 6.7 t", "    hevay: 6.7 t", StringComparison.Ordinal)
            .Replace("  oxygen: 8240 Nm3", "  oxigen: 8240 Nm3", StringComparison.Ordinal);

        IReadOnlyList<Problem> problems = Example.Check("heats/ordinary.yaml", text);

        Assert.Equal(
            ["missing-unit", "comma-in-number", "missing-field", "unknown-scrap-class", "unknown-field"],
            problems.Select(p => p.Code));
        Assert.Equal(problems.Select(p => p.Line).Order(), problems.Select(p => p.Line));
    }

    [Fact]
    public void A_problem_reads_as_one_line_with_place_field_limit_and_mend()
    {
        string text = Example.Text("heats/ordinary.yaml").Replace("  temperature: 1350 °C", "  temperature: 1350", StringComparison.Ordinal);

        Problem problem = Assert.Single(Example.Check("heats/ordinary.yaml", text));

        Assert.Equal(
            "heats/ordinary.yaml:22:16: hotMetal.temperature: temperature has no unit. Allowed: °C or K. Mend: write 1350 °C. [missing-unit]",
            problem.ToString());
        Assert.Equal("1350", problem.Value);
    }
}
