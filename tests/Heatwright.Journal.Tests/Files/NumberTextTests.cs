// SPDX-License-Identifier: Apache-2.0
using CsCheck;
using Heatwright.Journal.Files.Tables;

namespace Heatwright.Journal.Tests.Files;

public sealed class NumberTextTests
{
    [Theory]
    [InlineData("1650", DecimalSign.Point, 1650, false, "")]
    [InlineData(" 0.45 ", DecimalSign.Point, 0.45, false, "")]
    [InlineData("0,45", DecimalSign.Comma, 0.45, false, "")]
    [InlineData("1.234,5", DecimalSign.Comma, 1234.5, false, "")]
    [InlineData("1,234.5", DecimalSign.Point, 1234.5, false, "")]
    [InlineData("142 700", DecimalSign.Point, 142700, false, "")]
    [InlineData("142\u00a0700,25", DecimalSign.Comma, 142700.25, false, "")]
    [InlineData("1\u202f142\u202f700", DecimalSign.Comma, 1142700, false, "")]
    [InlineData("142'700.5", DecimalSign.Point, 142700.5, false, "")]
    [InlineData("1 650 °C", DecimalSign.Point, 1650, false, "°C")]
    [InlineData("12 %", DecimalSign.Point, 12, false, "%")]
    [InlineData("15 980 Nm³", DecimalSign.Comma, 15980, false, "Nm3")]
    [InlineData("<0.002", DecimalSign.Point, 0.002, true, "")]
    [InlineData("< 0,002", DecimalSign.Comma, 0.002, true, "")]
    [InlineData("<20 ppm", DecimalSign.Point, 20, true, "ppm")]
    [InlineData("-5.2", DecimalSign.Point, -5.2, false, "")]
    [InlineData("−5,2", DecimalSign.Comma, -5.2, false, "")]
    [InlineData("+.5", DecimalSign.Point, 0.5, false, "")]
    [InlineData("1,5E-3", DecimalSign.Comma, 0.0015, false, "")]
    [InlineData("1e5", DecimalSign.Point, 1e5, false, "")]
    [InlineData("1.234", DecimalSign.Point, 1.234, false, "")]
    [InlineData("1.234", DecimalSign.Comma, 1234, false, "")]
    public void Numbers_are_read_as_people_write_them(string text, DecimalSign sign, double value, bool below, string unit)
    {
        Assert.Null(NumberText.Read(text, sign, out WrittenNumber number));
        Assert.Equal(new WrittenNumber(value, below, unit), number);
    }

    [Theory]
    [InlineData("")]
    [InlineData("<")]
    [InlineData("lime")]
    [InlineData("-")]
    [InlineData("1.2.3")]
    [InlineData("12 34")]
    [InlineData("1234 567")]
    [InlineData("1 23")]
    [InlineData("1'234 567")]
    [InlineData("1,23")]
    [InlineData("1.5,2")]
    [InlineData(">5")]
    [InlineData("≤5")]
    [InlineData("~5")]
    [InlineData("1e999")]
    [InlineData("∞")]
    [InlineData(".")]
    public void What_is_no_number_is_not_taken_for_one(string text) => Assert.NotNull(NumberText.Read(text, DecimalSign.Point, out _));

    [Fact]
    public void Every_number_written_shortest_reads_back_to_the_same_bits() =>
        Gen.Double.Where(double.IsFinite).Sample(number =>
        {
            Assert.Null(NumberText.Read(number.ToString("R"), DecimalSign.Point, out WrittenNumber read));
            Assert.Equal(BitConverter.DoubleToInt64Bits(number), BitConverter.DoubleToInt64Bits(read.Value));
        });

    [Fact]
    public void Any_text_gives_a_number_or_a_reason() => Gen.String.Sample(text =>
    {
        string? why = NumberText.Read(text, DecimalSign.Comma, out WrittenNumber number);
        Assert.True(why is { Length: > 0 } || double.IsFinite(number.Value));
    });

    [Theory]
    [InlineData(DecimalSign.Point, "1.234", "0.5")]
    [InlineData(DecimalSign.Point, "12.34")]
    [InlineData(DecimalSign.Point, "1234.567")]
    [InlineData(DecimalSign.Point, "1,234,567")]
    [InlineData(DecimalSign.Point, "<0.002")]
    [InlineData(DecimalSign.Point, "1 234.567")]
    [InlineData(DecimalSign.Comma, "1.234", "1.234,5")]
    [InlineData(DecimalSign.Comma, "1385,5 °C")]
    [InlineData(DecimalSign.Comma, "1.234.567")]
    public void A_column_shows_its_decimal_sign(DecimalSign sign, params string[] texts)
    {
        DecimalEvidence evidence = Learn(texts);
        Assert.Equal(sign, evidence.Shown);
        Assert.Null(evidence.Unclear);
    }

    [Fact]
    public void A_lone_group_of_three_shows_nothing() => Assert.Equal((null, "1.234"), (Learn("1.234", "250", "12").Shown, Learn("1.234", "250", "12").Unclear));

    [Fact]
    public void Both_signs_are_told() => Assert.Equal(("1.5", "2,5"), Learn("1.5", "2,5").Both);

    private static DecimalEvidence Learn(params string[] texts)
    {
        var evidence = new DecimalEvidence();
        foreach (string text in texts)
        {
            evidence.Add(text);
        }

        return evidence;
    }
}
