// SPDX-License-Identifier: Apache-2.0
using CsCheck;
using Heatwright.Reports.Pictures;

namespace Heatwright.Reports.Tests;

public sealed class LabelTests
{
    [Fact]
    public void Labels_that_do_not_touch_stay_where_they_belong() => Assert.Equal([10, 40, 90], Panel.Spread([10, 40, 90], 14, 0, 100));

    [Fact]
    public void Two_labels_on_one_spot_part_evenly() => Assert.Equal([43, 57], Panel.Spread([50, 50], 14, 0, 100));

    [Fact]
    public void Labels_keep_their_order_their_distance_and_the_panel() =>
        Gen.Double[0, 100].Array[1, 6].Sample(places =>
        {
            double[] wanted = [.. places.Order()];
            double[] placed = Panel.Spread(wanted, 14, -2, 104);
            for (int i = 0; i < placed.Length; i++)
            {
                Assert.InRange(placed[i], -2.001, 104.001);
                Assert.True(i == 0 || placed[i] - placed[i - 1] >= 14 - 1e-6);
            }
        });
}
