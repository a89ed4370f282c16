// SPDX-License-Identifier: Apache-2.0
using CsCheck;
using Heatwright.Converter.Charge;

namespace Heatwright.Converter.Tests.Charge;

public sealed class BandTests
{
    // R's documentation of quantile(type = 7), its default: for 1..11 the 10 %, 50 % and 90 % quantiles are 2, 6 and 10.
    [Fact]
    public void Band_of_one_to_eleven_is_two_six_ten() => Assert.Equal(new Band(2, 6, 10), Band.Of(Enumerable.Range(1, 11).Reverse().Select(i => (double)i)));

    [Fact]
    public void Band_interpolates_between_outcomes() => Assert.Equal(new Band(0.1, 0.5, 0.9), Band.Of([1, 0]));

    [Fact]
    public void One_outcome_is_its_own_band() => Assert.Equal(new Band(3, 3, 3), Band.Of([3]));

    [Fact]
    public void No_outcome_has_no_band() => Assert.Throws<ArgumentException>(() => Band.Of([]));

    [Fact]
    public void Band_is_ordered_inside_the_sample_and_does_not_care_for_its_order() =>
        Gen.Double[-1e6, 1e6].Array[1, 60].Sample(sample =>
        {
            Band band = Band.Of(sample);
            Assert.True(band.Low <= band.Middle && band.Middle <= band.High);
            Assert.InRange(band.Low, sample.Min(), sample.Max());
            Assert.InRange(band.High, sample.Min(), sample.Max());
            Assert.Equal(band, Band.Of(sample.Reverse()));
        });
}
