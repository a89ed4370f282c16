// SPDX-License-Identifier: Apache-2.0
using ArchUnitNET.Loader;
using static ArchUnitNET.Fluent.ArchRuleDefinition;

namespace Heatwright.Architecture.Tests;

/// <summary>Arrows point down only, in what was compiled.</summary>
public sealed class ArrowTests
{
    private static readonly ArchUnitNET.Domain.Architecture House =
        new ArchLoader().LoadAssemblies([.. Rooms.All.Select(r => r.Load())]).Build();

    [Theory]
    [MemberData(nameof(Rooms.ForbiddenArrows), MemberType = typeof(Rooms))]
    public void Room_does_not_know_what_stands_above_or_beside_it(string room, string other) =>
        Offenders.None(Violations(room, other));

    /// <summary>The same rule on an arrow that exists must object, or the rule above sees nothing.</summary>
    [Theory]
    [InlineData("Heatwright.Converter", "Heatwright.Chemistry")]
    [InlineData("Heatwright.Optimise", "Heatwright.Converter")]
    public void Rule_sees_an_arrow_that_exists(string room, string below) => Assert.NotEmpty(Violations(room, below));

    [Theory]
    [MemberData(nameof(Rooms.Names), MemberType = typeof(Rooms))]
    public void Assembly_references_only_the_rooms_below_it(string name)
    {
        Room room = Rooms.Named(name);
        string[] allowed = [.. room.MayUse.Select(r => Rooms.Named(r).AssemblyName)];
        Offenders.None(room.Load().GetReferencedAssemblies().Select(a => a.Name!).Intersect(Rooms.All.Select(r => r.AssemblyName)).Except(allowed));
    }

    [Theory]
    [MemberData(nameof(Rooms.PureNames), MemberType = typeof(Rooms))]
    public void Pure_room_references_nothing_but_the_framework_and_pure_rooms(string name) =>
        Assert.All(
            Rooms.Named(name).Load().GetReferencedAssemblies().Select(a => a.Name!),
            a => Assert.True(
                a.StartsWith("System.", StringComparison.Ordinal) || Rooms.Pure.Any(r => r.AssemblyName == a),
                $"{name} references {a}"));

    private static string[] Violations(string room, string other)
    {
        var rule = Types().That().ResideInAssembly(Rooms.Named(room).Load())
            .Should().NotDependOnAny(Types().That().ResideInAssembly(Rooms.Named(other).Load()))
            .WithoutRequiringPositiveResults();
        return [.. rule.Evaluate(House).Where(r => !r.Passed).Select(r => r.Description)];
    }
}
