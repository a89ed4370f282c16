// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;

namespace Heatwright.Journal.Demo;

/// <summary>This part: tap, ladle, splash, slag and the end. The ladle is kept simple: recoveries of a usual order (from memory, no source).</summary>
internal sealed partial class HeatTeller
{
    private const double ManganeseRecovery = 0.92;
    private const double SiliconRecovery = 0.84;

    private void After()
    {
        if (_s.Slot.TapDelay is { } delay)
        {
            DateTimeOffset from = _clock.TapFrom.AddMinutes(-delay.Minutes);
            _pages.Add(new DelayBody(delay.Code, from, _clock.TapFrom, _s.Slot.Unit), _clock.TapFrom, Blower, lateS: 60);
        }

        _pages.Add(new OperationBody(HeatOperation.Tap, OperationState.Running, 1, _s.Slot.Unit), _clock.TapFrom, Vessel);
        if (!_s.Mishaps.TapNotKeyed)
        {
            _pages.Add(new OperationBody(HeatOperation.Tap, OperationState.Complete, 1, _s.Slot.Unit), _clock.TapUntil, Vessel);
        }

        HiddenEnd ladle = Ladle();
        Operation(HeatOperation.Splash, _clock.SplashFrom, _clock.SplashUntil);
        Operation(HeatOperation.SlagOff, _clock.SlagOffFrom, _clock.SlagOffUntil);
        string outcome = Outcome(ladle);
        double oxygen = _s.Blows.Select((b, i) => Oxygen(b.EndPercent) - (i == 0 ? 0 : Oxygen(_s.Blows[i - 1].EndPercent))).Sum();
        double poured = Math.Max(2000, _s.End.SlagKg - 6000);
        _pages.Add(
            new EndBody(
                Math.Round(ladle.SteelKg * (1 + (_r.Kept(0, 0.35) / 100)) / 100) * 100,
                Math.Round(poured * (1 + (0.08 * _r.Normal())) / 500) * 500,
                oxygen,
                outcome),
            _clock.Closed, "person:shift-engineer-" + _crew, outcome == "cast" ? "" : "phosphorus above the grade");
    }

    private HiddenEnd Ladle()
    {
        HiddenEnd e = _s.End;
        DemoGrade g = _s.Slot.Order;
        double steel = e.SteelKg - 900;
        bool silicon = g.SiliconPercent > 0.08;
        double manganeseKg = Math.Max(0, g.ManganesePercent - e.ManganesePercent) / 100 * steel;
        string alloy = silicon ? "silicomanganese" : "ferromanganese";
        double alloyKg = To(manganeseKg / ((silicon ? 0.66 : 0.76) * 0.9), 20);
        double aluminiumKg = To((1.125 * e.OxygenPpm / 1e6 * steel / 0.75) + (0.0004 * steel), 5);
        double carbonKg = To(Math.Max(0, CarbonAim() - e.CarbonPercent - (silicon ? 0.00017 * alloyKg : 0.0007 * alloyKg) * 100 / 1600) / 100 * steel / 0.93, 5);
        DateTimeOffset at = _clock.TapFrom;
        double tapS = (_clock.TapUntil - _clock.TapFrom).TotalSeconds;
        void Give(string material, double kg, double share)
        {
            if (kg >= 5)
            {
                _pages.Add(new AdditionBody(material, kg, AdditionPlace.Ladle), at.AddSeconds(share * tapS), "signal:alloy-hoppers", lateS: 15);
            }
        }

        Give("recarburiser", carbonKg, 0.15);
        Give("aluminium", aluminiumKg, 0.25);
        Give(alloy, alloyKg, 0.35);
        Give("lime", 500, 0.45);
        double carry = Math.Abs(_r.Kept(0, 1));
        double got = alloyKg * (silicon ? 0.66 : 0.76) / steel * 100 * ManganeseRecovery * (1 + (0.03 * _r.Normal()));
        HiddenEnd ladle = e with
        {
            SteelKg = steel + alloyKg,
            CarbonPercent = e.CarbonPercent + (alloyKg * (silicon ? 0.017 : 0.07) / steel * 100) + (carbonKg * 0.93 / steel * 100),
            ManganesePercent = e.ManganesePercent + got,
            PhosphorusPercent = e.PhosphorusPercent + 0.0015 + (0.0012 * carry) + (alloyKg * 0.0025 / steel * 100),
            NitrogenPpm = e.NitrogenPpm + 12 + (6 * _r.Unit()),
        };
        double tapFallK = 52 + (8 * _r.Kept(0, 1)) + (0.004 * alloyKg);
        double waitedK = HiddenPlant.BathFallKPerMin * Math.Max(0, (_clock.TapFrom - _clock.Blows[^1].Measured).TotalMinutes - 2);
        double readK = Math.Round(e.TemperatureK - tapFallK - waitedK + _r.Kept(0, 2.5) - 273.15) + 273.15;
        _pages.Add(new MeasurementBody(HeatPoint.Ladle, Round(readK, 2), Probe: "dip, B type"), _clock.LadleMeasured, "person:ladle-bay", lateS: 20);
        double siliconPercent = silicon ? (alloyKg * 0.17 * SiliconRecovery / steel * 100) + 0.01 : 0.008;
        _pages.AddArriving(
            Alloyed(Steel(HeatPoint.Ladle, ladle, 1, 0), siliconPercent, 0.03) with { Sample = $"L{_s.Slot.Index + 20001}" }, _clock.LadleMeasured, _clock.LadleAnalysed, "signal:laboratory");
        HiddenEnd caster = ladle with { CarbonPercent = ladle.CarbonPercent + 0.003, NitrogenPpm = ladle.NitrogenPpm + 4, ManganesePercent = Math.Max(ladle.ManganesePercent, g.ManganesePercent * 0.97) };
        _pages.AddArriving(
            Alloyed(Steel(HeatPoint.Caster, caster, 1, 0), Math.Max(siliconPercent, g.SiliconPercent * 0.95), 0.032) with { Sample = $"K{_s.Slot.Index + 20001}" }, _clock.Cast, _clock.CasterAnalysed, "signal:laboratory");
        return caster;
    }

    private AnalysisBody Alloyed(AnalysisBody body, double siliconPercent, double aluminiumPercent)
    {
        var percent = new Dictionary<string, Reading>(body.Percent)
        {
            ["Si"] = new(Round(Math.Max(0.002, siliconPercent + _r.Kept(0, 0.003)), 3)),
            ["Al"] = new(Round(Math.Max(0.002, aluminiumPercent + _r.Kept(0, 0.005)), 3)),
        };
        return body with { Percent = percent };
    }

    private string Outcome(HiddenEnd caster) =>
        _s.Heat.Order.Grade.LadlePercent.TryGetValue(Chemistry.Element.P, out Shop.Limits? limit) && limit.Most is { } most && caster.PhosphorusPercent > most ? "downgraded" : "cast";

    private double CarbonAim()
    {
        Shop.Limits? limit = _s.Heat.Order.Grade.LadlePercent.GetValueOrDefault(Chemistry.Element.C);
        return limit is { Least: { } least, Most: { } most } ? (least + most) / 2 : Math.Max(0.8 * (limit?.Most ?? 0.06), 0.03);
    }

    private static double To(double value, double step) => Math.Round(value / step) * step;
}
