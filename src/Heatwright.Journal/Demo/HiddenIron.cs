// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Converter;

namespace Heatwright.Journal.Demo;

/// <summary>Hot metal of one heat, as it is and as it is reported.</summary>
internal sealed record IronNow(MetalAnalysis True, double TrueK, double AtMeasurementK, MetalAnalysis Reported, double ReadK);

/// <summary>
/// The blast furnace's iron from cast to cast (a first-order walk about its mean, phosphorus with the ore's season), and the
/// ladle that brings it: some of the iron before stays in it, which the sample of the new iron does not show.
/// </summary>
internal sealed class HiddenIron(int seed)
{
    private const double Persistence = 0.85;

    private readonly DemoRandom _walk = new(seed, "iron");
    private double _silicon;
    private double _manganese;
    private double _phosphorus;
    private double _sulphur;
    private double _heat;
    private MetalAnalysis? _before;
    private double _beforeK;

    public IronNow Next(HeatSlot slot, DemoRandom r)
    {
        Walk(ref _silicon);
        Walk(ref _manganese);
        Walk(ref _phosphorus);
        Walk(ref _sulphur);
        Walk(ref _heat);
        double season = Math.Sin(2 * Math.PI * slot.Season);
        double si = Math.Clamp(0.50 * Math.Exp(0.26 * _silicon), 0.2, 1.15);
        double atMeasurement = Math.Clamp(1365 + 273.15 + (19 * ((0.8 * _heat) + (0.4 * _silicon))), 1520, 1690);
        double c = Math.Clamp(4.52 + (0.0011 * (atMeasurement - 1638)) - (0.25 * (si - 0.5)) + r.Kept(0, 0.05), 4.1, 4.9);
        MetalAnalysis ladle = Analysis(
            c, si, Math.Clamp(0.36 + (0.05 * _manganese), 0.2, 0.55), Math.Clamp(0.083 + (0.006 * _phosphorus) + (0.005 * season), 0.05, 0.13), Math.Clamp(0.012 * Math.Exp(0.45 * _sulphur), 0.002, 0.05));

        // The heel is of the ladle that served the heat before in the sequence; between sequences it is emptied.
        double heel = slot.PlaceInSequence > 0 ? Math.Min(0.12, r.LogNormal(HiddenPlant.LadleHeel, 0.4)) : 0;
        MetalAnalysis mixed = _before is null ? ladle : Mixed(ladle, _before, heel);
        double mixedK = _before is null ? atMeasurement : atMeasurement - (heel * Math.Max(0, atMeasurement - _beforeK + 40));
        double poured = mixedK - (HiddenPlant.IronFallKPerMin * slot.IronWaitMin) - HiddenPlant.IronPourFallK - Math.Abs(r.Kept(0, 3));
        _before = mixed;
        _beforeK = mixedK;
        MetalAnalysis reported = Analysis(
            Math.Clamp(Math.Round(c + r.Kept(0, 0.05), 2), 3.6, 5.2),
            Math.Max(0.1, Math.Round(si + r.Kept(0, 0.03), 2)),
            Math.Round(ladle[Element.Mn] + r.Kept(0, 0.01), 2),
            Math.Round(ladle[Element.P] + r.Kept(0, 0.003), 3),
            Math.Max(0.001, Math.Round(ladle[Element.S] + r.Kept(0, 0.001), 3)));
        return new IronNow(mixed, Math.Max(1440, poured), atMeasurement, reported, Math.Round(atMeasurement - 273.15 + r.Kept(0, 5)) + 273.15);
    }

    private static MetalAnalysis Analysis(double c, double si, double mn, double p, double s) => new(new Dictionary<Element, double>
    {
        [Element.C] = c,
        [Element.Si] = si,
        [Element.Mn] = mn,
        [Element.P] = p,
        [Element.S] = s,
        [Element.Ti] = 0.05,
        [Element.V] = 0.03,
        [Element.Cr] = 0.02,
        [Element.Cu] = 0.01,
    });

    private static MetalAnalysis Mixed(MetalAnalysis a, MetalAnalysis b, double share) => new(
        Enum.GetValues<Element>().Where(e => e != Element.Fe).ToDictionary(e => e, e => (a[e] * (1 - share)) + (b[e] * share)));

    private void Walk(ref double state) =>
        state = (Persistence * state) + (Math.Sqrt(1 - (Persistence * Persistence)) * Math.Clamp(_walk.Normal(), -3, 3));
}
