// SPDX-License-Identifier: Apache-2.0
using System.Xml.Linq;

namespace Heatwright.Architecture.Tests;

/// <summary>Arrows point down only, in what the project files allow: caught before any code uses it.</summary>
public sealed class ProjectFileTests
{
    private static readonly string[] Projects = [.. Repository.Files.Where(f => f.EndsWith(".csproj", StringComparison.Ordinal))];

    [Theory]
    [MemberData(nameof(Rooms.Names), MemberType = typeof(Rooms))]
    public void Room_references_only_the_rooms_and_packages_allowed_to_it(string name)
    {
        Room room = Rooms.Named(name);
        string project = $"src/{name}/{name}.csproj";
        Assert.Contains(project, Projects);
        Offenders.None(References(project, "ProjectReference").Select(r => Path.GetFileNameWithoutExtension(r)!).Except(room.MayUse));
        Offenders.None(References(project, "PackageReference").Except(room.Packages));
    }

    [Fact]
    public void Every_room_is_in_the_table() =>
        Assert.Equal(
            Rooms.All.Select(r => $"src/{r.Name}/{r.Name}.csproj").Order(StringComparer.Ordinal),
            Projects.Where(p => p.StartsWith("src/", StringComparison.Ordinal)));

    [Fact]
    public void Nothing_under_src_references_tests_or_bench() =>
        Assert.All(
            Projects.Where(p => p.StartsWith("src/", StringComparison.Ordinal)).SelectMany(p => References(p, "ProjectReference")),
            r => Assert.DoesNotMatch("(tests|bench)[/\\\\]", r));

    [Fact]
    public void Every_room_has_a_test_project() =>
        Assert.All(Rooms.All, r => Assert.Contains($"tests/{r.Name}.Tests/{r.Name}.Tests.csproj", Projects));

    [Fact]
    public void Every_project_is_in_the_solution_and_has_a_lock_file()
    {
        string[] listed = [.. XDocument.Parse(Repository.Read("Heatwright.slnx")).Descendants("Project").Select(p => (string)p.Attribute("Path")!)];
        Assert.Equal(Projects, listed.Order(StringComparer.Ordinal));
        Assert.All(Projects, p => Assert.Contains(Path.GetDirectoryName(p)!.Replace('\\', '/') + "/packages.lock.json", Repository.Files));
    }

    [Fact]
    public void Versions_stand_in_one_place() =>
        Assert.All(Projects, p => Assert.DoesNotContain(Xml(p).Descendants("PackageReference"), r => r.Attribute("Version") is not null));

    private static IEnumerable<string> References(string project, string kind) =>
        Xml(project).Descendants(kind).Select(r => ((string)r.Attribute("Include")!).Replace('\\', '/'));

    private static XDocument Xml(string file) => XDocument.Parse(Repository.Read(file));
}
