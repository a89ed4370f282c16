// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;

namespace Heatwright.Journal.Tests.Entries;

public class EntryIdTests
{
    [Fact]
    public void The_same_parts_give_the_same_id_and_it_is_of_version_8()
    {
        Guid id = EntryId.From("works", "L-1001");
        Assert.Equal(id, EntryId.From("works", "L-1001"));
        Assert.Equal(8, id.Version);
        Assert.Equal('8', id.ToString()[14]);
        Assert.Contains(id.ToString()[19], "89ab");
    }

    [Fact]
    public void Parts_do_not_run_into_each_other() => Assert.NotEqual(EntryId.From("ab", "c"), EntryId.From("a", "bc"));
}
