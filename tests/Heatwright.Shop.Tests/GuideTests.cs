// SPDX-License-Identifier: Apache-2.0
using System.Text;
using Heatwright.Shop.Files;

namespace Heatwright.Shop.Tests;

public sealed class GuideTests
{
    private static readonly string Guide = Read();

    [Fact]
    public void The_tables_of_the_guide_are_those_that_the_loader_follows()
    {
        string renewed = GuideTables.Renew(Guide);
        if (Environment.GetEnvironmentVariable("HEATWRIGHT_WRITE_GUIDE") is { Length: > 0 } path)
        {
            File.WriteAllText(path, renewed);
            return;
        }

        // To renew: HEATWRIGHT_WRITE_GUIDE=$PWD/docs/guide/files.md dotnet run --project tests/Heatwright.Shop.Tests
        Assert.Equal(renewed, Guide);
    }

    [Fact]
    public void The_guide_explains_every_code()
    {
        Assert.All(
            typeof(ProblemCode).GetFields().Select(f => (string)f.GetRawConstantValue()!),
            code => Assert.Contains($"`{code}`", Guide, StringComparison.Ordinal));
    }

    [Fact]
    public void The_heat_in_the_guide_is_a_good_heat()
    {
        int from = Guide.IndexOf("```yaml\nkind: heat", StringComparison.Ordinal) + "```yaml\n".Length;
        string heat = Guide[from..Guide.IndexOf("```", from, StringComparison.Ordinal)];

        Assert.Empty(ShopLoader.ReadHeat(Encoding.UTF8.GetBytes(heat), "guide", ShopLoader.DemonstrationWorks).Problems);
    }

    [Fact]
    public void The_message_in_the_guide_is_what_the_loader_says()
    {
        string text = Example.Text("heats/ordinary.yaml").Replace("Si: 0.45 %", "Si: 0,45 %", StringComparison.Ordinal);

        Assert.Contains(Assert.Single(Example.Check("heats/ordinary.yaml", text)).ToString(), Guide, StringComparison.Ordinal);
    }

    private static string Read()
    {
        using Stream stream = typeof(GuideTests).Assembly.GetManifestResourceStream("files.md")!;
        return new StreamReader(stream).ReadToEnd();
    }
}
