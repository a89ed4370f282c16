// SPDX-License-Identifier: Apache-2.0
using ScottPlot;

namespace Heatwright.Reports.Pictures;

/// <summary>
/// One neutral ramp, one ink, and five series colours that stay apart for the common forms of colour blindness (hues after
/// Okabe and Ito, Color Universal Design, 2008, darkened or lightened for the paper).
/// </summary>
internal sealed record Theme(Color Paper, Color Ink, Color Soft, Color Rule, Color Wash, Color Blue, Color Orange, Color Green, Color Purple, Color Sky)
{
    public static readonly Theme Light = new(
        Hex("#ffffff"), Hex("#1d2226"), Hex("#5c666e"), Hex("#dfe3e6"), Hex("#eef1f3"),
        Hex("#0a63a8"), Hex("#c25400"), Hex("#00775a"), Hex("#9c4f86"), Hex("#2b8fc6"));

    public static readonly Theme Dark = new(
        Hex("#14181b"), Hex("#e8ecef"), Hex("#98a3ab"), Hex("#2b3237"), Hex("#1d2327"),
        Hex("#5fa8e6"), Hex("#f09150"), Hex("#3fc59c"), Hex("#d793c1"), Hex("#8fd0f2"));

    public static Theme Of(bool dark) => dark ? Dark : Light;

    private static Color Hex(string hex) => Color.FromHex(hex);
}
