// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter;

namespace Heatwright.Journal.Demo;

/// <summary>When things happen in one heat. Minutes and seconds are drawn; the blow's own come from its oxygen and flow.</summary>
internal sealed class HeatClock
{
    private readonly HeatStory _story;
    private readonly DemoRandom _random;

    public HeatClock(HeatStory story, DemoOptions options)
    {
        _story = story;
        _random = story.Random(options, "clock");
        ChargeAt = story.Slot.ChargeAt;
        IronMeasured = ChargeAt.AddMinutes(4.5 - story.Slot.IronWaitMin);
        IronSampled = IronMeasured.AddMinutes(-Between(10, 14));
        IronAnalysed = story.Mishaps.StaleIron ? ChargeAt.AddMinutes(Between(9, 22)) : IronSampled.AddMinutes(Between(8, 11));
        Planned = Later(IronMeasured, story.Mishaps.StaleIron ? IronMeasured : IronAnalysed).AddMinutes(Between(1.5, 3.5));
        ScrapCharged = ChargeAt.AddMinutes(Between(1.8, 2.8));
        IronPouring = ScrapCharged.AddMinutes(Between(0.4, 0.8));
        IronPoured = IronPouring.AddMinutes(Between(2.8, 3.6));
        Ignition = IronPoured.AddSeconds(Between(85, 125));
        HeldAt = AtOxygen(story.Mishaps.Held ? 44 : double.PositiveInfinity);
        DateTimeOffset begin = Ignition;
        double before = 0;
        foreach (BlowMade blow in story.Blows)
        {
            DateTimeOffset end = begin.AddSeconds(SecondsAt(blow.EndPercent) - SecondsAt(before)).AddMinutes(story.Mishaps.Held && before == 0 ? HoldMin : 0);
            double stirS = before == 0 ? story.Heat.Practice.Phases.OfType<Shop.AfterStir>().FirstOrDefault()?.ForS ?? 0 : 0;
            DateTimeOffset measured = end.AddSeconds(Math.Max(stirS, 30) + Between(25, 50));
            double lab = story.Mishaps.LateAnalysis ? Between(40, 160) : Between(3.5, 6.5);
            DateTimeOffset analysed = measured.AddMinutes(lab);
            bool waits = CrewBlow.WaitsForPhosphorus(story) && !story.Mishaps.LateAnalysis;
            DateTimeOffset decided = (waits && before == 0 ? analysed : measured).AddSeconds(Between(30, 75));
            Blows.Add(new BlowTimes(begin, end, measured, analysed, decided));
            before = blow.EndPercent;
            DateTimeOffset again = end.AddMinutes(CrewBlow.ReblowStopMin);
            begin = again > decided ? again : decided.AddSeconds(30);
        }

        DateTimeOffset decision = Blows[^1].Decided.AddMinutes(story.Blows[^1].CoolOreKg > 0 ? 3 : 0);
        TapFrom = decision.AddSeconds(Between(50, 100)).AddMinutes(story.Slot.TapDelay?.Minutes ?? 0);
        TapUntil = TapFrom.AddMinutes(Math.Max(3.2, 7.2 - (0.025 * story.Slot.TapholeHeats) + Between(-0.5, 0.5)));
        SplashFrom = TapUntil.AddSeconds(Between(40, 80));
        SplashUntil = SplashFrom.AddMinutes(Between(2.2, 3.2));
        SlagOffFrom = SplashUntil.AddSeconds(Between(25, 45));
        SlagOffUntil = SlagOffFrom.AddMinutes(Between(2.2, 3.2));
        LadleMeasured = TapUntil.AddMinutes(Between(3, 5));
        LadleAnalysed = LadleMeasured.AddMinutes(Between(4, 7));
        Cast = TapUntil.AddMinutes(Between(58, 80));
        CasterAnalysed = Cast.AddMinutes(Between(6, 12));
        Closed = CasterAnalysed.AddMinutes(Between(5, 15));
    }

    /// <summary>Minutes that a trip holds the blow.</summary>
    public const double HoldMin = 3;

    public DateTimeOffset ChargeAt { get; }

    public DateTimeOffset IronSampled { get; }

    public DateTimeOffset IronAnalysed { get; }

    public DateTimeOffset IronMeasured { get; }

    public DateTimeOffset Planned { get; }

    public DateTimeOffset ScrapCharged { get; }

    public DateTimeOffset IronPouring { get; }

    public DateTimeOffset IronPoured { get; }

    public DateTimeOffset Ignition { get; }

    public DateTimeOffset HeldAt { get; }

    public List<BlowTimes> Blows { get; } = [];

    public DateTimeOffset TapFrom { get; }

    public DateTimeOffset TapUntil { get; }

    public DateTimeOffset SplashFrom { get; }

    public DateTimeOffset SplashUntil { get; }

    public DateTimeOffset SlagOffFrom { get; }

    public DateTimeOffset SlagOffUntil { get; }

    public DateTimeOffset LadleMeasured { get; }

    public DateTimeOffset LadleAnalysed { get; }

    public DateTimeOffset Cast { get; }

    public DateTimeOffset CasterAnalysed { get; }

    public DateTimeOffset Closed { get; }

    /// <summary>The moment at which so much of the planned oxygen has flowed, %.</summary>
    public DateTimeOffset AtOxygen(double percent)
    {
        if (double.IsInfinity(percent))
        {
            return DateTimeOffset.MaxValue;
        }

        double hold = _story.Mishaps.Held && percent > 44 ? HoldMin * 60 : 0;
        return Ignition.AddSeconds(SecondsAt(percent) + hold);
    }

    /// <summary>A moment between two minutes from another, drawn.</summary>
    public double Between(double least, double most) => _random.Between(least, most);

    // The practice's flow set points hold from a share of the planned oxygen to the next.
    private double SecondsAt(double percent)
    {
        BlowProgramme p = _story.Charge.Written.Programme;
        double seconds = 0;
        for (int i = 0; i < p.OxygenFlowNm3PerS.Count; i++)
        {
            double from = Math.Max(0, p.OxygenFlowNm3PerS[i].OxygenPercent);
            double to = i + 1 < p.OxygenFlowNm3PerS.Count ? p.OxygenFlowNm3PerS[i + 1].OxygenPercent : double.PositiveInfinity;
            seconds += Math.Max(0, Math.Min(percent, to) - from) / 100 * p.OxygenNm3 / p.OxygenFlowNm3PerS[i].Value;
        }

        return seconds;
    }

    private static DateTimeOffset Later(DateTimeOffset a, DateTimeOffset b) => a > b ? a : b;
}

/// <summary>When one blow began and ended, when its end was measured, analysed and decided on.</summary>
internal sealed record BlowTimes(DateTimeOffset Begin, DateTimeOffset End, DateTimeOffset Measured, DateTimeOffset Analysed, DateTimeOffset Decided);
