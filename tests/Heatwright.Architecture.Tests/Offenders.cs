// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Architecture.Tests;

internal static class Offenders
{
    /// <summary>Fails with every offender in full, one a line.</summary>
    public static void None<T>(IEnumerable<T> found)
    {
        string[] all = [.. found.Select(f => f?.ToString() ?? string.Empty)];
        Assert.True(all.Length == 0, string.Join('\n', all.Prepend("Found:")));
    }
}
