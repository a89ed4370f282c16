// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Architecture.Tests;

public sealed class PurityTests
{
    [Theory]
    [MemberData(nameof(Rooms.PureNames), MemberType = typeof(Rooms))]
    public void Pure_room_touches_no_file_clock_console_network_or_chance(string name) =>
        Offenders.None(ImpureUse.Of(Rooms.Named(name).Load().Location));

    /// <summary>The same reading of this test program must find what <see cref="Impure"/> does, or the test above sees nothing.</summary>
    [Theory]
    [InlineData("System.IO.File")]
    [InlineData("System.Console")]
    [InlineData("System.Diagnostics.Stopwatch")]
    [InlineData("System.DateTime.get_UtcNow")]
    [InlineData("System.Environment.GetEnvironmentVariable")]
    [InlineData("System.Random..ctor()")]
    [InlineData("System.Net.IPAddress")]
    public void Reading_sees_impure_use(string use)
    {
        Assert.NotEmpty(Impure());
        Assert.Contains(use, ImpureUse.Of(typeof(PurityTests).Assembly.Location));
    }

    private static string Impure() =>
        string.Join(
            ' ',
            File.Exists("nowhere"),
            Console.Out.NewLine,
            System.Diagnostics.Stopwatch.IsHighResolution,
            DateTime.UtcNow.Kind,
            Environment.GetEnvironmentVariable("PATH") is null,
            new Random().GetType(),
            System.Net.IPAddress.Loopback);
}
