// SPDX-License-Identifier: Apache-2.0
using Heatwright.Shop.Files;

namespace Heatwright.Shop.Tests;

public sealed class LoaderTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("heatwright-shop-").FullName;

    public LoaderTests()
    {
        foreach (string file in Example.Files)
        {
            string path = Path.Combine(_folder, file);
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            File.WriteAllBytes(path, Example.Bytes(file));
        }
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void A_folder_gives_the_same_works_as_the_files_inside_the_program()
    {
        Works works = ShopLoader.LoadWorks(_folder).ValueOrThrow();
        Works demo = ShopLoader.DemonstrationWorks;

        Assert.Equal(_folder, works.Source);
        Assert.Equal(demo.Grades.Keys, works.Grades.Keys);
        Assert.Equal(demo.Practices.Keys, works.Practices.Keys);
        Assert.Equal(demo.Plant.Measurement, works.Plant.Measurement);
        Assert.Equal(demo.Plant.Converters["North"].Vessel, works.Plant.Converters["North"].Vessel);
    }

    [Fact]
    public void A_heat_finds_its_works_in_the_folder_above()
    {
        string heat = Path.Combine(_folder, "heats", "ordinary.yaml");

        Works works = ShopLoader.LoadWorksFor(heat).ValueOrThrow();

        Assert.Equal(_folder, works.Source);
        Assert.Equal("L-1001", ShopLoader.LoadHeat(heat, works).ValueOrThrow().Id);
    }

    [Fact]
    public void A_heat_without_a_works_around_it_uses_the_demonstration()
    {
        string lonely = Directory.CreateTempSubdirectory("heatwright-heat-").FullName;
        try
        {
            string deep = Path.Combine(lonely, "a", "b", "c", "d", "e", "f");
            Directory.CreateDirectory(deep);
            Assert.Equal(ShopLoader.Demonstration, ShopLoader.LoadWorksFor(Path.Combine(deep, "heat.yaml")).ValueOrThrow().Source);
        }
        finally
        {
            Directory.Delete(lonely, recursive: true);
        }
    }

    [Fact]
    public void Problems_of_several_files_are_told_together()
    {
        File.Delete(Path.Combine(_folder, "grades.yaml"));
        Replace("plant.yaml", "count: 6", "count: six");
        Replace("practices/ordinary.yaml", "material: dolomitic-lime", "material: dolomite-lime");

        Loaded<Works> loaded = ShopLoader.LoadWorks(_folder);

        Assert.Null(loaded.Value);
        Assert.Contains(loaded.Problems, p => p.Code == ProblemCode.FileMissing && p.File.EndsWith("grades.yaml", StringComparison.Ordinal));
        Assert.Contains(loaded.Problems, p => p.Code == ProblemCode.NotANumber && p.Field == "converters.North.lance.count");
        Assert.Contains(loaded.Problems, p => p.Code == ProblemCode.UnknownAddition && p.Mend == "write dolomitic-lime");
        ShopFileException thrown = Assert.Throws<ShopFileException>(() => loaded.ValueOrThrow());
        Assert.Equal(loaded.Problems, thrown.Problems);
    }

    [Fact]
    public void Two_practices_of_one_name_are_refused()
    {
        File.Copy(Path.Combine(_folder, "practices", "ordinary.yaml"), Path.Combine(_folder, "practices", "other.yaml"));

        Problem problem = Assert.Single(ShopLoader.LoadWorks(_folder).Problems);

        Assert.Equal((ProblemCode.DuplicateName, "ordinary"), (problem.Code, problem.Value));
    }

    [Fact]
    public void A_folder_without_practices_is_refused()
    {
        Directory.Delete(Path.Combine(_folder, "practices"), recursive: true);

        Problem problem = Assert.Single(ShopLoader.LoadWorks(_folder).Problems);

        Assert.Equal(ProblemCode.FileMissing, problem.Code);
    }

    [Fact]
    public void A_missing_heat_and_a_folder_in_its_place_are_told_apart()
    {
        Works works = ShopLoader.DemonstrationWorks;

        Assert.Equal(ProblemCode.FileMissing, Assert.Single(ShopLoader.LoadHeat(Path.Combine(_folder, "none.yaml"), works).Problems).Code);
        Assert.Equal(ProblemCode.FileUnreadable, Assert.Single(ShopLoader.LoadHeat(Path.Combine(_folder, "heats"), works).Problems).Code);
        Assert.Equal(ProblemCode.FileMissing, Assert.Single(ShopLoader.LoadDemonstrationHeat("heats/none.yaml").Problems).Code);
    }

    [Fact]
    public void A_file_is_checked_as_what_it_says_it_is()
    {
        Assert.All(Example.Files, f => Assert.Empty(ShopLoader.CheckFile(Path.Combine(_folder, f), ShopLoader.DemonstrationWorks)));

        Replace("plant.yaml", "innerDiameter: 5.3 m", "innerDiameter: 5.3");
        Problem problem = Assert.Single(ShopLoader.CheckFile(Path.Combine(_folder, "plant.yaml")));
        Assert.Equal(ProblemCode.MissingUnit, problem.Code);
    }

    [Theory]
    [InlineData("kind: heats\n", ProblemCode.WrongFileKind, 1, "write kind: heat")]
    [InlineData("\nheat: L-1\n", ProblemCode.MissingField, 2, "write kind: and one of plant, materials, grades, practice, heat")]
    [InlineData("- a\n", ProblemCode.MissingField, 1, "write kind: and one of plant, materials, grades, practice, heat")]
    public void A_file_that_does_not_say_what_it_is_is_refused(string text, string code, int line, string mend)
    {
        string path = Path.Combine(_folder, "some.yaml");
        File.WriteAllText(path, text);

        Problem problem = Assert.Single(ShopLoader.CheckFile(path));

        Assert.Equal((code, line, mend), (problem.Code, problem.Line, problem.Mend));
    }

    private void Replace(string file, string old, string text)
    {
        string path = Path.Combine(_folder, file);
        string content = File.ReadAllText(path);
        Assert.Contains(old, content, StringComparison.Ordinal);
        File.WriteAllText(path, content.Replace(old, text, StringComparison.Ordinal));
    }
}
