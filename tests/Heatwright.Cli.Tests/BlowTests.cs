// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using System.Text.Json;
using System.Xml.Linq;

namespace Heatwright.Cli.Tests;

public sealed class BlowTests : IDisposable
{
    private const string Ordinary = "examples/heats/ordinary.yaml";
    private readonly Terminal _terminal = new();

    public void Dispose() => _terminal.Dispose();

    [Fact]
    public void Table_of_the_course_is_as_reviewed()
    {
        Ran ran = _terminal.Run("blow", Ordinary, "--every", "25", "--members", "20").Ends(0);
        Golden.Check("blow-course.txt", string.Join('\n', ran.Output.Split('\n').Take(13)) + "\n");
    }

    [Fact]
    public void Says_whose_plant_it_took_and_defers_to_the_crew()
    {
        Ran ran = _terminal.Run("blow", Ordinary, "--members", "20").Ends(0);
        Assert.Contains("Larkmoor Works", ran.Output, StringComparison.Ordinal);
        Assert.Contains("Works: files in examples", ran.Output, StringComparison.Ordinal);
        Assert.Contains("local codes decide", ran.Output.ReplaceLineEndings(" "), StringComparison.Ordinal);
        Assert.Empty(ran.Errors);
    }

    [Fact]
    public void Heat_without_a_works_near_it_uses_the_demonstration_and_says_so()
    {
        string alone = _terminal.Write("alone.yaml", File.ReadAllText(_terminal.File(Ordinary)));
        Ran ran = _terminal.Run("blow", alone, "--members", "20").Ends(0);
        Assert.Contains("the demonstration inside this program", ran.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Piped_output_has_no_escape_codes_and_fits_100_columns()
    {
        Ran ran = _terminal.Run("blow", Ordinary, "--members", "20", "--every", "5").Ends(0);
        Assert.DoesNotContain('\u001b', ran.Output);
        Assert.All(ran.Output.Split('\n'), line => Assert.True(line.Length <= 100, line));
        Assert.All(ran.Output.Split('\n'), line => Assert.Equal(line.TrimEnd(), line));
    }

    [Fact]
    public void Ascii_is_ascii()
    {
        Ran ran = _terminal.Run("blow", Ordinary, "--members", "20", "--ascii").Ends(0);
        Assert.All(ran.Output, c => Assert.InRange(c, '\n', '~'));
        Assert.Contains("deg C", ran.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("ordinary")]
    [InlineData("much-scrap")]
    [InlineData("high-carbon")]
    public void Same_seed_same_bytes_other_seed_other_bands(string heat)
    {
        string[] command = ["blow", $"examples/heats/{heat}.yaml", "--members", "40", "--json", "--seed"];
        string first = _terminal.Run([.. command, "7"]).Ends(0).Output;
        Assert.Equal(first, _terminal.Run([.. command, "7"]).Ends(0).Output);
        Assert.NotEqual(first, _terminal.Run([.. command, "8"]).Ends(0).Output);
    }

    [Fact]
    public void Json_has_units_in_its_names_bands_in_order_and_closed_balances()
    {
        using JsonDocument json = JsonDocument.Parse(_terminal.Run("blow", Ordinary, "--members", "50", "--json").Ends(0).Output);
        JsonElement root = json.RootElement;
        Assert.Equal("heatwright.blow/1", root.GetProperty("format").GetString());
        Assert.Equal(50, root.GetProperty("ensemble").GetProperty("members").GetInt32());
        foreach (JsonProperty quantity in root.GetProperty("end").EnumerateObject())
        {
            double[] band = [.. new[] { "p10", "p50", "p90" }.Select(p => quantity.Value.GetProperty(p).GetDouble())];
            Assert.True(band[0] <= band[1] && band[1] <= band[2], quantity.Name);
        }

        JsonElement temperature = root.GetProperty("end").GetProperty("temperatureC");
        Assert.InRange(temperature.GetProperty("asWritten").GetDouble(), 1500, 1800);
        Assert.Equal(1640, temperature.GetProperty("least").GetDouble(), 1e-6);
        Assert.InRange(root.GetProperty("probability").GetProperty("allLimits").GetDouble(), 0, 1);
        Assert.InRange(Math.Abs(root.GetProperty("balances").GetProperty("worstElementResidual").GetDouble()), 0, 1e-9);
        Assert.InRange(Math.Abs(root.GetProperty("balances").GetProperty("energyResidual").GetDouble()), 0, 1e-9);
    }

    [Fact]
    public void Csv_tells_the_same_course_as_json()
    {
        string[] lines = _terminal.Run("blow", Ordinary, "--members", "20", "--csv").Ends(0).Output.TrimEnd('\n').Split('\n');
        string[] columns = lines[0].Split(',');
        using JsonDocument json = JsonDocument.Parse(_terminal.Run("blow", Ordinary, "--members", "20", "--json").Ends(0).Output);
        JsonElement[] points = [.. json.RootElement.GetProperty("trajectory").EnumerateArray()];
        Assert.Equal(11, points.Length);
        Assert.Equal(points.Length, lines.Length - 1);
        for (int i = 0; i < points.Length; i++)
        {
            string[] cells = lines[i + 1].Split(',');
            Assert.Equal(columns.Length, cells.Length);
            for (int c = 0; c < columns.Length; c++)
            {
                Assert.Equal(points[i].GetProperty(columns[c]).GetDouble(), double.Parse(cells[c], CultureInfo.InvariantCulture), 1e-12);
            }
        }
    }

    [Theory]
    [InlineData("spine")]
    [InlineData("window")]
    [InlineData("account")]
    public void Pictures_are_well_formed_scalable_and_repeatable(string picture)
    {
        byte[][] copies =
        [
            .. new[] { "a", "b" }.Select(name =>
            {
                _terminal.Run("blow", Ordinary, "--members", "30", "--picture", picture, "--svg", name + ".svg", "--png", name + ".png").Ends(0);
                return File.ReadAllBytes(_terminal.File(name + ".svg"));
            }),
        ];
        Assert.Equal(copies[0], copies[1]);
        XElement svg = XDocument.Parse(File.ReadAllText(_terminal.File("a.svg"))).Root!;
        Assert.Equal("svg", svg.Name.LocalName);
        Assert.Equal($"0 0 {(string?)svg.Attribute("width")} {(string?)svg.Attribute("height")}", (string?)svg.Attribute("viewBox"));
        Assert.Equal(new byte[] { 0x89, (byte)'P', (byte)'N', (byte)'G' }, File.ReadAllBytes(_terminal.File("a.png"))[..4]);
    }

    [Fact]
    public void Dark_picture_differs()
    {
        _terminal.Run("blow", Ordinary, "--members", "20", "--svg", "light.svg").Ends(0);
        _terminal.Run("blow", Ordinary, "--members", "20", "--svg", "dark.svg", "--dark").Ends(0);
        Assert.NotEqual(File.ReadAllText(_terminal.File("light.svg")), File.ReadAllText(_terminal.File("dark.svg")));
    }

    [Fact]
    public void Named_files_stand_in_for_those_of_the_works()
    {
        string plant = File.ReadAllText(_terminal.File("examples/plant.yaml")).Replace("name: Larkmoor Works", "name: Another Works", StringComparison.Ordinal);
        Ran ran = _terminal.Run("blow", Ordinary, "--members", "20", "--plant", _terminal.Write("other-plant.yaml", plant)).Ends(0);
        Assert.Contains("Another Works", ran.Output, StringComparison.Ordinal);
        Assert.Contains("other-plant.yaml; the rest: files in examples", ran.Output, StringComparison.Ordinal);
    }
}
