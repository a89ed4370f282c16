// SPDX-License-Identifier: Apache-2.0
using System.Text.RegularExpressions;

namespace Heatwright.Architecture.Tests;

public sealed partial class SourceFileTests
{
    private const int MostLines = 500;

    private static readonly string[] Sources = [.. Repository.Files.Where(f => f.EndsWith(".cs", StringComparison.Ordinal))];

    [Fact]
    public void There_are_sources() => Assert.Contains("src/Heatwright.Chemistry/Element.cs", Sources);

    [Fact]
    public void Every_source_starts_with_its_licence() =>
        Offenders.None(Sources.Where(f => !Repository.Read(f).StartsWith("// SPDX-License-Identifier: Apache-2.0\n", StringComparison.Ordinal)));

    [Fact]
    public void No_source_is_longer_than_a_reader_can_hold() =>
        Offenders.None(Sources.Select(f => (File: f, Lines: Repository.Read(f).Count(c => c == '\n'))).Where(f => f.Lines >= MostLines));

    [Fact]
    public void No_source_hides_code_in_regions() =>
        Offenders.None(Sources.Where(f => Region().IsMatch(Repository.Read(f))));

    [Fact]
    public void No_test_waits_for_time_to_pass() =>
        Offenders.None(Sources.Where(f => f.StartsWith("tests/", StringComparison.Ordinal) && Wait().IsMatch(Repository.Read(f))));

    [GeneratedRegex(@"^\s*#region", RegexOptions.Multiline)]
    private static partial Regex Region();

    [GeneratedRegex(@"\b(Thread\.Sleep|Task\.Delay)\(")]
    private static partial Regex Wait();
}
