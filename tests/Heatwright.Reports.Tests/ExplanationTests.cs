// SPDX-License-Identifier: Apache-2.0
using Heatwright.Reports.Heats;

namespace Heatwright.Reports.Tests;

public sealed class ExplanationTests
{
    [Fact]
    public void Each_has_all_its_parts_and_its_own_key()
    {
        Assert.Equal(Explanations.All.Count, Explanations.All.Select(e => e.Key).Distinct().Count());
        Assert.All(Explanations.All, e => Assert.All((string[])[e.Title, e.How, e.Formula, e.Source], part => Assert.False(string.IsNullOrWhiteSpace(part), e.Key)));
    }

    /// <summary>A source is a year in print, a chapter of the handbook, or a plain word that there is none.</summary>
    [Fact]
    public void Each_source_can_be_looked_up_or_says_that_it_cannot() =>
        Assert.All(Explanations.All, e => Assert.Matches(@"\b(19|20)\d\d\b|handbook|from memory", e.Source));
}
