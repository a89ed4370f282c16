// SPDX-License-Identifier: Apache-2.0
using Heatwright.Shop.Files;

namespace Heatwright.Shop.Tests;

public class WorksCopyTests
{
    [Fact]
    public void A_works_reads_back_from_the_texts_it_was_read_from()
    {
        Works works = ShopLoader.DemonstrationWorks;
        Assert.Contains("plant.yaml", works.Files.Keys);
        Assert.Contains("practices/ordinary.yaml", works.Files.Keys);
        Works copy = ShopLoader.LoadWorks(works.Files, "copy").ValueOrThrow();
        Assert.Equal(works.Files, copy.Files);
        Assert.Equal(works.Plant.Converters.Keys, copy.Plant.Converters.Keys);
        Assert.Equal(works.Materials.Scrap["heavy"].Account, copy.Materials.Scrap["heavy"].Account);
        Assert.Equal(works.Practices.Keys, copy.Practices.Keys);
    }

    [Fact]
    public void A_copy_without_its_plant_says_so()
    {
        Loaded<Works> loaded = ShopLoader.LoadWorks(new Dictionary<string, string> { ["grades.yaml"] = "kind: grades" }, "copy of 2026-03-01");
        Assert.Null(loaded.Value);
        Problem problem = loaded.Problems.First(p => p.File == "copy of 2026-03-01:plant.yaml");
        Assert.Equal(ProblemCode.FileMissing, problem.Code);
    }
}
